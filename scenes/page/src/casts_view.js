/** Both casts in three dimensions, turned and enlarged by hand, with what lies over them. */

import { mark } from "./dom.js";
import { Camera, VIEW_NAMES } from "./view_camera.js";
import { boxOf, cornersOf, joinCasts } from "./view_casts.js";
import { stripsOf } from "./view_frame.js";
import { overlayModel, placesOnLower } from "./view_model.js";
import { Painter } from "./view_painter.js";
import { cornerAt, toldOf } from "./view_picking.js";
import { followPointers } from "./view_pointer.js";
import { Sight } from "./view_sight.js";
import { STILL, movePoint, movePointBack } from "./view_vectors.js";

export { VIEW_NAMES, placesOnLower };

const ARCHES = ["upper", "lower"];
/** Between the crowns with what is around them and the edge, pixels. */
const ROOM_PX = { beside: 12, above: 4 };
/** Which arch a view is of; the others are of both. */
const ONE_ARCH = { "upper occlusal": "upper", "lower occlusal": "lower", mouth: "lower" };

/**
 * @typedef {object} Hit
 * @property {"upper"|"lower"} arch
 * @property {number} tooth ISO number. @property {string} name in words. @property {string} place
 * @property {number|null} gap_mm null: farther than `farther_than_mm`, or no map is shown.
 * @property {number} farther_than_mm how far the map reaches.
 * @property {"pose"|"excursion"|"none"} map which gap it is.
 * @property {boolean} stale the lower has moved since the map was made.
 * @property {number} x @property {number} y pixels from the holder's left and top.
 */

export class CastsView {
  /**
   * @param {HTMLElement} holder is filled with the picture, and follows its size.
   * @param {object} options
   * @param {Object<string, string>} options.colours of roles, "#rrggbb".
   * @param {Object<string, {colour: string, shape: string}>} [options.styles] of movements.
   * @param {string[]} options.gapScale colours from no gap to the limit.
   * @param {function(Hit|null)} [options.onHover] @param {function} [options.onClick] gets `placeAt`.
   * @param {function({pose: number|null, milliseconds: number, still: boolean})} [options.onFrame]
   *   after each drawn frame; `pose` is the number of the pose that it shows.
   * @param {function(object)} [options.onLook] after a hand has turned, shifted or enlarged; gets
   *   what `camera` returns.
   */
  constructor(holder, { colours, styles, gapScale, onHover, onClick, onFrame, onLook }) {
    this.holder = holder;
    this.roles = colours;
    this.styles = styles ?? {};
    this.gapScale = gapScale;
    Object.assign(this, { onHover, onClick, onLook });
    Object.assign(this, { pins: [], forces: null });
    this.eye = new Camera();
    this.fitted = true;
    /** Whether a hand has shifted or enlarged, not only turned. */
    this.sized = false;
    this.display = { upper: "solid", lower: "solid", map: "pose", numbers: true, around: true };
    this.displays = 0;
    this.move = STILL;
    this.moves = 0;
    this.#forget();
    holder.tabIndex = 0;
    holder.setAttribute("role", "application");
    holder.style.position = "relative";
    holder.style.touchAction = "none";
    this.#label();
    this.painter = new Painter(holder, this.gapScale, {
      eye: this.eye,
      ready: () => Boolean(this.teeth),
      model: (still) => overlayModel(this, still),
      drawn: (frame) => onFrame?.({ pose: this.pose?.number ?? null, ...frame }),
      resized: () => (this.sized ? this.eye.showAsMuch() : this.#fit()),
    });
    this.stage = this.painter.stage;
    if (this.stage) this.#follow();
  }

  /** What belongs to the casts before. */
  #forget() {
    this.pose = null;
    this.posed = null;
    this.gaps = { pose: null, excursion: null };
    this.gapsShown = null;
    this.limitMm = 1;
    this.trail = [];
    this.trailHidden = [];
    this.ringed = this.forces = null;
  }

