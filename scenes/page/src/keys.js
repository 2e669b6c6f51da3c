/** Keys that hold anywhere on the page. */

import { openHelp } from "./help_dialog.js";
import { LOOK_KEYS } from "./look_bar.js";

const TYPED_IN = "input[type=text], textarea, select";
const PRESSED = "button, summary, a, input, select";

/** @param {{undo: function(), redo: function(), play: function(), look: function(string)}} calls */
export function listenToKeys(calls) {
  const typed = (event) => event.target.matches?.("input[type=text]");
  document.addEventListener("input", (event) => {
    if (typed(event)) event.target.dataset.dirty = "";
  });
  document.addEventListener("change", (event) => {
    if (typed(event)) delete event.target.dataset.dirty;
  });
  document.addEventListener("keydown", (event) => {
    if (document.querySelector("dialog[open]")) return;
    const steps = event.ctrlKey || event.metaKey ? stepOf(event) : null;
    if (steps) {
      if ("dirty" in (event.target.dataset ?? {})) return;
      event.preventDefault();
      calls[steps]();
      return;
    }
    if (event.ctrlKey || event.metaKey || event.altKey || event.target.closest?.(TYPED_IN)) return;
    const look = LOOK_KEYS[Number(event.key) - 1];
    if (event.key === "?") openHelp();
    else if (look) calls.look(look);
    else if (event.key === " " && !event.target.closest?.(PRESSED)) {
      event.preventDefault();
      calls.play();
    }
  });
}

function stepOf(event) {
  const key = event.key.toLowerCase();
  if (key === "z") return event.shiftKey ? "redo" : "undo";
  return key === "y" ? "redo" : null;
}
