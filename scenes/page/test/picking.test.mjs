import assert from "node:assert/strict";
import { test } from "node:test";

import { Picker, cornerAt, gapAt } from "../src/view_picking.js";
import { Sight } from "../src/view_sight.js";
import { ball, joined, numbers } from "./examples.mjs";

/** The nearest triangle, by trying every one. */
function slowly({ positions: p, index }, origin, d) {
  let nearest = Infinity;
  const minus = (a, b) => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
  const cross = (a, b) => [
    a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0],
  ];
  const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  for (let t = 0; t < index.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => [...p.slice(3 * index[t + k], 3 * index[t + k] + 3)]);
    const normal = cross(minus(b, a), minus(c, a));
    const steep = dot(normal, d);
    if (Math.abs(steep) < 1e-12) continue;
    const way = dot(normal, minus(a, origin)) / steep;
    const at = [0, 1, 2].map((k) => origin[k] + way * d[k]);
    const inside = [[a, b], [b, c], [c, a]].every(
      ([from, to]) => dot(cross(minus(to, from), minus(at, from)), normal) >= 0,
    );
    if (inside && way < nearest) nearest = way;
  }
  return nearest;
}

test("finds what trying every triangle finds", () => {
  const surface = joined([ball([0, 0, 0], 4), ball([7, 1, 0], 3), ball([2, 6, 3], 5)]);
  const picker = new Picker(surface);
  const next = numbers(7);
  let met = 0;
  for (let i = 0; i < 300; i += 1) {
    const origin = [next() * 16 - 5, next() * 16 - 5, 50];
    const d = [next() * 0.4 - 0.2, next() * 0.4 - 0.2, -1];
    const length = Math.hypot(...d);
    const towards = d.map((x) => x / length);
    const hit = picker.cast(origin, towards);
    const expected = slowly(surface, origin, towards);
    assert.equal(hit === null, expected === Infinity, `line ${i}`);
    if (hit) {
      met += 1;
      assert.ok(Math.abs(hit.t - expected) < 1e-4, `line ${i}: ${hit.t} for ${expected}`);
    }
  }
  assert.ok(met > 60 && met < 300);
});

test("a tooth can be left out, and what lies before a distance", () => {
  const picker = new Picker(joined([ball([0, 0, 10], 2), ball([0, 0, 0], 2)]));
  const tooth = (hit) => picker.surface.tooth[picker.surface.index[3 * hit.triangle]];
  const [origin, down] = [[0.1, 0.2, 50], [0, 0, -1]];
  assert.equal(tooth(picker.cast(origin, down)), 11);
  assert.equal(tooth(picker.cast(origin, down, -Infinity, 11)), 12);
  assert.equal(tooth(picker.cast(origin, down, 45)), 12);
  assert.equal(picker.cast(origin, down, 60), null);
});

test("the gap inside a triangle lies between those of its corners", () => {
  const index = Uint32Array.from([0, 1, 2]);
  const gaps = Uint16Array.from([0, 65534, 32767]);
  assert.equal(gapAt(gaps, index, { triangle: 0, u: 0, v: 0 }, 2), 0);
  assert.equal(gapAt(gaps, index, { triangle: 0, u: 0.5, v: 0 }, 2), 1);
  assert.ok(Math.abs(gapAt(gaps, index, { triangle: 0, u: 0.25, v: 0.5 }, 2) - 1) < 1e-9);
  gaps[1] = 65535;
  assert.equal(gapAt(gaps, index, { triangle: 0, u: 0.5, v: 0 }, 2), null);
  assert.equal(cornerAt(index, { triangle: 0, u: 0.2, v: 0.7 }), 2);
});

test("lines of sight meet the lower where it stands, and solid crowns before ghosted ones", () => {
  const none = { positions: new Float32Array(0), index: new Uint32Array(0), tooth: new Uint8Array(0) };
  const sight = new Sight({
    upper: { teeth: joined([ball([0, 0, 10], 2)]), around: none },
    lower: { teeth: joined([ball([0, 0, 0], 2)]), around: none },
  });
  const down = [0, 0, -1];
  const seen = (x) => sight.pick([x, 0.1, 0], down)?.arch;
  assert.equal(seen(0), "upper");
  assert.ok(sight.hides([0, 0, 5], down));
  sight.display = { upper: "ghosted", lower: "solid", around: true };
  assert.equal(seen(0), "lower");
  assert.ok(!sight.hides([0, 0, 5], down));
  assert.ok(!sight.isBehindOthers([0, 0, 0], down, "lower", 11));
  assert.ok(sight.isBehindOthers([0, 0, 0], down, "upper", 99));
  assert.ok(!sight.isBehindOthers([0, 0, 10], down, "upper", 11));
  sight.move = Float32Array.from([1, 0, 0, 20, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1]);
  assert.equal(seen(0), "upper");
  assert.equal(seen(20), "lower");
  sight.display = { upper: "away", lower: "away", around: true };
  assert.equal(seen(20), undefined);
});
