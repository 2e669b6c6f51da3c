/** What lies over the surfaces at this moment: places in the picture, and what is hidden. */

import { forceArrows } from "./view_forces.js";
import { stripsOf } from "./view_frame.js";
import { movePoint, movePointBack, plus } from "./view_vectors.js";

const INK = "#1c1f24";
/** How far beyond the neck of a crown its number stands in a view from the side. */
const NECK_MM = 1.2;
/** How near to the edge of the picture the middle of a number may come. */
const EDGE_PX = 16;
/** Stands behind the number of a tooth that was changed on trial. */
export const CHANGED = "\u2206";
/** Below this share, words about a direction would not be true of what is seen. */
const ALONG = 0.5;

/** Colour and shape of a movement that has no style of its own. */
const PLAIN = { colour: INK, shape: "o" };

/**
 * Lay out what `drawWords` draws.
 *
 * @param {object} view the CastsView: eye, sight, display, move, teeth, pose, trail, ringed.
 * @param {boolean} still whether the picture rests: then trails, too, are tried for what hides them.
 */
export function overlayModel(view, still) {
  const { eye, display } = view;
  const placed = marks(view);
  return {
    dots: dots(view, still),
    marks: placed,
    ring: ringPlace(view),
    pins: pins(view),
    forces: forceArrows(view),
    axis: axis(view),
    labels: display.numbers ? labels(view) : [],
    numberGround: view.roles["replacement tooth"],
    frame: {
      title: title(eye, display),
      hint: placed.some(({ hidden }) => hidden) ? "dotted: contact behind what is seen" : "",
      ...(view.teeth.oriented === false ? { left: "", right: "" } : sides(eye)),
      pxPerMm: eye.pxPerMm,
      bar: bar(view),
    },
  };
}

function marks(view) {
  const { pose } = view;
  if (!pose || view.mapOf() === "excursion") return [];
  const inMi = pose.travel_mm === 0 && pose.start === "MI";
  const { colour, shape } = view.styles[inMi ? "MI" : pose.movement] ?? PLAIN;
  const first = pose.first?.place;
  const same = (a, b) => a && b && Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]) < 0.3;
  const all = pose.contacts.map(({ place, side }) => ({
    place,
    filled: inMi || side !== "nonworking",
    first: same(place, first),
  }));
  if (first && !all.some((one) => one.first)) all.push({ place: first, filled: true, first: true });
  return all.map(({ place, filled, first: isFirst }) => {
    const here = view.placeNow(place);
    const [x, y] = view.eye.project(here);
    const hidden = view.sight.hides(here, view.eye.towards);
    return { x, y, shape, colour, filled, first: isFirst, hidden };
  });
}

/** Marks on what was picked; those behind something solid are drawn hollow. */
function pins({ pins: picked, eye, sight }) {
  return picked.map(({ place, ...pin }) => {
    const [x, y] = eye.project(place);
    return { ...pin, x, y, hidden: sight.hides(place, eye.towards) };
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
      const [x, y] = view.eye.project(here);
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
  const key = `${view.eye.directions} ${view.displays} ${onLower ? 0 : view.moves}`;
  const count = places.length / 3;
  if (kept && kept.flags.length === count && (kept.key === key || !still)) return kept.flags;
  const flags = new Uint8Array(count);
  if (still) {
    for (let i = 0; i < count; i += 1) {
      const here = trailPlace(view, view.trail[row], places, i, onLower);
      flags[i] = view.sight.hides(here, view.eye.towards) ? 1 : 0;
    }
    view.trailHidden[row] = { key, flags };
  }
  return flags;
}

function ringPlace(view) {
  if (!view.ringed?.place) return null;
  const [x, y] = view.eye.project(view.ringed.place);
  return { x, y };
}

/**
 * Numbers stand outside the arch, and from the side beyond the necks, so that crowns stay bare; those
 * of casts without a base stand on their crowns.
 */
function labels(view) {
  const { eye, sight, display, ringed } = view;
  const found = [];
  for (const { arch, tooth, text, point, strong, on_crown: onCrown } of view.teeth.labels) {
    const crown = sight.crown(arch, tooth);
    if (display[arch] === "away" || !crown) continue;
    const carried = (p) => (arch === "lower" ? movePoint(view.move, p) : p);
    const picked = ringed?.upper === tooth || ringed?.lower === tooth || view.tooth === tooth;
    const changed = view.teeth.changed?.includes(tooth) ?? false;
    if (!crownSeen(view, carried(crown.middle), crown.radius, arch, tooth)) continue;
    const isSeen = (p) => !sight.isBehindOthers(carried(p), eye.towards, arch, tooth);
    const at = onCrown ? [point, crown.middle].find(isSeen) : beyondNeck(point, arch, crown, eye);
    if (!at) continue;
    const [x, y, far] = eye.project(carried(at));
    found.push({ ...insidePicture(view, x, y, carried(crown.middle)), far, text: changed ? `${text}${CHANGED}` : text, strong, picked, changed });
  }
  return found;
}

/** A place outside the arch: the more one looks from the side, the farther beyond the neck of a crown. */
function beyondNeck(point, arch, crown, eye) {
  const neck = arch === "upper" ? crown.high[2] + NECK_MM : crown.low[2] - NECK_MM;
  const fromSide = (1 - eye.towards[2] ** 2) ** 2;
  return [point[0], point[1], point[2] + fromSide * (neck - point[2])];
}

/** The number of a crown in the picture stays in the picture, at its edge if need be. */
function insidePicture(view, x, y, middle) {
  const { eye } = view;
  if (!eye.holds(middle)) return { x, y };
  const { top, bottom } = stripsOf(eye.height, view.mapOf() !== "none");
  const within = (value, least, most) => Math.min(Math.max(value, least), most);
  return {
    x: within(x, EDGE_PX, eye.width - EDGE_PX),
    y: within(y, top + EDGE_PX / 2, eye.height - bottom - EDGE_PX / 2),
  };
}

/** Whether the middle of a crown, or one of its flanks, is seen past the others. */
function crownSeen({ eye, sight }, middle, radius, arch, tooth) {
  return [0, -0.5, 0.5].some(
    (share) => !sight.isBehindOthers(plus(middle, eye.right, share * radius), eye.towards, arch, tooth),
  );
}

/** Where the condyle centres are seen, if both are in the picture. */
function axis({ pose, eye }) {
  const centres = [pose?.condyles_mm?.right, pose?.condyles_mm?.left];
  if (!centres.every((centre) => centre && eye.holds(centre))) return null;
  return centres.map((centre) => eye.project(centre).slice(0, 2));
}

function title(eye, display) {
  const name = eye.title;
  const words = [name[0].toUpperCase() + name.slice(1)];
  for (const arch of ["upper", "lower"]) {
    if (display[arch] === "away") words.push(`${arch} away`);
    if (display[arch] === "ghosted") words.push(`${arch} ghosted, crowns only`);
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
    short: map === "excursion" ? "least gap" : "gap",
    tooth: view.roles["upper tooth"],
    scale: view.gapScale,
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
