import assert from "node:assert/strict";
import { test } from "node:test";
import {
  changeWords, faultOfChange, reasonAgainstTrial, trialFrom, trialNow, trialWords, withTrial,
} from "../src/trial.js";
import { asked, firstState, fromPlain, settingsKey, toPlain } from "../src/state.js";

const MM = { name: "by_mm", unit: "mm", said: ["by {}"] };
const OFFERED = { kinds: [
  { kind: "lower", title: "Lower", done: "lowered", amounts: [MM] },
  { kind: "move", title: "Move", done: "moved", amounts: [
    { name: "mesial_mm", unit: "mm", said: ["{} mesially", "{} distally"] }, { name: "facial_mm", unit: "mm", said: ["{} facially", "{} lingually"] }] },
  { kind: "remove", title: "Remove", done: "removed", amounts: [] },
] };
const LOWER = { kind: "lower", tooth: 46, by_mm: 1.2 };
const FIRST = { case: "one", changes: {}, movement: "protrusion", start: "MI", travel_mm: 1.5, opening_mm: 0, map: "pose" };

test("a change is said with its amount, its unit and its way", () => {
  const said = (row) => changeWords(row, OFFERED).replaceAll("\u202f", " ");
  assert.equal(said(LOWER), "46 lowered by 1.2 mm");
  assert.equal(said({ kind: "move", tooth: 24, mesial_mm: 0.5, facial_mm: -0.25 }), "24 moved 0.5 mm mesially and 0.25 mm lingually");
  assert.equal(said({ kind: "remove", tooth: 36 }), "36 removed");
  assert.equal(trialWords([], OFFERED), "");
});

test("the very changes of the case are none of the state", () => {
  const settings = { case: "one", changes: { a: 1 } };
  assert.deepEqual(withTrial(settings, [LOWER], []), { ...settings, trial: [LOWER] });
  assert.deepEqual(withTrial({ ...settings, trial: [] }, [{ by_mm: 1.2, tooth: 46, kind: "lower" }], [LOWER]), settings);
  assert.deepEqual(trialNow(settings, [LOWER]), [LOWER]);
  assert.deepEqual(trialNow({ ...settings, trial: [] }, [LOWER]), []);
});

test("a state keeps its changes of teeth in links and asks for them", () => {
  const state = { ...firstState(FIRST), a: { case: "one", changes: {}, trial: [LOWER] }, b: { case: "one", changes: {}, trial: [] } };
  assert.deepEqual(fromPlain(JSON.parse(JSON.stringify(toPlain(state)))), state);
  assert.deepEqual(asked(state, "a").trial, [LOWER]);
  const keys = [state.a, state.b, { case: "one", changes: {} }].map(settingsKey);
  assert.equal(new Set(keys).size, 3);
});

for (const [name, rows] of [
  ["a text", "lower"], ["numbers", [1]], ["no tooth", [{ kind: "lower" }]], ["a list as amount", [{ ...LOWER, by_mm: [1] }]],
  ["an impossible name", [{ ...LOWER, "by mm": 1 }]], ["too many", Array(101).fill(LOWER)],
]) {
  test(`changes that are ${name} are refused`, () => {
    assert.throws(() => trialFrom(rows), /^Error: (its|it|one of its) changes/);
  });
}

test("changes that are not offered are told", () => {
  assert.equal(reasonAgainstTrial([LOWER], OFFERED), "");
  assert.match(reasonAgainstTrial([{ kind: "drill", tooth: 46 }], OFFERED), /called drill/);
  assert.match(reasonAgainstTrial([{ kind: "remove", tooth: 46, by_mm: 1 }], OFFERED), /Remove: takes no by mm/);
});

test("a fault is told at its own change", () => {
  const fault = { keys: ["change[1]"], text: "change[0]: other\nchange[1]: there is no tooth 46\nchange[1].by_mm = 9: too much" };
  assert.equal(faultOfChange(fault, 0), "");
  assert.equal(faultOfChange(fault, 1), "there is no tooth 46\nby_mm = 9: too much");
  assert.equal(faultOfChange(null, 0), "");
});
