import assert from "node:assert/strict";
import { test } from "node:test";

import { decode } from "../src/message.js";
import { message } from "./examples.mjs";

test("arrays come out as they were, where they lie in the message", () => {
  const places = Float32Array.from([1.5, -2.25, 3]);
  const gaps = Uint16Array.from([0, 65534, 65535, 7, 8]);
  const bytes = message(
    { kind: "pose", words: "Fischer, 12°" },
    { places: { array: places, shape: [1, 3] }, gaps: { array: gaps, shape: [5] } },
  );
  const { header, buffers } = decode(bytes);
  assert.equal(header.words, "Fischer, 12°");
  assert.deepEqual(buffers.places, places);
  assert.deepEqual(buffers.gaps, gaps);
  assert.equal(buffers.gaps.buffer, bytes);
});

test("a message without arrays is a header alone", () => {
  const { header, buffers } = decode(message({ kind: "fault" }));
  assert.equal(header.kind, "fault");
  assert.deepEqual(buffers, {});
});

test("what is cut short or of an unknown type is refused in words", () => {
  const whole = message({ kind: "pose" }, { gaps: { array: new Uint16Array(40), shape: [40] } });
  assert.throws(() => decode(whole.slice(0, 3)), /too short/);
  assert.throws(() => decode(whole.slice(0, 20)), /its header alone/);
  assert.throws(() => decode(whole.slice(0, whole.byteLength - 16)), /gaps: runs past the end/);
  const odd = message({}, { gaps: { array: new Float64Array(1), shape: [1] } });
  assert.throws(() => decode(odd), /float64 is none of/);
});
