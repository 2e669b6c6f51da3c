import assert from "node:assert/strict";
import test from "node:test";

import { confirmed, missingWords, nextTarget, notThere, seedsOf, taken, withPoint, withoutPoint } from "../src/pick_points.js";

const point = (name, more = {}) => ({ point: name, title: name.toUpperCase(), of_tooth: false, several: false, ...more });
const ABOUT = {
  points: [
    ...["a1", "a2"].map((name) => point(name, { arch: "lower" })), ...["b1", "b2"].map((name) => point(name)),
    point("seed", { of_tooth: true }), point("seat", { of_tooth: true, several: true }),
  ],
  ways: [{ name: "mean", points: ["a1", "a2"] }, { name: "axis", points: ["b1", "b2"] }],
  teeth: [11, 12, 36],
  arch_of: { 11: "upper", 12: "upper", 36: "lower" },
};
const CASTS = { no_labels: "", transform: false };
const pick = (name, x = 0, more = {}) => ({ point: name, tooth: null, place: [x, 0, 0], ...more });

test("a point picked again moves, seats are added", () => {
  let points = withPoint([], pick("a1", 1), ABOUT);
  points = withPoint(points, pick("a1", 2), ABOUT);
  assert.deepEqual(points.map(({ place }) => place[0]), [2]);
  for (const x of [1, 2]) points = withPoint(points, pick("seat", x, { tooth: 16 }), ABOUT);
  assert.equal(points.length, 3);
  points = withPoint(points, pick("seat", 9, { tooth: 16 }), ABOUT, 1);
  assert.deepEqual(points.map(({ place }) => place[0]), [2, 9, 2]);
  assert.equal(withoutPoint(points, 0).length, 2);
});

test("what was proposed for one way goes when another is begun; what a person picked stays", () => {
  const proposed = [pick("a1", 0, { proposed: true }), pick("a2", 0, { proposed: true })];
  assert.deepEqual(withPoint(proposed, pick("b1"), ABOUT).map((one) => one.point), ["b1"]);
  const own = [pick("a1"), proposed[1]];
  const both = withPoint(own, pick("b1"), ABOUT);
  assert.deepEqual(both.map((one) => one.point), ["a1", "a2", "b1"]);
  assert.match(missingWords(both, ABOUT, CASTS), /two ways of mounting/);
});

test("what is missing is said until nothing is", () => {
  assert.equal(missingWords([], ABOUT, CASTS), "Mounting by mean (or by axis): A1; A2.");
  assert.equal(missingWords([pick("b1")], ABOUT, CASTS), "Mounting by axis: B2.");
  assert.equal(missingWords([pick("b1"), pick("b2")], ABOUT, CASTS), "");
  assert.equal(missingWords([], ABOUT, { ...CASTS, transform: true }), "");
  assert.match(missingWords([], ABOUT, { no_labels: "none", transform: true }), /teeth must be told/);
});

test("the next one to pick is the next of the way, or the next tooth", () => {
  assert.deepEqual(nextTarget([pick("a1")], ABOUT, pick("a1")), { point: "a2", tooth: null });
  const seeds = [pick("seed", 0, { tooth: 11 }), pick("seed", 0, { tooth: 12 })];
  assert.deepEqual(nextTarget(seeds, ABOUT, { point: "seed", tooth: 11 }), { point: "seed", tooth: 36 });
  const seat = { point: "seat", tooth: 16 };
  assert.equal(nextTarget([], ABOUT, seat), seat);
});

test("a click on the other cast is refused with what to do", () => {
  assert.equal(notThere({ point: "seat", tooth: 36 }, "lower", ABOUT), "");
  assert.equal(notThere({ point: "seat", tooth: 11 }, "lower", ABOUT),
    "11 is a tooth of the upper cast, and the lower cast was clicked. Choose another tooth, or show the upper cast.");
  assert.equal(notThere({ point: "a1", tooth: null }, "lower", ABOUT), "");
  assert.match(notThere({ point: "a1", tooth: null }, "upper", ABOUT), /^A1 lies on the lower cast/);
  for (const arch of ["upper", "lower"]) assert.equal(notThere({ point: "b1", tooth: null }, arch, ABOUT), "");
});

test("seeds that are proposed only are taken by nothing but telling the teeth", () => {
  const proposed = { point: "tooth_seed", tooth: 11, place: [1, 2, 3], proposed: true, note: "check" };
  const own = { point: "tooth_seed", tooth: 12, place: [4, 5, 6] };
  const landmark = pick("a1", 1, { proposed: true });
  assert.deepEqual(confirmed([proposed, own, landmark]), [own, landmark]);
  assert.deepEqual(taken(proposed), { point: "tooth_seed", tooth: 11, place: [1, 2, 3] });
  assert.equal(taken(own), own);
  assert.equal(taken(landmark), landmark);
});

test("only seeds say whether teeth must be told anew", () => {
  const seed = { point: "tooth_seed", tooth: 11, place: [1, 2, 3] };
  assert.equal(seedsOf([pick("a1"), seed]), seedsOf([seed, pick("a1", 9)]));
  assert.notEqual(seedsOf([seed]), seedsOf([{ ...seed, place: [1, 2, 4] }]));
  assert.notEqual(seedsOf([seed]), seedsOf([seed, { ...seed, point: "gum_seed" }]));
});

test("after a seed the next tooth without one is wanted, after a seat the same", () => {
  const about = { ...ABOUT, points: [point("seed", { of_tooth: true, several: true, goes_on: true }), point("seat", { of_tooth: true, several: true })] };
  const points = [pick("seed", 1, { tooth: 11 }), pick("seed", 2, { tooth: 12 })];
  assert.deepEqual(nextTarget(points, about, { point: "seed", tooth: 11 }), { point: "seed", tooth: 36 });
  assert.deepEqual(nextTarget(points, about, { point: "seat", tooth: 11 }), { point: "seat", tooth: 11 });
});
