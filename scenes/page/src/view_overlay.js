/** What lies over the surfaces: marks, tooth numbers, sides of the patient, scale, colour bar. */

import { gapColour, gapTicks } from "./view_gap_colours.js";
import { placeLabels } from "./view_labels.js";
import { drawHiddenMark, drawMark, drawRing } from "./view_marks.js";

const INK = "#1c1f24";
const SOFT_INK = "#5b626c";
const PAPER = "#ffffff";
const FACE = 'system-ui, "Segoe UI", Roboto, "Liberation Sans", "DejaVu Sans", sans-serif';
const MARGIN = 10;
const BAR = { width: 184, height: 10 };
const SCALES_MM = [10, 5, 2, 1, 0.5];
/** Size of marks, half their width, pixels. */
const MARK = { contact: 5.6, first: 7.2, ring: 17, dot: 1.7 };

export class Overlay {
  constructor(holder) {
    this.canvas = document.createElement("canvas");
    this.canvas.className = "casts-words";
    this.canvas.setAttribute("aria-hidden", "true");
    holder.append(this.canvas);
    this.context = this.canvas.getContext("2d");
  }

  size(width, height, ratio) {
    this.width = width;
    this.height = height;
    this.ratio = ratio;
    this.canvas.width = Math.round(width * ratio);
    this.canvas.height = Math.round(height * ratio);
  }

  draw(model) {
    this.context.setTransform(this.ratio, 0, 0, this.ratio, 0, 0);
    this.context.clearRect(0, 0, this.width, this.height);
    drawWords(this.context, this.width, this.height, model);
  }
}

/**
 * Draw everything over a picture of the given size.
 *
 * @param {CanvasRenderingContext2D} context
 * @param {object} model
 *   dots: [{x, y, colour, hidden}], marks: [{x, y, shape, colour, filled, hidden, first}],
 *   ring: {x, y}|null, labels: [{x, y, text, strong, picked, far}], title, left, right: words,
 *   pxPerMm, bar: {limitMm, title, tooth, scale}|null,
 *   axis: [[x, y], [x, y]]|null condyles, numberGround: colour behind replacement teeth's numbers.
 */
