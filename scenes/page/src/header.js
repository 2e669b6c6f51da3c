/** The top of the page: case, steps back and forth, what can be kept and shared. */

import { byId, el, mark, set } from "./dom.js";
import { icon } from "./icons.js";

const STEPS = [
  ["undo", "Undo", "Undo (Ctrl+Z)"],
  ["redo", "Redo", "Redo (Ctrl+Shift+Z)"],
  ["reset", "Reset", "Reset: put every setting and tooth back to the case"],
];
const COMMANDS = [
  ["lessons", "lessons", "Lessons", "Lessons: predict, move, see, explain"],
  ["copy-link", "link", "Link", "Copy a link to what is shown"],
  ["save-state", "save", "Save", "Save what is shown as a file"],
  ["open-state", "open", "Open", "Open a saved state"],
  ["case-file", "casefile", "Case file", "Save the settings as a case file for the command line"],
  ["picture", "picture", "Picture", "Save the picture of the casts (PNG), with a caption"],
  ["report", "report", "Report", "Make the full report; takes several seconds"],
  ["compare", "compare", "Compare", "Compare two states side by side"],
  ["help", "help", "Help", "Help on keys and words"],
];

/**
 * Fill the header.
 *
 * @param {Object<string, function()>} calls by id of a button, and "case" with the chosen name.
 */
export function makeHeader(calls) {
  for (const [id, words, title] of STEPS) {
    byId("steps").append(
      el("button", { id, type: "button", title, "aria-label": title, onclick: () => calls[id]() },
        icon(id), el("span", { text: words })),
    );
  }
  for (const [id, drawing, words, title] of COMMANDS) {
    const button = el(
      "button",
      { id, type: "button", title, "aria-label": title, onclick: () => calls[id]() },
      icon(drawing), el("span", { text: words }),
    );
    byId("commands").append(button);
  }
  byId("compare").setAttribute("aria-pressed", "false");
  byId("case-chooser").addEventListener("change", (event) => calls.case(event.target.value));
}

/** Name the cases and say the caution. */
export function welcomeHeader(welcome) {
  byId("cautions").textContent = welcome.cautions;
  byId("version").textContent = `Cuspway ${welcome.version}`;
  nameCases(welcome);
  byId("case-chooser").disabled = false;
  byId("own-casts").disabled = false;
}

/** Offer the cases there are. */
export function nameCases(welcome) {
  const options = welcome.cases.map(({ name, title }) => el("option", { value: name, text: title }));
  byId("case-chooser").replaceChildren(...options);
}

/** Show what can be done now. */
export function updateHeader(history, state, settled) {
  set(byId("undo"), { disabled: !history.canUndo });
  set(byId("redo"), { disabled: !history.canRedo });
  const { case: name, changes, trial } = state[state.chosen];
  set(byId("reset"), { disabled: Object.keys(changes).length === 0 && !trial });
  if (settled) set(byId("case-chooser"), { value: name });
  const two = state.b !== null;
  const words = two ? `Compare: end it, and keep ${state.chosen.toUpperCase()}` : "Compare two states side by side";
  mark(byId("compare"), { "aria-pressed": two, "aria-label": words, title: words });
}
