import assert from "node:assert/strict";
import { test } from "node:test";

import { Camera } from "../src/view_camera.js";
import { overlap, placeLabels } from "../src/view_labels.js";
import { overlayModel } from "../src/view_model.js";
import { STILL } from "../src/view_vectors.js";
import { numbers } from "./examples.mjs";

test("no label lies on another, on what is taken, or outside the picture", () => {
  const next = numbers(3);
  const picture = { width: 400, height: 300 };
  const taken = [{ x: 0, y: 0, w: 400, h: 30 }, { x: 10, y: 250, w: 200, h: 40 }];
  const wanted = Array.from({ length: 90 }, () => ({
    x: next() * 440 - 20, y: next() * 340 - 20, w: 24, h: 17, weight: next(),
  }));
  const placed = placeLabels(wanted, taken, picture);
  const boxes = placed.filter(Boolean);
  assert.ok(boxes.length > 40);
  boxes.forEach((box, i) => {
    assert.ok(box.x >= 0 && box.y >= 0 && box.x + box.w <= 400 && box.y + box.h <= 300);
    for (const other of [...boxes.slice(i + 1), ...taken]) assert.ok(!overlap(box, other));
  });
});

test("the important one keeps its place; the other is shifted a little, else left out", () => {
  const at = (x, weight) => ({ x, y: 50, w: 20, h: 16, weight });
  const picture = { width: 100, height: 100 };
  const [less, more] = placeLabels([at(50, 1), at(52, 2)], [], picture);
  assert.deepEqual(more, { x: 42, y: 42, w: 20, h: 16 });
  assert.ok(less && Math.hypot(less.x - 40, less.y - 42) < 32);
  const all = placeLabels(new Array(30).fill(at(50, 1)), [], picture);
  assert.ok(all.includes(null));
});

/** What `overlayModel` needs of a view to place one number, told what is behind others. */
function viewOf(label, isBehind) {
  const eye = new Camera();
  Object.assign(eye, { width: 400, height: 300 });
  const crown = { tooth: 31, middle: [5, 0, 0], radius: 4, low: [3, -2, -4], high: [7, 2, 4] };
  return {
    eye, pose: null, trail: [], pins: [], roles: {}, move: STILL, styles: {}, limitMm: 1,
    display: { upper: "solid", lower: "solid", numbers: true }, ringed: null,
    mapOf: () => "none",
    sight: { crown: () => crown, isBehindOthers: isBehind },
    teeth: { labels: [{ arch: "lower", tooth: 31, text: "31", strong: false, ...label }] },
  };
}

test("a number on a crown stands at its place, else in the middle of the crown, else nowhere", () => {
  const point = [8, 0.5, -2];
  const at = (isBehind, onCrown = true) => {
    const view = viewOf({ point, on_crown: onCrown }, isBehind);
    view.eye.look("front");
    const [label] = overlayModel(view, true).labels;
    return label && [label.x, label.y];
  };
  const { eye } = viewOf({ point }, () => false);
  eye.look("front");
  const seen = (place) => eye.project(place).slice(0, 2);
  assert.deepEqual(at(() => false), seen(point));
  assert.deepEqual(at(([x]) => x === 8), seen([5, 0, 0]));
  // A flank of the crown is seen, neither its middle nor its place is.
  assert.equal(at(([, y]) => y === 0 || y === 0.5), undefined);
  assert.deepEqual(at(() => false, false), seen([8, 0.5, -5.2]));
});
