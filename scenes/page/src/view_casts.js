/** What is drawn of an arch: all its crowns in one list of triangles, all around them in another. */

import { encloses, reordered } from "./view_order.js";

const TOOTH_ROLES = new Set(["upper tooth", "lower tooth", "replacement tooth"]);
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

/**
 * Join the parts of one arch.
 *
 * @param {object} header of the message "teeth".
 * @param {object} buffers of the message.
 * @param {"upper"|"lower"} arch
 * @param {Object<string, string>} roles colour of each role, "#rrggbb".
 * @returns {{teeth: Surface, around: Surface}} the crowns and the rest.
 */
export function joinArch(header, buffers, arch, roles) {
  const parts = header.parts.filter((part) => part.arch === arch);
  const isTooth = (part) => TOOTH_ROLES.has(part.role) && !part.around_teeth;
  return {
    teeth: join(parts.filter(isTooth), buffers, roles),
    around: join(parts.filter((part) => !isTooth(part)), buffers, roles),
  };
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
    shade: shadeOf(moved.positions, index),
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

/** Normals weighted by area, and how hollow the surface is, mean curvature times 0.8 mm. */
function shadeOf(positions, index) {
  const normals = normalsOf(positions, index);
  const hollow = hollowness(positions, index, normals);
  const shade = new Int8Array((4 * positions.length) / 3);
  for (let v = 0; v < hollow.length; v += 1) {
    shade[4 * v] = Math.round(127 * normals[3 * v]);
    shade[4 * v + 1] = Math.round(127 * normals[3 * v + 1]);
    shade[4 * v + 2] = Math.round(127 * normals[3 * v + 2]);
    shade[4 * v + 3] = Math.round(127 * Math.min(1, Math.max(-1, 0.8 * hollow[v])));
  }
  return shade;
}

/** @returns {Float32Array} unit normals, three a vertex. */
export function normalsOf(positions, index) {
  const p = positions;
  const sum = new Float32Array(positions.length);
  for (let t = 0; t < index.length; t += 3) {
    const a = 3 * index[t];
    const b = 3 * index[t + 1];
    const c = 3 * index[t + 2];
    const ux = p[b] - p[a];
    const uy = p[b + 1] - p[a + 1];
    const uz = p[b + 2] - p[a + 2];
    const vx = p[c] - p[a];
    const vy = p[c + 1] - p[a + 1];
    const vz = p[c + 2] - p[a + 2];
    const nx = uy * vz - uz * vy;
    const ny = uz * vx - ux * vz;
    const nz = ux * vy - uy * vx;
    for (const corner of [a, b, c]) {
      sum[corner] += nx;
      sum[corner + 1] += ny;
      sum[corner + 2] += nz;
    }
  }
  for (let v = 0; v < sum.length; v += 3) {
    const length = Math.hypot(sum[v], sum[v + 1], sum[v + 2]) || 1;
    sum[v] /= length;
    sum[v + 1] /= length;
    sum[v + 2] /= length;
  }
  return sum;
}

/** Mean curvature along the edges that meet in a vertex, 1/mm, positive in a hollow; smoothed. */
function hollowness(positions, index, normals) {
  const count = positions.length / 3;
  const weights = new Float32Array(count);
  let hollow = new Float32Array(count);
  const p = positions;
  const n = normals;
  forEdges(index, (v, w) => {
    const a = 3 * v;
    const b = 3 * w;
    const x = p[b] - p[a];
    const y = p[b + 1] - p[a + 1];
    const z = p[b + 2] - p[a + 2];
    const square = x * x + y * y + z * z;
    if (square < 1e-8) return;
    const length = Math.sqrt(square);
    const bend = (n[a] - n[b]) * x + (n[a + 1] - n[b + 1]) * y + (n[a + 2] - n[b + 2]) * z;
    hollow[v] += bend / length;
    hollow[w] += bend / length;
    weights[v] += length;
    weights[w] += length;
  });
  for (let v = 0; v < count; v += 1) hollow[v] /= weights[v] || 1;
  return smoothed(smoothed(smoothed(hollow, index), index), index);
}

function smoothed(values, index) {
  const sums = Float32Array.from(values);
  const counts = new Float32Array(values.length).fill(1);
  forEdges(index, (v, w) => {
    sums[v] += values[w];
    sums[w] += values[v];
    counts[v] += 1;
    counts[w] += 1;
  });
  return sums.map((sum, v) => sum / counts[v]);
}

/** Call with both ends of every side of every triangle. */
function forEdges(index, call) {
  for (let t = 0; t < index.length; t += 3) {
    call(index[t], index[t + 1]);
    call(index[t + 1], index[t + 2]);
    call(index[t + 2], index[t]);
  }
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
