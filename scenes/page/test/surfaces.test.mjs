import assert from "node:assert/strict";
import { test } from "node:test";

import { joinArch } from "../src/view_casts.js";
import { coarser } from "../src/view_coarse.js";
import { placesOnLower } from "../src/view_model.js";
import { encloses, reordered } from "../src/view_order.js";
import { normalsOf } from "../src/view_shade.js";
import { ball, joined } from "./examples.mjs";

const sorted = (triangles) => triangles.map((one) => one.join(" ")).sort();
/** Triangles as three places each, begun at the least so that only the way round counts. */
function places({ positions, index }) {
  const found = [];
  for (let t = 0; t < index.length; t += 3) {
    const corners = [0, 1, 2].map((k) => [...positions.slice(3 * index[t + k], 3 * index[t + k] + 3)].join(","));
    const first = corners.indexOf([...corners].sort()[0]);
    found.push([0, 1, 2].map((k) => corners[(first + k) % 3]));
  }
  return sorted(found);
}

test("another order keeps every triangle, and shares far more of the vertices just used", () => {
  const plain = joined([ball([0, 0, 0], 4, 40), ball([9, 0, 0], 4, 40)]);
  const shuffled = new Uint32Array(plain.index.length);
  const count = plain.index.length / 3;
  for (let i = 0; i < count; i += 1) {
    const from = (i * 7919) % count;
    shuffled.set(plain.index.subarray(3 * from, 3 * from + 3), 3 * i);
  }
  const { index, order } = reordered(shuffled, plain.positions.length / 3);
  const positions = new Float32Array(plain.positions.length);
  order.forEach((old, v) => positions.set(plain.positions.subarray(3 * old, 3 * old + 3), 3 * v));
  assert.deepEqual(places({ positions, index }), places(plain));
  assert.ok(missed(index) < 0.75 * count, `${missed(index)} of ${count}`);
  assert.ok(missed(shuffled) > 2 * count);
});

/** How many vertices have to be worked out where the last sixteen are kept. */
function missed(index) {
  const kept = [];
  let count = 0;
  for (const vertex of index) {
    if (kept.includes(vertex)) continue;
    count += 1;
    kept.push(vertex);
    if (kept.length > 16) kept.shift();
  }
  return count;
}

test("a body is known by its closed surface with the fronts outside", () => {
  const { positions, index } = joined([ball([3, 1, 2], 2), ball([9, 1, 2], 1)]);
  assert.ok(encloses(positions, index));
  assert.ok(!encloses(positions, index.slice(3)), "a hole");
  assert.ok(!encloses(positions, index.toReversed ? index.toReversed() : index.slice().reverse()), "inside out");
  const turned = index.slice();
  [turned[0], turned[1]] = [turned[1], turned[0]];
  assert.ok(!encloses(positions, turned), "one triangle turned over");
  assert.ok(!encloses(new Float32Array(0), new Uint32Array(0)));
});

test("normals of a ball point away from its middle", () => {
  const { positions, index } = ball([0, 0, 0], 1, 24);
  const normals = normalsOf(positions, index);
  for (const vertex of index) {
    const at = 3 * vertex;
    const along = [0, 1, 2].reduce((sum, k) => sum + normals[at + k] * positions[at + k], 0);
    assert.ok(along > 0.98);
  }
});

