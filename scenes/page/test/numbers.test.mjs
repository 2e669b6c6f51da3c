import assert from "node:assert/strict";
import { test } from "node:test";
import { acceptedWords, areaWords, plain, readNumber } from "../src/numbers.js";

test("thousands of long numbers are set apart, and such numbers can be typed again", () => {
  assert.equal(plain(40000), "40\u202f000");
  assert.equal(plain(-1234567.5), "−1\u202f234\u202f567.5");
  assert.equal(plain(9999), "9999");
  for (const value of [40000, 200000, -1234567.5, 35]) assert.equal(readNumber(plain(value)), value);
  assert.ok(Number.isNaN(readNumber("4 0")));
  assert.ok(Number.isNaN(readNumber("40 00")));
});

test("an area that is there never reads as none", () => {
  assert.equal(areaWords(0.0004), "<\u202f0.01");
  assert.equal(areaWords(0), "0.00");
  assert.equal(areaWords(0.0149), "0.01");
});

test("what is accepted is told with its unit", () => {
  assert.equal(acceptedWords({ least: -8, most: 8, unit: "mm" }), "Accepted: −8 to 8\u202fmm.");
  assert.equal(
    acceptedWords({ least: 0, most: 80, unit: "°", optional: true }),
    "Accepted: 0 to 80°, or empty: not set.",
  );
});
