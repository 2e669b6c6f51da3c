/** Vectors as arrays of three, rigid motions as 16 numbers, row by row. */

/** @returns {number} */
export const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** @returns {number[]} */
export const cross = (a, b) => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** @returns {number[]} a + s b */
export const plus = (a, b, s = 1) => [a[0] + s * b[0], a[1] + s * b[1], a[2] + s * b[2]];

/** @returns {number[]} */
export function unit(a) {
  const length = Math.hypot(a[0], a[1], a[2]) || 1;
  return [a[0] / length, a[1] / length, a[2] / length];
}

/** Turn a vector about a unit axis. */
export function turned(a, axis, angleRad) {
  const c = Math.cos(angleRad);
  const s = Math.sin(angleRad);
  const along = (1 - c) * dot(axis, a);
  const beside = cross(axis, a);
  return [0, 1, 2].map((i) => c * a[i] + s * beside[i] + along * axis[i]);
}

export const STILL = Float32Array.from([1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1]);

/** Move a point by a rigid motion. */
export const movePoint = (m, p) => [
  m[0] * p[0] + m[1] * p[1] + m[2] * p[2] + m[3],
  m[4] * p[0] + m[5] * p[1] + m[6] * p[2] + m[7],
  m[8] * p[0] + m[9] * p[1] + m[10] * p[2] + m[11],
];

/** Move a point back: the inverse of a rigid motion. */
export function movePointBack(m, p) {
  const x = p[0] - m[3];
  const y = p[1] - m[7];
  const z = p[2] - m[11];
  return [
    m[0] * x + m[4] * y + m[8] * z,
    m[1] * x + m[5] * y + m[9] * z,
    m[2] * x + m[6] * y + m[10] * z,
  ];
}

/** Turn a direction back by a rigid motion. */
export const turnBack = (m, d) => [
  m[0] * d[0] + m[4] * d[1] + m[8] * d[2],
  m[1] * d[0] + m[5] * d[1] + m[9] * d[2],
  m[2] * d[0] + m[6] * d[1] + m[10] * d[2],
];
