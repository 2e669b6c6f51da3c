import assert from "node:assert/strict";
import { test } from "node:test";
import { fromFragment, toFragment } from "../src/link.js";

test("what is put into an address comes back, with letters of any script", () => {
  const plain = { case: "one", text: "45° µm → ÄÖ 歯", list: [1, 2.5, null, true] };
  const fragment = toFragment(plain);
  assert.match(fragment, /^#state=[A-Za-z0-9_-]+$/);
  assert.deepEqual(fromFragment(fragment), plain);
});

test("an address without a state says nothing", () => {
  assert.equal(fromFragment(""), null);
  assert.equal(fromFragment("#results"), null);
});

for (const [name, fragment] of [
  ["cut short", toFragment({ case: "one", movement: "protrusion" }).slice(0, -5)],
  ["no base64", "#state=%%%"],
  ["empty", "#state="],
  ["no JSON", `#state=${btoa("hello")}`],
  ["no text", `#state=${btoa("\xff\xfe")}`],
  ["too long", `#state=${"A".repeat(40_000)}`],
]) {
  test(`a link that is ${name} is refused in words`, () => {
    assert.throws(() => fromFragment(fragment), /^Error: it /);
  });
}
