/** A clinician's own casts: files brought, points picked on them, a case made of both. */

import { byId, show } from "./dom.js";
import { follow } from "./files.js";
import { History } from "./history.js";
import { LoadDialog } from "./load_dialog.js";
import { PickPanel } from "./pick_panel.js";
import { confirmed, missingWords, nextTarget, notThere, plainPoints, seedsOf, taken, withPoint, withoutPoint } from "./pick_points.js";
import { PickView } from "./pick_view.js";
import { movePoint, movePointBack } from "./view_vectors.js";

const STALE = "Seeds were changed: tell the teeth again to see by how much.";

export class OwnCasts {
  /** @param {object} desk holds studies, welcome, commands, drawing. */
  constructor(desk) {
    this.desk = desk;
    this.picking = false;
    this.fault = "";
    this.snapping = false;
    this.load = new LoadDialog({
      read: (units) => this.#read("files", units), stop: () => this.#stop(),
      forget: (slot) => this.#ask("forget_file", { slot }),
    });
    this.view = new PickView((hit) => this.#picked(hit));
    this.panel = new PickPanel({
      target: (target) => this.#aim(target), remove: (index) => this.#put(withoutPoint(this.points, index)),
      type: (target, place) => this.#typed(target, place), use: () => this.#use(), tell: () => this.#tell(), propose: () => this.#propose(), save: (what) => this.#save(what),
      files: () => this.open(), close: () => this.#show(false),
    });
    byId("picking").append(this.panel.element, this.view.element);
  }

  get points() {
    return this.history?.present.points ?? [];
  }

  /** Choose files. */
  open() {
    this.#withPlace(() => this.load.open(this.place, this.#token()));
  }

  /** Pick points on the scans of a case that is shown. */
  pickOn(name) {
    this.#withPlace(() => this.#read(name, "mm"));
  }

  #token() {
    return new URLSearchParams(location.search).get("token") ?? "";
  }

  /** Take up the place again after a connection was lost, or for a second one. */
  resume(study) {
    if (!this.place) return;
    study.askCasts("place", { key: this.place.key }, (header) => this.#placeCame(header));
  }

  #placeCame(header) {
    if (header.kind !== "place") return;
    this.place = header;
  }

