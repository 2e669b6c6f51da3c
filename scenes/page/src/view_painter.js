/** Two canvases in a holder, surfaces below and words above, drawn when something has changed. */

import { Overlay, drawWords } from "./view_overlay.js";
import { Stage } from "./view_stage.js";
import { linesOf, write } from "./view_words.js";

/** After this pause the picture counts as still, ms. */
const STILL_AFTER_MS = 180;
/** How long a frame takes is learnt from so many: the first ones, later one in some. */
const TIMED_FRAMES = 5;
const TIME_EVERY = 16;
/** Frames quicker than this are drawn with smooth outlines, ms. */
const QUICK_MS = 30;
/** Without a graphics card, a still picture is drawn this much finer, for smooth outlines. */
const FINE = 2;
/** But where frames are slower than this, it is not, and pictures in motion are coarser; ms. */
const SLOW_MS = 80;
const COARSE = 0.5;
const PICTURE_RATIO = 2;
const CAPTION = { margin: 10, line: 18 };
const NO_WEBGL =
  "The casts cannot be drawn: this browser has no WebGL, or it is switched off. " +
  "Everything else on this page works. Try another browser, or switch on hardware acceleration.";
const LOST = "The graphics card has stopped drawing. The picture comes back by itself.";

export class Painter {
  /**
   * @param {HTMLElement} holder
   * @param {string[]} gapScale
   * @param {{eye: object, ready: function(): boolean, model: function(boolean): object,
   *   drawn: function(object), resized: function()}} view what is drawn, and who is told.
   */
  constructor(holder, gapScale, view) {
    this.holder = holder;
    this.view = view;
    this.costs = [];
    this.frames = 0;
    try {
      this.stage = new Stage(holder, gapScale);
    } catch {
      this.#say(NO_WEBGL);
      return;
    }
    this.overlay = new Overlay(holder);
    this.#layOut(this.stage.canvas);
    this.stage.onLost = () => this.#say(LOST);
    this.stage.onRestored = () => {
      this.#say("");
      this.changed();
    };
    this.watcher = new ResizeObserver(() => this.#resize());
    this.watcher.observe(holder);
    this.#resize();
  }

  #layOut(canvas) {
    Object.assign(canvas.style, {
      position: "absolute", left: "0", top: "0", width: "100%", height: "100%",
    });
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
    const { eye } = this.view;
    eye.width = Math.max(1, Math.round(this.holder.clientWidth));
    eye.height = Math.max(1, Math.round(this.holder.clientHeight));
    this.overlay.size(eye.width, eye.height, Math.max(1, globalThis.devicePixelRatio ?? 1));
    this.view.resized();
    this.changed();
  }

  /** Other casts take other time. */
  timeAgain() {
    this.costs = [];
  }

  /** Time of a frame as last learnt, ms. */
  get cost() {
    return [...this.costs].sort((a, b) => a - b)[this.costs.length >> 1] ?? 0;
  }

  /** While something goes on moving no frame counts as still. */
  moving(on) {
    this.inMotion = on;
    this.changed();
  }

  /** Draw in the next frame. */
  changed() {
    if (!this.stage) return;
    clearTimeout(this.stillTimer);
    if (!this.frame) this.frame = requestAnimationFrame(() => this.#draw(false));
  }

  #draw(still) {
    this.frame = 0;
    if (!this.view.ready() || this.stage.lost) return;
    const before = performance.now();
    this.#surfaces(this.#ratio(still), !still);
    if (!still) this.#time(before);
    this.overlay.draw(this.view.model(still));
    if (!still && !this.inMotion) this.stillTimer = setTimeout(() => this.#draw(true), STILL_AFTER_MS);
    this.view.drawn({ milliseconds: performance.now() - before, still });
  }

  #ratio(still) {
    if (!this.stage.software) return Math.min(globalThis.devicePixelRatio ?? 1, 2);
    if (this.cost > SLOW_MS) return still ? 1 : COARSE;
    return still ? FINE : 1;
  }

  #surfaces(ratio, inMotion) {
    const { eye } = this.view;
    this.stage.setCoarse(inMotion && this.stage.software);
    this.stage.size(eye.width, eye.height, ratio);
    this.stage.draw(eye);
  }

  async #time(before) {
    this.frames += 1;
    if (this.costs.length === TIMED_FRAMES && this.frames % TIME_EVERY !== 0) return;
    await this.stage.done();
    this.costs.push(performance.now() - before);
    if (this.costs.length > TIMED_FRAMES) this.costs.shift();
    const quick = this.costs.length === TIMED_FRAMES && this.cost <= QUICK_MS;
    if (!quick || !this.stage || this.stage.software || this.stage.antialias) return;
    this.stage.smoothOutlines();
    this.#layOut(this.stage.canvas);
    this.changed();
  }

  /**
   * @param {string[]} caption what stands below, the first line strong.
   * @returns {Promise<Blob>} a PNG of what is seen, with everything that lies over it.
   */
  picture(caption) {
    const { eye } = this.view;
    const sheet = document.createElement("canvas");
    const context = sheet.getContext("2d");
    const lines = captionLines(context, caption, eye.width - 2 * CAPTION.margin);
    const tall = eye.height + (lines.length ? lines.length * CAPTION.line + CAPTION.margin : 0);
    sheet.width = eye.width * PICTURE_RATIO;
    sheet.height = tall * PICTURE_RATIO;
    context.fillStyle = "#ffffff";
    context.fillRect(0, 0, sheet.width, sheet.height);
    if (this.stage && this.view.ready()) {
      this.#surfaces(PICTURE_RATIO, false);
      context.drawImage(this.stage.canvas, 0, 0, sheet.width, eye.height * PICTURE_RATIO);
      context.scale(PICTURE_RATIO, PICTURE_RATIO);
      drawWords(context, eye.width, eye.height, this.view.model(true), PICTURE_RATIO);
      lines.forEach(({ text, bold }, i) =>
        write(context, text, CAPTION.margin, eye.height + CAPTION.line * (i + 0.7), { bold }));
      this.changed();
    }
    return new Promise((resolve) => {
      sheet.toBlob(resolve, "image/png");
    });
  }

  dispose() {
    cancelAnimationFrame(this.frame);
    clearTimeout(this.stillTimer);
    this.watcher?.disconnect();
    this.stage?.dispose();
    for (const canvas of this.overlay?.canvases ?? []) canvas.remove();
    this.words?.remove();
    this.stage = null;
  }
}

/** A caption in lines as wide as the picture. */
function captionLines(context, caption, wide) {
  return caption.flatMap((text, i) =>
    linesOf(context, text, wide, { bold: i === 0 }).map((line) => ({ text: line, bold: i === 0 })));
}
