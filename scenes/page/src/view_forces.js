/** Forces on teeth as arrows in the picture: from where to where, and how large. Needs no browser. */

import { movePoint, plus } from "./view_vectors.js";

/** How long an arrow is drawn, mm for a newton. */
export const MM_PER_N = 0.3;
/** Smaller forces have no arrow, N. */
export const LEAST_N = 1;
/** Below this force one decimal is told, N. */
const SMALL_N = 10;
const KINDS = ["along", "across"];

/**
 * @typedef {object} Force
 * @property {number} tooth ISO number. @property {number[]|null} place hinge frame, mm; null: the
 *   middle of the crown. @property {number[]} along @property {number[]} across N, hinge frame.
 *
 * @typedef {object} Arrow
 * @property {number[]} from @property {number[]} to pixels. @property {"along"|"across"} kind
 * @property {boolean} abutment @property {number} n newtons. @property {string} text
 */

/** @param {object} view the CastsView. @returns {Arrow[]} the largest first. */
export function forceArrows(view) {
  const found = (view.forces?.teeth ?? []).flatMap((force) => arrowsOf(view, force));
  return found.sort((one, other) => other.n - one.n);
}

function arrowsOf(view, { tooth, place, along, across }) {
  const arch = tooth < 30 ? "upper" : "lower";
  const from = place ?? crownMiddle(view, arch, tooth);
  if (!from || view.display[arch] === "away") return [];
  return KINDS.flatMap((kind, i) => {
    const force = [along, across][i];
    const n = Math.hypot(...force);
    if (n < LEAST_N) return [];
    const [start, end] = [from, plus(from, force, MM_PER_N)].map((p) => view.eye.project(p).slice(0, 2));
    return [{ from: start, to: end, kind, abutment: place === null, n, text: `${tooth}: ${newtons(n)}\u202fN` }];
  });
}

function crownMiddle(view, arch, tooth) {
  const crown = view.sight.crown(arch, tooth);
  if (!crown) return null;
  return arch === "lower" ? movePoint(view.move, crown.middle) : crown.middle;
}

/** A force in newtons, without its unit. */
export function newtons(n) {
  return n.toFixed(Math.abs(n) < SMALL_N ? 1 : 0);
}
