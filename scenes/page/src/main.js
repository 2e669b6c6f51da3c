/** Start of the page. */

import { Desk } from "./desk.js";
import { listenToKeys } from "./keys.js";
import { keepReadingOrder } from "./reading_order.js";

keepReadingOrder();
const desk = new Desk();
listenToKeys({
  undo: () => desk.undo(),
  redo: () => desk.redo(),
  play: () => desk.ownCasts.picking || desk.playing.toggle(),
  look: (name) => desk.lookFrom(name),
});
desk.open();
