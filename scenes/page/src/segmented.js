/** A row of choices of which one holds: a group of radio buttons. */

import { el, idOf, set } from "./dom.js";

/**
 * @param {string} name of the group, for the page and in ids.
 * @param {string} label
 * @param {[string, string][]} choices value and words.
 * @param {function(string)} call with the value that was chosen.
 * @returns {{element: HTMLElement, update: function(string, Object<string, boolean>)}}
 */
export function segmented(name, label, choices, call) {
  const inputs = choices.map(([value]) =>
    el("input", {
      type: "radio", name, id: idOf(name, value), value, onchange: () => call(value),
    }));
  const element = el(
    "div",
    { class: "segmented", role: "radiogroup", "aria-label": label, id: name },
    el("span", { class: "segmented-label", text: label, "aria-hidden": "true" }),
    el("span", { class: "segments" }, choices.map(([value, words], i) =>
      el("label", { for: idOf(name, value) }, inputs[i], el("span", { text: words })))),
  );
  return {
    element,
    update(value, off = {}) {
      for (const input of inputs) {
        set(input, { checked: input.value === value, disabled: off[input.value] === true });
      }
    },
  };
}
