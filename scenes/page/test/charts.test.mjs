import assert from "node:assert/strict";
import { test } from "node:test";
import { evenScales, scale, tickDecimals, ticks } from "../src/chart_scales.js";
import { orderedRows } from "../src/touch_rows.js";
import { moveAt } from "../src/player.js";
import { fixed, plain, readNumber, withUnit } from "../src/numbers.js";

test("a scale goes straight from one to the other, also backwards", () => {
  const x = scale([0, 6], [100, 400]);
  assert.equal(x(0), 100);
  assert.equal(x(3), 250);
  assert.equal(scale([100, 400], [0, 6])(x(1.7)).toFixed(6), "1.700000");
  assert.equal(scale([2, 2], [0, 10])(2), 5);
});

test("ticks are round, inside, and not more than asked for", () => {
  assert.deepEqual(ticks(0, 6, 8), [0, 1, 2, 3, 4, 5, 6]);
  assert.deepEqual(ticks(-1.2, 1.2, 6), [-1, -0.5, 0, 0.5, 1]);
  for (const [from, to, most] of [[0, 0.07, 5], [-33, 12, 4], [0, 123, 7]]) {
    const found = ticks(from, to, most);
    assert.ok(found.length <= most && found.length >= 2, String(found));
    assert.ok(found.every((value) => value >= from - 1e-9 && value <= to + 1e-9));
  }
  assert.deepEqual(ticks(3, 3, 5), [3]);
  assert.equal(tickDecimals([0, 0.25, 0.5]), 2);
  assert.equal(tickDecimals([0, 1, 2]), 0);
});

test("both ways of a track have the same scale, and everything is inside", () => {
  const points = [[-3, 0], [4, 2], [0, 1]];
  const box = { wide: 300, tall: 200, margin: 30, least: 2 };
  const { x, y } = evenScales(points, box);
  assert.ok(Math.abs((x(1) - x(0)) + (y(1) - y(0))) < 1e-9);
  for (const [a, b] of points) {
    assert.ok(x(a) >= 30 && x(a) <= 270 && y(b) >= 30 && y(b) <= 170);
  }
});

test("pairs that touch farthest come first, and those that never come near are left out", () => {
  const row = (upper, touch, near) => ({ upper, lower: upper + 30, touch, near, first: [] });
  const rows = orderedRows([row(17, [[0, 0.1]], []), row(13, [[0, 3]], []), row(15, [], []), row(12, [], [[0, 1]])]);
  assert.deepEqual(rows.map(({ upper }) => upper), [13, 17, 12]);
});

test("between two poses the lower stands between", () => {
  const moves = new Float32Array(48);
  moves[16 + 3] = 2;
  moves[32 + 3] = 6;
  const travel = [0, 1, 2];
  assert.equal(moveAt(travel, moves, 0)[3], 0);
  assert.equal(moveAt(travel, moves, 0.5)[3], 1);
  assert.equal(moveAt(travel, moves, 1.5)[3], 4);
  assert.equal(moveAt(travel, moves, 9)[3], 6);
});

test("numbers are read with a comma, a true minus and an unit", () => {
  assert.equal(readNumber("2,5"), 2.5);
  assert.equal(readNumber(" −3 mm", "mm"), -3);
  assert.equal(readNumber("45°", "°"), 45);
  assert.equal(readNumber("45 deg", "°"), 45);
  for (const [text, unit] of [["35°", "mm"], ["2 mm", "°"], ["2 mm", ""], ["2 µm", "mm"]]) {
    assert.ok(Number.isNaN(readNumber(text, unit)), `${text} in a field of ${unit}`);
  }
  assert.equal(readNumber(".5"), 0.5);
  for (const wrong of ["", "two", "1e9", "1.2.3", "Infinity", "0x10"]) assert.ok(Number.isNaN(readNumber(wrong)), wrong);
});

test("numbers are written without a negative nought", () => {
  assert.equal(fixed(-0.001, 2), "0.00");
  assert.equal(fixed(-1.5, 1), "−1.5");
  assert.equal(plain(0.1 + 0.2), "0.3");
  assert.equal(withUnit("4", "°"), "4°");
});
