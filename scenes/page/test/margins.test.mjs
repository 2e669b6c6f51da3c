import assert from "node:assert/strict";
import { test } from "node:test";

import { joinArch } from "../src/view_casts.js";
import { sharedPlaces } from "../src/view_margins.js";

const ROLES = { "lower tooth": "#f0e0d0", gum: "#a04060" };
const SIZE = 24;

/** A bent sheet of triangles, as scans are, cut into crowns and gums triangle by triangle. */
function cutSheet(isTooth) {
  const places = Array.from({ length: SIZE * SIZE }, (_, i) => {
    const [x, y] = [0.3 * (i % SIZE), 0.3 * Math.floor(i / SIZE)];
    return [x, y, Math.abs(y - 3.5) ** 1.3];
  });
  const cells = Array.from({ length: (SIZE - 1) ** 2 }, (_, i) => SIZE * Math.floor(i / (SIZE - 1)) + (i % (SIZE - 1)));
  const triangles = cells.flatMap((a) => [[a, a + 1, a + SIZE], [a + 1, a + SIZE + 1, a + SIZE]]);
  const piece = (chosen) => {
    const used = [...new Set(chosen.flat())];
    const rows = new Map(used.map((old, row) => [old, row]));
    return {
      vertices: Float32Array.from(used.flatMap((old) => places[old])),
      faces: Uint32Array.from(chosen.flat().map((old) => rows.get(old))),
    };
  };
  const teeth = piece(triangles.filter((_, i) => isTooth(i)));
  const gums = piece(triangles.filter((_, i) => !isTooth(i)));
  const parts = [
    { role: "lower tooth", arch: "lower", around_teeth: false, vertices: "v0", faces: "f0", tooth: null, place: null },
    { role: "gum", arch: "lower", around_teeth: true, vertices: "v1", faces: "f1", tooth: null, place: null },
  ];
  return [{ parts }, { v0: teeth.vertices, f0: teeth.faces, v1: gums.vertices, f1: gums.faces }];
}

/** Above the middle, with a margin like the teeth of a saw. */
const sawn = (i) => i > 2 * (SIZE - 1) * 11 + 2 * (i % 5) * (SIZE - 1);

test("where crowns and gums of a scan share a place they look alike there", () => {
  const { teeth, around } = joinArch(...cutSheet(sawn), "lower", ROLES);
  assert.equal(teeth.index.length + around.index.length, 6 * (SIZE - 1) ** 2, "every triangle once");
  const shared = sharedPlaces(teeth, around);
  assert.ok(shared.length > SIZE, `${shared.length} places`);
  for (const [v, w] of shared) {
    for (let k = 0; k < 4; k += 1) {
      assert.equal(teeth.shade[4 * v + k], around.shade[4 * w + k]);
      assert.ok(Math.abs(teeth.colours[4 * v + k] - around.colours[4 * w + k]) <= 1);
    }
  }
});

test("colours of crowns and gums run into each other near the margin only", () => {
  const { teeth, around } = joinArch(...cutSheet(sawn), "lower", ROLES);
  const red = (surface, v) => surface.colours[4 * v];
  const far = ({ positions }, v, side) => side * (positions[3 * v + 1] - 3.6) > 2.4;
  let mixed = 0;
  teeth.tooth.forEach((_, v) => { if (far(teeth, v, 1)) assert.equal(red(teeth, v), 0xf0); else mixed += red(teeth, v) < 0xf0; });
  around.tooth.forEach((_, v) => { if (far(around, v, -1)) assert.equal(red(around, v), 0xa0); else mixed += red(around, v) > 0xa0; });
  assert.ok(mixed > 2 * SIZE);
});

test("surfaces that share no place keep their own colours", () => {
  const [header, buffers] = cutSheet(sawn);
  const [, apart] = cutSheet(sawn);
  apart.v1 = apart.v1.map((value, i) => (i % 3 === 2 ? value + 1e-3 : value));
  const { teeth, around } = joinArch(header, apart, "lower", ROLES);
  assert.deepEqual(sharedPlaces(teeth, around), []);
  teeth.tooth.forEach((_, v) => assert.deepEqual([...teeth.colours.slice(4 * v, 4 * v + 3)], [0xf0, 0xe0, 0xd0]));
  around.tooth.forEach((_, v) => assert.deepEqual([...around.colours.slice(4 * v, 4 * v + 3)], [0xa0, 0x40, 0x60]));
  assert.equal(around.index.length, buffers.f1.length);
});
