/**
 * Margins of scanned crowns. A scan is one surface, cut along the sides of its triangles into crowns
 * and gums: drawn apart, every triangle there would show as a tooth of a saw. Where both have a
 * vertex at one place they are shaded as one, and their colours run into each other.
 */

import { placeHashes } from "./view_order.js";
import { smoothed } from "./view_shade.js";

/** So often shares are evened out, and so much steeper they then are at the margin. */
const ROUNDS = 3;
const STEEPER = 1.8;

/** @returns {number[][]} vertices of crowns and of what is around them that lie at one place. */
export function sharedPlaces({ positions: p }, { positions: q }) {
  const rowOf = new Map();
  placeHashes(q).forEach((hash, v) => rowOf.set(hash, v));
  const pairs = [];
  placeHashes(p).forEach((hash, v) => {
    const w = rowOf.get(hash);
    if (w !== undefined && [0, 1, 2].every((k) => p[3 * v + k] === q[3 * w + k])) pairs.push([v, w]);
  });
  return pairs;
}

/**
 * Let the colours of crowns and of the gums around them run into each other where they share places.
 *
 * @param {object[]} surfaces crowns, and what is around them; their colours are changed.
 * @param {number[][]} shared see `sharedPlaces`.
 * @param {number[]} ofTeeth red, green, blue. @param {number[]} ofGums
 */
export function colourMargins(surfaces, shared, ofTeeth, ofGums) {
  if (shared.length === 0) return;
  let shares = surfaces.map(({ tooth }, i) => new Float32Array(tooth.length).fill(i === 0 ? 1 : 0));
  for (let round = 0; round < ROUNDS; round += 1) shares = smoothed(shares, surfaces, shared);
  const steep = (share) => Math.min(1, Math.max(0, 0.5 + STEEPER * (share - 0.5)));
  mix(surfaces[0].colours, shares[0].map((share) => 1 - steep(share)), ofGums);
  mix(surfaces[1].colours, shares[1].map(steep), ofTeeth);
}

/** Mix colours, four a vertex, with another one by how much of it each vertex has. */
function mix(colours, shares, other) {
  shares.forEach((share, v) => {
    for (let k = 0; k < 3; k += 1) {
      const at = 4 * v + k;
      colours[at] = Math.round(colours[at] + share * (other[k] - colours[at]));
    }
  });
}
