import assert from "node:assert/strict";
import { mock, test } from "node:test";
import { Asking } from "../src/asking.js";

/** A desk that notes which travel was asked for. */
function desk(software) {
  const asked = [];
  const one = { state: { a: {}, travel_mm: 0 }, panes: { software }, asked };
  one.studies = { a: { which: "a", show: (state) => asked.push(state.travel_mm) } };
  return one;
}

/** Drag for so long, a step each 10 ms. */
function drag(on, asking, forMs) {
  for (let gone = 0; gone < forMs; gone += 10) {
    on.state = { ...on.state, travel_mm: on.state.travel_mm + 1 };
    asking.soon();
    mock.timers.tick(10);
  }
}

function withTimers(call) {
  mock.timers.enable({ apis: ["setTimeout", "Date"], now: 1000 });
  const clock = mock.method(performance, "now", () => Date.now());
  try {
    call();
  } finally {
    clock.mock.restore();
    mock.timers.reset();
  }
}

for (const [software, least, most] of [[false, 8, 9], [true, 4, 5]]) {
  test(`what is dragged is asked for some times a second, software: ${software}`, () => {
    withTimers(() => {
      const on = desk(software);
      drag(on, new Asking(on), 1000);
      assert.equal(on.asked[0], 1, "the first at once");
      assert.ok(on.asked.length >= least && on.asked.length <= most, `${on.asked.length} times`);
      mock.timers.tick(300);
      assert.equal(on.asked.at(-1), 100, "the last place in any case");
    });
  });
}

test("let go of, the last place is asked for at once, and only if it was not", () => {
  withTimers(() => {
    const on = desk(true);
    const asking = new Asking(on);
    drag(on, asking, 50);
    asking.rest();
    asking.rest();
    assert.deepEqual(on.asked, [1, 5]);
  });
});

test("asked at once, nothing is asked again a little later", () => {
  withTimers(() => {
    const on = desk(false);
    const asking = new Asking(on);
    drag(on, asking, 50);
    asking.now();
    assert.deepEqual(on.asked, [1, 5]);
    mock.timers.tick(1000);
    assert.deepEqual(on.asked, [1, 5]);
  });
});
