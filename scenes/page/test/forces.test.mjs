/** Forces on teeth: which pose they are of, and how they become arrows. */

import assert from "node:assert/strict";
import { test } from "node:test";

import { forcesAt, loadPose } from "../src/load_poses.js";
import { LEAST_N, MM_PER_N, forceArrows, newtons } from "../src/view_forces.js";

const TRAVEL = [0, 0.1, 0.2, 0.5];
const STATE = { movement: "right lateral", start: "MI", travel_mm: 0.2, opening_mm: 0 };

/** Vectors of poses and teeth, each of which tells its own place: 100 i + 10 k + axis. */
const planted = (count, of) => Float32Array.from({ length: TRAVEL.length * count * 3 }, (_, j) =>
  of + 100 * Math.floor(j / (3 * count)) + 10 * (Math.floor(j / 3) % count) + (j % 3));

function study() {
  const frame = {
    framework: "a", teeth: [15, 16], abutments: [14], place_mm: "p", teeth_along_n: "l",
    teeth_across_n: "c", abutments_along_n: "al", abutments_across_n: "ac",
  };
  const excursion = { movement: "right lateral", start: "MI", travel_mm: TRAVEL, frames: [frame] };
  const buffers = {
    p: planted(2, 0), l: planted(2, 1000), c: planted(2, 2000), al: planted(1, 3000), ac: planted(1, 4000),
  };
  return { freshLoads: { header: { number: 3, excursions: [excursion] }, buffers } };
}

test("the pose shown is the nearest that was computed, and none where none is near", () => {
  const at = (change) => loadPose(study(), { ...STATE, ...change })?.i ?? null;
  assert.equal(at({}), 2);
  for (let mm = 0; mm <= 0.245; mm += 0.007) {
    assert.equal(at({ travel_mm: mm }), TRAVEL.reduce((best, one, i) =>
      (Math.abs(one - mm) < Math.abs(TRAVEL[best] - mm) - 1e-12 ? i : best), 0));
  }
  assert.equal(at({ travel_mm: 0.35 }), null);
  assert.equal(at({ travel_mm: 3 }), null);
  assert.equal(at({ opening_mm: 1 }), null);
  assert.equal(at({ start: "CR" }), null);
  assert.equal(at({ movement: "protrusion" }), null);
  assert.equal(loadPose({ freshLoads: null }, STATE), null);
});

test("each tooth gets its own force of that pose, an abutment no place", () => {
  const { teeth, key } = forcesAt(study(), STATE);
  assert.deepEqual(teeth.map(({ tooth }) => tooth), [15, 16, 14]);
  assert.deepEqual(teeth[1], { tooth: 16, place: [210, 211, 212], along: [1210, 1211, 1212], across: [2210, 2211, 2212] });
  assert.deepEqual(teeth[2], { tooth: 14, place: null, along: [3200, 3201, 3202], across: [4200, 4201, 4202] });
  assert.notEqual(key, forcesAt(study(), { ...STATE, travel_mm: 0.1 }).key);
});

/** A view from above, a pixel for a millimetre, in which the lower stands 5 mm ahead. */
function view(teeth, display = {}) {
  return {
    forces: teeth && { teeth },
    display: { upper: "solid", lower: "solid", ...display },
    eye: { project: ([x, y, z]) => [x, y, z] },
    sight: { crown: (arch, tooth) => (tooth === 99 ? null : { middle: [tooth, 0, 0] }) },
    move: [1, 0, 0, 5, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1],
  };
}

test("arrows start where forces act, point their way, and are as long as they are large", () => {
  const force = { tooth: 15, place: [1, 2, 3], along: [0, 0, 0], across: [10, -20, 0] };
  const [arrow, ...rest] = forceArrows(view([force]));
  assert.deepEqual(rest, []);
  assert.deepEqual(arrow.from, [1, 2]);
  assert.deepEqual(arrow.to, [1 + 10 * MM_PER_N, 2 - 20 * MM_PER_N]);
  assert.equal(arrow.kind, "across");
  assert.equal(arrow.abutment, false);
  assert.equal(arrow.text, "15: 22\u202fN");
});

test("the largest comes first, small ones and those of a cast that is away do not come", () => {
  const on = (tooth, n) => ({ tooth, place: null, along: [n, 0, 0], across: [0, 0, 0] });
  const teeth = [on(14, 2), on(44, 30), on(13, LEAST_N - 0.01), on(99, 50)];
  const told = (display) => forceArrows(view(teeth, display)).map(({ text, from }) => [text, from[0]]);
  assert.deepEqual(told({}), [["44: 30\u202fN", 49], ["14: 2.0\u202fN", 14]]);
  assert.deepEqual(told({ lower: "away" }), [["14: 2.0\u202fN", 14]]);
  assert.deepEqual(told({ upper: "away", lower: "ghosted" }), [["44: 30\u202fN", 49]]);
  assert.deepEqual(forceArrows(view(null)), []);
});

test("small forces have a decimal", () => {
  assert.deepEqual([0.04, 3.14, 9.94, 10.4, 120.6].map(newtons), ["0.0", "3.1", "9.9", "10", "121"]);
});
