import assert from "node:assert/strict";
import { test } from "node:test";

import { gapColour, gapTexture, gapTicks } from "../src/view_gap_colours.js";

const SCALE = ["#00224e", "#7d7c78", "#fee838"];

test("colours grow lighter with the gap, and are gone at the limit", () => {
  const light = ([red, green, blue]) => 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  const texels = gapTexture(SCALE);
  for (let i = 4; i < texels.length; i += 4) {
    assert.ok(light(texels.slice(i)) >= light(texels.slice(i - 4)) - 1, `step ${i / 4}`);
  }
  assert.equal(gapColour(SCALE, 0)[3], 255);
  assert.equal(gapColour(SCALE, 0.5)[3], 255);
  assert.equal(gapColour(SCALE, 1)[3], 0);
});

test("outside the scale its ends hold", () => {
  assert.deepEqual(gapColour(SCALE, -1), gapColour(SCALE, 0));
  assert.deepEqual(gapColour(SCALE, 2), gapColour(SCALE, 1));
});

test("every label of the bar is exactly the number it stands at", () => {
  for (const limit of [0.3, 0.5, 0.75, 1, 1.5, 2, 3, 5, 10]) {
    const ticks = gapTicks(limit);
    assert.ok(ticks.length >= 3 && ticks.length <= 6, `${limit}`);
    assert.equal(ticks.at(-1).value, limit);
    for (const { value, text } of ticks) assert.ok(Math.abs(Number(text) - value) < 1e-9, text);
  }
});