export function drawWords(context, width, height, model) {
  if (model.axis) drawAxis(context, width, model.axis);
  drawDots(context, model.dots);
  drawMarks(context, model.marks);
  if (model.ring) drawRing(context, model.ring.x, model.ring.y, MARK.ring);
  const taken = [
    ...drawHeading(context, width, model),
    ...drawScale(context, width, height, model.pxPerMm),
    ...(model.bar ? drawBar(context, height, model.bar) : []),
  ];
  const beside = model.marks.filter((mark) => !mark.hidden).map(({ x, y }) => around(x, y, 7));
  drawNumbers(context, width, height, model, [...taken, ...beside]);
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

/** Four short strokes around the first contact. */
function drawCorners(context, x, y) {
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

/** A light ground under words, through which what lies behind is still seen. */
function ground(context, x, y, w, h) {
  context.beginPath();
  context.roundRect(x, y, w, h, 5);
  context.fillStyle = "rgb(255 255 255 / 82%)";
  context.fill();
}

/** Write a text with a light rim, so that it can be read on any ground. */
function write(context, text, x, y, { size = 12, bold = false, colour = INK, align = "left" } = {}) {
  context.font = `${bold ? "600 " : ""}${size}px ${FACE}`;
  context.textAlign = align;
  context.textBaseline = "middle";
  context.lineJoin = "round";
  context.strokeStyle = PAPER;
  context.lineWidth = 3.5;
  context.strokeText(text, x, y);
  context.fillStyle = colour;
  context.fillText(text, x, y);
}

function drawHeading(context, width, { title, left, right }) {
  const y = MARGIN + 7;
  ground(context, 0, 0, width, 2 * y);
  write(context, title, width / 2, y, { size: 13, bold: true, align: "center" });
  write(context, left, MARGIN, y, { colour: SOFT_INK });
  write(context, right, width - MARGIN, y, { colour: SOFT_INK, align: "right" });
  return [{ x: 0, y: 0, w: width, h: 2 * y }];
}

function drawScale(context, width, height, pxPerMm) {
  const mm = SCALES_MM.find((length) => length * pxPerMm <= 0.3 * width) ?? SCALES_MM.at(-1);
  const long = mm * pxPerMm;
  const right = width - MARGIN;
  const y = height - MARGIN - 4;
  const box = { x: right - long - 6, y: y - 24, w: long + 12, h: 32 };
  ground(context, box.x, box.y, box.w, box.h);
  for (const [colour, thick] of [[PAPER, 5], [INK, 2]]) {
    context.beginPath();
    context.moveTo(right - long, y - 5);
    context.lineTo(right - long, y + 4);
    context.moveTo(right - long, y);
    context.lineTo(right, y);
    context.moveTo(right, y - 5);
    context.lineTo(right, y + 4);
    context.strokeStyle = colour;
    context.lineWidth = thick;
    context.stroke();
  }
  write(context, `${mm} mm`, right - long / 2, y - 13, { align: "center" });
  return [box];
}

/** Bar of gaps, dark for touching at its left, the colour of teeth beyond its right end. */
function drawBar(context, height, { limitMm, title, tooth, scale }) {
  const left = MARGIN + 4;
  const ticksY = height - MARGIN - 5;
  const top = ticksY - 10 - BAR.height - 2;
  const box = { x: left - 8, y: top - 20, w: BAR.width + 62, h: 49 };
  ground(context, box.x, box.y, box.w, box.h);
  for (let i = 0; i < BAR.width; i += 1) {
    const [red, green, blue, strength] = gapColour(scale, (i + 0.5) / BAR.width);
    context.fillStyle = tooth;
    context.fillRect(left + i, top, 1, BAR.height);
    context.globalAlpha = strength / 255;
    context.fillStyle = `rgb(${red} ${green} ${blue})`;
    context.fillRect(left + i, top, 1, BAR.height);
    context.globalAlpha = 1;
  }
  context.fillStyle = tooth;
  context.fillRect(left + BAR.width, top, 26, BAR.height);
  context.strokeStyle = SOFT_INK;
  context.lineWidth = 1;
  context.strokeRect(left - 0.5, top - 0.5, BAR.width + 27, BAR.height + 1);
  for (const { value, text } of gapTicks(limitMm)) {
    const x = left + (value / limitMm) * BAR.width;
    context.fillStyle = SOFT_INK;
    context.fillRect(x - 0.5, top + BAR.height, 1, 3);
    write(context, text, x, ticksY, { size: 11, align: "center" });
  }
  write(context, "more", left + BAR.width + 20, ticksY, { size: 11 });
  write(context, `${title}, mm`, left - 1, top - 10);
  return [box];
}

function drawNumbers(context, width, height, { labels, numberGround }, taken) {
  context.font = `600 12px ${FACE}`;
  const wanted = labels.map((label) => ({
    x: label.x,
    y: label.y,
    w: context.measureText(label.text).width + 7,
    h: 17,
    weight: (label.picked ? 1000 : 0) + (label.strong ? 100 : 0) - label.far / 100,
  }));
  const boxes = placeLabels(wanted, taken, { width, height });
  labels.forEach(({ text, strong, picked }, i) => {
    const box = boxes[i];
    if (!box) return;
    if (strong || picked) {
      context.beginPath();
      context.roundRect(box.x + 0.5, box.y + 0.5, box.w - 1, box.h - 1, 4);
      context.fillStyle = strong ? numberGround : PAPER;
      context.fill();
      if (picked) {
        context.strokeStyle = INK;
        context.lineWidth = 2;
        context.stroke();
      }
    }
    const [x, y] = [box.x + box.w / 2, box.y + box.h / 2 + 0.5];
    if (strong) {
      context.font = `600 12px ${FACE}`;
      context.textAlign = "center";
      context.textBaseline = "middle";
      context.fillStyle = INK;
      context.fillText(text, x, y);
    } else {
      write(context, text, x, y, { bold: picked, align: "center" });
    }
  });
}

