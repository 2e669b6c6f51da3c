/** Which movement, from where, how far along it, how fast it is played, how far opened. */

import { scale } from "./chart_scales.js";
import { byId, el, mark, set, svg } from "./dom.js";
import { icon } from "./icons.js";
import { MmField } from "./mm_field.js";
import { segmented } from "./segmented.js";

const SPEEDS = [0.5, 1, 2, 4];
const MOST_OPENING_MM = 40;
/** Where no excursion was computed yet, mm. */
const USUAL_TRAVEL_MM = 6;
const HANDLE_PX = 8;
/** Width of the words at edge-to-edge, px. */
const EDGE_WORDS_PX = 118;

/** Middles of the words at readings are so far apart at least, px. */
const READING_PX = 22;

/** The pin holds the jaw: a movement without travel. */
export const RAISED_BITE = "raised bite";

export class MovementBar {
  /**
   * @param {{movement: function(string), start: function(string), travel: function(number, string|null),
   *   opening: function(number, string|null), end: function(), play: function()}} calls
   */
  constructor(calls) {
    this.calls = calls;
    this.movement = el("select", { id: "movement", onchange: () => calls.movement(this.movement.value) });
    this.starts = segmented("start-from", "From", [["MI", "MI"], ["CR", "CR"]], calls.start);
    this.startWords = el("span", { class: "quiet start-words", id: "start-words" });
    this.starts.element.append(this.startWords);
    this.starts.element.setAttribute("aria-describedby", this.startWords.id);
    this.playWords = el("span", { text: "Play" });
    this.play = el("button", { type: "button", id: "play", class: "play", "aria-pressed": "false",
      title: "Play the movement (space)", onclick: () => calls.play() }, icon("play"), this.playWords);
    this.speed = el("select", { id: "speed" },
      SPEEDS.map((value) => el("option", { value, text: `${value} mm/s`, selected: value === 2 })));
    this.travel = new MmField("travel", "Travel", 0.1, calls.travel, calls.end);
    this.opening = new MmField("opening", "Opening", 0.5, calls.opening, calls.end);
    this.opening.limit(MOST_OPENING_MM);
    this.marks = svg("svg", { class: "marks", "aria-hidden": "true" });
    this.travel.slide.append(this.marks);
    this.#place();
    new ResizeObserver(() => this.#draw()).observe(this.travel.slide);
  }

  #place() {
    const labelled = (input, words) =>
      el("div", { class: "chosen" }, el("label", { for: input.id, text: words }), input);
    byId("movement-bar").append(
      el("div", { class: "bar-row" }, labelled(this.movement, "Movement"), this.starts.element,
        this.play, labelled(this.speed, "Speed")),
      el("div", { class: "bar-row sliders" }, this.travel.element, this.opening.element),
    );
  }

  get mmPerSecond() {
    return Number(this.speed.value);
  }

  /** Name the movements of a case; `notOffered`: by movement and start, why it has no such start. */
  setMovements(movements, notOffered) {
    this.movements = movements;
    this.notOffered = notOffered;
    const named = new Map();
    for (const { movement, start, title } of movements) {
      if (!named.has(movement) || start === "MI") named.set(movement, title.replace(/, from .*/, ""));
    }
    const options = [...named].map(([value, text]) => el("option", { value, text }));
    this.movement.replaceChildren(...options);
  }

  /**
   * @param {object} state
   * @param {object|null} row the excursion of the results, for its length and marks.
   * @param {number[]} readings_mm @param {boolean} standing the movement has no travel.
   */
  update(state, row, readings_mm, standing) {
    this.travel.off(standing);
    set(this.play, { disabled: standing });
    set(this.movement, { value: state.movement });
    const starts = (this.movements ?? []).filter(({ movement }) => movement === state.movement);
    const has = (start) => starts.some((one) => one.start === start);
    this.starts.update(state.start, { MI: !has("MI"), CR: !has("CR") });
    this.#tellStart(state.movement, has("MI"), has("CR"));
    if (row) this.row = row;
    const shown = row ?? (this.row?.movement === state.movement ? this.row : null);
    this.most = Math.max(shown ? shown.travel_mm.at(-1) : USUAL_TRAVEL_MM, state.travel_mm);
    this.travel.limit(this.most);
    this.travel.update(state.travel_mm);
    this.opening.update(state.opening_mm);
    const edge = shown?.edge_to_edge_mm ?? null;
    const marks = JSON.stringify([this.most, edge, readings_mm]);
    if (marks !== this.drawn) {
      this.drawn = marks;
      this.told = { edge, readings_mm };
      this.#draw();
    }
  }

  /** Why one of the two starts cannot be chosen. */
  #tellStart(movement, fromMi, fromCr) {
    const any = (this.movements ?? []).some(({ start, movement }) => start === "CR" && movement !== RAISED_BITE);
    let words = "";
    if (!fromMi && this.movements) words = "CR only";
    else if (!fromCr && this.movements) words = any ? "MI only" : "CR = MI";
    const why = this.notOffered?.[movement] ?? {};
    const reason = why.MI ?? why.CR ?? "";
    set(this.startWords, { textContent: words, title: reason });
    set(this.starts.element, { title: reason });
  }

  playing(on) {
    if (on === this.plays) return;
    this.plays = on;
    mark(this.play, { "aria-pressed": on });
    this.playWords.textContent = on ? "Pause" : "Play";
    this.play.replaceChildren(icon(on ? "pause" : "play"), this.playWords);
  }

  #draw() {
    const wide = this.travel.slide.clientWidth;
    if (!wide || !this.told) return;
    const x = scale([0, this.most], [HANDLE_PX, wide - HANDLE_PX]);
    const { edge, readings_mm } = this.told;
    this.marks.setAttribute("viewBox", `0 0 ${wide} 20`);
    const line = (at, deep, name) => svg("line", { x1: at, x2: at, y1: 0, y2: deep, class: name });
    const word = (at, text, name, anchor = "middle") =>
      svg("text", { x: at, y: 17, class: name, "text-anchor": anchor }, text);
    const shown = readings_mm.filter((mm) => mm <= this.most);
    const hasEdge = edge !== null && edge <= this.most;
    const from = Math.max(x(edge ?? 0) + 4, x(Math.max(0, ...shown)) + 10);
    const fits = from + EDGE_WORDS_PX <= wide;
    const isFree = (mm) => !hasEdge || fits || x(mm) + 8 < wide - EDGE_WORDS_PX;
    const worded = apart(shown.filter(isFree), (mm) => x(mm));
    const parts = shown.flatMap((mm) =>
      [line(x(mm), 5, "reading"), worded.has(mm) ? word(x(mm), String(mm), "reading") : ""]);
    if (hasEdge) {
      parts.push(line(x(edge), 8, "edge"),
        fits ? word(from, `edge-to-edge ${edge.toFixed(1)}\u202fmm`, "edge", "start")
          : word(wide, `edge-to-edge ${edge.toFixed(1)}\u202fmm`, "edge", "end"));
    }
    this.marks.replaceChildren(...parts);
  }
}

/** Those readings that have room for words, first the shortest. */
function apart(readings, x) {
  const kept = new Set();
  let last = -Infinity;
  for (const mm of readings) {
    if (x(mm) - last < READING_PX) continue;
    kept.add(mm);
    last = x(mm);
  }
  return kept;
}
