/** Hands on the picture: drag turns, right drag or two fingers shift, wheel and pinch enlarge. */

const WHEEL = 0.0016;
/** A hand that moves less than this between down and up has clicked, pixels. */
const CLICK_PX = 4;

/**
 * Follow pointers over an element.
 *
 * @param {HTMLElement} element
 * @param {{turn: function(number, number), pan: function(number, number),
 *   zoom: function(number, number, number), hover: function(number, number),
 *   leave: function(), click: function(number, number)}} calls in pixels, from the element's left and top.
 * @returns {function()} stops following.
 */
export function followPointers(element, calls) {
  const down = new Map();
  const stop = new AbortController();
  const on = (type, call) =>
    element.addEventListener(type, call, { signal: stop.signal, passive: false });
  const place = (event) => {
    const box = element.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };

  let begun = null;
  on("pointerdown", (event) => {
    if (event.button > 2) return;
    begun = down.size === 0 && event.button === 0 && !event.shiftKey ? { at: place(event), id: event.pointerId } : null;
    down.set(event.pointerId, place(event));
    element.setPointerCapture(event.pointerId);
    element.focus({ preventScroll: true });
    calls.leave();
  });
  on("pointermove", (event) => {
    const at = place(event);
    const before = down.get(event.pointerId);
    if (!before) {
      if (event.pointerType !== "touch") calls.hover(...at);
      return;
    }
    const [dx, dy] = [at[0] - before[0], at[1] - before[1]];
    if (down.size === 1) {
      const shifts = event.buttons & 6 || event.shiftKey;
      if (shifts) calls.pan(dx, dy);
      else calls.turn(dx, dy);
    } else {
      twoFingers(event.pointerId, before, at);
    }
    down.set(event.pointerId, at);
  });
  const lift = (event) => down.delete(event.pointerId);
  on("pointerup", (event) => {
    lift(event);
    const [x, y] = place(event);
    const still = begun?.id === event.pointerId && Math.hypot(x - begun.at[0], y - begun.at[1]) < CLICK_PX;
    begun = null;
    if (still) calls.click(x, y);
  });
  on("pointercancel", lift);
  on("pointerleave", () => calls.leave());
  on("contextmenu", (event) => event.preventDefault());
  on("wheel", (event) => {
    event.preventDefault();
    const lines = event.deltaMode === 1 ? 16 : 1;
    calls.zoom(Math.exp(-WHEEL * lines * event.deltaY), ...place(event));
  });

  /** One of two fingers moved: half its way shifts, its distance from the other enlarges. */
  function twoFingers(moved, before, at) {
    const other = [...down].find(([id]) => id !== moved)[1];
    calls.pan((at[0] - before[0]) / 2, (at[1] - before[1]) / 2);
    const far = (p) => Math.hypot(p[0] - other[0], p[1] - other[1]);
    if (far(before) > 1) {
      calls.zoom(far(at) / far(before), (at[0] + other[0]) / 2, (at[1] + other[1]) / 2);
    }
  }

  return () => stop.abort();
}
