/** One view of the casts with what lies over it: its name, what is being done, what is pointed at. */

import { CastsView, placesOnLower } from "./casts_view.js";
import { el, show } from "./dom.js";
import { forcesAt } from "./load_poses.js";
import { withUnit } from "./numbers.js";
import { moveByKey } from "./view_keys.js";

export class Pane {
  /**
   * @param {"a"|"b"} which
   * @param {{onFrame: function("a"|"b", object), onLook: function("a"|"b"),
   *   onTooth: function("a"|"b", number)}} calls what is clicked; 0: no tooth
   */
  constructor(which, calls) {
    this.which = which;
    this.calls = calls;
    this.holder = el("div", { class: "holder", id: `view-${which}`, "aria-describedby": "keys-of-view" });
    this.badge = el("p", { class: "badge", text: which.toUpperCase() });
    this.hover = el("p", { class: "hover", id: `hover-${which}` });
    this.work = el("div", { class: "work", id: `work-${which}` });
    this.empty = el("p", { class: "empty", id: `empty-${which}` });
    this.element = el("div", { class: "pane", id: `pane-${which}` },
      this.holder, this.badge, this.work, this.empty, this.hover);
    for (const part of [this.badge, this.hover, this.work, this.empty]) show(part, false);
  }

  /** Make the view, once the server has said how things are coloured. */
  make(welcome) {
    if (this.view) return;
    this.view = new CastsView(this.holder, {
      colours: welcome.roles,
      styles: welcome.styles,
      gapScale: welcome.gap_scale,
      onHover: (hit) => this.#point(hit),
      onFrame: (frame) => this.calls.onFrame(this.which, frame),
      onLook: () => this.calls.onLook(this.which),
      onClick: (hit) => this.calls.onTooth(this.which, hit?.tooth ?? 0),
    });
    this.holder.addEventListener("keydown", (event) => {
      if (moveByKey(this.view, event)) this.calls.onLook(this.which);
    });
  }

  #point(hit) {
    show(this.hover, hit !== null);
    if (!hit) return;
    this.hover.textContent = hoverWords(hit);
    const { clientWidth: wide, clientHeight: tall } = this.holder;
    const { offsetWidth: w, offsetHeight: h } = this.hover;
    const x = Math.max(4, Math.min(hit.x + 14, wide - w - 4));
    const y = hit.y + 18 + h > tall ? Math.max(4, hit.y - h - 12) : hit.y + 18;
    this.hover.style.transform = `translate(${Math.round(x)}px, ${Math.round(y)}px)`;
  }

  /** Say what is being done; "" nothing. */
  working(words, first) {
    show(this.work, words !== "");
    this.work.classList.toggle("skeleton", first);
    if (words !== this.workWords) {
      this.work.replaceChildren(...(first ? [skeleton()] : []), el("p", { text: words }));
    }
    this.workWords = words;
  }

  /** Show the contacts of a whole excursion, or none: null. */
  trail(study, movement, start, style) {
    if (!this.view) return;
    const row = study.fresh ? study.excursion(movement, start) : null;
    const key = row ? `${study.results.header.number} ${study.results.header.kind} ${movement} ${start}` : "";
    if (key === this.trailKey) return;
    this.trailKey = key;
    this.view.setTrail(row ? trailOf(study, row, style) : []);
  }

  /** Show the forces on teeth where the state has the jaw, if they are wanted and known. */
  forces(study, state) {
    if (!this.view?.teeth) return;
    const forces = state.display.forces ? forcesAt(study, state) : null;
    if (forces?.key === this.view.forces?.key) return;
    this.view.lay({ forces });
  }

  forgetTrail() {
    this.trailKey = null;
  }
}

function trailOf(study, row, style) {
  const { contacts } = row;
  const places = study.buffer(contacts.place);
  const moves = study.buffer(row.moves);
  return [true, false].map((filled) => {
    const picked = contacts.side.flatMap((side, i) => ((side !== "nonworking") === filled ? [i] : []));
    const own = new Float32Array(3 * picked.length);
    picked.forEach((from, to) => own.set(places.subarray(3 * from, 3 * from + 3), 3 * to));
    const poses = picked.map((i) => contacts.pose[i]);
    return {
      places: own, lowerPlaces: placesOnLower(own, poses, moves),
      colour: style?.colour ?? "#1c1f24", shape: style?.shape ?? "o", filled,
    };
  });
}

/** What is pointed at, in words. */
export function hoverWords(hit) {
  const where = [hit.name || (hit.tooth ? `tooth ${hit.tooth}` : ""), hit.place].filter(Boolean).join(", ");
  if (hit.map === "none") return where;
  const gap = hit.gap_mm === null || hit.gap_mm === undefined
    ? `farther than ${withUnit(String(hit.farther_than_mm), "mm")}`
    : withUnit(hit.gap_mm.toFixed(2), "mm");
  const what = hit.map === "excursion" ? "nearest in the excursion" : "gap";
  const old = hit.stale ? " (at the last pose computed)" : "";
  return `${where}: ${what} ${gap}${old}`;
}

function skeleton() {
  const row = () => el("div", { class: "skeleton-row" },
    Array.from({ length: 14 }, () => el("span", {})));
  return el("div", { class: "skeleton-casts", "aria-hidden": "true" }, row(), row());
}
