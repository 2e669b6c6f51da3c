/** Short texts placed so that none lies on another: shifted a little, else left out. */

/** Shifts that are tried one after the other, as shares of the text's own width and height. */
const SHIFTS = [
  [0, 0],
  [0, -0.6], [0, 0.6], [-0.6, 0], [0.6, 0],
  [-0.7, -0.7], [0.7, -0.7], [-0.7, 0.7], [0.7, 0.7],
  [0, -1.15], [0, 1.15], [-1.15, 0], [1.15, 0],
];

/**
 * @typedef {object} Box
 * @property {number} x left, pixels. @property {number} y top. @property {number} w @property {number} h
 */

/** @param {Box} a @param {Box} b @returns {boolean} */
export const overlap = (a, b) =>
  a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h;

/**
 * Place texts, the important ones first.
 *
 * @param {{x: number, y: number, w: number, h: number, weight: number}[]} wanted middle and size of
 *   each; greater weight goes first.
 * @param {Box[]} taken where no text may lie.
 * @param {{width: number, height: number}} picture outside which nothing is placed.
 * @returns {(Box|null)[]} as many; null where there was no room.
 */
export function placeLabels(wanted, taken, picture) {
  const used = [...taken];
  const placed = wanted.map(() => null);
  const order = wanted.map((_, i) => i).sort((a, b) => wanted[b].weight - wanted[a].weight || a - b);
  for (const i of order) {
    const { x, y, w, h } = wanted[i];
    for (const [aside, below] of SHIFTS) {
      const box = { x: x + aside * w - w / 2, y: y + below * h - h / 2, w, h };
      const inside =
        box.x >= 0 && box.y >= 0 && box.x + w <= picture.width && box.y + h <= picture.height;
      if (inside && !used.some((other) => overlap(box, other))) {
        placed[i] = box;
        used.push(box);
        break;
      }
    }
  }
  return placed;
}
