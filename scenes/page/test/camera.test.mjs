import assert from "node:assert/strict";
import { test } from "node:test";

import { Camera, VIEW_NAMES } from "../src/view_camera.js";
import { cross, dot } from "../src/view_vectors.js";

function camera(name = "front") {
  const one = new Camera();
  Object.assign(one, { width: 600, height: 400, centre: [60, 0, -30], pxPerMm: 8 });
  one.look(name);
  return one;
}
const near = (a, b, what) =>
  a.forEach((x, i) => assert.ok(Math.abs(x - b[i]) < 1e-9, `${what ?? ""} ${a} for ${b}`));

test("the patient's right is on the left, facing the patient or looking into the mouth", () => {
  for (const name of ["front", "upper occlusal", "lower occlusal", "mouth"]) {
    assert.ok(camera(name).project([60, -20, -30])[0] < 300, name);
  }
  assert.ok(camera("behind").project([60, -20, -30])[0] > 300);
  assert.ok(camera("right").project([80, 0, -30])[0] > 300, "front teeth right in a right view");
});

test("upper front teeth are at the top, lower ones at the bottom, and near ones are near", () => {
  assert.ok(camera("upper occlusal").project([80, 0, -30])[1] < 200);
  assert.ok(camera("lower occlusal").project([80, 0, -30])[1] > 200);
  assert.ok(camera("front").project([80, 0, -30])[2] < 0);
  near(camera("upper occlusal").towards, [0, 0, 1]);
  near(camera("right").towards, [0, 1, 0]);
});

test("directions stay at right angles through many turns; a hand to the right turns to the right", () => {
  const one = camera();
  const face = [80, 0, -30];
  const before = one.project(face)[0];
  one.turn(10, 0);
  assert.ok(one.project(face)[0] > before);
  one.turn(0, 10);
  assert.ok(one.project(face)[1] > 200);
  for (let i = 0; i < 500; i += 1) one.turn(17 - (i % 31), (i % 13) - 5);
  assert.ok(Math.abs(dot(one.right, one.up)) < 1e-9);
  near([dot(one.right, one.right), dot(one.up, one.up)], [1, 1]);
  near(one.towards, cross(one.up, one.right));
  assert.match(one.title, /^turned from front$/);
});

test("what lies under the pointer stays there while the picture grows", () => {
  const one = camera("mouth");
  const point = one.unproject(140, 310);
  for (const factor of [1.7, 0.3, 1e6, 1e-9]) {
    one.zoom(factor, 140, 310);
    near(one.project(point).slice(0, 2), [140, 310], factor);
  }
});

test("shifting moves what is seen by as many pixels", () => {
  const one = camera("left");
  const [x, y] = one.project([70, 5, -25]);
  one.pan(30, -12);
  near(one.project([70, 5, -25]).slice(0, 2), [x + 30, y - 12]);
});

test("everything fits, with room at the sides", () => {
  for (const name of VIEW_NAMES) {
    const one = camera(name);
    const corners = [];
    for (const x of [30, 85]) for (const y of [-30, 30]) for (const z of [-45, -20]) corners.push([x, y, z]);
    one.fit(corners, { top: 40, right: 10, bottom: 60, left: 20 });
    for (const corner of corners) {
      const [x, y] = one.project(corner);
      assert.ok(x >= 19.9 && x <= 590.1 && y >= 39.9 && y <= 340.1, `${name} ${x} ${y}`);
    }
  }
});

test("a camera that is kept comes back through JSON, and nonsense changes nothing", () => {
  const one = camera("mouth");
  one.turn(30, 9);
  one.zoom(1.5, 10, 10);
  const other = camera("front");
  assert.ok(other.restore(JSON.parse(JSON.stringify(one.kept()))));
  near(other.project([50, 10, -20]), one.project([50, 10, -20]));
  const before = other.kept();
  for (const wrong of [null, {}, { ...before, name: "below" }, { ...before, up: before.right },
    { ...before, pxPerMm: -1 }, { ...before, centre: [1, null, 2] }]) {
    assert.equal(other.restore(wrong), false);
  }
  assert.deepEqual(other.kept(), before);
});

test("a picture of another size shows all that was chosen, and the same when it is back", () => {
  const camera = new Camera();
  Object.assign(camera, { width: 700, height: 600 });
  camera.fit([[-20, -30, -10], [20, 30, 10]], { top: 0, right: 0, bottom: 0, left: 0 });
  camera.turn(40, 25);
  const before = camera.pxPerMm;
  for (const [width, height, share] of [[350, 600, 0.5], [350, 150, 0.25], [700, 600, 1], [1400, 600, 1]]) {
    Object.assign(camera, { width, height });
    camera.showAsMuch();
    assert.ok(Math.abs(camera.pxPerMm - share * before) < 1e-9);
  }
});
