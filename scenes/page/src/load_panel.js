/** What teeth of dentures, bridges and splints carry: per excursion where it is most, and on each tooth in the pose shown. */

import { el, set, show, svg } from "./dom.js";
import { forcesAt, loadPose } from "./load_poses.js";
import { unparted } from "./numbers.js";
import { STROKES } from "./view_arrows.js";
import { LEAST_N, MM_PER_N, newtons } from "./view_forces.js";
import { explained } from "./words.js";

const NOW_COLUMNS = ["Tooth", "Along, N", "Across, N"];
/** Smaller forces are not worth a row, N. */
const LEAST_ROW_N = 0.05;

export class LoadPanel {
  /** @param {function(object)} put changes the state. */
  constructor(put) {
    this.put = put;
    this.picked = null;
    this.input = el("input", { type: "checkbox", id: "forces-shown",
      onchange: () => this.#display({ forces: this.input.checked }) });
    this.list = el("div", { id: "loads" });
    this.about = el("div", { class: "quiet", id: "loads-about" });
    this.nowTitle = el("h4", { text: "In this pose" });
    this.nowWords = el("p", { class: "quiet", id: "load-now-words" });
    this.nowTable = el("div", { id: "load-now" });
    this.now = el("div", {}, this.nowTitle, this.nowWords, this.nowTable);
    this.element = el("div", { class: "loads" },
      el("p", {}, "Largest force across the long axes, per 100\u00a0N of closing force. A row moves the jaw there."),
      this.list, this.now,
      el("label", { class: "toggle", for: "forces-shown" }, this.input, el("span", { text: "arrows on the casts" })),
      key(), this.about);
  }

  #display(change) {
    this.put({ display: { ...this.state.display, ...change } });
  }

  /** @returns {boolean} whether the case has what is told here. */
  update(study, state) {
    this.state = state;
    if (!study.results?.header.loads_follow || study.isOfOther(study.results)) return false;
    set(this.input, { checked: state.display.forces });
    const loads = study.freshLoads;
    const words = loads?.header.whole ? "" : waitWords(study);
    if (loads !== this.loads || words !== this.words) {
      Object.assign(this, { loads, words });
      this.#draw();
    }
    this.#showNow(study, state);
    return true;
  }

  #draw() {
    const { header } = this.loads ?? {};
    const excursions = header?.excursions ?? [];
    const names = excursions[0]?.frames.map(({ framework }) => framework) ?? [];
    const most = Math.max(1, ...excursions.flatMap(({ frames }) => frames.map(({ largest }) => largest?.across_n ?? 0)));
    this.list.replaceChildren(
      ...names.flatMap((name, k) => [
        names.length > 1 ? el("h4", { text: sentence(name) }) : "",
        el("ul", { class: "guides" }, excursions.map((one) => this.#item(one, one.frames[k], most))),
      ]),
      this.words ? el("p", { class: "quiet", text: this.words }) : "");
    this.about.replaceChildren(...(header?.about ?? []).map((text) => el("p", {}, explained(text))));
  }

  #item(excursion, frame, most) {
    const lost = excursion.gives_way.map((text) => el("p", { class: "gives-way" },
      el("span", { class: "sign", "aria-hidden": "true", text: "▲" }), sentence(text)));
    const { largest } = frame;
    if (!largest) {
      return el("li", {}, el("p", { class: "no-load" }, el("span", { class: "guide-title", text: excursion.title }),
        el("span", { text: frame.none })), lost);
    }
    const id = `${excursion.movement} ${excursion.start} ${frame.framework}`;
    const picked = id === this.picked;
    const bar = el("span", { class: "load-bar", "aria-hidden": "true" });
    bar.style.width = `${(100 * largest.across_n) / most}%`;
    return el("li", { class: picked ? "picked" : "" },
      el("button", { type: "button", class: "load", "aria-expanded": String(picked), "aria-pressed": String(picked),
        onclick: () => this.#pick(id, excursion, largest) },
      el("span", { class: "guide-title", text: excursion.title }),
      el("span", { class: "guide-words" }, unparted(largest.words), el("span", { class: "load-at", text: unparted(largest.where) }))),
      bar, lost, picked ? moreOf(largest) : null);
  }

  #pick(id, { movement, start }, { at_mm }) {
    this.picked = this.picked === id ? null : id;
    this.#draw();
    const { display } = this.state;
    if (this.picked) this.put({ movement, start, travel_mm: Number(at_mm.toFixed(3)), opening_mm: 0, display: { ...display, forces: true } });
    this.list.querySelector(`.load[aria-pressed="true"]`)?.focus();
  }

  #showNow(study, state) {
    const loads = study.freshLoads;
    show(this.now, loads !== null);
    if (!loads) return;
    const found = loadPose(study, state);
    const forces = forcesAt(study, state);
    const escape = found ? found.excursion.escape[found.i] : "";
    set(this.nowWords, { textContent: nowWords(loads, found, escape, state) });
    const told = escape ? "" : (forces?.key ?? "");
    if (told === this.nowTold) return;
    this.nowTold = told;
    this.nowTable.replaceChildren(told ? nowTable(forces.teeth) : "");
  }
}

