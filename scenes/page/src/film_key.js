/** What marks mean: each kind drawn beside its words. */

import { el } from "./dom.js";
import { drawHiddenMark, drawMark } from "./view_marks.js";
import { drawCorners } from "./view_overlay.js";
import { INK } from "./view_words.js";

/** Size of a sign on the page and half the breadth of what is drawn on it, pixels. */
const SIGN = { size: 22, half: 5.6 };
/** Strokes stand around a mark: they are drawn smaller, to have room. */
const SMALLER = 0.55;

/**
 * @param {{look: string, words: string}[]} keys what is explained.
 * @param {{colour: string, shape: string}} style of the marks.
 * @returns {HTMLElement[]} an entry of a list for each.
 */
export function keyEntries(keys, style) {
  return keys.map(({ look, words }) => el("li", {}, sign(look, style), el("span", { text: words })));
}

function sign(look, style) {
  const ratio = Math.max(1, globalThis.devicePixelRatio ?? 1);
  const side = Math.round(SIGN.size * ratio);
  const canvas = el("canvas", { width: side, height: side, "aria-hidden": "true" });
  const context = canvas.getContext("2d");
  context.scale(ratio, ratio);
  context.translate(SIGN.size / 2, SIGN.size / 2);
  const mark = { x: 0, y: 0, ...style, size: SIGN.half, filled: look === "filled" };
  if (look === "track") {
    context.fillStyle = INK;
    for (const x of [-7, -2.4, 2.4, 7]) context.fillRect(x - 1.5, -1.5, 3, 3);
  } else if (look === "strokes") {
    context.scale(SMALLER, SMALLER);
    drawCorners(context, 0, 0);
  } else if (look === "hidden") drawHiddenMark(context, mark);
  else drawMark(context, mark);
  return canvas;
}
