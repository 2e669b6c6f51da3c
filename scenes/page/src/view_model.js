/** What lies over the surfaces at this moment: places in the picture, and what is hidden. */

import { movePoint, movePointBack } from "./view_vectors.js";

const INK = "#1c1f24";
/** Below this share, words about a direction would not be true of what is seen. */
const ALONG = 0.5;

/** Colour and shape of a movement that has no style of its own. */
const PLAIN = { colour: INK, shape: "o" };

/**
 * Lay out what `drawWords` draws.
 *
 * @param {object} view the CastsView: camera, sight, display, move, teeth, pose, trail, ringed.
 * @param {boolean} still whether the picture rests: then trails, too, are tried for what hides them.
 */
export function overlayModel(view, still) {
  const { camera, display } = view;
  return {
    dots: dots(view, still),
    marks: marks(view),
    ring: ringPlace(view),
    labels: display.numbers ? labels(view) : [],
    title: title(camera, display),
    ...sides(camera),
    pxPerMm: camera.pxPerMm,
    bar: bar(view),
    numberGround: view.roles["replacement tooth"],
  };
}

/** A place given where the upper stands still, as it is seen: on the lower where that is alone. */
function seen(view, place) {
  return view.camera.project(place);
}

function marks(view) {
  const { pose } = view;
  if (!pose || view.mapOf() === "excursion") return [];
  const { colour, shape } = view.styles[pose.movement] ?? PLAIN;
  const first = pose.first?.place;
  const same = (a, b) => a && b && Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]) < 0.3;
  const all = pose.contacts.map(({ place, side }) => ({
    place,
    filled: side !== "nonworking",
    first: same(place, first),
  }));
  if (first && !all.some((one) => one.first)) all.push({ place: first, filled: true, first: true });
  return all.map(({ place, filled, first: isFirst }) => {
    const here = view.placeNow(place);
    const [x, y] = seen(view, here);
    const hidden = view.sight.hides(here, view.camera.towards);
    return { x, y, shape, colour, filled, first: isFirst, hidden };
  });
}

/** Trails lie on the upper, or on the lower where that is shown without the upper. */
function dots(view, still) {
  const onLower = view.display.upper === "away";
  const found = [];
  view.trail.forEach((one, row) => {
    const places = onLower && one.lowerPlaces ? one.lowerPlaces : one.places;
    const hidden = hiddenOf(view, row, places, onLower, still);
    for (let i = 0; i < places.length / 3; i += 1) {
      const here = trailPlace(view, one, places, i, onLower);
      const [x, y] = seen(view, here);
      found.push({ x, y, colour: one.colour, filled: one.filled, hidden: hidden[i] === 1 });
    }
  });
  return found;
}

function trailPlace(view, one, places, i, onLower) {
  const place = [places[3 * i], places[3 * i + 1], places[3 * i + 2]];
  return onLower && one.lowerPlaces ? movePoint(view.move, place) : place;
}

function hiddenOf(view, row, places, onLower, still) {
  const kept = view.trailHidden[row];
  const key = `${view.camera.directions} ${view.displays} ${onLower ? 0 : view.moves}`;
  const count = places.length / 3;
  if (kept && kept.flags.length === count && (kept.key === key || !still)) return kept.flags;
  const flags = new Uint8Array(count);
  if (still) {
    for (let i = 0; i < count; i += 1) {
      const here = trailPlace(view, view.trail[row], places, i, onLower);
      flags[i] = view.sight.hides(here, view.camera.towards) ? 1 : 0;
    }
    view.trailHidden[row] = { key, flags };
  }
  return flags;
}

function ringPlace(view) {
  if (!view.ringed?.place) return null;
  const [x, y] = seen(view, view.ringed.place);
  return { x, y };
}

function labels(view) {
  const { camera, sight, display, ringed } = view;
  const found = [];
  for (const { arch, tooth, text, point, strong } of view.teeth.labels) {
    if (display[arch] === "away") continue;
    const here = arch === "lower" ? movePoint(view.move, point) : point;
    const picked = ringed?.upper === tooth || ringed?.lower === tooth;
    const [x, y, far] = camera.project(here);
    if (!picked && sight.hides(here, camera.towards)) continue;
    found.push({ x, y, far, text, strong, picked });
  }
  return found;
}

function title(camera, display) {
  const name = camera.title;
  const words = [name[0].toUpperCase() + name.slice(1)];
  for (const arch of ["upper", "lower"]) {
    if (display[arch] !== "solid") words.push(`${arch} ${display[arch]}`);
  }
  return words.join(" · ");
}

/** Words for what lies to the left and to the right of the picture. */
function sides({ right }) {
  if (Math.abs(right[1]) > ALONG && Math.abs(right[1]) >= Math.abs(right[0])) {
    const [left, other] = ["patient's right", "patient's left"];
    return right[1] > 0 ? { left, right: other } : { left: other, right: left };
  }
  if (Math.abs(right[0]) > ALONG) {
    return right[0] > 0 ? { left: "back", right: "front" } : { left: "front", right: "back" };
  }
  return { left: "", right: "" };
}

function bar(view) {
  const map = view.mapOf();
  if (map === "none") return null;
  return {
    limitMm: view.limitMm,
    title: map === "excursion" ? "least gap on the way" : "gap to the opposing arch",
    tooth: view.roles["upper tooth"],
  };
}

/**
 * Carry contact places onto the lower: where each stands there while the lower is in MI.
 *
 * @param {Float32Array} places k x 3, hinge frame. @param {ArrayLike<number>} poses k.
 * @param {Float32Array} moves n x 16. @returns {Float32Array} k x 3.
 */
export function placesOnLower(places, poses, moves) {
  const carried = new Float32Array(places.length);
  for (let i = 0; i < poses.length; i += 1) {
    const move = moves.subarray(16 * poses[i], 16 * poses[i] + 16);
    carried.set(movePointBack(move, places.subarray(3 * i, 3 * i + 3)), 3 * i);
  }
  return carried;
}
