/**
 * Which triangle a line meets first. Crowns are tried by the sphere around each; the triangles of a
 * crown are put into a tree of boxes when a line comes near it for the first time.
 */

const LEAF = 6;

/** A tree of boxes over some triangles of a surface. */
class BoxTree {
  /** @param {Uint32Array} triangles which ones; their order is changed. */
  constructor(positions, index, triangles) {
    this.positions = positions;
    this.index = index;
    this.order = triangles;
    const most = 4 * Math.ceil(triangles.length / LEAF) + 4;
    this.boxes = new Float32Array(6 * most);
    this.firsts = new Int32Array(most);
    this.counts = new Int32Array(most);
    this.seconds = new Int32Array(most);
    this.made = 0;
    this.#build(0, triangles.length);
  }

  #build(from, to) {
    const node = this.made;
    this.made += 1;
    const box = this.#box(from, to);
    this.boxes.set(box, 6 * node);
    if (to - from <= LEAF) {
      this.firsts[node] = from;
      this.counts[node] = to - from;
      return;
    }
    let axis = 0;
    for (let k = 1; k < 3; k += 1) {
      if (box[k + 3] - box[k] > box[axis + 3] - box[axis]) axis = k;
    }
    const middle = (from + to) >> 1;
    this.#part(from, to - 1, middle, axis);
    this.#build(from, middle);
    this.seconds[node] = this.made;
    this.#build(middle, to);
  }

  /** Bring the lower half of triangles before `middle`, by their middles along an axis. */
  #part(from, to, middle, axis) {
    const { order } = this;
    let low = from;
    let high = to;
    while (low < high) {
      const pivot = this.#along(order[(low + high) >> 1], axis);
      let i = low;
      let j = high;
      while (i <= j) {
        while (this.#along(order[i], axis) < pivot) i += 1;
        while (this.#along(order[j], axis) > pivot) j -= 1;
        if (i <= j) {
          [order[i], order[j]] = [order[j], order[i]];
          i += 1;
          j -= 1;
        }
      }
      if (middle <= j) high = j;
      else if (middle >= i) low = i;
      else return;
    }
  }

  #along(triangle, axis) {
    const { positions: p, index } = this;
    const at = 3 * triangle;
    return p[3 * index[at] + axis] + p[3 * index[at + 1] + axis] + p[3 * index[at + 2] + axis];
  }

  #box(from, to) {
    const box = [Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity];
    for (let row = from; row < to; row += 1) {
      for (let i = 0; i < 3; i += 1) {
        const vertex = 3 * this.index[3 * this.order[row] + i];
        for (let k = 0; k < 3; k += 1) {
          const value = this.positions[vertex + k];
          if (value < box[k]) box[k] = value;
          if (value > box[k + 3]) box[k + 3] = value;
        }
      }
    }
    return box;
  }

  /** Improve `best` by what a line meets between `least` and best.t. */
  cast(origin, towards, least, best) {
    const back = towards.map((d) => 1 / (Math.abs(d) < 1e-12 ? 1e-12 : d));
    const stack = [0];
    while (stack.length > 0) {
      const node = stack.pop();
      if (!this.#meets(node, origin, back, least, best.t)) continue;
      const count = this.counts[node];
      if (count === 0) {
        stack.push(this.seconds[node], node + 1);
        continue;
      }
      for (let row = this.firsts[node]; row < this.firsts[node] + count; row += 1) {
        meetTriangle(this.positions, this.index, this.order[row], origin, towards, least, best);
      }
    }
  }

  #meets(node, origin, back, least, most) {
    let from = least;
    let to = most;
    for (let k = 0; k < 3; k += 1) {
      const a = (this.boxes[6 * node + k] - origin[k]) * back[k];
      const b = (this.boxes[6 * node + k + 3] - origin[k]) * back[k];
      from = Math.max(from, Math.min(a, b));
      to = Math.min(to, Math.max(a, b));
    }
    return from <= to;
  }
}

