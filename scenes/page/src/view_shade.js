/** How surfaces lie to the light: normals, and how hollow they are; as one where they share places. */

/**
 * @param {{positions: Float32Array, index: Uint32Array}[]} surfaces
 * @param {number[][]} shared a vertex of each that lie at one place, see `sharedPlaces`.
 * @returns {Int8Array[]} of each surface normals weighted by area, and mean curvature times 0.8 mm.
 */
export function shadesOf(surfaces, shared) {
  const sums = surfaces.map(({ positions, index }) => normalSums(positions, index));
  together(sums, shared, 3);
  const normals = sums.map(toUnit);
  const hollow = hollowness(surfaces, normals, shared);
  return surfaces.map((_, i) => shadeOf(normals[i], hollow[i]));
}

function shadeOf(normals, hollow) {
  const shade = new Int8Array(4 * hollow.length);
  for (let v = 0; v < hollow.length; v += 1) {
    shade[4 * v] = Math.round(127 * normals[3 * v]);
    shade[4 * v + 1] = Math.round(127 * normals[3 * v + 1]);
    shade[4 * v + 2] = Math.round(127 * normals[3 * v + 2]);
    shade[4 * v + 3] = Math.round(127 * Math.min(1, Math.max(-1, 0.8 * hollow[v])));
  }
  return shade;
}

/** @returns {Float32Array} unit normals, three a vertex. */
export const normalsOf = (positions, index) => toUnit(normalSums(positions, index));

/** Twice the areas of the triangles around every vertex, along their normals. */
function normalSums(positions, index) {
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
  return sum;
}

function toUnit(sum) {
  for (let v = 0; v < sum.length; v += 3) {
    const length = Math.hypot(sum[v], sum[v + 1], sum[v + 2]) || 1;
    sum[v] /= length;
    sum[v + 1] /= length;
    sum[v + 2] /= length;
  }
  return sum;
}

/** Add up what both say of a place they share, some values each, for both. */
function together([one, other], shared, each) {
  for (const [v, w] of shared) {
    for (let k = 0; k < each; k += 1) {
      const sum = one[each * v + k] + other[each * w + k];
      one[each * v + k] = sum;
      other[each * w + k] = sum;
    }
  }
}

/** Mean curvature along the edges that meet in a vertex, 1/mm, positive in a hollow; smoothed. */
function hollowness(surfaces, normals, shared) {
  const found = surfaces.map((surface, i) => bends(surface, normals[i]));
  together(found.map(({ bent }) => bent), shared, 1);
  together(found.map(({ lengths }) => lengths), shared, 1);
  let hollow = found.map(({ bent, lengths }) => bent.map((bend, v) => bend / (lengths[v] || 1)));
  for (let round = 0; round < 3; round += 1) hollow = smoothed(hollow, surfaces, shared);
  return hollow;
}

/** Of every vertex the bends along its edges, and the lengths of these. */
function bends({ positions: p, index }, n) {
  const bent = new Float32Array(p.length / 3);
  const lengths = new Float32Array(p.length / 3);
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
    bent[v] += bend / length;
    bent[w] += bend / length;
    lengths[v] += length;
    lengths[w] += length;
  });
  return { bent, lengths };
}

/** Values of the vertices of both surfaces, each evened out with those around it. */
export function smoothed(values, surfaces, shared) {
  const sums = values.map((own) => Float32Array.from(own));
  const counts = values.map((own) => new Float32Array(own.length).fill(1));
  surfaces.forEach(({ index }, i) => forEdges(index, (v, w) => {
    sums[i][v] += values[i][w];
    sums[i][w] += values[i][v];
    counts[i][v] += 1;
    counts[i][w] += 1;
  }));
  together(sums, shared, 1);
  together(counts, shared, 1);
  return sums.map((own, i) => own.map((sum, v) => sum / counts[i][v]));
}

/** Call with both ends of every side of every triangle. */
function forEdges(index, call) {
  for (let t = 0; t < index.length; t += 3) {
    call(index[t], index[t + 1]);
    call(index[t + 1], index[t + 2]);
    call(index[t + 2], index[t]);
  }
}
