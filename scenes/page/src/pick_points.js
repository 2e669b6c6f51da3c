/** Points picked on casts as plain lists that are never changed, only replaced; what is missing. */

/**
 * @typedef {object} Pick
 * @property {string} point name. @property {number|null} tooth @property {number[]} place mm.
 * @property {boolean} [proposed] found by the program, not by a person.
 * @property {string} [note] what is to be known of it.
 */

/** Whether two are the same point; of those of which there are several, none is. */
export function isSame(one, other, several = false) {
  return !several && one.point === other.point && one.tooth === other.tooth;
}

/**
 * Points with one more, or with one at another place.
 *
 * @param {Pick[]} points @param {Pick} pick
 * @param {object} about what the server says of points: `points`, `ways`.
 * @param {number|null} index which one moves; null: the same one, or a new one.
 * @returns {Pick[]}
 */
export function withPoint(points, pick, about, index = null) {
  const several = about.points.find(({ point }) => point === pick.point)?.several ?? false;
  const at = index ?? points.findIndex((one) => isSame(one, pick, several));
  const kept = at < 0 ? [...points, pick] : points.map((one, i) => (i === at ? pick : one));
  return withoutOverruled(kept, pick, about);
}

/** What the program proposed for one way of mounting goes as soon as a person begins another. */
function withoutOverruled(points, { point }, { ways }) {
  const way = ways.find((one) => one.points.includes(point));
  if (!way) return points;
  const isOther = (one) => ways.some((other) => other !== way && other.points.includes(one.point));
  const others = points.filter(isOther);
  return others.every(({ proposed }) => proposed) ? points.filter((one) => !isOther(one)) : points;
}

export function withoutPoint(points, index) {
  return points.filter((_, i) => i !== index);
}

/** Points as the server takes them. */
export function plainPoints(points) {
  return points.map(({ point, tooth, place }) => ({ point, tooth, place }));
}

const isSeed = ({ point }) => point.endsWith("_seed");

/** Points without seeds that are proposed only: nothing takes those unasked. */
export function confirmed(points) {
  return points.filter((one) => !(isSeed(one) && one.proposed));
}

/** A point as a person has it who has told the teeth by it. */
export function taken(pick) {
  if (!isSeed(pick) || !pick.proposed) return pick;
  const { point, tooth, place } = pick;
  return { point, tooth, place };
}

/** The seeds among points, as one text. */
export function seedsOf(points) {
  return JSON.stringify(plainPoints(points.filter(isSeed)));
}

/**
 * What is still missing for a run, in words; "" nothing.
 *
 * @param {Pick[]} points
 * @param {object} about what the server says of points.
 * @param {{no_labels: string, transform: boolean}} casts
 */
export function missingWords(points, about, casts) {
  const title = (name) => about.points.find(({ point }) => point === name).title;
  const has = (name) => points.some(({ point }) => point === name);
  const begun = about.ways.filter((way) => way.points.some(has));
  const told = [];
  if (begun.length > 1) {
    told.push(`Points of two ways of mounting are picked (${begun.map(({ name }) => name).join(", ")}): remove those of one.`);
  } else {
    const way = begun[0] ?? (casts.transform ? null : about.ways[0]);
    const lacking = way ? way.points.filter((name) => !has(name)) : [];
    if (lacking.length) {
      const other = begun.length ? "" : ` (or by ${about.ways[1].name})`;
      told.push(`Mounting by ${way.name}${other}: ${lacking.map(title).join("; ")}.`);
    }
  }
  if (casts.no_labels) {
    told.push("The teeth must be told first: pick a seed on every tooth of both casts, then press “Tell the teeth by seeds” (or give lists of labels).");
  }
  return told.join(" ");
}

/** Why a click on a cast is none of a point; "" where it may be. */
export function notThere({ point, tooth }, arch, about) {
  const { title, arch: own } = about.points.find((one) => one.point === point);
  const wanted = tooth === null ? own : about.arch_of[tooth];
  if (!wanted || wanted === arch) return "";
  const what = tooth === null ? `${title} lies on the ${wanted} cast` : `${tooth} is a tooth of the ${wanted} cast`;
  return `${what}, and the ${arch} cast was clicked. ${tooth === null ? "Show" : "Choose another tooth, or show"} the ${wanted} cast.`;
}

/** What to pick next: the first point that is wanted and missing, or what was picked last. */
export function nextTarget(points, about, last) {
  const has = (point, tooth) => points.some((one) => one.point === point && one.tooth === tooth && !one.proposed);
  const own = about.points.find(({ point }) => point === last.point);
  if (own?.several && !own.goes_on) return last;
  if (own?.of_tooth) {
    const from = about.teeth.indexOf(last.tooth);
    const tooth = about.teeth.slice(from + 1).find((code) => !has(last.point, code));
    return { point: last.point, tooth: tooth ?? last.tooth };
  }
  const way = about.ways.find((one) => one.points.includes(last.point));
  const next = way?.points.find((name) => !has(name, null));
  return next ? { point: next, tooth: null } : last;
}

/** Millimetres as they are shown. */
export function mmText(value) {
  return value.toFixed(2).replace("-", "−");
}
