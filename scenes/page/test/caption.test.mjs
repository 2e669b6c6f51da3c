import assert from "node:assert/strict";
import { test } from "node:test";
import { captionOf } from "../src/caption.js";

const desk = (changes, b = null) => ({
  state: { a: { case: "one", changes }, b, chosen: "a", movement: "protrusion", start: "MI", travel_mm: 2, opening_mm: 0 },
  study: { case: { title: "A case", movements: [{ movement: "protrusion", start: "MI", title: "Protrusion" }] } },
  settings: { told: (path, value) => `${path} is ${value}` },
  welcome: { version: "1.2", cautions: "A planning aid." },
});

test("a picture says what it shows: case, pose, settings, program", () => {
  const lines = captionOf(desk({ "guidance.right.x": 20 }));
  assert.deepEqual(lines, [
    "A case", "Protrusion, from MI; travel 2.0\u202fmm; opened 0.0\u202fmm beyond closure",
    "1 setting changed: guidance.right.x is 20", "Cuspway 1.2. A planning aid.",
  ]);
});

test("one of two states is named, and an unchanged case is called that", () => {
  const lines = captionOf(desk({}, { case: "one", changes: {} }));
  assert.equal(lines[0], "State A: A case");
  assert.equal(lines[2], "Settings as in the case");
});