test("crowns and what is around them are parted, and each vertex keeps its tooth and colour", () => {
  const one = ball([0, 0, 0], 4);
  const two = ball([9, 0, 0], 4);
  const three = ball([18, 0, 0], 4);
  const part = (role, arch, around, n, tooth) => ({
    role, arch, around_teeth: around, vertices: `v${n}`, faces: `f${n}`, tooth, place: null,
  });
  const parts = [
    part("lower tooth", "lower", false, 0, "t0"),
    part("gum", "lower", true, 2, null),
    part("replacement tooth", "lower", false, 1, "t1"),
    part("upper tooth", "upper", false, 1, null),
  ];
  const buffers = {
    v0: one.positions, f0: one.index, t0: new Uint8Array(one.positions.length / 3).fill(46),
    v1: two.positions, f1: two.index, t1: new Uint8Array(two.positions.length / 3).fill(47),
    v2: three.positions, f2: three.index,
  };
  const roles = { "lower tooth": "#102030", "replacement tooth": "#405060", gum: "#708090", "upper tooth": "#ffffff" };
  const { teeth, around } = joinArch({ parts }, buffers, "lower", roles);
  assert.deepEqual([around.index.length, around.closed], [three.index.length, true]);
  assert.equal(teeth.index.length, one.index.length + two.index.length);
  const half = one.positions.length / 3;
  teeth.order.forEach((old, v) => {
    assert.equal(teeth.tooth[v], old < half ? 46 : 47);
    assert.equal(teeth.colours[4 * v], old < half ? 0x10 : 0x40);
    const from = old < half ? one.positions : two.positions;
    assert.equal(teeth.positions[3 * v], from[3 * (old % half)]);
  });
});

test("contacts are carried onto the lower by the pose of each", () => {
  const still = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1];
  const shifted = [1, 0, 0, 5, 0, 1, 0, -2, 0, 0, 1, 1, 0, 0, 0, 1];
  const carried = placesOnLower(
    Float32Array.from([1, 2, 3, 1, 2, 3]), [1, 0], Float32Array.from([...still, ...shifted]),
  );
  assert.deepEqual([...carried], [-4, 4, 2, 1, 2, 3]);
});

test("a surface with fewer triangles stays closed, and a rim stays as it is", () => {
  const { positions, index } = ball([0, 0, 0], 5, 60);
  const shade = outward(positions);
  const fewer = coarser(positions, index, shade, 1);
  assert.ok(fewer.length < 0.3 * index.length && fewer.length > 0.02 * index.length);
  assert.ok(encloses(positions, fewer));
  const capless = index.slice(0, 3 * 4000);
  assert.deepEqual(rimOf(coarser(positions, capless, shade, 1)), rimOf(capless));
  assert.ok(rimOf(capless).length > 50);
  assert.deepEqual(coarser(positions, index, shade, 1e-3).length, index.length);
});

test("the two sides of a thin wall are not drawn into one", () => {
  const sheet = (z, up) => Array.from({ length: 400 }, (_, i) => [(i % 20) * 0.3, Math.floor(i / 20) * 0.3, z, up]);
  const vertices = [...sheet(0, -100), ...sheet(0.2, 100)];
  const positions = Float32Array.from(vertices.flatMap(([x, y, z]) => [x, y, z]));
  const shade = Int8Array.from(vertices.flatMap(([, , , up]) => [0, 0, up, 0]));
  const cells = Array.from({ length: 19 * 19 }, (_, i) => 20 * Math.floor(i / 19) + (i % 19));
  const index = Uint32Array.from([0, 400].flatMap((first) => cells.flatMap((cell) => {
    const [a, b, c, d] = [0, 1, 20, 21].map((more) => first + cell + more);
    return [a, b, c, b, d, c];
  })));
  const fewer = coarser(positions, index, shade, 2);
  assert.ok(fewer.length < 0.6 * index.length);
  for (let t = 0; t < fewer.length; t += 3) {
    const heights = new Set([0, 1, 2].map((k) => positions[3 * fewer[t + k] + 2]));
    assert.equal(heights.size, 1, "a triangle through the wall");
  }
});

/** Normals of a ball about the origin, as surfaces have them. */
function outward(positions) {
  const shade = new Int8Array((4 * positions.length) / 3);
  for (let v = 0; 3 * v < positions.length; v += 1) {
    for (let k = 0; k < 3; k += 1) shade[4 * v + k] = 20 * positions[3 * v + k];
  }
  return shade;
}

/** Sides of one triangle only, as pairs of vertices. */
function rimOf(index) {
  const sides = new Set();
  for (let t = 0; t < index.length; t += 3) {
    for (let k = 0; k < 3; k += 1) {
      const [from, to] = [index[t + k], index[t + ((k + 1) % 3)]];
      if (!sides.delete(`${to} ${from}`)) sides.add(`${from} ${to}`);
    }
  }
  return [...sides].sort();
}
