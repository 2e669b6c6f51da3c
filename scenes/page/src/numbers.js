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

/** From here on, thousands are set apart. */
const LONG = 10_000;

/** As many decimals as a number has, at most six; thousands of long ones set apart. */
export function plain(value) {
  const [whole, part] = String(Number(Number(value).toFixed(6))).split(".");
  const set = Math.abs(value) < LONG ? whole : whole.replace(/(?<=\d)(?=(\d{3})+$)/g, "\u202f");
  return (part === undefined ? set : `${set}.${part}`).replace("-", MINUS);
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
export function readNumber(text, unit = "") {
  const cleaned = withoutUnit(text.trim(), unit)
    .replace(/[−–]/g, "-")
    .replace(",", ".")
    .replace(/(?<=\d)\s(?=\d{3}(\D|$))/g, "");
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(cleaned) ? Number(cleaned) : NaN;
}

/** A travel or an opening as it is typed: to a hundredth of a millimetre, or a tenth where that says it. */
export function travelText(mm) {
  return mm.toFixed(2).replace(/(\.\d)0$/, "$1");
}

/** A text without the unit at its end, if it is that of the field: another would change what it means. */
function withoutUnit(text, unit) {
  const names = unit === "°" ? ["°", "deg"] : [unit];
  const own = names.find((name) => name && text.endsWith(name));
  return own ? text.slice(0, -own.length).trim() : text;
}

/** An area in mm² to a hundredth; none that is there reads as nothing. */
export function areaWords(mm2) {
  return mm2 > 0 && mm2 < 0.005 ? "<\u202f0.01" : mm2.toFixed(2);
}

/** A number kept between two others. */
export function within(value, least, most) {
  return Math.min(Math.max(value, least), most);
}

/** From where to where, with the unit. */
export function rangeText({ least, most, unit }) {
  return withUnit(`${plain(least)} to ${plain(most)}`, unit);
}

/** What a setting or a field accepts, as a sentence. */
export function acceptedWords(control) {
  return `Accepted: ${rangeText(control)}${control.optional ? ", or empty: not set" : ""}.`;
}

/** A count and its noun. */
export function counted(count, noun) {
  return `${count} ${noun}${count === 1 ? "" : "s"}`;
}

/** Words in which no unit is parted from its figure. */
export function unparted(text) {
  return text.replace(/(\d) (mm²|mm|µm|N)(?![\p{L}])/gu, "$1\u202f$2");
}
