/** Plays the movement of the state: forth and back in time. */

import { RAISED_BITE } from "./movement_bar.js";
import { Player } from "./player.js";

export class Playing {
  /** @param {object} desk holds state, history, parts. */
  constructor(desk) {
    this.desk = desk;
    this.player = new Player({ step: (seconds) => this.#step(seconds), ended: () => this.#ended() });
  }

  get on() {
    return this.player.playing;
  }

  stop() {
    this.player.stop();
  }

  toggle() {
    const { desk } = this;
    if (!desk.history || desk.state.movement === RAISED_BITE) return;
    if (this.on) {
      this.stop();
      return;
    }
    this.way = desk.state.travel_mm >= desk.movementBar.most - 1e-6 ? -1 : 1;
    if (desk.state.opening_mm > 0) desk.put({ opening_mm: 0 }, null, "travel");
    desk.panes.moving(true);
    desk.results.moving(true);
    this.player.start();
    desk.drawing.soon();
  }

  /** One frame: forth and back, or once forth where motion is not wanted. */
  #step(seconds) {
    const { desk } = this;
    const { most, mmPerSecond } = desk.movementBar;
    const wanted = desk.state.travel_mm + this.way * seconds * mmPerSecond;
    const at = Math.min(Math.max(wanted, 0), most);
    const atEnd = this.way > 0 ? wanted >= most : wanted <= 0;
    if (atEnd) this.way = -this.way;
    desk.history.put({ ...desk.state, travel_mm: Number(at.toFixed(3)) }, null, "travel");
    desk.asking.soon();
    desk.moveAtOnce();
    desk.drawing.travel();
    return !(atEnd && matchMedia("(prefers-reduced-motion: reduce)").matches);
  }

  /** It stops at a hundredth of a millimetre, which is what the field shows. */
  #ended() {
    const { state } = this.desk;
    this.desk.history.put({ ...state, travel_mm: Number(state.travel_mm.toFixed(2)) }, null, "travel");
    this.desk.end();
    this.desk.panes.moving(false);
    this.desk.asking.now();
    this.desk.drawing.soon();
  }
}
