/** What is drawn of an arch: all its crowns in one list of triangles, all around them in another. */

import { colourMargins, sharedPlaces } from "./view_margins.js";
import { encloses, reordered } from "./view_order.js";
import { shadesOf } from "./view_shade.js";

const TOOTH_ROLES = new Set(["upper tooth", "lower tooth", "replacement tooth", "next tooth", "doubtful"]);
/** Role of what is no part of the casts: teeth as they were before they were changed on trial. */
const BEFORE = "before";
export const FAR = 65535;

/**
 * @typedef {object} Surface
 * @property {Float32Array} positions mm, hinge frame in MI, three a vertex.
 * @property {Uint32Array} index three vertices a triangle.
 * @property {Int8Array} shade normal and hollowness, four a vertex, -127 to 127.
 * @property {Uint8Array} colours red, green, blue, 255 of the role, four a vertex.
 * @property {Uint8Array} tooth ISO number of each vertex, 0 for none.
 * @property {Uint8Array} place index of the place in words of each vertex.
 * @property {Uint32Array} order number in the message of each vertex.
 * @property {boolean} closed whether its backs are never seen.
 */

const ARCHES = ["upper", "lower"];

/**
 * Join the parts of both arches; one that is the same as before is not joined again.
 *
 * @param {object} header of the message "teeth". @param {object} buffers of the message.
 * @param {Object<string, string>} roles colour of each role, "#rrggbb".
 * @param {object|null} last what this returned for the message before.
 * @returns {object} by arch, see `joinArch`; and the message, for the next time.
 */
export function joinCasts(header, buffers, roles, last) {
  const casts = { header, buffers };
  for (const arch of ARCHES) {
    casts[arch] = last && sameArch(arch, casts, last) ? last[arch] : joinArch(header, buffers, arch, roles);
  }
  return casts;
}

/** Whether two messages say the same of an arch, to the bit. */
function sameArch(arch, ...messages) {
  const [now, last] = messages.map(({ header }) => header.parts.filter((part) => part.arch === arch));
  const words = messages.map(({ header }) => JSON.stringify(header.places));
  return words[0] === words[1] && now.length === last.length && now.every((part, i) =>
    part.role === last[i].role && ["vertices", "faces", "tooth", "place"].every((name) => {
      const [one, other] = [part, last[i]].map((from, k) => messages[k].buffers[from[name]]);
      return one === other || Boolean(one && other && one.length === other.length && one.every((value, v) => value === other[v]));
    }));
}

/**
 * Join the parts of one arch.
 *
 * @param {object} header of the message "teeth".
 * @param {object} buffers of the message.
 * @param {"upper"|"lower"} arch
 * @param {Object<string, string>} roles colour of each role, "#rrggbb".
 * @returns {{teeth: Surface, around: Surface, before: Surface|null}} the crowns, the rest, and
 *   changed teeth as they were.
 */
export function joinArch(header, buffers, arch, roles) {
  const parts = header.parts.filter((part) => part.arch === arch && part.role !== BEFORE);
  const isTooth = (part) => TOOTH_ROLES.has(part.role) && !part.around_teeth;
  const both = [isTooth, (part) => !isTooth(part)].map((kind) => join(parts.filter(kind), buffers, roles));
  const shared = sharedPlaces(...both);
  shadesOf(both, shared).forEach((shade, i) => { both[i].shade = shade; });
  colourMargins(both, shared, rgb(roles[`${arch} tooth`]), rgb(roles.gum));
  const [teeth, around] = both;
  return { teeth, around, before: before(header, buffers, arch, roles) };
}

/** Changed teeth of an arch as they were; null: there are none. */
function before(header, buffers, arch, roles) {
  const parts = header.parts.filter((part) => part.arch === arch && part.role === BEFORE);
  if (parts.length === 0) return null;
  const surface = join(parts, buffers, { ...roles, [BEFORE]: roles[`${arch} tooth`] });
  [surface.shade] = shadesOf([surface], []);
  return surface;
}

function join(parts, buffers, roles) {
  const total = (name) => parts.reduce((sum, part) => sum + buffers[part[name]].length, 0);
  const positions = new Float32Array(total("vertices"));
  const faces = new Uint32Array(total("faces"));
  const colours = new Uint8Array((4 * positions.length) / 3);
  const tooth = new Uint8Array(positions.length / 3);
  const place = new Uint8Array(positions.length / 3);
  let first = 0;
  let filled = 0;
  for (const part of parts) {
    positions.set(buffers[part.vertices], 3 * first);
    for (const vertex of buffers[part.faces]) {
      faces[filled] = vertex + first;
      filled += 1;
    }
    if (part.tooth) tooth.set(buffers[part.tooth], first);
    if (part.place) place.set(buffers[part.place], first);
    const last = first + buffers[part.vertices].length / 3;
    const colour = [...rgb(roles[part.role]), 255];
    for (let v = first; v < last; v += 1) colours.set(colour, 4 * v);
    first = last;
  }
  const { index, order } = reordered(faces, first);
  const moved = { positions: inOrder(positions, order, 3), index };
  return {
    ...moved,
    order,
    colours: inOrder(colours, order, 4),
    tooth: inOrder(tooth, order, 1),
    place: inOrder(place, order, 1),
    closed: encloses(moved.positions, index),
  };
}

/** The values of vertices, some a vertex, in another order. */
function inOrder(values, order, each) {
  const moved = new values.constructor(values.length);
  for (let v = 0; v < order.length; v += 1) {
    for (let k = 0; k < each; k += 1) moved[each * v + k] = values[each * order[v] + k];
  }
  return moved;
}

/** @returns {number[]} red, green, blue, 0 to 255, of "#rrggbb". */
export function rgb(colour) {
  const value = Number.parseInt(colour.slice(1), 16);
  return [(value >> 16) & 255, (value >> 8) & 255, value & 255];
}

/** Lowest and highest corner of a surface. */
export function boxOf({ positions }) {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < positions.length; i += 1) {
    const k = i % 3;
    if (positions[i] < low[k]) low[k] = positions[i];
    if (positions[i] > high[k]) high[k] = positions[i];
  }
  return { low, high };
}

/** Views show so much around the crowns, mm. */
const AROUND_MM = 5;

/** Corners of the box around crowns, with room for their necks and numbers. */
export function cornersOf({ low, high }) {
  const pick = (i, k) => (i & (1 << k) ? high[k] + AROUND_MM : low[k] - AROUND_MM);
  return Array.from({ length: 8 }, (_, i) => [pick(i, 0), pick(i, 1), pick(i, 2)]);
}