/** Where a line meets a triangle, from either side. */
function meetTriangle(p, index, triangle, o, d, least, best) {
  const a = 3 * index[3 * triangle];
  const b = 3 * index[3 * triangle + 1];
  const c = 3 * index[3 * triangle + 2];
  const e1x = p[b] - p[a];
  const e1y = p[b + 1] - p[a + 1];
  const e1z = p[b + 2] - p[a + 2];
  const e2x = p[c] - p[a];
  const e2y = p[c + 1] - p[a + 1];
  const e2z = p[c + 2] - p[a + 2];
  const px = d[1] * e2z - d[2] * e2y;
  const py = d[2] * e2x - d[0] * e2z;
  const pz = d[0] * e2y - d[1] * e2x;
  const determinant = e1x * px + e1y * py + e1z * pz;
  if (Math.abs(determinant) < 1e-14) return;
  const sx = o[0] - p[a];
  const sy = o[1] - p[a + 1];
  const sz = o[2] - p[a + 2];
  const u = (sx * px + sy * py + sz * pz) / determinant;
  if (u < -1e-7 || u > 1 + 1e-7) return;
  const qx = sy * e1z - sz * e1y;
  const qy = sz * e1x - sx * e1z;
  const qz = sx * e1y - sy * e1x;
  const v = (d[0] * qx + d[1] * qy + d[2] * qz) / determinant;
  if (v < -1e-7 || u + v > 1 + 1e-7) return;
  const t = (e2x * qx + e2y * qy + e2z * qz) / determinant;
  if (t < least || t >= best.t) return;
  best.t = t;
  best.triangle = triangle;
  best.u = u;
  best.v = v;
}

/** Triangles of one surface, by crown. */
export class Picker {
  /** @param {{positions: Float32Array, index: Uint32Array, tooth: Uint8Array}} surface */
  constructor(surface) {
    this.surface = surface;
    this.crowns = [...byTooth(surface)].map(([tooth, triangles]) => ({
      tooth,
      triangles: Uint32Array.from(triangles),
      tree: null,
      ...sphereOf(surface, triangles),
    }));
  }

  /**
   * Find what a line meets first.
   *
   * @param {number[]} origin mm. @param {number[]} towards unit. @param {number} least mm.
   * @param {number} except tooth that is left out.
   * @returns {{t: number, triangle: number, u: number, v: number}|null}
   */
  cast(origin, towards, least = -Infinity, except = -1) {
    const best = { t: Infinity, triangle: -1, u: 0, v: 0 };
    const { positions, index } = this.surface;
    for (const crown of this.crowns) {
      if (crown.tooth === except) continue;
      const [x, y, z] = [0, 1, 2].map((k) => crown.middle[k] - origin[k]);
      const along = x * towards[0] + y * towards[1] + z * towards[2];
      if (x * x + y * y + z * z - along * along > crown.radius * crown.radius) continue;
      if (along + crown.radius < least || along - crown.radius > best.t) continue;
      crown.tree ??= new BoxTree(positions, index, crown.triangles);
      crown.tree.cast(origin, towards, least, best);
    }
    return best.triangle < 0 ? null : best;
  }
}

function byTooth({ index, tooth }) {
  const crowns = new Map();
  for (let triangle = 0; triangle < index.length / 3; triangle += 1) {
    const code = tooth[index[3 * triangle]];
    if (!crowns.has(code)) crowns.set(code, []);
    crowns.get(code).push(triangle);
  }
  return crowns;
}

function sphereOf({ positions, index }, triangles) {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  const corners = (call) => {
    for (const triangle of triangles) {
      for (let i = 0; i < 3; i += 1) call(3 * index[3 * triangle + i]);
    }
  };
  corners((at) => {
    for (let k = 0; k < 3; k += 1) {
      low[k] = Math.min(low[k], positions[at + k]);
      high[k] = Math.max(high[k], positions[at + k]);
    }
  });
  const middle = [0, 1, 2].map((k) => 0.5 * (low[k] + high[k]));
  let square = 0;
  corners((at) => {
    const [x, y, z] = [0, 1, 2].map((k) => positions[at + k] - middle[k]);
    square = Math.max(square, x * x + y * y + z * z);
  });
  return { low, high, middle, radius: Math.sqrt(square) };
}

/**
 * Gap at a point inside a triangle, mm, between its corners; null where a corner is farther than
 * the map goes.
 */
export function gapAt(gaps, index, hit, limitMm) {
  const values = [0, 1, 2].map((i) => gaps[index[3 * hit.triangle + i]]);
  if (values.includes(65535)) return null;
  const [a, b, c] = values;
  return ((a + hit.u * (b - a) + hit.v * (c - a)) * limitMm) / 65534;
}

/**
 * What a hit on a surface of teeth tells: arch, tooth, its name, place on it, and the gap there;
 * null where no map is shown.
 */
export function toldOf({ arch, surface, hit }, teeth, gaps, limitMm) {
  const corner = cornerAt(surface.index, hit);
  const tooth = surface.tooth[corner];
  return {
    arch,
    tooth,
    name: teeth.names[tooth] ?? "",
    place: teeth.places[surface.place[corner]] ?? "",
    gap_mm: gaps && gapAt(gaps, surface.index, hit, limitMm),
    farther_than_mm: limitMm,
  };
}

/** The corner of a triangle that is nearest to a point inside it. */
export function cornerAt(index, hit) {
  const shares = [1 - hit.u - hit.v, hit.u, hit.v];
  return index[3 * hit.triangle + shares.indexOf(Math.max(...shares))];
}
