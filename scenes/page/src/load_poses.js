/** Loads pose by pose: which of the poses that were computed is the one shown. Needs no browser. */

/** A pose that was computed counts for travels so near to it, mm: half of the step of excursions. */
const NEAR_MM = 0.0505;

/**
 * @param {object} study @param {object} state
 * @returns {{excursion: object, i: number}|null} the excursion of the message about loads, and which
 *   of its poses; null where none was computed near what is shown.
 */
export function loadPose(study, state) {
  const { freshLoads: loads } = study;
  if (!loads || state.opening_mm > 0) return null;
  const excursion = loads.header.excursions.find(
    ({ movement, start }) => movement === state.movement && start === state.start);
  if (!excursion || excursion.travel_mm.length === 0) return null;
  const apart = excursion.travel_mm.map((mm) => Math.abs(mm - state.travel_mm));
  const i = apart.indexOf(Math.min(...apart));
  return apart[i] <= NEAR_MM ? { excursion, i } : null;
}

/**
 * @param {object} study @param {object} state
 * @returns {{key: string, teeth: import("./view_forces.js").Force[]}|null} forces on replacement
 *   teeth and abutments where the jaw is shown.
 */
export function forcesAt(study, state) {
  const found = loadPose(study, state);
  if (!found) return null;
  const { excursion, i } = found;
  const { buffers, header } = study.freshLoads;
  const vectors = (name, count) => (k) => Array.from(buffers[name].subarray(3 * (i * count + k), 3 * (i * count + k) + 3));
  const teeth = excursion.frames.flatMap((frame) => {
    const count = { t: frame.teeth.length, a: frame.abutments.length };
    const place = vectors(frame.place_mm, count.t);
    const [along, across] = [frame.teeth_along_n, frame.teeth_across_n].map((name) => vectors(name, count.t));
    const [onAlong, onAcross] = [frame.abutments_along_n, frame.abutments_across_n].map((name) => vectors(name, count.a));
    return [
      ...frame.teeth.map((tooth, k) => ({ tooth, place: place(k), along: along(k), across: across(k) })),
      ...frame.abutments.map((tooth, k) => ({ tooth, place: null, along: onAlong(k), across: onAcross(k) })),
    ];
  });
  return { key: `${header.number} ${excursion.movement} ${excursion.start} ${i}`, teeth };
}