function nowWords({ header }, found, escape, state) {
  if (escape) return `Nothing balances the closing force here: ${escape} gives way.`;
  if (found) return `Computed at ${found.excursion.travel_mm[found.i].toFixed(1)}\u202fmm of travel. □ abutment or root: what denture, bridge or splint presses on it with.`;
  const known = header.excursions.some(({ movement, start }) => movement === state.movement && start === state.start);
  if (!known && !header.whole) return "Still being computed.";
  return "Not computed here: only excursions from MI, as far as edge-to-edge and where teeth hold the jaw.";
}

function nowTable(teeth) {
  const rows = teeth.map(({ tooth, place, along, across }) => ({
    name: place ? String(tooth) : `${tooth} □`, n: [along, across].map((force) => Math.hypot(...force)) }));
  const some = rows.filter(({ n }) => Math.max(...n) >= LEAST_ROW_N);
  if (some.length === 0) return el("p", { class: "quiet", text: "Teeth of dentures, bridges and splints carry nothing." });
  return table("Forces in this pose", NOW_COLUMNS, some.map(({ name, n }) => [name, ...n.map(newtons)]));
}

/** Everything about a row that is picked. */
function moreOf({ details, tables }) {
  return el("div", { class: "finding-more" },
    el("dl", { class: "facts" }, details.map(([name, text]) =>
      el("div", {}, el("dt", {}, explained(name)), el("dd", { text: unparted(text) })))),
    tables.map(({ title, columns, rows, note }) => [
      el("h4", { text: title }), table(title, columns, rows), note ? el("p", { class: "quiet", text: note }) : null]));
}

function table(caption, columns, rows) {
  return el("table", { class: "forces" },
    el("caption", { class: "spoken", text: caption }),
    el("thead", {}, el("tr", {}, columns.map((text) => el("th", { scope: "col", text })))),
    el("tbody", {}, rows.map(([first, ...rest]) =>
      el("tr", {}, el("th", { scope: "row", text: first }), rest.map((text) => el("td", { text: unparted(text) }))))));
}

/** What is not there yet, or never will be. */
function waitWords(study) {
  if (study.fault) return "Not computed.";
  if (study.link === "apart") return "Not computed: no connection.";
  return study.loads && study.fresh ? "Others still being computed." : "Still being computed.";
}

function sentence(words) {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function key() {
  const arrow = (kind, words) => el("span", { class: "key" },
    svg("svg", { viewBox: "0 0 34 10", width: 34, height: 10, "aria-hidden": "true" },
      svg("line", { x1: 1, y1: 5, x2: 26, y2: 5, stroke: STROKES[kind].colour, "stroke-width": 2.6, "stroke-dasharray": STROKES[kind].dash.join(" ") || null }),
      svg("path", { d: "M34 5L25 0.5V9.5Z", fill: STROKES[kind].colour })), words);
  return el("p", { class: "quiet keys" }, arrow("along", "along the tooth’s axis"), arrow("across", "across it"),
    el("span", { text: "● from the contact" }), el("span", { text: "□ on an abutment" }),
    el("span", { text: `${10 * MM_PER_N}\u202fmm long for 10\u202fN; none below ${LEAST_N}\u202fN` }));
}
