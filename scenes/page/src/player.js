/** Where the lower stands between computed poses, and running along an excursion in time. */

/**
 * The move of the lower at a travel, between two computed ones.
 *
 * @param {number[]} travel_mm of the poses, rising. @param {Float32Array} moves n x 16.
 * @param {number} at_mm @returns {Float32Array} 16.
 */
export function moveAt(travel_mm, moves, at_mm) {
  const last = travel_mm.length - 1;
  let after = travel_mm.findIndex((value) => value >= at_mm);
  if (after < 0) after = last;
  const before = Math.max(after - 1, 0);
  const width = travel_mm[after] - travel_mm[before];
  const share = width > 0 ? Math.min(Math.max((at_mm - travel_mm[before]) / width, 0), 1) : 0;
  return Float32Array.from({ length: 16 }, (_, i) =>
    (1 - share) * moves[16 * before + i] + share * moves[16 * after + i]);
}

/** After a pause of the browser the movement goes on from where it was, s. */
const LONGEST_STEP_S = 0.3;

/** Runs a travel forward, from 0 again after the end. */
export class Player {
  /** @param {{step: function(number): number|null}} calls seconds gone; false from it: stop. */
  constructor({ step, ended }) {
    this.step = step;
    this.ended = ended;
    this.playing = false;
  }

  start() {
    if (this.playing) return;
    this.playing = true;
    this.before = null;
    this.frame = requestAnimationFrame((now) => this.#tick(now));
  }

  #tick(now) {
    if (!this.playing) return;
    const seconds = this.before === null ? 0 : Math.min((now - this.before) / 1000, LONGEST_STEP_S);
    this.before = now;
    if (this.step(seconds) === false) {
      this.stop();
      return;
    }
    this.frame = requestAnimationFrame((next) => this.#tick(next));
  }

  stop() {
    if (!this.playing) return;
    this.playing = false;
    cancelAnimationFrame(this.frame);
    this.ended();
  }
}
