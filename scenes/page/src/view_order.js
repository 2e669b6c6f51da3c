/**
 * Triangles in an order in which each shares its corners with those just before it, and vertices in
 * the order of their first use: drawing then works out most vertices once only. It follows the
 * method of Sander, Nehab and Barczak, ACM Transactions on Graphics 2007; 26(3): 89.
 */

/** So many vertices are kept by what draws. */
const KEPT = 16;

/**
 * @param {Uint32Array} index three vertices a triangle.
 * @param {number} count of vertices.
 * @returns {{index: Uint32Array, order: Uint32Array}} the same triangles with new numbers of
 *   vertices; order[new number] is the old one.
 */
export function reordered(index, count) {
  const triangles = nearTriangles(index, count);
  const numbers = new Int32Array(count).fill(-1);
  const order = new Uint32Array(count);
  const ordered = new Uint32Array(index.length);
  let next = 0;
  const number = (vertex) => {
    if (numbers[vertex] < 0) {
      numbers[vertex] = next;
      order[next] = vertex;
      next += 1;
    }
    return numbers[vertex];
  };
  triangles.forEach((triangle, row) => {
    for (let k = 0; k < 3; k += 1) ordered[3 * row + k] = number(index[3 * triangle + k]);
  });
  for (let vertex = 0; vertex < count; vertex += 1) number(vertex);
  return { index: ordered, order };
}

/** Triangles around one vertex after the other, each next one among those just used. */
function nearTriangles(index, count) {
  const { starts, around } = trianglesOfVertices(index, count);
  const open = new Int32Array(count);
  for (let v = 0; v < count; v += 1) open[v] = starts[v + 1] - starts[v];
  const used = new Int32Array(count);
  const done = new Uint8Array(index.length / 3);
  const order = new Uint32Array(index.length / 3);
  const stack = new Uint32Array(index.length);
  let stacked = 0;
  let placed = 0;
  let time = KEPT + 1;
  let cursor = 0;
  let fan = 0;
  while (fan >= 0) {
    const first = stacked;
    for (let at = starts[fan]; at < starts[fan + 1]; at += 1) {
      const triangle = around[at];
      if (done[triangle]) continue;
      done[triangle] = 1;
      order[placed] = triangle;
      placed += 1;
      for (let k = 0; k < 3; k += 1) {
        const vertex = index[3 * triangle + k];
        stack[stacked] = vertex;
        stacked += 1;
        open[vertex] -= 1;
        if (time - used[vertex] > KEPT) {
          used[vertex] = time;
          time += 1;
        }
      }
    }
    fan = bestOf(stack, first, stacked, open, used, time);
    while (fan < 0 && stacked > 0) {
      stacked -= 1;
      if (open[stack[stacked]] > 0) fan = stack[stacked];
    }
    while (fan < 0 && cursor < count) {
      if (open[cursor] > 0) fan = cursor;
      else cursor += 1;
    }
  }
  return order;
}

/** The vertex that is kept longest among those whose triangles can all be drawn meanwhile. */
function bestOf(stack, first, end, open, used, time) {
  let best = -1;
  let most = -1;
  for (let i = first; i < end; i += 1) {
    const vertex = stack[i];
    if (open[vertex] === 0) continue;
    const age = time - used[vertex];
    const worth = age + 2 * open[vertex] <= KEPT ? age : 0;
    if (worth > most) {
      most = worth;
      best = vertex;
    }
  }
  return best;
}

function trianglesOfVertices(index, count) {
  const starts = new Uint32Array(count + 1);
  for (const vertex of index) starts[vertex + 1] += 1;
  for (let v = 0; v < count; v += 1) starts[v + 1] += starts[v];
  const next = starts.slice(0, count);
  const around = new Uint32Array(index.length);
  for (let i = 0; i < index.length; i += 1) {
    around[next[index[i]]] = Math.floor(i / 3);
    next[index[i]] += 1;
  }
  return { starts, around };
}

/**
 * Whether triangles enclose a body with their fronts outside, so that no back is ever seen.
 *
 * On such a body every side is run through as often one way as the other. Instead of a list of
 * sides a sum of their hashes is kept, with a sign for the way: it comes out as nothing.
 * Corners at the same place count as one vertex.
 */
export function encloses(positions, index) {
  if (index.length === 0) return false;
  const hashes = placeHashes(positions);
  let sum = 0;
  let volume = 0;
  for (let t = 0; t < index.length; t += 3) {
    for (let k = 0; k < 3; k += 1) {
      const from = hashes[index[t + k]];
      const to = hashes[index[t + ((k + 1) % 3)]];
      if (from < to) sum = (sum + sideHash(from, to)) | 0;
      else if (to < from) sum = (sum - sideHash(to, from)) | 0;
    }
    volume += sixVolumes(positions, 3 * index[t], 3 * index[t + 1], 3 * index[t + 2]);
  }
  return sum === 0 && volume > 0;
}

/** @returns {Int32Array} a number for each place; equal for equal ones, seldom else. */
export function placeHashes(positions) {
  const bits = new Int32Array(Float32Array.from(positions, (x) => x + 0).buffer);
  const hashes = new Int32Array(positions.length / 3);
  for (let v = 0; v < hashes.length; v += 1) {
    const twice = sideHash(bits[3 * v], bits[3 * v + 1]);
    hashes[v] = sideHash(twice, bits[3 * v + 2]);
  }
  return hashes;
}

/** Two whole numbers mixed to one. */
function sideHash(a, b) {
  let mixed = Math.imul(a ^ (a >>> 15), 0x2c1b3c6d) ^ Math.imul(b ^ (b >>> 13), 0x297a2d39);
  mixed = Math.imul(mixed ^ (mixed >>> 16), 0x45d9f3b);
  return mixed ^ (mixed >>> 15);
}

function sixVolumes(p, a, b, c) {
  return (
    p[a] * (p[b + 1] * p[c + 2] - p[b + 2] * p[c + 1]) +
    p[a + 1] * (p[b + 2] * p[c] - p[b] * p[c + 2]) +
    p[a + 2] * (p[b] * p[c + 1] - p[b + 1] * p[c])
  );
}
