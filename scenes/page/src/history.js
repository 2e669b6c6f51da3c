/** Steps back and forth: states as they were, and gestures that are one step however long. */

const MOST_STEPS = 200;

export class History {
  /** @param {object} present never changed, only replaced. */
  constructor(present) {
    this.present = present;
    this.past = [];
    this.future = [];
    this.gesture = null;
    this.run = null;
  }

  /**
   * Take over what is shown next.
   *
   * @param {object} next
   * @param {string|null} gesture what goes on: as long as it is the same, it is one step.
   * @param {string|null} run kind of change of which any number, one after the other, is one step,
   *   also when gestures end between them.
   */
  put(next, gesture = null, run = null) {
    if (next === this.present) return;
    const goesOn = (gesture !== null && gesture === this.gesture) || (run !== null && run === this.run);
    if (!goesOn) {
      this.past.push(this.present);
      if (this.past.length > MOST_STEPS) this.past.shift();
    }
    this.future = [];
    this.gesture = gesture;
    this.run = run;
    this.present = next;
  }

  /** Replace what is shown without a step. */
  amend(next) {
    this.present = next;
  }

  /** A drag has ended: the next change is a step of its own. */
  end() {
    this.gesture = null;
  }

  get canUndo() {
    return this.past.length > 0;
  }

  get canRedo() {
    return this.future.length > 0;
  }

  undo() {
    return this.#step(this.past, this.future);
  }

  redo() {
    return this.#step(this.future, this.past);
  }

  #step(from, to) {
    this.gesture = null;
    this.run = null;
    if (from.length === 0) return false;
    to.push(this.present);
    this.present = from.pop();
    return true;
  }
}
