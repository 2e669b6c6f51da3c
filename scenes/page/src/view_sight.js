/** What a line of sight meets: the crowns and the bodies of both arches, as they stand and are shown. */

import { Picker } from "./view_picking.js";
import { STILL, movePointBack, plus, turnBack } from "./view_vectors.js";

/** A line of sight starts this far before the one who looks, mm from the middle. */
const BEFORE_MM = 400;
/** What lies nearer than this to a mark is what it lies on, and hides nothing; mm. */
const OWN_SURFACE_MM = 0.5;

/** A surface that stays the same keeps its picker. */
const pickers = new WeakMap();

function pickerOf(surface) {
  if (!pickers.has(surface)) pickers.set(surface, new Picker(surface));
  return pickers.get(surface);
}

export class Sight {
  /** @param {{upper: object, lower: object}} casts see `joinArch`. */
  constructor(casts) {
    this.surfaces = [];
    for (const arch of ["upper", "lower"]) {
      for (const kind of ["teeth", "around"]) {
        this.surfaces.push({ arch, kind, surface: casts[arch][kind], picker: pickerOf(casts[arch][kind]) });
      }
    }
    this.move = STILL;
    this.display = { upper: "solid", lower: "solid", around: true };
  }

  #shown({ arch, kind }, how) {
    return this.display[arch] === how && (kind === "teeth" || (this.display.around && how === "solid"));
  }

  /** A line in the coordinates of a surface. */
  #line({ arch }, origin, towards) {
    if (arch === "upper") return [origin, towards];
    return [movePointBack(this.move, origin), turnBack(this.move, towards)];
  }

  /** Whether something solid lies between a point and the one who looks. */
  hides(point, towards) {
    return this.#meets(point, towards, ["solid"], -1);
  }

  /** Whether a point inside a crown lies behind others; ghosted ones hide only each other. */
  isBehindOthers(point, towards, arch, tooth) {
    const hows = this.display[arch] === "ghosted" ? ["solid", "ghosted"] : ["solid"];
    return this.#meets(point, towards, hows, tooth);
  }

  #meets(point, towards, hows, except) {
    const back = [-towards[0], -towards[1], -towards[2]];
    return this.surfaces.some((one) => {
      if (!hows.some((how) => this.#shown(one, how))) return false;
      const [from, along] = this.#line(one, point, back);
      return one.picker.cast(from, along, OWN_SURFACE_MM, except) !== null;
    });
  }

  /** Sphere and box of a crown in MI, or undefined. */
  crown(arch, tooth) {
    const { picker } = this.surfaces.find((one) => one.arch === arch && one.kind === "teeth");
    return picker.crowns.find((crown) => crown.tooth === tooth);
  }

  /** The first surface of any kind in a line of sight, and where it is met. @returns {object|null} */
  meet(point, towards) {
    const origin = plus(point, towards, -BEFORE_MM);
    const first = this.#nearest("solid", origin, towards) ?? this.#nearest("ghosted", origin, towards);
    return first && { ...first, point: plus(...this.#line(first, origin, towards), first.hit.t) };
  }

  #nearest(how, origin, towards) {
    let first = null;
    for (const one of this.surfaces) {
      if (!this.#shown(one, how)) continue;
      const hit = one.picker.cast(...this.#line(one, origin, towards));
      if (hit && (!first || hit.t < first.hit.t)) first = { ...one, hit };
    }
    return first;
  }

  /**
   * The crown under a place of the picture; solid ones before ghosted ones.
   *
   * @param {number[]} point in the line of sight. @param {number[]} towards direction of sight.
   * @returns {{arch: string, surface: object, hit: object}|null} null also where gum is in front.
   */
  pick(point, towards) {
    const origin = plus(point, towards, -BEFORE_MM);
    for (const how of ["solid", "ghosted"]) {
      const first = this.#nearest(how, origin, towards);
      if (first) return first.kind === "teeth" ? first : null;
    }
    return null;
  }
}

