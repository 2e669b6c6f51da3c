/** Colours of a gap: dark where the arches are near, fading into the colour of teeth at the limit. */

export const STEPS = 256;
/** Nearer than this counts as touching, mm: the tolerance of contacts. */
export const TOUCHING_MM = 0.02;
const LIGHTER = 0.1;
/** From this share of the limit on, the colour of the tooth comes through. */
const FADE_FROM = 0.7;

/**
 * Red, green, blue and strength of the colour of a gap.
 *
 * @param {string[]} scale colours "#rrggbb" from no gap to the limit, evenly spaced.
 * @param {number} share of the limit, 0 to 1.
 * @returns {number[]} four of 0 to 255.
 */
export function gapColour(scale, share) {
  const at = Math.min(Math.max(share, 0), 1) * (scale.length - 1);
  const before = Math.min(Math.floor(at), scale.length - 2);
  const colour = [1, 3, 5].map((i) => {
    const [a, b] = [before, before + 1].map((k) => Number.parseInt(scale[k].slice(i, i + 2), 16));
    const plain = a + (at - before) * (b - a);
    return Math.round(plain + LIGHTER * (255 - plain));
  });
  const fade = share <= FADE_FROM ? 1 : Math.max(0, (1 - share) / (1 - FADE_FROM));
  return [...colour, Math.round(255 * fade)];
}

/** All steps of the scale, four numbers each, for a texture. */
export function gapTexture(scale) {
  const texels = new Uint8Array(4 * STEPS);
  for (let i = 0; i < STEPS; i += 1) texels.set(gapColour(scale, i / (STEPS - 1)), 4 * i);
  return texels;
}

/**
 * Numbers at which a scale from 0 to a limit is labelled, so that each label is exact.
 *
 * @param {number} limitMm
 * @returns {{value: number, text: string}[]} three to six of them.
 */
export function gapTicks(limitMm) {
  for (const parts of [4, 5, 3, 2]) {
    for (let decimals = 0; decimals <= 3; decimals += 1) {
      const step = limitMm / parts;
      if (Math.abs(step - Number(step.toFixed(decimals))) < 1e-9) {
        return Array.from({ length: parts + 1 }, (_, i) => ({
          value: i * step,
          text: i === 0 ? "0" : (i * step).toFixed(decimals),
        }));
      }
    }
  }
  return [
    { value: 0, text: "0" },
    { value: limitMm, text: String(limitMm) },
  ];
}
