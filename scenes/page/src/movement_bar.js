/** Which movement, from where, how far along it, how fast it is played, how far opened. */

import { byId, el, show, svg, isBeingTyped } from "./dom.js";
import { icon } from "./icons.js";
import { readNumber, within } from "./numbers.js";
import { segmented } from "./segmented.js";

const SPEEDS = [0.5, 1, 2, 4];
const MOST_OPENING_MM = 40;
/** Where no excursion was computed yet, mm. */
const USUAL_TRAVEL_MM = 6;
const HANDLE_PX = 8;
/** Width of the words at edge-to-edge, px. */
const EDGE_WORDS_PX = 96;

export class MovementBar {
  /**
   * @param {{movement: function(string), start: function(string), travel: function(number, string|null),
   *   opening: function(number, string|null), end: function(), play: function()}} calls
   */
  constructor(calls) {
    this.calls = calls;
    this.movement = el("select", { id: "movement", onchange: () => calls.movement(this.movement.value) });
    this.starts = segmented("start-from", "From", [["MI", "MI"], ["CR", "CR"]], calls.start);
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

  /** Name the movements of a case. */
  setMovements(movements) {
    this.movements = movements;
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
    this.play.disabled = standing;
    this.movement.value = state.movement;
    const starts = (this.movements ?? []).filter(({ movement }) => movement === state.movement);
    const has = (start) => starts.some((one) => one.start === start);
    this.starts.update(state.start, { MI: !has("MI"), CR: !has("CR") });
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

  playing(on) {
    this.play.setAttribute("aria-pressed", String(on));
    this.playWords.textContent = on ? "Pause" : "Play";
    this.play.replaceChildren(icon(on ? "pause" : "play"), this.playWords);
  }

  #draw() {
    const wide = this.travel.slide.clientWidth;
    if (!wide || !this.told) return;
    const x = (mm) => HANDLE_PX + (mm / this.most) * (wide - 2 * HANDLE_PX);
    const { edge, readings_mm } = this.told;
    this.marks.setAttribute("viewBox", `0 0 ${wide} 20`);
    const line = (at, deep, name) => svg("line", { x1: at, x2: at, y1: 0, y2: deep, class: name });
    const word = (at, text, name, anchor = "middle") =>
      svg("text", { x: at, y: 17, class: name, "text-anchor": anchor }, text);
    const parts = readings_mm
      .filter((mm) => mm <= this.most)
      .flatMap((mm) => [line(x(mm), 5, "reading"), word(x(mm), String(mm), "reading")]);
    if (edge !== null && edge <= this.most) {
      const last = Math.max(0, ...readings_mm.filter((mm) => mm <= this.most));
      const from = Math.max(x(edge) + 4, x(last) + 10);
      const fits = from + EDGE_WORDS_PX <= wide;
      parts.push(line(x(edge), 8, "edge"),
        fits ? word(from, `edge-to-edge ${edge.toFixed(1)}`, "edge", "start")
          : word(wide, `edge-to-edge ${edge.toFixed(1)}`, "edge", "end"));
    }
    this.marks.replaceChildren(...parts);
  }
}

/** A slider and a field in millimetres. */
class MmField {
  constructor(id, words, step, call, end) {
    this.step = step;
    this.slider = el("input", {
      type: "range", id: `${id}-slider`, min: 0, max: 1, step, "aria-label": `${words}, slider`,
      oninput: () => call(Number(this.slider.value), id), onchange: end,
    });
    this.input = el("input", {
      type: "text", inputmode: "decimal", id, autocomplete: "off", "aria-describedby": `${id}-wrong`,
      onchange: () => this.#typed(call),
      onkeydown: (event) => this.#stepped(event, call, id),
      onkeyup: (event) => event.key.startsWith("Arrow") && end(),
    });
    this.wrong = el("span", { class: "wrong", id: `${id}-wrong` });
    show(this.wrong, false);
    this.slide = el("div", { class: "slide" }, this.slider);
    this.element = el("div", { class: `mm mm-${id}` },
      el("label", { for: id, text: words }), this.slide,
      el("span", { class: "number" }, this.input, el("span", { class: "unit", text: "mm" })), this.wrong);
  }

  #typed(call) {
    delete this.input.dataset.dirty;
    const value = readNumber(this.input.value);
    const fits = value >= 0 && value <= this.most;
    this.wrong.textContent = fits ? "" : `Accepted: 0 to ${Number(this.most.toFixed(2))} mm.`;
    show(this.wrong, !fits);
    this.input.setAttribute("aria-invalid", String(!fits));
    if (fits) call(value, null);
  }

  #stepped(event, call, id) {
    const way = { ArrowUp: 1, ArrowDown: -1, PageUp: 10, PageDown: -10 }[event.key];
    if (!way) return;
    event.preventDefault();
    const next = within(Number(this.slider.value) + way * this.step, 0, this.most);
    this.slider.value = String(next);
    call(Number(next.toFixed(3)), id);
  }

  limit(most) {
    this.most = most;
    this.slider.max = String(most);
  }

  off(on) {
    this.slider.disabled = on;
    this.input.disabled = on;
  }

  update(value) {
    this.slider.value = String(value);
    this.slider.setAttribute("aria-valuetext", `${value.toFixed(1)} mm`);
    if (value === this.value && this.input.getAttribute("aria-invalid") === "true") return;
    this.value = value;
    if (isBeingTyped(this.input)) return;
    this.input.value = value.toFixed(2).replace(/(\.\d)0$/, "$1");
    this.input.setAttribute("aria-invalid", "false");
    show(this.wrong, false);
  }
}
