/** Which teeth touch where along an excursion: a row a pair of teeth, travel to the right. */

import { scale, ticks } from "./chart_scales.js";
import { el, mark, show, svg } from "./dom.js";
import { within } from "./numbers.js";
import { orderedRows } from "./touch_rows.js";

const ROW_PX = 22;
const LABEL_PX = 104;
const RIGHT_PX = 12;
const TOP_PX = 6;
const AXIS_PX = 36;
/** Narrower bars would not be seen, px. */
const LEAST_BAR_PX = 3;
const STEP_MM = 0.1;
const SIDES = { working: "working", nonworking: "nonworking", "": "" };

/** The chart; it is also a slider of travel. */
export class TouchChart {
  /** @param {string} id @param {function(number, string|null)} travel @param {function()} end */
  constructor(id, travel, end) {
    this.travel = travel;
    this.end = end;
    this.drawing = svg("svg", {
      id, class: "touch-chart", tabindex: 0, role: "slider", "aria-label": "Travel along the excursion",
      "aria-orientation": "horizontal", "aria-valuemin": 0,
    });
    this.drawing.addEventListener("keydown", (event) => this.#key(event));
    this.drawing.addEventListener("keyup", () => this.end());
    this.drawing.addEventListener("pointerdown", (event) => this.#down(event));
    this.drawing.addEventListener("pointermove", (event) => this.#moved(event));
    this.drawing.addEventListener("pointerup", () => this.#up());
    this.drawing.addEventListener("pointercancel", () => this.#up());
    this.now = el("div", { class: "now moving", "aria-hidden": "true" });
    this.id = id;
    this.element = el("div", { class: "chart" }, this.drawing, this.now);
    new ResizeObserver(() => this.#draw()).observe(this.element);
  }

  #key(event) {
    const ways = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 5, PageDown: -5 };
    const ends = { Home: 0, End: this.most };
    let to = ends[event.key];
    if (event.key in ways) to = this.at + ways[event.key] * STEP_MM;
    if (to === undefined) return;
    event.preventDefault();
    this.at = Number(within(to, 0, this.most).toFixed(3));
    this.travel(this.at, this.id);
  }

  #down(event) {
    if (event.button !== 0) return;
    this.drawing.setPointerCapture(event.pointerId);
    this.dragging = true;
    this.#moved(event);
  }

  #moved(event) {
    if (!this.dragging) return;
    const box = this.drawing.getBoundingClientRect();
    const back = scale([LABEL_PX, this.wide - RIGHT_PX], [0, this.most]);
    this.travel(Number(within(back(event.clientX - box.left), 0, this.most).toFixed(2)), this.id);
  }

  #up() {
    if (!this.dragging) return;
    this.dragging = false;
    this.end();
  }

  /** Show an excursion of the results; null: there is none yet. */
  show(row, style) {
    if (row === this.row) return;
    this.row = row;
    this.style = style;
    this.#draw();
  }

  /** Show where the jaw stands. */
  at_mm(at) {
    this.at = at;
    if (!this.x) return;
    this.now.style.transform = `translate(${this.x(within(at, 0, this.most))}px, ${TOP_PX}px)`;
    mark(this.drawing, {
      "aria-valuenow": at.toFixed(2), "aria-valuetext": `${at.toFixed(1)} mm${this.#touchingWords(at)}`,
    });
  }

  #touchingWords(at) {
    const now = (this.rows ?? []).filter(({ touch }) => touch.some(([a, b]) => at >= a && at <= b));
    if (now.length === 0) return "";
    return `: ${now.map(({ upper, lower }) => `${upper} on ${lower}`).join(", ")}`;
  }

  #draw() {
    const wide = this.element.clientWidth;
    show(this.now, Boolean(this.row));
    if (!this.row || !wide) {
      this.drawing.setAttribute("height", 0);
      this.drawing.replaceChildren();
      return;
    }
    this.wide = wide;
    this.rows = orderedRows(this.row.pairs);
    this.most = this.row.travel_mm.at(-1);
    this.tall = TOP_PX + this.rows.length * ROW_PX + AXIS_PX;
    this.x = scale([0, this.most], [LABEL_PX, wide - RIGHT_PX]);
    this.now.style.height = `${this.tall - AXIS_PX + 4 - TOP_PX}px`;
    this.drawing.setAttribute("viewBox", `0 0 ${wide} ${this.tall}`);
    this.drawing.setAttribute("height", this.tall);
    this.drawing.setAttribute("aria-valuemax", this.most.toFixed(2));
    const colour = this.style?.colour ?? "#1c1f24";
    this.drawing.replaceChildren(
      this.#hatch(colour), ...this.#beyond(), ...this.rows.flatMap((row, i) => this.#row(row, i, colour)),
      ...this.#axis(),
    );
    this.at_mm(this.at ?? 0);
  }

  #hatch(colour) {
    return svg("defs", {}, svg("pattern",
      { id: `${this.id}-hatch`, width: 5, height: 5, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" },
      svg("rect", { width: 5, height: 5, fill: "#fff" }),
      svg("rect", { width: 2, height: 5, fill: colour })));
  }

  #beyond() {
    const edge = this.row.edge_to_edge_mm;
    if (edge === null || edge >= this.most) return [];
    const x = this.x(edge);
    const bottom = this.tall - AXIS_PX;
    return [
      svg("rect", { class: "beyond", x, y: TOP_PX, width: this.wide - RIGHT_PX - x, height: bottom - TOP_PX }),
      svg("line", { class: "edge", x1: x, x2: x, y1: TOP_PX, y2: bottom }),
    ];
  }

  #row(row, i, colour) {
    const y = TOP_PX + i * ROW_PX;
    const bar = (ranges, height, name, fill) =>
      ranges.map(([from, to]) => svg("rect", {
        class: name, x: this.x(from), y: y + (ROW_PX - height) / 2, height, fill,
        width: Math.max(this.x(Math.min(to, this.most)) - this.x(from), LEAST_BAR_PX),
      }));
    const words = `${row.upper}\u2009/\u2009${row.lower}`;
    const title = [`${row.upper} on ${row.lower}`, SIDES[row.side], row.replacement ? "replacement tooth" : ""];
    return [
      svg("g", {},
        svg("title", {}, title.filter(Boolean).join(", ")),
        svg("line", { class: "row-line", x1: 0, x2: this.wide, y1: y + ROW_PX, y2: y + ROW_PX }),
        svg("text", { class: row.replacement ? "pair strong" : "pair", x: 0, y: y + 15 }, words),
        row.replacement ? svg("text", { class: "flag", x: 50, y: y + 15 }, "◆ repl.") : "",
        bar(row.near, 8, "near", `url(#${this.id}-hatch)`),
        bar(row.touch, 12, "touch", colour),
        bar(row.first, 3, "first", "#000"),
      ),
    ];
  }

  #axis() {
    const bottom = this.tall - AXIS_PX;
    const marks = ticks(0, this.most, 8).flatMap((mm) => [
      svg("line", { class: "axis", x1: this.x(mm), x2: this.x(mm), y1: bottom, y2: bottom + 4 }),
      svg("text", { class: "axis", x: this.x(mm), y: bottom + 16, "text-anchor": "middle" }, String(mm)),
    ]);
    return [
      svg("line", { class: "axis", x1: LABEL_PX, x2: this.wide - RIGHT_PX, y1: bottom, y2: bottom }),
      ...marks,
      svg("text", { class: "axis", x: this.wide - RIGHT_PX, y: this.tall - 5, "text-anchor": "end" },
        "travel of the lower incisal point, mm"),
    ];
  }
}
