/** The views of the casts: one, or two with the same look. */

import { byId, set, show } from "./dom.js";
import { Pane } from "./pane.js";
import { moveAt } from "./player.js";

export class Panes {
  /**
   * @param {function({which: "a"|"b", pose: number|null})} onFrame
   * @param {function("a"|"b", number)} onTooth gets the tooth that was clicked; 0: something else.
   */
  constructor(onFrame, onTooth) {
    Object.assign(this, { onFrame, onTooth });
    this.all = {};
    this.leader = "a";
    new ResizeObserver(() => requestAnimationFrame(() => this.#follow())).observe(byId("panes"));
  }

  of(which) {
    return this.all[which];
  }

  open(which) {
    const pane = new Pane(which, {
      onFrame: (from, frame) => this.onFrame({ which: from, ...frame }),
      onLook: (from) => this.#looked(from),
      onTooth: this.onTooth,
    });
    this.all[which] = pane;
    byId("panes").append(pane.element);
  }

  close(which) {
    const pane = this.all[which];
    pane.view?.dispose();
    pane.element.remove();
    delete this.all[which];
    Object.assign(this, { leader: "a", followed: null });
  }

  make(which, welcome) {
    this.all[which].make(welcome);
  }

  #looked(from) {
    this.leader = from;
    this.#follow();
  }

  /** Look in both views from where one looks in the one that was turned last. */
  #follow() {
    const { a, b } = this.all;
    if (!a?.hasTeeth || !b?.hasTeeth) return;
    const [leader, other] = this.leader === "b" ? [b, a] : [a, b];
    const camera = leader.view.camera();
    const key = JSON.stringify([leader.which, leader.holder.clientWidth, camera]);
    if (key !== this.followed) other.view.setCamera({ ...camera, fitted: false });
    this.followed = key;
  }

  look(name) {
    for (const pane of Object.values(this.all)) {
      pane.looked = name;
      pane.view?.look(name);
    }
    this.#follow();
  }

  teeth(which, study) {
    const pane = this.all[which];
    pane.view.setTeeth(study.teeth.header, study.teeth.buffers);
    pane.forgetTrail();
    pane.reach = undefined;
    pane.hasTeeth = true;
    this.#follow();
  }

  pose(which, study, state) {
    const { view } = this.all[which];
    view.setPose(study.pose.header, study.pose.buffers);
    if (!view.stage) document.documentElement.dataset.answered = String(study.pose.header.number);
    this.moveAtOnce(study, state);
  }

  /** Put the lower where the state has it, before the server says so. @returns {boolean} whether it is there. */
  moveAtOnce(study, state) {
    const pane = this.all[study.which];
    const pose = study.pose?.header;
    pane?.forces(study, state);
    if (!pane?.hasTeeth || !pose || !study.fresh || state.opening_mm > 0 || pose.opened_mm > 0) return false;
    const here = pose.movement === state.movement && pose.start === state.start;
    if (here && Math.abs(pose.travel_mm - state.travel_mm) < 1e-6) return true;
    const row = study.excursion(state.movement, state.start);
    if (row) pane.view.setMove(moveAt(row.travel_mm, study.buffer(row.moves), state.travel_mm));
    return row !== null;
  }

  /** Whether the casts are drawn without a graphics card. */
  get software() {
    return Object.values(this.all).some(({ view }) => view?.stage?.software);
  }

  /** Tell the views that something goes on moving, so that none draws finer pictures meanwhile. */
  moving(on) {
    for (const pane of Object.values(this.all)) pane.view?.moving(on);
  }

  /** Point out a tooth in every view; 0: none. */
  point(tooth) {
    for (const pane of Object.values(this.all)) pane.view?.lay({ tooth });
  }

  ring(which, finding) {
    for (const pane of Object.values(this.all)) {
      const { upper, lower, place } = finding ?? {};
      pane.view?.ring(finding && pane.which === which ? { upper, lower, place } : null);
    }
  }

  /** Show what is under way. */
  work(studies, state) {
    for (const [which, study] of Object.entries(studies)) {
      const pane = this.all[which];
      const first = !study.teeth;
      let words = study.progress?.words ?? "";
      if (!words && study.link === "apart" && first) words = study.words;
      else if (!words && first) words = study.welcome ? "Making the casts" : "Connecting to the program on this machine";
      if (study.fault && first) words = study.fault.text;
      pane.element.classList.toggle("old", study.hasOldCasts);
      if (study.hasOldCasts && study.link !== "apart") words = `${words || "Making the casts"}. Grey: the casts before`;
      pane.working(words, first);
      const pose = study.pose?.header;
      const told = words || !pose ? "" : poseWords(pose, study.excursion(pose.movement, pose.start));
      show(pane.empty, told !== "");
      set(pane.empty, { textContent: told });
      show(pane.badge, Boolean(state?.b));
    }
  }

  /** Show the state's look and colours. */
  update(studies, state, welcome) {
    byId("panes").classList.toggle("two", state.b !== null);
    const { upper, lower, numbers, around, before, look } = state.display;
    const display = { upper, lower, numbers, around, before, map: state.map };
    const text = JSON.stringify(display);
    for (const [which, study] of Object.entries(studies)) {
      const pane = this.all[which];
      if (!pane.view) continue;
      if (text !== pane.displayed) pane.view.setDisplay(display);
      pane.displayed = text;
      if (look !== pane.looked) pane.view.look(look);
      pane.looked = look;
      pane.forces(study, state);
      pane.element.classList.toggle("chosen", state.b !== null && state.chosen === which);
      if (state.map === "excursion") this.#reach(pane, study, state, welcome);
      else pane.trail(study, "", "", null);
    }
    this.#follow();
  }

  #reach(pane, study, state, welcome) {
    const { movement, start } = state;
    const { reach } = study;
    const fits = reach && study.keys.get(reach.header.number) === study.wanted &&
      reach.header.movement === movement && reach.header.start === start;
    const wanted = fits ? reach : null;
    if (wanted !== pane.reach) pane.view.setReach(wanted?.header ?? null, wanted?.buffers);
    pane.reach = wanted;
    pane.trail(study, movement, start, welcome.styles[movement]);
  }
}

/** What is to be known at a glance of a pose without contact, or beyond what is judged. */
function poseWords(pose, row) {
  const none = pose.opened_mm > 0 ? "Opened: no contact" : "No contact in this pose";
  const edge = row?.edge_to_edge_mm ?? null;
  const beyond = edge !== null && pose.travel_mm > edge + 1e-6;
  return [
    pose.contacts.length === 0 ? none : "",
    beyond ? "Beyond edge-to-edge: crossover, not judged" : "",
  ].filter(Boolean).join(" · ");
}
