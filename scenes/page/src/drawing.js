/** Shows the state of the page in all its parts. */

import { byId, set, show } from "./dom.js";
import { updateHeader } from "./header.js";
import { toFragment } from "./link.js";
import { RAISED_BITE } from "./movement_bar.js";
import { toPlain } from "./state.js";

const LINK_AFTER_MS = 300;
const READINGS_MM = [0, 0.5, 1, 2, 3];

export class Drawing {
  /** @param {object} desk holds the parts, the studies and the state. */
  constructor(desk) {
    this.desk = desk;
  }

  /** Draw everything anew at the next frame. */
  soon() {
    if (this.frame) return;
    this.frame = requestAnimationFrame(() => {
      this.frame = 0;
      this.#all();
    });
  }

  #all() {
    const { desk } = this;
    const { state, study, studies, welcome } = desk;
    desk.commands.tellLinks(Object.values(studies));
    desk.panes.work(studies, state);
    document.documentElement.dataset.state = stateWord(Object.values(studies));
    if (!state || !welcome) return;
    const settled = document.activeElement !== byId("case-chooser") ||
      study.case?.name === state[state.chosen].case;
    updateHeader(desk.ownCasts.picking ? desk.ownCasts.history : desk.history, state, settled);
    desk.lookBar.update(state);
    desk.panes.update(studies, state, welcome);
    desk.movementBar.playing(desk.playing.on);
    if (study?.case) this.#case(study, state);
    this.#results(state);
    this.travel();
    this.#keepLink();
  }

  #case(study, state) {
    const { desk } = this;
    if (study.case !== this.named) {
      this.named = study.case;
      desk.movementBar.setMovements(study.case.movements, study.case.not_offered);
    }
    if (study.case.name !== state[state.chosen].case) return;
    desk.settings.update({
      settings: state[state.chosen], case: study.case, linked: state.display.linked, fault: study.fault,
    });
    desk.trial.update(state[state.chosen], study, state.display);
    const title = state.b ? `Settings of ${state.chosen.toUpperCase()}` : "Settings";
    set(byId("settings-title"), { textContent: title });
  }

  #results(state) {
    const { desk } = this;
    const two = state.b !== null;
    show(desk.results.element, !two);
    show(desk.comparison.element, two);
    set(byId("results-note"), { textContent: standing(Object.values(desk.studies)) });
    const { a } = desk.studies;
    if (a.whole) document.documentElement.dataset.rested = String(a.results.header.number);
  }

  /** Draw what changes with every step of travel. */
  travel() {
    const { state, study, studies, welcome } = this.desk;
    const row = study?.excursion(state.movement, state.start) ?? null;
    const readings = study?.case?.readings_mm ?? READINGS_MM;
    this.desk.movementBar.update(state, row, readings, state.movement === RAISED_BITE);
    if (state.b === null) this.desk.results.update(studies.a, state, welcome);
    else if (studies.b) this.desk.comparison.update(studies, state, welcome);
  }

  #keepLink() {
    clearTimeout(this.linkTimer);
    this.linkTimer = setTimeout(() => {
      const { desk } = this;
      if (desk.playing.on) return;
      desk.fragment = toFragment(toPlain(desk.state));
      if (location.hash !== desk.fragment) history.replaceState(null, "", desk.fragment);
    }, LINK_AFTER_MS);
  }
}

/** How the results stand to what is wanted. */
function standing(studies) {
  const open = studies.filter(({ whole }) => !whole);
  if (open.length === 0) return "up to date";
  if (open.some(({ fault }) => fault)) return "of the last good state";
  if (open.some(({ link }) => link === "apart")) return "not computed: no connection";
  return "still being computed";
}

/** What the page as a whole is doing, in one word. */
function stateWord(studies) {
  const some = (test) => studies.some(test);
  if (some(({ link }) => link === "apart")) return "apart";
  if (some(({ pose, fault }) => !pose && !fault)) return "loading";
  if (some(({ connection }) => connection.busy)) return "working";
  return some(({ fault }) => fault) ? "fault" : "ready";
}
