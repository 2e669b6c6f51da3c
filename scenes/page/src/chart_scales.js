/** Scales of charts: from figures to places in a drawing. */

/**
 * A straight scale.
 *
 * @param {[number, number]} values from and to. @param {[number, number]} places of both, px.
 * @returns {function(number): number}
 */
export function scale([from, to], [start, end]) {
  const span = to - from;
  return (value) => (span === 0 ? (start + end) / 2 : start + ((value - from) / span) * (end - start));
}

/**
 * Round figures for an axis, at most as many as asked for.
 *
 * @param {number} from @param {number} to @param {number} most @returns {number[]}
 */
export function ticks(from, to, most) {
  const span = to - from;
  if (!(span > 0) || most < 2) return [from];
  const raw = span / (most - 1);
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 5, 10].map((one) => one * power).find((one) => one >= raw - 1e-12);
  const found = [];
  for (let i = Math.ceil(from / step - 1e-9); i * step <= to + step * 1e-9; i += 1) {
    found.push(Number((i * step).toPrecision(12)));
  }
  return found;
}

/** Decimals that tell neighbouring ticks apart. */
export function tickDecimals(values) {
  const texts = values.map((value) => String(Number(value.toPrecision(6))).split(".")[1] ?? "");
  return Math.min(Math.max(0, ...texts.map((text) => text.length)), 3);
}

/**
 * Fit points into a box with the same scale both ways.
 *
 * @param {[number, number][]} points across and upward, mm.
 * @param {{wide: number, tall: number, margin: number, least: number}} box px; least span, mm.
 * @returns {{x: function(number): number, y: function(number): number, across: number[],
 *   upward: number[], pxPerMm: number}}
 */
export function evenScales(points, { wide, tall, margin, least }) {
  const range = (k) => {
    const all = points.map((point) => point[k]);
    const [low, high] = [Math.min(0, ...all), Math.max(0, ...all)];
    const spare = Math.max(least - (high - low), 0.12 * (high - low)) / 2;
    return [low - spare, high + spare];
  };
  const [across, upward] = [range(0), range(1)];
  const px = Math.min(
    (wide - 2 * margin) / (across[1] - across[0]), (tall - 2 * margin) / (upward[1] - upward[0]),
  );
  const middle = ([low, high]) => (low + high) / 2;
  const half = { x: (wide / 2 - margin) / px, y: (tall / 2 - margin) / px };
  const wider = (limits, by) => [middle(limits) - by, middle(limits) + by];
  const limits = { x: wider(across, half.x), y: wider(upward, half.y) };
  return {
    x: scale(limits.x, [margin, wide - margin]),
    y: scale(limits.y, [tall - margin, margin]),
    across: limits.x,
    upward: limits.y,
    pxPerMm: px,
  };
}
