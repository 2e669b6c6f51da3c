/** Draws forces over the casts: along the axis solid, across it dashed, each with its number. */

import { placeLabels } from "./view_labels.js";
import { INK, PAPER, widthOf, write } from "./view_words.js";

/** Apart in print and in every kind of colour vision by their strokes; colours come on top. */
export const STROKES = {
  along: { colour: "#1c1f24", dash: [] },
  across: { colour: "#9c1458", dash: [5, 3] },
};
const HEAD_PX = 9;
const TAIL_PX = 3.4;
const SHAFT_PX = 3;
const LABEL = { h: 15, beyond: 11 };

/**
 * @param {CanvasRenderingContext2D} context
 * @param {{width: number, height: number}} picture
 * @param {import("./view_forces.js").Arrow[]} arrows the largest first.
 * @param {import("./view_labels.js").Box[]} taken where no number may lie.
 * @returns {import("./view_labels.js").Box[]} where numbers lie now.
 */
export function drawForces(context, picture, arrows, taken) {
  for (const arrow of [...arrows].reverse()) drawArrow(context, arrow);
  const wanted = arrows.map((arrow) => ({ ...labelPlace(arrow), w: widthOf(context, arrow.text, { bold: true }) + 6, h: LABEL.h, weight: arrow.n }));
  const boxes = placeLabels(wanted, [...taken, ...arrows.flatMap(shaftBoxes)], picture);
  boxes.forEach((box, i) => {
    if (!box) return;
    const { kind, text } = arrows[i];
    write(context, text, box.x + box.w / 2, box.y + box.h / 2, { bold: true, align: "center", colour: STROKES[kind].colour });
  });
  return boxes.filter(Boolean);
}

/** Small boxes along an arrow, which no number is to cover. */
function shaftBoxes({ from, to }) {
  const steps = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / (2 * SHAFT_PX)));
  return Array.from({ length: steps + 1 }, (_, i) => {
    const [x, y] = [0, 1].map((k) => from[k] + (i / steps) * (to[k] - from[k]));
    return { x: x - SHAFT_PX, y: y - SHAFT_PX, w: 2 * SHAFT_PX, h: 2 * SHAFT_PX };
  });
}

/** A little beyond the tip. */
function labelPlace({ from, to }) {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const long = Math.hypot(dx, dy) || 1;
  return { x: to[0] + (LABEL.beyond + 20 * Math.abs(dx / long)) * (dx / long), y: to[1] + LABEL.beyond * (dy / long) };
}

function drawArrow(context, { from, to, kind, abutment }) {
  const { colour, dash } = STROKES[kind];
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const long = Math.hypot(dx, dy);
  const head = Math.min(HEAD_PX, long);
  context.lineCap = "butt";
  context.lineJoin = "round";
  if (long > 0) {
    const [ux, uy] = [dx / long, dy / long];
    const neck = [to[0] - head * ux, to[1] - head * uy];
    for (const [stroke, width, dashes] of [[PAPER, 5.6, []], [colour, 2.6, dash]]) {
      context.setLineDash(dashes);
      context.beginPath();
      context.moveTo(...from);
      context.lineTo(...neck);
      context.strokeStyle = stroke;
      context.lineWidth = width;
      context.stroke();
    }
    context.setLineDash([]);
    context.beginPath();
    context.moveTo(...to);
    context.lineTo(neck[0] - 0.5 * head * uy, neck[1] + 0.5 * head * ux);
    context.lineTo(neck[0] + 0.5 * head * uy, neck[1] - 0.5 * head * ux);
    context.closePath();
    filled(context, colour);
  }
  context.beginPath();
  if (abutment) context.rect(from[0] - TAIL_PX, from[1] - TAIL_PX, 2 * TAIL_PX, 2 * TAIL_PX);
  else context.arc(from[0], from[1], TAIL_PX, 0, 2 * Math.PI);
  filled(context, abutment ? PAPER : INK, abutment ? INK : PAPER);
}

function filled(context, colour, rim = PAPER) {
  context.strokeStyle = rim;
  context.lineWidth = 2;
  context.stroke();
  context.fillStyle = colour;
  context.fill();
}
