/** From where the casts are looked at. */

import assert from "node:assert/strict";
import { test } from "node:test";
import { lookChange } from "../src/look_bar.js";

const SOLID = { look: "front", upper: "solid", lower: "solid" };

test("a look at one chewing surface lifts the other arch off, and another look puts it back", () => {
  const lifted = { ...SOLID, ...lookChange(SOLID, "lower occlusal") };
  assert.deepEqual(lifted, { look: "lower occlusal", upper: "away", lower: "solid" });
  const over = { ...lifted, ...lookChange(lifted, "upper occlusal") };
  assert.deepEqual(over, { look: "upper occlusal", upper: "solid", lower: "away" });
  assert.deepEqual({ ...over, ...lookChange(over, "right") }, { ...SOLID, look: "right" });
});

test("an arch that is ghosted stays so", () => {
  const ghosted = { ...SOLID, upper: "ghosted" };
  assert.deepEqual(lookChange(ghosted, "lower occlusal"), { look: "lower occlusal" });
});
