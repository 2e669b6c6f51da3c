import assert from "node:assert/strict";
import { test } from "node:test";
import { deflateSync } from "node:zlib";

import { Film, sharesOfSteps, unpacked } from "../src/film_data.js";
import { message } from "./examples.mjs";

const HEADER = {
  pictures_a_s: 10,
  limit_mm: 3,
  pictures: [0, 0, 1, 2, 1, 0, 3],
  movements: [{ words: "one", first: 0 }, { words: "two", first: 6 }],
  moments: [0, 1, 2, 3].map((i) => ({ head: `head ${i}`, travel: `travel ${i} mm`, told: `told ${i}`, move: [i] })),
};
/** Rows of two vertices, each added to the one before, of a byte. */
const ADDED = Uint8Array.from([0, 255, 100, 0, 155, 1, 1, 254]);

const film = () => new Film({ header: HEADER, buffers: { gap_upper: Uint8Array.from(ADDED), gap_lower: Uint8Array.from(ADDED) } });

test("a message is unpacked as it was packed", async () => {
  const packed = deflateSync(Buffer.from(message({ kind: "film" }, { gap: { array: ADDED, shape: [4, 2] } })));
  const { header, buffers } = await unpacked(`\n${packed.toString("base64")}\n`);
  assert.equal(header.kind, "film");
  assert.deepEqual(buffers.gap, ADDED);
});

test("steps are square roots of shares, the last one is farther than the limit", () => {
  const shares = sharesOfSteps();
  assert.deepEqual([shares[0], shares[127], shares[254], shares[255]], [0, Math.round(65534 / 4), 65534, 65535]);
});

test("rows stand alone, and come again where pictures do", () => {
  const shown = film();
  const of = (number) => [...shown.poseOf(number)[1].gap_upper];
  const shares = sharesOfSteps();
  const rows = [[0, 255], [100, 255], [255, 0], [0, 254]].map((row) => row.map((step) => shares[step]));
  assert.deepEqual([0, 2, 3, 6].map(of), rows);
  assert.deepEqual(of(4), of(2));
});

test("words, limit and number go with a picture", () => {
  const [header] = film().poseOf(3);
  assert.equal(header.words, "head 2, travel 2 mm. told 2");
  assert.deepEqual([header.number, header.map_limit_mm, header.move], [3, 3, [2]]);
});

test("every picture is shown from its time to that of the next", () => {
  const shown = film();
  for (let number = 0; number < shown.length; number += 1) {
    assert.equal(shown.numberAt(shown.secondsOf(number)), number);
    assert.equal(shown.numberAt(shown.secondsOf(number) + 0.09), number);
  }
  assert.deepEqual([shown.numberAt(-1), shown.numberAt(99)], [0, 6]);
});

test("a picture belongs to the movement that began last", () => {
  assert.deepEqual([0, 5, 6].map((number) => film().movementOf(number)), [0, 0, 1]);
});
