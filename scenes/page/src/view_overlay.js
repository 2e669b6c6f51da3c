/** What lies over the surfaces: marks, tooth numbers, sides of the patient, scale, colour bar. */

import { drawForces } from "./view_arrows.js";
import { drawFrame, frameBoxes } from "./view_frame.js";
import { placeLabels } from "./view_labels.js";
import { drawHiddenMark, drawMark, drawRing } from "./view_marks.js";
import { INK, PAPER, RIM_PX, SOFT_INK, widthOf, write } from "./view_words.js";

const NUMBER_PX = 18;
/** Size of marks, half their width, pixels. */
const MARK = { contact: 5.6, first: 7.2, ring: 17, dot: 1.7 };

/**
 * One canvas for what moves with the casts, and one for each strip that stands still around them:
 * every dot that lies over the casts has to be laid over them anew in every frame.
 */
export class Overlay {
  constructor(holder) {
    this.moving = layer(holder, "casts-words");
    this.strips = [layer(holder, "casts-frame"), layer(holder, "casts-frame")];
    this.canvases = [this.moving, ...this.strips].map(({ canvas }) => canvas);
  }

  size(width, height, ratio) {
    Object.assign(this, { width, height, ratio, shown: "" });
    this.#place(this.moving, { y: 0, h: height });
  }

  draw(model) {
    this.moving.clearRect(0, 0, this.width, this.height);
    drawMoving(this.moving, this.width, this.height, model, this.ratio);
    const shown = JSON.stringify(model.frame);
    if (shown === this.shown) return;
    this.shown = shown;
    frameBoxes(this.width, this.height, model.frame).forEach((box, i) => {
      this.#place(this.strips[i], box);
      drawFrame(this.strips[i], this.width, this.height, model.frame);
    });
  }

  /** Let a canvas cover a part of the picture as high as that; what is drawn keeps its place in the whole. */
  #place(context, { y, h }) {
    const { canvas } = context;
    const [wide, tall] = [Math.round(this.width * this.ratio), Math.round(h * this.ratio)];
    if (canvas.width !== wide || canvas.height !== tall) Object.assign(canvas, { width: wide, height: tall });
    Object.assign(canvas.style, { top: `${y}px`, width: "100%", height: `${h}px` });
    context.setTransform(this.ratio, 0, 0, this.ratio, 0, -y * this.ratio);
  }
}

function layer(holder, name) {
  const canvas = document.createElement("canvas");
  canvas.className = name;
  canvas.setAttribute("aria-hidden", "true");
  Object.assign(canvas.style, { position: "absolute", left: "0", pointerEvents: "none" });
  holder.append(canvas);
  return canvas.getContext("2d");
}

/**
 * Draw everything over a picture of the given size.
 *
 * @param {CanvasRenderingContext2D} context
 * @param {object} model
 *   dots: [{x, y, colour, hidden}], marks: [{x, y, shape, colour, filled, hidden, first}],
 *   ring: {x, y}|null, pins: [{x, y, shape, colour, text, chosen, hidden}], labels: [{x, y, text, strong, picked, far}], axis: [[x, y], [x, y]]|null,
 *   forces: as `forceArrows` lays them out,
 *   condyles, numberGround: colour behind replacement teeth's numbers,
 *   frame: as `drawFrame` takes it.
 * @param {number} ratio dots of the canvas for a pixel of the page.
 */
export function drawWords(context, width, height, model, ratio) {
  drawMoving(context, width, height, model, ratio);
  drawFrame(context, width, height, model.frame);
}

function drawMoving(context, width, height, model, ratio) {
  if (model.axis) drawAxis(context, width, model.axis);
  drawDots(context, model.dots);
  drawMarks(context, model.marks);
  if (model.ring) drawRing(context, model.ring.x, model.ring.y, MARK.ring);
  drawPins(context, width, model.pins);
  const taken = [...frameBoxes(width, height, model.frame)];
  for (const { x, y, hidden } of model.marks) if (!hidden) taken.push(around(x, y, 7));
  taken.push(...drawForces(context, { width, height }, model.forces, taken));
  drawNumbers(context, { width, height }, model, taken, ratio);
}

/** The line of the condyle centres; it lies behind the casts, so it is seen from afar only. */
function drawAxis(context, width, [from, to]) {
  context.beginPath();
  context.moveTo(...from);
  context.lineTo(...to);
  context.strokeStyle = SOFT_INK;
  context.lineWidth = 1;
  context.setLineDash([7, 3, 2, 3]);
  context.stroke();
  context.setLineDash([]);
  for (const [x, y] of [from, to]) {
    context.beginPath();
    context.arc(x, y, 5, 0, 2 * Math.PI);
    context.fillStyle = PAPER;
    context.fill();
    context.strokeStyle = INK;
    context.lineWidth = 1.5;
    context.stroke();
    context.fillStyle = INK;
    context.fillRect(x - 1, y - 1, 2, 2);
  }
  const middle = Math.min(Math.max((from[0] + to[0]) / 2, 55), width - 55);
  const below = Math.max(from[1], to[1]) + 15;
  write(context, "condyle centres", middle, below, { colour: SOFT_INK, align: "center" });
}

