/** Numbers as they are read and written by people. */

const MINUS = "−";

/**
 * A number with a fixed count of decimals and a true minus sign.
 *
 * @param {number} value
 * @param {number} decimals
 */
export function fixed(value, decimals) {
  const text = Math.abs(value).toFixed(decimals);
  const zero = Number(text) === 0;
  return value < 0 && !zero ? MINUS + text : text;
}

/** As many decimals as a number has, at most six. */
export function plain(value) {
  const text = String(Number(Number(value).toFixed(6)));
  return text.replace("-", MINUS);
}

/** A value with its unit. */
export function withUnit(text, unit) {
  if (!unit) return text;
  return unit === "°" ? text + unit : `${text}\u202f${unit}`;
}

/**
 * Read what was typed: a point or a comma, any minus sign, an unit behind is left out.
 *
 * @returns {number} NaN where it is no number.
 */
export function readNumber(text) {
  const cleaned = text
    .trim()
    .replace(/[−–]/g, "-")
    .replace(",", ".")
    .replace(/\s*(mm|µm|°|deg)$/u, "");
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(cleaned) ? Number(cleaned) : NaN;
}

/** A number kept between two others. */
export function within(value, least, most) {
  return Math.min(Math.max(value, least), most);
}

/** A count and its noun. */
export function counted(count, noun) {
  return `${count} ${noun}${count === 1 ? "" : "s"}`;
}

/** Words in which no unit is parted from its figure. */
export function unparted(text) {
  return text.replace(/(\d) (mm²|mm|µm|N)(?![\p{L}])/gu, "$1\u202f$2");
}
