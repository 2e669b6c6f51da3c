/** From where one looks: a parallel projection, named views, turning, shifting, zooming. */

import { cross, dot, plus, turned, unit } from "./view_vectors.js";

const TILT_RAD = (48 * Math.PI) / 180;
const UP = [0, 0, 1];

/**
 * Named views: what is to the right of the picture and what is up in it. Both arches are seen as
 * when facing the patient and looking into the mouth: the patient's right is on the left.
 */
const VIEWS = {
  front: { right: [0, 1, 0], up: UP },
  right: { right: [1, 0, 0], up: UP },
  left: { right: [-1, 0, 0], up: UP },
  behind: { right: [0, -1, 0], up: UP },
  "upper occlusal": { right: [0, 1, 0], up: [1, 0, 0] },
  "lower occlusal": { right: [0, 1, 0], up: [-1, 0, 0] },
  mouth: { right: [0, 1, 0], up: [-Math.sin(TILT_RAD), 0, Math.cos(TILT_RAD)] },
};

export const VIEW_NAMES = Object.keys(VIEWS);

const LEAST_PX_PER_MM = 0.5;
const MOST_PX_PER_MM = 400;

/** The one who looks. */
export class Camera {
  constructor() {
    this.width = 1;
    this.height = 1;
    /** Middle of the picture, mm in the hinge frame. */
    this.centre = [0, 0, 0];
    this.pxPerMm = 5;
    /** How much was last chosen to be seen, across and upward, mm. */
    this.seen = [1, 1];
    /** Grows with every change of direction, so that what depends on it alone can be kept. */
    this.directions = 0;
    this.look("front");
  }

  /** Direction in which one looks. */
  get towards() {
    return cross(this.up, this.right);
  }

  /** Take a named view; the middle of the picture and its size are left as they are. */
  look(name) {
    const view = VIEWS[name];
    if (!view) {
      throw new Error(`view ${name}: is none of ${VIEW_NAMES.join(", ")}`);
    }
    this.right = [...view.right];
    this.up = [...view.up];
    this.name = name;
    this.turnedAway = false;
    this.directions += 1;
  }

  /** Name of the view, also after turning away from it. */
  get title() {
    return this.turnedAway ? `turned from ${this.name}` : this.name;
  }

  /** Everything that says from where one looks, to be kept or handed to another view. */
  kept() {
    const { name, turnedAway, right, up, centre, pxPerMm } = this;
    return { name, turnedAway, right: [...right], up: [...up], centre: [...centre], pxPerMm };
  }

  /** Look from where `kept` says; what is not a camera is refused. */
  restore(kept) {
    const three = (v) => Array.isArray(v) && v.length === 3 && v.every(Number.isFinite);
    const whole = three(kept?.right) && three(kept.up) && three(kept.centre) && kept.pxPerMm > 0;
    if (!whole || !VIEWS[kept.name]) return false;
    const right = unit(kept.right);
    const up = plus(kept.up, right, -dot(kept.up, right));
    if (dot(up, up) < 1e-6) return false;
    Object.assign(this, { name: kept.name, turnedAway: Boolean(kept.turnedAway), right });
    this.up = unit(up);
    this.centre = [...kept.centre];
    this.pxPerMm = Math.min(Math.max(kept.pxPerMm, LEAST_PX_PER_MM), MOST_PX_PER_MM);
    this.#sees();
    this.directions += 1;
    return true;
  }

  /** Whether a point lies inside the picture. */
  holds(point) {
    const [x, y] = this.project(point);
    return x >= 0 && y >= 0 && x <= this.width && y <= this.height;
  }

  /** Show points as large as fits, with room at the sides, pixels. */
  fit(corners, roomPx) {
    const across = corners.map((corner) => dot(corner, this.right));
    const upward = corners.map((corner) => dot(corner, this.up));
    const span = (values) => Math.max(...values) - Math.min(...values);
    const middle = (values) => 0.5 * (Math.max(...values) + Math.min(...values));
    const wide = Math.max(this.width - roomPx.left - roomPx.right, 50);
    const tall = Math.max(this.height - roomPx.top - roomPx.bottom, 50);
    this.pxPerMm = Math.min(wide / span(across), tall / span(upward));
    const depth = middle(corners.map((corner) => dot(corner, this.towards)));
    const aside = middle(across) + (roomPx.right - roomPx.left) / 2 / this.pxPerMm;
    const above = middle(upward) + (roomPx.top - roomPx.bottom) / 2 / this.pxPerMm;
    this.centre = [0, 1, 2].map(
      (i) => aside * this.right[i] + above * this.up[i] + depth * this.towards[i],
    );
    this.#sees();
  }

  #sees() {
    this.seen = [this.width / this.pxPerMm, this.height / this.pxPerMm];
  }

  /** After the picture has got another size: show all that was chosen to be seen. */
  showAsMuch() {
    const [across, upward] = this.seen;
    this.pxPerMm = Math.min(this.width / across, this.height / upward);
  }

  /** Turn what is seen about the middle of the picture, as a hand on it would; pixels. */
  turn(dx, dy) {
    const perPx = Math.PI / Math.max(300, Math.min(this.width, this.height));
    const up = this.up;
    let right = turned(this.right, up, -dx * perPx);
    const newUp = turned(up, right, -dy * perPx);
    right = unit(right);
    this.up = unit(plus(newUp, right, -dot(newUp, right)));
    this.right = right;
    this.turnedAway = true;
    this.directions += 1;
  }

  /** Shift what is seen; pixels to the right and down. */
  pan(dx, dy) {
    this.centre = plus(this.centre, this.right, -dx / this.pxPerMm);
    this.centre = plus(this.centre, this.up, dy / this.pxPerMm);
  }

  /** Enlarge by a factor; what lies at (x, y), pixels from the left and the top, stays there. */
  zoom(factor, x = this.width / 2, y = this.height / 2) {
    const wanted = Math.min(Math.max(this.pxPerMm * factor, LEAST_PX_PER_MM), MOST_PX_PER_MM);
    const mm = 1 / this.pxPerMm - 1 / wanted;
    this.centre = plus(this.centre, this.right, (x - this.width / 2) * mm);
    this.centre = plus(this.centre, this.up, (this.height / 2 - y) * mm);
    this.pxPerMm = wanted;
    this.#sees();
  }

  /** Where a point is seen: pixels from the left and the top, and how far away, mm. */
  project(p) {
    const d = [p[0] - this.centre[0], p[1] - this.centre[1], p[2] - this.centre[2]];
    return [
      this.width / 2 + dot(d, this.right) * this.pxPerMm,
      this.height / 2 - dot(d, this.up) * this.pxPerMm,
      dot(d, this.towards),
    ];
  }

  /** The point of the picture's plane through its middle that is seen at a place, pixels. */
  unproject(x, y) {
    const aside = plus(this.centre, this.right, (x - this.width / 2) / this.pxPerMm);
    return plus(aside, this.up, (this.height / 2 - y) / this.pxPerMm);
  }
}
