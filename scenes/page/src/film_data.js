/** What a film to be turned by hand holds, and how it is unpacked. */

import { decode } from "./message.js";
import { FAR } from "./view_casts.js";

/** Gaps are kept as square roots of shares of the limit, in so many steps; one more is "farther". */
const GAP_STEPS = 254;
const FARTHER = 255;
/** What the page is told of gaps: shares of the limit in so many steps. */
const SHARES = FAR - 1;

/**
 * Unpack a message that was deflated and written in base 64.
 *
 * @param {string} text
 * @returns {Promise<{header: object, buffers: object}>}
 */
export async function unpacked(text) {
  const bytes = Uint8Array.from(atob(text.trim()), (sign) => sign.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate"));
  return decode(await new Response(stream).arrayBuffer());
}

/** @returns {Uint16Array} of every step that gaps are kept in, the share of the limit. */
export function sharesOfSteps() {
  return Uint16Array.from({ length: FARTHER + 1 }, (_, step) =>
    (step === FARTHER ? FAR : Math.round((step / GAP_STEPS) ** 2 * SHARES)));
}

/** A film: its moments, and which of them is shown at which picture. */
export class Film {
  /** @param {{header: object, buffers: object}} message with what each moment adds to the one before. */
  constructor({ header, buffers }) {
    this.told = header;
    this.shares = sharesOfSteps();
    this.steps = {};
    for (const arch of ["upper", "lower"]) {
      this.steps[arch] = summedUp(buffers[`gap_${arch}`], header.moments.length);
    }
  }

  /** How many pictures it has. */
  get length() {
    return this.told.pictures.length;
  }

  /** The moment of a picture. */
  at(number) {
    return this.told.moments[this.told.pictures[number]];
  }

  /** When a picture is shown, seconds from the beginning. */
  secondsOf(number) {
    return number / this.told.pictures_a_s;
  }

  /** The picture that is shown at a time. */
  numberAt(seconds) {
    // A time that belongs to a picture must not fall to the one before by rounding.
    const number = Math.floor(seconds * this.told.pictures_a_s + 1e-6);
    return Math.min(Math.max(number, 0), this.length - 1);
  }

  /** Number of the movement that a picture belongs to. */
  movementOf(number) {
    return this.told.movements.findLastIndex(({ first }) => first <= number);
  }

  /** A picture as the view of the casts takes it: header and buffers of a pose. */
  poseOf(number) {
    const moment = this.at(number);
    const words = `${moment.head}, ${moment.travel}. ${moment.told}`;
    const header = { ...moment, number, words, map_limit_mm: this.told.limit_mm };
    return [header, { gap_upper: this.#gaps("upper", number), gap_lower: this.#gaps("lower", number) }];
  }

  #gaps(arch, number) {
    const { each, values } = this.steps[arch];
    const first = each * this.told.pictures[number];
    return Uint16Array.from(values.subarray(first, first + each), (step) => this.shares[step]);
  }
}

/** Rows that each add to the one before, as rows that stand alone. */
function summedUp(values, rows) {
  const each = values.length / rows;
  for (let i = each; i < values.length; i += 1) values[i] += values[i - each];
  return { each, values };
}
