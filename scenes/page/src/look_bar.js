/** Which arch is seen how, from where one looks, and what the colours tell. */

import { byId, el, set } from "./dom.js";
import { segmented } from "./segmented.js";

const SOLIDITY = [["solid", "solid"], ["ghosted", "ghosted"], ["away", "away"]];
const LOOKS = [
  ["front", "Front"], ["right", "Right"], ["left", "Left"],
  ["upper occlusal", "Upper occlusal surface"], ["lower occlusal", "Lower occlusal surface"],
  ["mouth", "Into the mouth"], ["behind", "Behind"],
];
const MAPS = [
  ["pose", "gap in this pose"], ["excursion", "nearest in whole excursion"], ["none", "none"],
];

/** Which arch stands in the way of a look at the chewing surface of the other. */
const IN_THE_WAY = { "upper occlusal": "lower", "lower occlusal": "upper", mouth: "upper" };

/**
 * What changes in how the casts are shown when one looks from elsewhere: the arch in the way is
 * lifted off, and put back where it was.
 *
 * @param {object} display how they are shown now.
 * @param {string} look from where one is to look.
 * @returns {object} what is new.
 */
export function lookChange(display, look) {
  const change = { look };
  const [before, now] = [IN_THE_WAY[display.look], IN_THE_WAY[look]];
  if (before && before !== now && display[before] === "away") change[before] = "solid";
  if (now && display[now] === "solid") change[now] = "away";
  return change;
}

/** Keys of the views, in the order of LOOKS. */
export const LOOK_KEYS = LOOKS.map(([name]) => name);

/**
 * @param {{display: function(object), look: function(string), map: function(string)}} calls
 * @returns {{update: function(object)}}
 */
export function makeLookBar(calls) {
  const upper = segmented("upper-shown", "Upper", SOLIDITY, (value) => calls.display({ upper: value }));
  const lower = segmented("lower-shown", "Lower", SOLIDITY, (value) => calls.display({ lower: value }));
  const maps = select("map-shown", "Colours", MAPS, calls.map);
  const looks = select("look-from", "View", LOOKS, calls.look);
  const around = toggle("around-shown", "gums, base", (on) => calls.display({ around: on }));
  const numbers = toggle("numbers-shown", "numbers", (on) => calls.display({ numbers: on }));
  const again = el("button", {
    type: "button", id: "look-again", class: "small", text: "Fit",
    title: "Look from there again, at all of it", onclick: () => calls.look(looks.input.value),
  });
  looks.element.append(again);
  byId("look-bar").append(
    looks.element, upper.element, lower.element, maps.element,
    el("div", { class: "toggles" }, around.element, numbers.element),
  );
  return {
    update({ display, map }) {
      upper.update(display.upper);
      lower.update(display.lower);
      set(maps.input, { value: map });
      set(looks.input, { value: display.look });
      set(around.input, { checked: display.around });
      set(numbers.input, { checked: display.numbers });
    },
  };
}

function select(id, label, choices, call) {
  const input = el(
    "select", { id, onchange: () => call(input.value) },
    choices.map(([value, words]) => el("option", { value, text: words })),
  );
  return { input, element: el("div", { class: "chosen" }, el("label", { for: id, text: label }), input) };
}

function toggle(id, words, call) {
  const input = el("input", { type: "checkbox", id, onchange: () => call(input.checked) });
  return { input, element: el("label", { class: "toggle", for: id }, input, el("span", { text: words })) };
}
