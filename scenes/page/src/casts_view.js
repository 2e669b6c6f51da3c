/** Both casts in three dimensions, turned and enlarged by hand, with what lies over them. */

import { Camera, VIEW_NAMES } from "./view_camera.js";
import { boxOf, joinArch } from "./view_casts.js";
import { overlayModel, placesOnLower } from "./view_model.js";
import { Overlay, drawWords } from "./view_overlay.js";
import { cornerAt, gapAt } from "./view_picking.js";
import { followPointers } from "./view_pointer.js";
import { Sight } from "./view_sight.js";
import { Stage } from "./view_stage.js";
import { STILL, movePoint, movePointBack } from "./view_vectors.js";

export { VIEW_NAMES, placesOnLower };

/** Colours where the server names none, by role of a part. */
const ROLES = {
  "upper tooth": "#efe6d2",
  "lower tooth": "#efe6d2",
  "replacement tooth": "#c3d3dc",
  gum: "#e9cdc5",
  stone: "#f3f1eb",
  "denture base": "#dba7a8",
};
const ROOM_PX = { top: 38, right: 30, bottom: 58, left: 30 };
/** Which arch a view is of; the others are of both. */
const ONE_ARCH = { "upper occlusal": "upper", "lower occlusal": "lower", mouth: "lower" };
/** After this pause the picture counts as still, ms. */
const STILL_AFTER_MS = 180;
/** Frames quicker than this may be drawn finer, ms. */
const QUICK_MS = 30;
/** Frames slower than this are drawn coarser while something moves, ms. */
const SLOW_MS = 75;
const COARSE = 0.6;
/** A still picture without a graphics card is drawn this much finer, for smooth outlines. */
const FINE = 2;
const PICTURE_RATIO = 2;
const NO_WEBGL =
  "The casts cannot be drawn: this browser has no WebGL, or it is switched off. " +
  "Everything else on this page works. Try another browser, or switch on hardware acceleration.";
const LOST = "The graphics card stopped drawing. The picture comes back by itself.";

/**
 * @typedef {object} Hit
 * @property {"upper"|"lower"} arch
 * @property {number} tooth ISO number. @property {string} name in words. @property {string} place
 * @property {number|null} gap_mm null: farther than `farther_than_mm`, or no map is shown.
 * @property {number} farther_than_mm how far the map reaches.
 * @property {boolean} stale the lower has moved since the map was made.
 * @property {"pose"|"excursion"|"none"} map which gap it is.
 * @property {number} x @property {number} y pixels from the holder's left and top.
 */

export class CastsView {
  /**
   * @param {HTMLElement} holder is filled with the picture.
   * @param {object} options
   * @param {Object<string, string>} [options.colours] of roles, "#rrggbb".
   * @param {Object<string, {colour: string, shape: string}>} [options.styles] of movements.
   * @param {function(Hit|null)} [options.onHover]
   * @param {function({pose: number|null, milliseconds: number, still: boolean})} [options.onFrame]
   *   after each drawn frame; `pose` is the number of the pose that it shows.
   */
  constructor(holder, { colours = {}, styles = {}, onHover, onFrame } = {}) {
    this.holder = holder;
    this.roles = { ...ROLES, ...colours };
    this.styles = styles;
    this.onHover = onHover;
    this.onFrame = onFrame;
    this.camera = new Camera();
    this.display = {
      upper: "solid", lower: "solid", map: "pose", numbers: true, around: true,
    };
    this.move = STILL;
    this.moves = 0;
    this.displays = 0;
    this.limitMm = 1;
    this.gaps = { pose: null, excursion: null };
    this.trail = [];
    this.trailHidden = [];
    this.costs = [];
    this.fitted = true;
    this.#fillHolder();
  }

