/**
 * Fewer triangles for a surface in motion: vertices that lie together in a small cube become one of
 * them, and triangles that shrink to nothing are left out. The rim of an open surface is kept, so
 * that it goes on fitting to its neighbours.
 */

/**
 * @param {Float32Array} positions mm, three a vertex.
 * @param {Uint32Array} index three vertices a triangle.
 * @param {Int8Array} shade normals, four numbers a vertex: vertices of the two sides of a thin wall
 *   face different ways, and stay apart.
 * @param {number} cubeMm side of the cubes.
 * @returns {Uint32Array} fewer triangles of the same vertices.
 */
export function coarser(positions, index, shade, cubeMm) {
  const kept = keptVertices(positions, onRim(positions.length / 3, index), shade, cubeMm);
  const coarse = new Uint32Array(index.length);
  let filled = 0;
  for (let t = 0; t < index.length; t += 3) {
    const a = kept[index[t]];
    const b = kept[index[t + 1]];
    const c = kept[index[t + 2]];
    if (a === b || b === c || c === a) continue;
    coarse[filled] = a;
    coarse[filled + 1] = b;
    coarse[filled + 2] = c;
    filled += 3;
  }
  return coarse.slice(0, filled);
}

/** Which vertices lie on a rim: inside a surface, every neighbour is once the next and once the last. */
function onRim(count, index) {
  const sums = new Int32Array(count);
  for (let t = 0; t < index.length; t += 3) {
    for (let k = 0; k < 3; k += 1) {
      const from = index[t + k];
      const to = index[t + ((k + 1) % 3)];
      sums[from] = (sums[from] + Math.imul(to + 1, 0x9e3779b1)) | 0;
      sums[to] = (sums[to] - Math.imul(from + 1, 0x9e3779b1)) | 0;
    }
  }
  return sums;
}

/** Which of the eight corners of a cube a normal points to. */
function facing(shade, v) {
  return (shade[4 * v] > 0 ? 4 : 0) + (shade[4 * v + 1] > 0 ? 2 : 0) + (shade[4 * v + 2] > 0 ? 1 : 0);
}

/** Which vertex stands for each: the one nearest to the middle of those in its cube. */
function keptVertices(positions, rim, shade, cubeMm) {
  const count = positions.length / 3;
  const cubes = new Map();
  const cubeOf = new Int32Array(count).fill(-1);
  const sums = [];
  for (let v = 0; v < count; v += 1) {
    if (rim[v] !== 0) continue;
    const [i, j, k] = [0, 1, 2].map((axis) => Math.floor(positions[3 * v + axis] / cubeMm) + 2048);
    const key = ((i * 4096 + j) * 4096 + k) * 8 + facing(shade, v);
    if (!cubes.has(key)) {
      cubes.set(key, sums.length / 4);
      sums.push(0, 0, 0, 0);
    }
    const cube = cubes.get(key);
    cubeOf[v] = cube;
    for (let axis = 0; axis < 3; axis += 1) sums[4 * cube + axis] += positions[3 * v + axis];
    sums[4 * cube + 3] += 1;
  }
  const best = new Int32Array(sums.length / 4).fill(-1);
  const nearest = new Float64Array(sums.length / 4).fill(Infinity);
  for (let v = 0; v < count; v += 1) {
    const cube = cubeOf[v];
    if (cube < 0) continue;
    let square = 0;
    for (let axis = 0; axis < 3; axis += 1) {
      square += (positions[3 * v + axis] - sums[4 * cube + axis] / sums[4 * cube + 3]) ** 2;
    }
    if (square < nearest[cube]) {
      nearest[cube] = square;
      best[cube] = v;
    }
  }
  return Uint32Array.from(cubeOf, (cube, v) => (cube < 0 ? v : best[cube]));
}
