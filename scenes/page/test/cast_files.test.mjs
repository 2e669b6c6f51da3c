import assert from "node:assert/strict";
import { test } from "node:test";

import { takenBackWith } from "../src/cast_files.js";

const all = () => true;

test("another scan takes back its labels, the bite and the points, not what is of the other scan", () => {
  assert.deepEqual(takenBackWith("upper", true, all), ["upper_labels", "bite", "points"]);
  assert.deepEqual(takenBackWith("lower", true, all), ["lower_labels", "bite", "points"]);
});

test("what was chosen after the casts were read stays", () => {
  assert.deepEqual(takenBackWith("upper", true, (slot) => slot !== "upper_labels"), ["bite", "points"]);
  assert.deepEqual(takenBackWith("upper", false, all), []);
});

test("other labels take nothing back", () => {
  assert.deepEqual(takenBackWith("upper_labels", true, all), []);
});
