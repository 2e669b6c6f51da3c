/** Help on keys and words. */

import { byId, el } from "./dom.js";
import { WORDS } from "./words.js";

const KEYS = [
  ["Anywhere", [
    ["Space", "play or pause the movement (not in a field or on a button)"],
    ["Ctrl+Z, Ctrl+Shift+Z", "undo, redo"],
    ["1 to 7", "look from: front, right, left, upper occlusal, lower occlusal, into the mouth, behind"],
    ["? ", "this help"],
  ]],
  ["On the casts", [
    ["Arrows", "turn"], ["Shift+arrows", "move"], ["+ and −", "enlarge, make smaller"],
    ["Click on a tooth", "choose it under “Change a tooth”"],
    ["Drag; right drag; wheel", "turn; move; enlarge. Two fingers move and enlarge"],
  ]],
  ["In a field or on a chart", [
    ["Up, down", "one step more, less"], ["Page up, page down", "ten steps (chart: five)"],
    ["Enter", "take what was typed"], ["Escape", "put back the value that holds"],
    ["Home, end", "chart: start, end of the excursion"],
  ]],
];

function list(title, rows, named) {
  return el("section", {},
    el("h3", { text: title }),
    el("dl", { class: "facts keys-list" }, rows.map(([name, words]) =>
      el("div", {}, el("dt", {}, named(name)), el("dd", { text: words })))));
}

/** Open the help. */
export function openHelp() {
  const dialog = byId("help-dialog");
  if (!dialog.firstChild) {
    dialog.append(
      el("h2", { id: "help-title", tabindex: "-1", autofocus: true, text: "Keys and words" }),
      ...KEYS.map(([where, rows]) => list(where, rows, (key) => el("kbd", { text: key }))),
      list("Words", Object.entries(WORDS), (word) => word),
      el("button", { type: "button", id: "help-close", text: "Close", onclick: () => dialog.close() }),
    );
    dialog.addEventListener("click", (event) => {
      if (event.target === dialog) dialog.close();
    });
  }
  dialog.showModal();
}