const around = (x, y, size) => ({ x: x - size, y: y - size, w: 2 * size, h: 2 * size });

function drawDots(context, dots) {
  for (const hidden of [true, false]) {
    context.globalAlpha = hidden ? 0.45 : 1;
    for (const dot of dots) {
      if (dot.hidden !== hidden) continue;
      context.beginPath();
      context.arc(dot.x, dot.y, MARK.dot, 0, 2 * Math.PI);
      context.fillStyle = dot.colour;
      context.fill();
    }
  }
  context.globalAlpha = 1;
}

function drawMarks(context, marks) {
  for (const mark of marks.filter((one) => one.hidden)) {
    drawHiddenMark(context, { ...mark, size: mark.first ? MARK.first : MARK.contact });
  }
  for (const mark of marks.filter((one) => !one.hidden && !one.first)) {
    drawMark(context, { ...mark, size: MARK.contact });
  }
  for (const mark of marks.filter((one) => one.first)) {
    if (!mark.hidden) drawMark(context, { ...mark, size: MARK.first });
    drawCorners(context, mark.x, mark.y);
  }
}

/** Marks on what was picked, each with its name; that of the chosen one is strong. */
function drawPins(context, width, pins) {
  for (const pin of [...pins].sort((one, other) => Number(other.hidden) - Number(one.hidden))) {
    if (pin.hidden) drawHiddenMark(context, { ...pin, size: MARK.first });
    else drawMark(context, { ...pin, filled: true, size: MARK.contact });
    if (pin.chosen) drawCorners(context, pin.x, pin.y);
    const look = { bold: pin.chosen, colour: pin.hidden ? SOFT_INK : INK };
    const gap = pin.chosen ? 22 : 12;
    const toLeft = pin.x + gap + widthOf(context, pin.text, look) > width - 8;
    write(context, pin.text, pin.x + (toLeft ? -gap : gap), pin.y, { ...look, align: toLeft ? "right" : "left" });
  }
}

/** Four short strokes around the first contact. */
export function drawCorners(context, x, y) {
  context.lineCap = "round";
  for (const [colour, width] of [[PAPER, 4.4], [INK, 2]]) {
    context.beginPath();
    for (const [dx, dy] of [[1, 0], [-1, 0], [0, 1], [0, -1]]) {
      context.moveTo(x + 12 * dx, y + 12 * dy);
      context.lineTo(x + 18 * dx, y + 18 * dy);
    }
    context.strokeStyle = colour;
    context.lineWidth = width;
    context.stroke();
  }
  context.lineCap = "butt";
}

function drawNumbers(context, picture, { labels, numberGround }, taken, ratio) {
  const wanted = labels.map(({ x, y, text, strong, picked, changed, far }) => ({
    x, y, w: 8 * text.length + 8, h: NUMBER_PX, weight: (picked ? 1000 : changed ? 500 : strong ? 100 : 0) - far / 100,
  }));
  const boxes = placeLabels(wanted, taken, picture);
  labels.forEach((label, i) => {
    const box = boxes[i];
    if (!box) return;
    const sprite = numberSprite(label, box.w, numberGround, ratio);
    const [x, y] = [box.x, box.y].map((at) => Math.round(at * ratio) / ratio);
    context.drawImage(sprite, x, y, sprite.width / ratio, sprite.height / ratio);
  });
}

/** Numbers are drawn once and then copied: letters with a rim take their time. */
const sprites = new Map();

function numberSprite({ text, strong, picked, changed }, width, numberGround, ratio) {
  const key = `${text} ${strong} ${picked} ${numberGround} ${ratio}`;
  const known = sprites.get(key);
  if (known) return known;
  const sprite = document.createElement("canvas");
  sprite.width = Math.ceil(width * ratio);
  sprite.height = Math.ceil(NUMBER_PX * ratio);
  const context = sprite.getContext("2d");
  context.scale(ratio, ratio);
  const framed = picked || changed;
  if (strong || framed) {
    context.beginPath();
    context.roundRect(1, 1, width - 2, NUMBER_PX - 2, 4);
    context.fillStyle = strong ? numberGround : PAPER;
    context.fill();
    context.strokeStyle = INK;
    context.lineWidth = 2;
    if (changed && !picked) context.setLineDash([3, 2]);
    if (framed) context.stroke();
  }
  const bare = strong || framed;
  const look = { bold: bare, align: "center", rim: bare ? 0 : RIM_PX };
  write(context, text, width / 2, NUMBER_PX / 2 + 0.5, look);
  sprites.set(key, sprite);
  return sprite;
}
