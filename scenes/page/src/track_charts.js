/** Tracks of the lower incisal point and of both condyles, each with axes in mm. */

import { evenScales, tickDecimals, ticks } from "./chart_scales.js";
import { el, show, svg } from "./dom.js";
import { fixed } from "./numbers.js";

const MARGIN_PX = 34;
const LEAST_SPAN_MM = 2;
const PLAIN = "#1c1f24";
const BORDER = "#7a828d";
const BORDER_DASH = "2 3";

/**
 * What each chart shows: places of a track as across and upward, mm, from an origin.
 * x is forward, y to the patient's left, z up; seen as when facing the patient.
 */
const CHARTS = [
  { id: "gothic", title: "Gothic arch: lower incisal point, from above", of: "incisal_mm", wide: true,
    plane: ([x, y]) => [y, x], across: "patient’s right ← mm → left", upward: "forward, mm" },
  { id: "condyle-right", title: "Right condyle, from the right", of: "condyle_right_mm", condyle: "right",
    plane: ([x, , z]) => [x, z], across: "forward, mm →", upward: "up, mm" },
  { id: "condyle-left", title: "Left condyle, from the left", of: "condyle_left_mm", condyle: "left",
    plane: ([x, , z]) => [-x, z], across: "← forward, mm", upward: "up, mm", turned: true },
  { id: "condyle-right-above", title: "Right condyle, from above", of: "condyle_right_mm", condyle: "right",
    plane: ([x, y]) => [y, x], across: "right ← mm → left", upward: "forward, mm" },
  { id: "condyle-left-above", title: "Left condyle, from above", of: "condyle_left_mm", condyle: "left",
    plane: ([x, y]) => [y, x], across: "right ← mm → left", upward: "forward, mm" },
];

export class TrackCharts {
  /** @param {string} prefix of ids. */
  constructor(prefix) {
    this.charts = CHARTS.map((chart) => {
      const drawing = svg("svg", { id: `${prefix}${chart.id}`, role: "img", "aria-label": chart.title });
      const now = el("div", { class: "now-point moving", hidden: true, "aria-hidden": "true" });
      const figure = el("figure", { class: chart.wide ? "wide" : "" },
        el("figcaption", { text: chart.title }), el("div", { class: "chart" }, drawing, now));
      return { chart, drawing, figure, now };
    });
    this.keys = el("ul", { class: "quiet keys", id: `${prefix}keys` });
    this.element = el("div", { class: "tracks" }, this.keys, this.charts.map(({ figure }) => figure));
    new ResizeObserver(() => this.#draw()).observe(this.element);
  }

  /**
   * @param {object} results of a study. @param {object} welcome @param {object} state
   * @param {object} axis condyle centres in CR.
   */
  show(results, welcome, state, axis) {
    const key = results ? `${results.header.number} ${results.header.kind} ${state.movement} ${state.start}` : "";
    if (key === this.key) return;
    Object.assign(this, { key, results, styles: welcome?.styles ?? {}, state, axis });
    this.#draw();
  }

  /** Where the pose stands. */
  at(pose) {
    this.pose = pose;
    for (const one of this.charts) this.#point(one);
  }

  #point({ chart, now, scales, origin }) {
    const place = chart.condyle ? this.pose?.condyles_mm?.[chart.condyle] : this.pose?.incisal_mm;
    show(now, Boolean(scales && place));
    if (!scales || !place) return;
    const [across, upward] = chart.plane(place.map((value, k) => value - origin[k]));
    now.style.transform = `translate(${scales.x(across)}px, ${scales.y(upward)}px)`;
  }