  #follow() {
    const byHand = (change) => (...way) => {
      change(...way);
      this.onLook?.(this.camera());
    };
    this.unfollow = followPointers(this.holder, {
      turn: byHand((dx, dy) => this.turn(dx, dy)),
      pan: byHand((dx, dy) => this.pan(dx, dy)),
      zoom: byHand((factor, x, y) => this.zoom(factor, x, y)),
      hover: (x, y) => this.#hover([x, y]),
      leave: () => this.#hover(null),
      click: (x, y) => this.onClick?.(this.placeAt(x, y)),
    });
  }

  /** Take over both casts; forgets pose, maps, trail and ring. */
  setTeeth(header, buffers) {
    if (!this.stage) return;
    this.#forget();
    this.teeth = header;
    this.casts = joinCasts(header, buffers, this.roles, this.casts ?? null);
    this.boxes = {};
    for (const arch of ARCHES) {
      const { teeth, around } = this.casts[arch];
      this.boxes[arch] = boxOf(teeth.positions.length > 0 ? teeth : around);
    }
    this.sight = new Sight(this.casts);
    this.stage.setCasts(this.casts);
    this.painter.timeAgain();
    this.#setMove(STILL);
    this.#applyDisplay();
    if (this.fitted) this.#fit();
    this.painter.changed();
  }

  /** Take over a pose: where the lower stands, gaps, contacts. */
  setPose(header, buffers) {
    if (!this.teeth) return;
    this.pose = header;
    this.posed = Float32Array.from(header.move);
    this.gaps.pose = mapOf(header, buffers);
    this.#setMove(this.posed);
    this.#applyDisplay();
    if (this.fitted && !this.#corners().every((corner) => this.eye.holds(corner))) this.#fit();
    this.#label();
    this.painter.changed();
  }

  /** Move the lower while an excursion is played; colours and marks stay those of the pose. */
  setMove(move) {
    if (!this.teeth) return;
    this.#setMove(move);
    this.painter.changed();
  }

  /** Say whether the lower goes on moving. */
  moving(on) {
    this.painter.moving(on);
  }

  #setMove(move) {
    this.move = move;
    this.moves += 1;
    this.stage.setMove(move);
    this.sight.move = move;
  }

  /** Take over the least gaps of an excursion, or forget them: null. */
  setReach(header, buffers) {
    if (!this.teeth) return;
    this.gaps.excursion = header && mapOf(header, buffers);
    this.#applyDisplay();
    this.painter.changed();
  }

  /**
   * Take over the contacts of a whole excursion.
   *
   * @param {{places: Float32Array, lowerPlaces?: Float32Array, colour: string, shape: string,
   *   filled: boolean}[]} trail places on the upper in the hinge frame; `lowerPlaces` are those on
   *   the lower while it is in MI (see `placesOnLower`), drawn where the upper is away.
   */
  setTrail(trail) {
    this.trail = trail ?? [];
    this.trailHidden = [];
    this.painter.changed();
  }

  /** Say what is shown; what is not named stays. */
  setDisplay(display) {
    this.display = { ...this.display, ...display };
    this.displays += 1;
    if (!this.teeth) return;
    this.#applyDisplay();
    if (this.fitted) this.#fit();
    this.painter.changed();
  }

  /** Which map is shown: none while the wanted one has not come yet. */
  mapOf() {
    const { map } = this.display;
    return this.gaps[map] ? map : "none";
  }

  #applyDisplay() {
    const map = this.mapOf();
    const gaps = this.gaps[map];
    if (gaps && gaps !== this.gapsShown) {
      this.gapsShown = gaps;
      this.limitMm = gaps.limitMm;
      this.stage.setLimit(gaps.limitMm);
      for (const arch of ARCHES) this.stage.setGaps(arch, gaps[arch]);
    }
    this.sight.display = this.display;
    this.stage.setDisplay({ ...this.display, coloured: Boolean(gaps) });
  }

  /** Look from a named side, at as much as is shown. */
  look(name) {
    this.eye.look(name);
    this.fitted = true;
    this.sized = false;
    this.#fit();
    this.#looked();
  }

  /** From where one looks, as plain numbers and words. */
  camera() {
    return { ...this.eye.kept(), fitted: this.fitted, sized: this.sized };
  }

  /** Look from where `camera` said; anything else changes nothing. */
  setCamera(kept) {
    if (!this.eye.restore(kept)) return;
    this.fitted = Boolean(kept.fitted);
    this.sized = Boolean(kept.sized);
    if (this.fitted) this.#fit();
    this.#looked();
  }

  #looked() {
    this.#label();
    this.painter.changed();
  }

  /** Corners of the boxes around the crowns that a view is of. */
  #corners() {
    if (!this.boxes) return [];
    const only = this.eye.turnedAway ? null : ONE_ARCH[this.eye.name];
    const shown = ARCHES.filter((arch) => (only ? arch === only : this.display[arch] !== "away"));
    return shown.flatMap((arch) => {
      const corners = cornersOf(this.boxes[arch]);
      return arch === "lower" ? corners.map((corner) => movePoint(this.move, corner)) : corners;
    });
  }

  #fit() {
    const corners = this.#corners();
    if (corners.length === 0) return;
    const { top, bottom } = stripsOf(this.eye.height, this.display.map !== "none");
    const { beside, above } = ROOM_PX;
    this.eye.fit(corners, { top: top + above, right: beside, bottom: bottom + above, left: beside });
  }

  /** Ring the place of a finding, and point out its teeth; null: none. */
  ring(finding) {
    this.ringed = finding;
    this.painter.changed();
  }

  /** Turn as a hand would that moves by so many pixels to the right and down. */
  turn(dx, dy) {
    this.eye.turn(dx, dy);
    this.fitted = false;
    this.#looked();
  }

  /** Shift by pixels to the right and down. */
  pan(dx, dy) {
    this.eye.pan(dx, dy);
    this.fitted = false;
    this.sized = true;
    this.painter.changed();
  }

  /** Enlarge by a factor about a place of the picture, its middle if none is given. */
  zoom(factor, x, y) {
    this.eye.zoom(factor, x, y);
    this.fitted = false;
    this.sized = true;
    this.painter.changed();
  }

  /** Where a place of the pose is now: on the upper, or on the lower where that is alone. */
  placeNow(place) {
    if (this.display.upper !== "away" || !this.posed || this.move === this.posed) return place;
    return movePoint(this.move, movePointBack(this.posed, place));
  }

  #label() {
    const words = this.pose?.words ? ` ${this.pose.words}` : "";
    mark(this.holder, { "aria-label": `Casts, view: ${this.eye.title}.${words}` });
  }

  #hover(at) {
    if (!this.onHover) return;
    this.hoverAt = at;
    this.hovering ||= requestAnimationFrame(() => {
      this.hovering = 0;
      this.onHover(this.hoverAt && this.hitAt(...this.hoverAt));
    });
  }

  /** @returns {Hit|null} what is seen at a place of the picture. */
  hitAt(x, y) {
    const found = this.sight?.pick(this.eye.unproject(x, y), this.eye.towards);
    if (!found) return null;
    const map = this.mapOf();
    const gaps = map === "none" ? null : this.stage.gapsOf(found.arch);
    return {
      ...toldOf(found, this.teeth, gaps, this.limitMm),
      map,
      stale: map === "pose" && this.move !== this.posed,
      x,
      y,
    };
  }

  /** @returns {{arch: string, point: number[], tooth: number}|null} the first surface at a place of the picture, as in MI. */
  placeAt(x, y) {
    const found = this.sight?.meet(this.eye.unproject(x, y), this.eye.towards);
    return found && { arch: found.arch, point: found.point, tooth: found.surface.tooth[cornerAt(found.surface.index, found.hit)] };
  }

  /** Lay over the casts: `pins`, marks on what was picked; `forces`, see `view_forces.js`; `tooth` that is chosen. */
  lay(over) {
    Object.assign(this, over);
    this.painter.changed();
  }

  /** @param {string[]} caption lines below. @returns {Promise<Blob>} a PNG of what is seen. */
  picture(caption = []) {
    return this.painter.picture(caption);
  }

  dispose() {
    cancelAnimationFrame(this.hovering);
    this.unfollow?.();
    this.painter.dispose();
    this.stage = null;
    this.teeth = null;
    this.sight = null;
  }
}

const mapOf = ({ map_limit_mm: limitMm }, { gap_upper: upper, gap_lower: lower }) => ({
  upper,
  lower,
  limitMm,
});
