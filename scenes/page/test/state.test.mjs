import assert from "node:assert/strict";
import { test } from "node:test";
import {
  asked, changedSettings, checkOffered, differences, firstState, fromPlain, reasonAgainst,
  settingsKey, toPlain,
} from "../src/state.js";

const FIRST = {
  case: "one", changes: {}, movement: "protrusion", start: "MI", travel_mm: 1.5, opening_mm: 0, map: "pose",
};
const NUMBER = { label: "Angle", type: "number", least: 0, most: 80, unit: "°", optional: false, whole: false };
const OFFERED = {
  cases: [{ name: "one" }, { name: "two" }],
  controls: [{ controls: [
    { ...NUMBER, keys: { right: "g.right.a", left: "g.left.a" } },
    { label: "Path", type: "choice", keys: { both: "g.path" }, choices: [{ value: "straight", label: "straight" }] },
  ] }],
};

test("a state comes back the same from what is written into a link", () => {
  const state = { ...firstState(FIRST), b: { case: "two", changes: { "g.right.a": 4 } }, chosen: "b" };
  assert.deepEqual(fromPlain(JSON.parse(JSON.stringify(toPlain(state)))), state);
});

test("what is asked of the server holds one state and no display", () => {
  assert.deepEqual(asked(firstState(FIRST), "a"), FIRST);
});

for (const [name, broken] of [
  ["a list", []],
  ["nothing", null],
  ["no movement", { ...FIRST, movement: undefined }],
  ["another start", { ...FIRST, start: "CO" }],
  ["travel as text", { ...FIRST, travel_mm: "2" }],
  ["travel too far", { ...FIRST, travel_mm: 51 }],
  ["negative opening", { ...FIRST, opening_mm: -1 }],
  ["another map", { ...FIRST, map: "all" }],
  ["a case that is a path", { ...FIRST, case: "../etc" }],
  ["a change that is a list", { ...FIRST, changes: { "g.path": ["straight"] } }],
  ["too many changes", { ...FIRST, changes: Object.fromEntries(Array.from({ length: 201 }, (_, i) => [`g${i}`, 1])) }],
  ["a second state that is a number", { ...FIRST, other: 3 }],
  ["an arch neither solid nor away", { ...FIRST, display: { upper: "gone" } }],
]) {
  test(`a state with ${name} is refused`, () => {
    assert.throws(() => fromPlain(broken), /^Error: it/);
  });
}

test("a state is refused where the server does not offer what it names", () => {
  const check = (changes, rest = {}) =>
    () => checkOffered({ ...firstState({ ...FIRST, changes }), ...rest }, OFFERED);
  check({ "g.right.a": 80, "g.path": "straight" })();
  assert.throws(check({ "g.up.a": 1 }), /no setting g\.up\.a/);
  assert.throws(check({ "g.right.a": 81 }), /Angle: accepted: 0 to 80°/);
  assert.throws(check({ "g.path": "bent" }), /Path: is none of straight/);
  assert.throws(check({}, { b: { case: "three", changes: {} } }), /no case three/);
});

test("a setting put back to the case is no change any more", () => {
  const values = { "g.right.a": 35, "g.left.a": 35 };
  const changed = changedSettings({ case: "one", changes: {} }, { "g.right.a": 40 }, values);
  assert.deepEqual(changed.changes, { "g.right.a": 40 });
  assert.deepEqual(changedSettings(changed, { "g.right.a": 35 }, values).changes, {});
});

test("settings are the same in any order", () => {
  assert.equal(settingsKey({ case: "one", changes: { a: 1, b: 2 } }), settingsKey({ case: "one", changes: { b: 2, a: 1 } }));
  assert.notEqual(settingsKey({ case: "one", changes: { a: 1 } }), settingsKey({ case: "one", changes: { a: 2 } }));
});

test("differences are told with both values, also where only the cases differ", () => {
  const rows = differences(
    { changes: { a: 1 } }, { changes: {} }, { a: 0, b: 5, c: 7 }, { a: 0, b: 6, c: 7 });
  assert.deepEqual(rows, [{ path: "a", one: 1, other: 0 }, { path: "b", one: 5, other: 6 }]);
});

test("a number is told its range", () => {
  assert.equal(reasonAgainst(NUMBER, 80), "");
  assert.match(reasonAgainst(NUMBER, NaN), /a number is needed, 0 to 80°/);
  assert.match(reasonAgainst(NUMBER, null), /a value is needed/);
  assert.equal(reasonAgainst({ ...NUMBER, optional: true }, null), "");
  assert.match(reasonAgainst({ ...NUMBER, whole: true }, 1.5), /whole number/);
});