  #origin(chart) {
    if (chart.condyle) return this.axis?.[chart.condyle] ?? [0, chart.condyle === "right" ? -52 : 52, 0];
    const first = this.results.header.movements.find(({ start }) => start === "MI");
    return first ? [...this.results.buffers[first[chart.of]].subarray(0, 3)] : [0, 0, 0];
  }

  #tracks(chart, origin) {
    const { header, buffers } = this.results;
    const track = (row, border) => {
      const values = buffers[row[chart.of]] ?? new Float32Array(0);
      const points = [];
      for (let i = 0; i + 2 < values.length; i += 3) {
        points.push(chart.plane([0, 1, 2].map((k) => values[i + k] - origin[k])));
      }
      const chosen = !border && row.movement === this.state.movement && row.start === this.state.start;
      const style = this.styles[row.movement] ??
        (/45/.test(row.movement) ? this.styles[row.movement.includes("-") ? "right between" : "left between"] : null);
      return { points, chosen, border, style, title: row.title };
    };
    const from = (rows, border) => rows.map((row) => track(row, border));
    const shown = header.movements.filter(({ start }) => start === this.state.start);
    return [...from(header.borders, true), ...from(shown, false)]
      .filter(({ points }) => points.length > 1)
      .sort((one, other) => Number(one.chosen) - Number(other.chosen));
  }

  #draw() {
    if (!this.results) return;
    // All widths before anything is written: each reading after a writing lays out the page anew.
    const widths = this.charts.map(({ figure }) => figure.clientWidth);
    this.#drawKeys();
    this.charts.forEach((one, i) => {
      const wide = widths[i];
      if (wide) this.#drawOne(one, wide, one.chart.wide ? Math.round(wide * 0.62) : Math.round(wide * 0.95));
    });
  }

  /** What each line and the ring mean. */
  #drawKeys() {
    const line = (stroke, dash, width) => svg("svg",
      { viewBox: "0 0 26 8", width: 26, height: 8, "aria-hidden": "true" },
      svg("line", { x1: 1, x2: 25, y1: 4, y2: 4, stroke, "stroke-dasharray": dash, "stroke-width": width }));
    const ring = svg("svg", { class: "now-ring", viewBox: "0 0 12 12", width: 12, height: 12, "aria-hidden": "true" },
      svg("circle", { cx: 6, cy: 6, r: 4.5 }));
    const key = (sign, words) => el("li", { class: "key" }, sign, words);
    const tracks = this.#tracks(CHARTS[0], [0, 0, 0]);
    const own = tracks.filter(({ border }) => !border);
    const told = JSON.stringify(tracks.map(({ points, ...words }) => words));
    if (told === this.keysTold) return;
    this.keysTold = told;
    this.keys.replaceChildren(
      ...own.map(({ style, chosen, title }) => key(
        line(style?.colour ?? PLAIN, (style?.dash ?? []).join(" "), chosen ? 3 : 1.6), title)),
      key(line(PLAIN, null, 3), "thick: the movement shown"),
      tracks.length > own.length ? key(line(BORDER, BORDER_DASH, 1.2), "border, without teeth") : "",
      key(ring, "this pose"));
  }

  #drawOne(one, wide, tall) {
    const { chart, drawing } = one;
    one.origin = this.#origin(chart);
    const tracks = this.#tracks(chart, one.origin);
    const told = JSON.stringify([wide, tracks]);
    if (told === one.told) return; // many settings leave the tracks as they are
    one.told = told;
    const all = tracks.flatMap(({ points }) => points);
    one.scales = evenScales(all, { wide, tall, margin: MARGIN_PX, least: LEAST_SPAN_MM });
    const { x, y } = one.scales;
    drawing.setAttribute("viewBox", `0 0 ${wide} ${tall}`);
    const lines = tracks.map(({ points, chosen, border, style, title }) => svg("polyline", {
      points: points.map(([a, b]) => `${x(a).toFixed(1)},${y(b).toFixed(1)}`).join(" "),
      class: border ? "border-track" : chosen ? "track chosen" : "track",
      stroke: border ? BORDER : (style?.colour ?? PLAIN),
      "stroke-dasharray": border ? BORDER_DASH : (style?.dash ?? []).join(" "),
    }, svg("title", {}, border ? `${title}, border, without teeth` : title)));
    drawing.replaceChildren(...this.#axes(one, wide, tall), ...lines);
    this.#point(one);
  }

  #axes({ chart, scales }, wide, tall) {
    const { x, y, across, upward } = scales;
    const left = MARGIN_PX;
    const bottom = tall - MARGIN_PX;
    const horizontal = ticks(across[0], across[1], Math.max(3, Math.floor(wide / 46)));
    const vertical = ticks(upward[0], upward[1], Math.max(3, Math.floor(tall / 40)));
    const words = (values, value, turn) => fixed(turn ? -value : value, tickDecimals(values));
    return [
      ...horizontal.flatMap((mm) => [
        svg("line", { class: mm === 0 ? "zero" : "grid", x1: x(mm), x2: x(mm), y1: MARGIN_PX, y2: bottom }),
        svg("text", { class: "axis", x: x(mm), y: bottom + 14, "text-anchor": "middle" }, words(horizontal, mm, chart.turned)),
      ]),
      ...vertical.flatMap((mm) => [
        svg("line", { class: mm === 0 ? "zero" : "grid", x1: left, x2: wide - MARGIN_PX, y1: y(mm), y2: y(mm) }),
        svg("text", { class: "axis", x: left - 5, y: y(mm) + 4, "text-anchor": "end" }, words(vertical, mm, false)),
      ]),
      svg("text", { class: "axis", x: wide / 2, y: tall - 4, "text-anchor": "middle" }, chart.across),
      svg("text", { class: "axis", x: 2, y: MARGIN_PX - 12 }, chart.upward),
    ];
  }
}
