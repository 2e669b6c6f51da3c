/** Asks for what the state wants: at once, or some times a second while something goes on moving. */

/** The casts follow a travel by themselves; what touches there is asked for so often. */
const EVERY_MS = 120;
/** Less often where every frame is laborious. */
const SOFTWARE_EVERY_MS = 250;

export class Asking {
  /** @param {object} desk holds state, studies, panes. */
  constructor(desk) {
    this.desk = desk;
    this.askedAt = -Infinity;
  }

  /** Ask at once. */
  now() {
    clearTimeout(this.later);
    this.later = 0;
    this.askedAt = performance.now();
    const { state, studies } = this.desk;
    for (const study of Object.values(studies)) {
      if (state[study.which]) study.show(state);
    }
  }

  /** Nothing moves any more: what was put off is asked at once. */
  rest() {
    if (this.later) this.now();
  }

  /** Ask, unless it was asked just now: then a little later, for the state of then. */
  soon() {
    if (this.later) return;
    const every = this.desk.panes.software ? SOFTWARE_EVERY_MS : EVERY_MS;
    const wait = this.askedAt + every - performance.now();
    if (wait <= 0) this.now();
    else this.later = setTimeout(() => this.now(), wait);
  }
}
