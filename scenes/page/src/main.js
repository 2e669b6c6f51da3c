/** Start of the page. */

import { Desk } from "./desk.js";
import { listenToKeys } from "./keys.js";

const desk = new Desk();
listenToKeys({
  undo: () => desk.undo(),
  redo: () => desk.redo(),
  play: () => desk.togglePlay(),
  look: (name) => desk.lookFrom(name),
});
desk.open();
