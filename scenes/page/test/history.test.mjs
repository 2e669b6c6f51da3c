import assert from "node:assert/strict";
import { test } from "node:test";
import { History } from "../src/history.js";

const state = (value) => ({ value });

test("undo and redo go through what was shown", () => {
  const history = new History(state(0));
  history.put(state(1));
  history.put(state(2));
  assert.equal(history.undo(), true);
  assert.equal(history.present.value, 1);
  history.undo();
  assert.equal(history.present.value, 0);
  assert.equal(history.undo(), false);
  history.redo();
  history.redo();
  assert.equal(history.present.value, 2);
  assert.equal(history.redo(), false);
});

test("a drag is one step, and the next drag another", () => {
  const history = new History(state(0));
  for (const value of [1, 2, 3]) history.put(state(value), "travel");
  history.end();
  for (const value of [4, 5]) history.put(state(value), "travel");
  history.undo();
  assert.equal(history.present.value, 3);
  history.undo();
  assert.equal(history.present.value, 0);
});

test("another gesture is another step without an end", () => {
  const history = new History(state(0));
  history.put(state(1), "one");
  history.put(state(2), "other");
  history.undo();
  assert.equal(history.present.value, 1);
});

test("after a new change nothing can be redone, and typed values are steps of their own", () => {
  const history = new History(state(0));
  history.put(state(1));
  history.undo();
  history.put(state(2));
  assert.equal(history.canRedo, false);
  history.put(state(3));
  history.undo();
  assert.equal(history.present.value, 2);
});

test("what the page itself puts right is no step", () => {
  const history = new History(state(0));
  history.amend(state(1));
  assert.equal(history.canUndo, false);
  assert.equal(history.present.value, 1);
});

test("the oldest of very many steps are forgotten", () => {
  const history = new History(state(0));
  for (let value = 1; value <= 300; value += 1) history.put(state(value));
  while (history.undo());
  assert.equal(history.present.value, 100);
});

test("a run of changes is one step, however many gestures it has", () => {
  const history = new History(state(0));
  history.put(state(1), "setting");
  for (const value of [2, 3, 4]) {
    history.put(state(value), "travel", "travel");
    history.end();
  }
  history.put(state(5), null, "travel");
  history.undo();
  assert.equal(history.present.value, 1);
  history.put(state(6), null, "travel");
  history.undo();
  assert.equal(history.present.value, 1);
  history.undo();
  assert.equal(history.present.value, 0);
});

test("another change ends a run", () => {
  const history = new History(state(0));
  history.put(state(1), null, "travel");
  history.put(state(2), "setting");
  history.put(state(3), null, "travel");
  history.undo();
  assert.equal(history.present.value, 2);
});
