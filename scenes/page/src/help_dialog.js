/** Help on keys. */

import { byId, el } from "./dom.js";

const KEYS = [
  ["Anywhere", [
    ["Space", "play or pause the movement (not in a field or on a button)"],
    ["Ctrl+Z, Ctrl+Shift+Z", "undo, redo"],
    ["1 to 7", "look from: front, right, left, upper occlusal, lower occlusal, into the mouth, behind"],
    ["? ", "this help"],
  ]],
  ["On the casts", [
    ["Arrows", "turn"], ["Shift+arrows", "move"], ["+ and −", "enlarge, make smaller"],
    ["Drag; right drag; wheel", "turn; move; enlarge. Two fingers move and enlarge"],
  ]],
  ["In a field or on a chart", [
    ["Up, down", "one step more, less"], ["Page up, page down", "ten steps (chart: five)"],
    ["Enter", "take what was typed"], ["Home, end", "chart: start, end of the excursion"],
  ]],
];

/** Open the help. */
export function openHelp() {
  const dialog = byId("help-dialog");
  if (!dialog.firstChild) {
    dialog.append(
      el("h2", { id: "help-title", text: "Keys" }),
      ...KEYS.map(([where, rows]) => el("section", {},
        el("h3", { text: where }),
        el("dl", { class: "facts keys-list" }, rows.map(([key, words]) =>
          el("div", {}, el("dt", {}, el("kbd", { text: key })), el("dd", { text: words })))))),
      el("button", { type: "button", id: "help-close", text: "Close", onclick: () => dialog.close() }),
    );
    dialog.addEventListener("click", (event) => {
      if (event.target === dialog) dialog.close();
    });
  }
  dialog.showModal();
}