  #withPlace(then) {
    if (this.place) {
      then();
      return;
    }
    this.#ask("place", { key: null }, (header) => {
      this.#placeCame(header);
      if (this.place) then();
    });
  }

  /** @returns {boolean} whether it could be asked. */
  #ask(kind, content, onAnswer = () => {}) {
    const asked = this.desk.studies.a?.askCasts(kind, content, onAnswer) ?? false;
    if (!asked) this.desk.commands.tell("The connection is lost; try again when it is back.", "fault");
    return asked;
  }

  #read(of, units) {
    const asked = this.#ask("read_casts", { of, units }, (header, buffers) => this.#readAnswer(of, header, buffers));
    if (asked) this.#working(of, "Reading the casts");
  }

  #working(of, words) {
    if (of === "files") this.load.work(words);
    else this.desk.notices.tell("casts", "info", words);
  }

  #readAnswer(of, header, buffers) {
    if (header.kind === "progress") {
      this.#working(of, header.words);
      return;
    }
    this.#working(of, "");
    if (header.kind === "casts") {
      if (of === "files") this.load.wereRead();
      this.#castsCame(header, buffers);
    } else if (header.kind === "fault") {
      if (of === "files") this.load.tell(header.text, header.keys?.[0] ?? null);
      else this.desk.notices.tell("casts", "fault", header.text);
    }
  }

  #stop() {
    this.#ask("stop_casts", {});
    this.load.work("");
    this.load.tell("Stopped.");
  }

  #castsCame(header, buffers) {
    this.casts = header;
    const given = header.given;
    const proposed = given.some(({ tooth }) => tooth === null) || header.transform
      ? [] : header.proposed.map((one) => ({ ...one, proposed: true }));
    this.history = new History({ points: [...proposed, ...given] });
    this.toldBy = seedsOf(given);
    this.proposal = "";
    this.busy = "";
    this.target = { point: this.place.ways[0].points[0], tooth: null };
    this.fault = "";
    this.load.close();
    this.panel.make(this.place);
    this.#show(true);
    this.view.make(this.desk.welcome);
    this.view.casts(header, buffers);
    this.#update();
    byId("picking-title").focus();
  }

  #show(on) {
    this.picking = on;
    document.documentElement.classList.toggle("picking", on);
    show(byId("picking"), on);
    show(byId("main"), !on);
    if (!on) byId("own-casts").focus();
    this.desk.playing.stop();
    this.desk.drawing.soon();
  }

  #aim(target) {
    this.target = target;
    this.fault = "";
    this.#update();
  }

  /** Take over other points as a step. */
  #put(points) {
    this.history.put({ points });
    this.fault = "";
    if (this.target.index >= points.length) delete this.target.index;
    this.#update();
  }

  #typed(target, place) {
    const index = target.point === this.target.point ? (this.target.index ?? null) : null;
    this.#put(withPoint(this.points, { ...target, place }, this.place, index));
  }

  #picked(hit) {
    if (!hit) return;
    const { point, tooth, index = null } = this.target;
    this.fault = notThere(this.target, hit.arch, this.place);
    if (this.fault) {
      this.#update();
      return;
    }
    const place = this.#toScan(hit.point);
    const pick = { point, tooth, place, arch: hit.arch, unsnapped: true };
    this.#put(withPoint(this.points, pick, this.place, index));
    this.target = nextTarget(this.points, this.place, { point, tooth });
    this.#update();
    this.#snap();
  }

  /** Let the program put what was picked onto the whole surface; it may be drawn with fewer triangles. */
  #snap() {
    if (this.snapping) return;
    const open = this.points.filter(({ unsnapped }) => unsnapped);
    if (open.length === 0) return;
    this.snapping = this.#ask("snap", { places: open.map(({ arch, place }) => [arch, place]) }, (header) => {
      this.snapping = false;
      if (header.kind === "snapped") this.#snapped(open, header.places);
      else {
        this.fault = header.text ?? "";
        this.#update();
      }
    });
  }

  #snapped(open, places) {
    const by = new Map(open.map((pick, i) => [pick, places[i]]));
    const settled = (pick) => {
      const found = by.get(pick);
      if (!found) return pick;
      const { point, tooth } = pick;
      const note = found.far ? `moved by ${found.moved_mm.toFixed(1)} mm onto the whole surface` : "";
      return { point, tooth, place: found.place, ...(note ? { note } : {}) };
    };
    // also in what undo and redo bring back
    for (const states of [this.history.past, this.history.future]) {
      states.forEach((state, i) => { states[i] = { points: state.points.map(settled) }; });
    }
    this.history.amend({ points: this.points.map(settled) });
    this.#update();
    this.#snap();
  }

  #toScan(place) {
    return movePoint(this.casts.scan_from_view, place);
  }

  #toView(place) {
    return movePointBack(this.casts.scan_from_view, place);
  }

  undo() {
    if (this.history?.undo()) this.#update();
  }

  redo() {
    if (this.history?.redo()) this.#update();
  }

  look(name) {
    this.view.look(name);
  }

  #use() {
    const asked = this.#ask("use_points", { points: plainPoints(confirmed(this.points)) }, (header) => {
      if (header.kind === "progress") return;
      this.busy = "";
      this.fault = header.kind === "fault" ? header.text : "";
      if (header.kind === "own_case") this.#caseCame(header.case);
      this.#update();
    });
    this.busy = asked ? "use" : "";
    this.#update();
  }

  /** Let the program look for teeth; what a person picked stays. */
  #propose() {
    const asked = this.#ask("propose_seeds", {}, (header) => {
      if (header.kind === "progress") return;
      this.busy = "";
      this.fault = header.kind === "fault" ? header.text : "";
      if (header.kind === "seeds") this.#seedsCame(header);
      this.#update();
    });
    this.busy = asked ? "propose" : "";
    this.#update();
  }

  #seedsCame({ points, words }) {
    const has = (tooth) => this.points.some((one) => one.point === "tooth_seed" && one.tooth === tooth && !one.proposed);
    const own = this.points.filter(({ point, proposed }) => point !== "tooth_seed" || !proposed);
    const found = points.filter(({ tooth }) => !has(tooth)).map((one) => ({ ...one, proposed: true, note: "proposed: check place and number" }));
    this.history.put({ points: [...own, ...found] });
    this.proposal = `Proposed, not taken yet. ${words.join(" ")} Then press “Tell the teeth by seeds”.`;
  }

  /** Part the casts among their teeth; the points and what is looked at stay. */
  #tell() {
    const asked = this.#ask("tell_teeth", { points: plainPoints(this.points) }, (header, buffers) => {
      if (header.kind === "progress") return;
      this.busy = "";
      this.fault = header.kind === "fault" ? header.text : "";
      if (header.kind === "casts") this.#toldCame(header, buffers);
      this.#update();
    });
    this.busy = asked ? "tell" : "";
    this.#update();
  }

  #toldCame(header, buffers) {
    this.casts = header;
    this.history.amend({ points: this.points.map(taken) });
    this.toldBy = seedsOf(this.points);
    this.proposal = "";
    const lacking = header.proposed.filter(({ point }) => !this.points.some((one) => one.point === point));
    const isMounted = header.transform || this.place.ways.slice(1).some((way) => this.points.some(({ point }) => way.points.includes(point)));
    if (lacking.length > 0 && !isMounted) {
      this.history.put({ points: [...this.points, ...lacking.map((one) => ({ ...one, proposed: true }))] });
    }
    this.view.casts(header, buffers);
  }

  #caseCame(told) {
    this.#show(false);
    this.desk.takeOwnCase(told);
  }

  #save(what) {
    this.#ask("casts_file", { what, points: plainPoints(confirmed(this.points)) }, ({ kind, name, address, text }) => {
      this.fault = kind === "fault" ? text : "";
      if (kind === "file") follow(address, name);
      this.#update();
    });
  }

  #update() {
    if (!this.casts) return;
    const { points, target, casts, fault, busy = "" } = this;
    const seeds = seedsOf(points);
    const isStale = casts.teeth_told !== "" && seeds !== this.toldBy;
    const missing = missingWords(points, this.place, casts);
    this.panel.update({ points, target, missing, casts, fault, busy, seeded: seeds !== "[]", proposal: this.proposal || (isStale ? STALE : "") });
    const about = (name) => this.place.points.find(({ point }) => point === name);
    const tooth = target.tooth === null ? "" : `, ${target.tooth}`;
    this.view.update(`${about(target.point).title}${tooth}: click ${about(target.point).where}`, points.map((pick, i) => ({
      place: this.#toView(pick.place), colour: about(pick.point).colour, shape: about(pick.point).shape,
      arch: pick.tooth === null ? about(pick.point).arch : this.place.arch_of[pick.tooth],
      text: pick.tooth === null ? about(pick.point).title : `${pick.tooth}`,
      chosen: pick.point === target.point && pick.tooth === target.tooth && (target.index === undefined || target.index === i),
    })));
    this.desk.drawing.soon();
  }
}
