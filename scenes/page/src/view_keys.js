/** Keys that turn, shift and enlarge a view of the casts. */

const TURN_PX = 24;
const ZOOM = 1.15;
const WAYS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/** Do what a pressed key asks of a view. @returns {boolean} whether it asks anything. */
export function moveByKey(view, event) {
  if (event.ctrlKey || event.metaKey || event.altKey) return false;
  const way = WAYS[event.key];
  if (way) {
    const [dx, dy] = way.map((one) => one * TURN_PX);
    if (event.shiftKey) view.pan(dx, dy);
    else view.turn(dx, dy);
  } else if (event.key === "+" || event.key === "=") view.zoom(ZOOM);
  else if (event.key === "-") view.zoom(1 / ZOOM);
  else return false;
  event.preventDefault();
  return true;
}