  #fillHolder() {
    const { holder } = this;
    holder.tabIndex = 0;
    holder.setAttribute("role", "application");
    holder.setAttribute("aria-label", "Casts");
    holder.style.position = "relative";
    holder.style.touchAction = "none";
    try {
      this.stage = new Stage(holder);
    } catch {
      this.#say(NO_WEBGL);
      return;
    }
    this.overlay = new Overlay(holder);
    for (const canvas of [this.stage.canvas, this.overlay.canvas]) this.#layOut(canvas);
    this.stage.onLost = () => this.#say(LOST);
    this.stage.onRestored = () => {
      this.#say("");
      this.#changed();
    };
    this.unfollow = followPointers(holder, {
      turn: (dx, dy) => this.turn(dx, dy),
      pan: (dx, dy) => this.pan(dx, dy),
      zoom: (factor, x, y) => this.zoom(factor, x, y),
      hover: (x, y) => this.#hover(x, y),
      leave: () => this.#hover(null),
      rest: () => this.#changed(),
    });
    this.watcher = new ResizeObserver(() => this.#resize());
    this.watcher.observe(holder);
    this.#resize();
  }

  #layOut(canvas) {
    Object.assign(canvas.style, {
      position: "absolute", left: "0", top: "0", width: "100%", height: "100%",
    });
    if (canvas === this.overlay.canvas) canvas.style.pointerEvents = "none";
  }

  #say(words) {
    this.words ??= document.createElement("p");
    this.words.className = "casts-message";
    this.words.setAttribute("role", "status");
    this.words.textContent = words;
    if (words) this.holder.append(this.words);
    else this.words.remove();
  }

  #resize() {
    const width = Math.max(1, Math.round(this.holder.clientWidth));
    const height = Math.max(1, Math.round(this.holder.clientHeight));
    this.camera.width = width;
    this.camera.height = height;
    this.overlay.size(width, height, Math.max(1, globalThis.devicePixelRatio ?? 1));
    if (this.fitted) this.#fit();
    this.#changed();
  }

  /** Take over both casts. */
  setTeeth(header, buffers) {
    if (!this.stage) return;
    this.teeth = header;
    this.casts = {
      upper: joinArch(header, buffers, "upper", this.roles),
      lower: joinArch(header, buffers, "lower", this.roles),
    };
    this.boxes = {};
    for (const arch of ["upper", "lower"]) {
      const { teeth, around } = this.casts[arch];
      this.boxes[arch] = { teeth: boxOf([teeth]), all: boxOf([teeth, around]) };
    }
    this.sight = new Sight(this.casts);
    this.stage.setCasts(this.casts);
    this.gaps = { pose: null, excursion: null };
    this.pose = null;
    this.trail = [];
    this.ringed = null;
    this.costs = [];
    this.#setMove(STILL);
    this.#applyDisplay();
    if (this.fitted || !this.seenBefore) this.#fit();
    this.seenBefore = true;
    this.#changed();
  }

  /** Take over a pose: where the lower stands, gaps, contacts. */
  setPose(header, buffers) {
    if (!this.stage || !this.teeth) return;
    this.pose = header;
    this.limitMm = header.map_limit_mm;
    this.gaps.pose = { upper: buffers.gap_upper, lower: buffers.gap_lower, limitMm: this.limitMm };
    this.posed = Float32Array.from(header.move);
    this.#setMove(this.posed);
    this.#applyGaps();
    this.#label();
    this.#changed();
  }

  /** Move the lower while an excursion is played; colours and marks stay those of the pose. */
  setMove(move) {
    if (!this.stage) return;
    this.#setMove(move);
    this.#changed();
  }

  #setMove(move) {
    this.move = move;
    this.moves += 1;
    this.stage.setMove(move);
    if (this.sight) this.sight.move = move;
  }

  /** Take over the least gaps of an excursion, or forget them: null. */
  setReach(header, buffers) {
    if (!this.stage) return;
    this.gaps.excursion = header && {
      upper: buffers.gap_upper, lower: buffers.gap_lower, limitMm: header.map_limit_mm,
    };
    this.#applyGaps();
    this.#changed();
  }

  /**
   * Take over the contacts of a whole excursion.
   *
   * @param {{places: Float32Array, lowerPlaces?: Float32Array, colour: string, shape: string,
   *   filled: boolean}[]} trail places on the upper in the hinge frame; `lowerPlaces` are those on
   *   the lower while it is in MI (see `placesOnLower`).
   */
  setTrail(trail) {
    this.trail = trail ?? [];
    this.trailHidden = [];
    this.#changed();
  }

  /** Say what is shown; what is not named stays. */
  setDisplay(display) {
    this.display = { ...this.display, ...display };
    this.displays += 1;
    if (!this.stage) return;
    this.#applyDisplay();
    if (this.fitted) this.#fit();
    this.#changed();
  }

  /** Which map is shown: none while that of the excursion has not come yet. */
  mapOf() {
    const { map } = this.display;
    return map !== "none" && this.gaps[map] ? map : "none";
  }

  #applyDisplay() {
    if (this.sight) this.sight.display = this.display;
    this.#applyGaps();
  }

  #applyGaps() {
    const map = this.mapOf();
    const gaps = this.gaps[map];
    if (gaps && gaps !== this.gapsShown) {
      this.limitMm = gaps.limitMm;
      this.stage.setLimit(gaps.limitMm);
      this.stage.setGaps("upper", gaps.upper);
      this.stage.setGaps("lower", gaps.lower);
      this.gapsShown = gaps;
    }
    this.stage.setDisplay({ ...this.display, coloured: map !== "none" });
  }

  /** Look from a named side, at as much as is shown. */
  look(name) {
    this.camera.look(name);
    this.fitted = true;
    if (!this.stage) return;
    this.#fit();
    this.#label();
    this.#changed();
  }

  #fit() {
    if (!this.boxes) return;
    const only = ONE_ARCH[this.camera.name];
    const arches = ["upper", "lower"].filter((arch) =>
      only ? arch === only : this.display[arch] !== "away",
    );
    const which = this.display.around ? "all" : "teeth";
    const corners = arches.flatMap((arch) => {
      const { low, high } = this.boxes[arch][which];
      return arch === "lower" ? movedBox(this.move, low, high) : [low, high];
    });
    if (corners.length === 0) return;
    const over = (pick) => [0, 1, 2].map((k) => pick(...corners.map((corner) => corner[k])));
    this.camera.fit(over(Math.min), over(Math.max), ROOM_PX);
  }

  /** Ring the place of a finding, and point out its teeth; null: none. */
  ring(finding) {
    this.ringed = finding;
    this.#changed();
  }

  turn(dx, dy) {
    this.camera.turn(dx, dy);
    this.fitted = false;
    this.#changed();
  }

  pan(dx, dy) {
    this.camera.pan(dx, dy);
    this.fitted = false;
    this.#changed();
  }

  zoom(factor, x, y) {
    this.camera.zoom(factor, x, y);
    this.fitted = false;
    this.#changed();
  }

  /** Where a place of the pose is now: contacts stay on the upper, or go along with the lower. */
  placeNow(place) {
    if (this.display.upper !== "away" || !this.posed || this.move === this.posed) return place;
    return movePoint(this.move, movePointBack(this.posed, place));
  }

  #label() {
    const words = this.pose?.words ?? "";
    this.holder.setAttribute("aria-label", `Casts, ${this.camera.title}. ${words}`.trim());
  }

  #hover(x, y) {
    if (!this.onHover) return;
    this.hoverAt = x === null ? null : [x, y];
    if (this.hovering) return;
    this.hovering = requestAnimationFrame(() => {
      this.hovering = 0;
      this.onHover(this.hoverAt && this.hitAt(...this.hoverAt));
    });
  }

  /** What is seen at a place of the picture, pixels from its left and top. */
  hitAt(x, y) {
    if (!this.sight) return null;
    const found = this.sight.pick(this.camera.unproject(x, y), this.camera.towards);
    if (!found) return null;
    const { arch, surface, hit } = found;
    const corner = cornerAt(surface.index, hit);
    const tooth = surface.tooth[corner];
    const map = this.mapOf();
    const gaps = this.gaps[map];
    return {
      arch,
      tooth,
      name: this.teeth.names[tooth] ?? "",
      place: this.teeth.places[surface.place[corner]] ?? "",
      gap_mm: gaps ? gapAt(gaps[arch], surface.index, hit, gaps.limitMm) : null,
      farther_than_mm: this.limitMm,
      stale: map === "pose" && this.move !== this.posed,
      map,
      x,
      y,
    };
  }

  #changed() {
    if (!this.stage) return;
    clearTimeout(this.stillTimer);
    if (!this.frame) this.frame = requestAnimationFrame(() => this.#draw(false));
  }

  #draw(still) {
    this.frame = 0;
    if (!this.teeth || this.stage.renderer.getContext().isContextLost()) return;
    const before = performance.now();
    this.#drawAt(this.#ratio(still));
    if (!still && this.costs.length < 5) {
      this.stage.finish();
      this.costs.push(performance.now() - before);
      if (this.costs.length === 5) this.#smoothIfQuick();
    }
    this.overlay.draw(overlayModel(this, still));
    if (!still) this.stillTimer = setTimeout(() => this.#draw(true), STILL_AFTER_MS);
    this.onFrame?.({
      pose: this.pose?.number ?? null,
      milliseconds: performance.now() - before,
      still,
    });
  }

  get cost() {
    return [...this.costs].sort((a, b) => a - b)[this.costs.length >> 1] ?? 0;
  }

  #ratio(still) {
    if (!this.stage.software) return Math.min(globalThis.devicePixelRatio ?? 1, 2);
    if (still) return FINE;
    return this.cost > SLOW_MS ? COARSE : 1;
  }

  #drawAt(ratio) {
    const { camera, stage } = this;
    if (stage.width !== camera.width || stage.height !== camera.height || stage.ratio !== ratio) {
      stage.size(camera.width, camera.height, ratio);
    }
    stage.draw(camera);
  }

  #smoothIfQuick() {
    if (this.stage.software || this.stage.antialias || this.cost > QUICK_MS) return;
    this.stage.smoothOutlines();
    this.#layOut(this.stage.canvas);
    this.#changed();
  }

  /** A PNG of what is seen, with everything that lies over it. */
  async picture() {
    const { width, height } = this.camera;
    const sheet = document.createElement("canvas");
    sheet.width = width * PICTURE_RATIO;
    sheet.height = height * PICTURE_RATIO;
    const context = sheet.getContext("2d");
    context.fillStyle = "#ffffff";
    context.fillRect(0, 0, sheet.width, sheet.height);
    if (this.stage && this.teeth) {
      this.#drawAt(PICTURE_RATIO);
      context.drawImage(this.stage.canvas, 0, 0, sheet.width, sheet.height);
      context.scale(PICTURE_RATIO, PICTURE_RATIO);
      drawWords(context, width, height, overlayModel(this, true));
      this.#changed();
    }
    return new Promise((resolve) => {
      sheet.toBlob(resolve, "image/png");
    });
  }

  dispose() {
    cancelAnimationFrame(this.frame);
    cancelAnimationFrame(this.hovering);
    clearTimeout(this.stillTimer);
    this.unfollow?.();
    this.watcher?.disconnect();
    this.stage?.dispose();
    this.overlay?.canvas.remove();
    this.stage = null;
    this.sight = null;
  }
}

/** Corners of a box, each moved. */
function movedBox(move, low, high) {
  const corners = [];
  for (let i = 0; i < 8; i += 1) {
    corners.push(
      movePoint(move, [i & 1 ? high[0] : low[0], i & 2 ? high[1] : low[1], i & 4 ? high[2] : low[2]]),
    );
  }
  return corners;
}
