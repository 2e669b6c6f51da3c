/** "Try this": four steps for who is here for the first time. */

import { byId, el, show } from "./dom.js";
import { icon } from "./icons.js";

const SEEN = "cuspway first steps seen";
const CASE = "upper_distal_extension";
const LEFT = { movement: "left lateral", start: "MI", travel_mm: 2, opening_mm: 0, map: "pose" };
/** From where the contacts of the steps are seen. */
const LOOK = "right";

/** What each step says and does; its figures are those of the case as it is delivered. */
const STEPS = [
  {
    id: "try-1",
    words: "Slide to the left. In the case as it is, replacement tooth 15 rubs on 46 from 1.5 to 2.9 mm, on the nonworking side.",
    button: "Left lateral, 2 mm",
    settings: {}, state: LEFT,
  },
  {
    id: "try-2",
    words: "Make the right condylar guide steeper, 35° to 45°. The jaw drops more on that side, and 15 is free.",
    button: "Right condyle 45°",
    settings: { "guidance.right.condylar_inclination_deg": 45 }, state: LEFT,
  },
  {
    id: "try-3",
    words: "Back at 35°, give the right condyle an immediate side shift of 0.5 mm. 15 touches sooner, from 1.1 mm, and 17 rubs on 47 as well.",
    button: "Side shift 0.5 mm",
    settings: { "guidance.right.immediate_shift_mm": 0.5 }, state: LEFT,
  },
  {
    id: "try-4",
    words: "Change the tooth instead: 46 lowered by 1.2 mm, back to the plane of its neighbours, and 15 is free. More under “Change a tooth”.",
    button: "46 lowered 1.2 mm",
    settings: {}, trial: [{ kind: "lower", tooth: 46, by_mm: 1.2 }], state: LEFT,
  },
];

/**
 * Show the steps, one unfolded at a time, to who has not put them away.
 *
 * @param {function(string, object, object, string)} go a case, what differs from it, the rest of a
 *   state, from where one looks.
 */
export function offerFirstSteps(go) {
  if (stored()) return;
  const box = el(
    "section", { id: "first-steps", "aria-labelledby": "first-steps-title" },
    el("div", { class: "panel-head" }, el("h2", { id: "first-steps-title", text: "Try this" }),
      el("button", { type: "button", id: "first-steps-close", class: "icon-only", "aria-label": "Put “Try this” away",
        title: "Put away", onclick: () => { keep(); box.remove(); byId("settings").querySelector("summary")?.focus(); } }, icon("close"))),
  );
  const rows = STEPS.map(({ id, words, button, settings, trial, state }, i) =>
    el("li", {}, el("button", { type: "button", class: "small", id, text: button,
      onclick: () => { unfold(i); go(CASE, { changes: settings, ...(trial && { trial }) }, state, LOOK); } }), el("p", { text: words })));
  const unfold = (at) => rows.forEach((row, i) => show(row.lastChild, i === at));
  unfold(0);
  box.append(el("ol", {}, rows));
  byId("settings").prepend(box);
}

function stored() {
  try {
    return localStorage.getItem(SEEN) === "yes";
  } catch {
    return false;
  }
}

function keep() {
  try {
    localStorage.setItem(SEEN, "yes");
  } catch {
    // Where nothing may be kept, the steps come again.
  }
}
