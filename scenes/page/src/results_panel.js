/** What is known of one state: contacts now, what guides, what to notice, tracks, figures. */

import { byId, el, mark, set, show } from "./dom.js";
import { RAISED_BITE } from "./movement_bar.js";
import { FindingList } from "./findings.js";
import { legend } from "./legend.js";
import { LoadPanel } from "./load_panel.js";
import { unparted } from "./numbers.js";
import { PoseNow } from "./pose_now.js";
import { SurePanel } from "./sure_panel.js";
import { TouchChart } from "./touch_chart.js";
import { TrackCharts } from "./track_charts.js";
import { explained } from "./words.js";

/** Place of the section about loads among the others. */
const LOADS = 5;

export class ResultsPanel {
  /** @param {{travel: function, end: function, pick: function, movement: function}} calls */
  constructor(calls) {
    this.calls = calls;
    this.now = new PoseNow();
    this.guides = el("ul", { class: "guides", id: "guides" });
    this.chart = new TouchChart("touch-chart", calls.travel, calls.end);
    this.chartTitle = el("span", { text: "Teeth in contact" });
    this.chartText = el("p", { class: "quiet", id: "guide-text" });
    this.chartKey = chartKey();
    this.findings = new FindingList("findings", calls.pick);
    this.sure = new SurePanel();
    this.replacement = el("ul", { class: "replacement", id: "replacement" });
    this.loads = new LoadPanel(calls.put);
    this.tracks = new TrackCharts("track-");
    this.facts = el("dl", { class: "facts", id: "facts" });
    this.slide = el("p", { id: "slide" });
    this.legend = el("div", { id: "legend" });
    this.sections = [
      section("now", "In this pose", this.now.element),
      section("guides", "What guides", this.guides),
      section("touch", this.chartTitle, this.chart.element, this.chartKey, this.chartText),
      section("findings", "Findings", this.sure.head, this.findings.element, this.sure.others),
      section("replacement", "Replacement teeth", this.replacement),
      section("loads", "Load on replacement teeth", this.loads.element),
      section("tracks", "Tracks", this.tracks.element),
      section("facts", "Facts", this.slide, this.facts),
      section("legend", "Legend", this.legend),
    ];
    this.head = el("button", { type: "button", class: "results-head", id: "to-findings", title: "Go to the findings",
      onclick: () => this.#toFindings() }, this.findings.counts, el("span", { class: "spoken", text: ": go to the findings" }),
      el("span", { "aria-hidden": "true", text: "↓" }));
    this.element = el("div", { id: "results-of-one", class: "waiting" }, this.head, this.sections);
  }

  #toFindings() {
    const found = byId("section-findings");
    found.open = true;
    found.querySelector("summary").focus({ preventScroll: true });
    found.scrollIntoView({ block: "start" });
  }

  /** Whether something goes on moving. */
  moving(on) {
    this.now.moving(on);
  }

  /** @param {object} study @param {object} state */
  update(study, state, welcome) {
    this.now.show(study.pose?.header);
    const { results } = study;
    const row = study.excursion(state.movement, state.start);
    const style = welcome.styles[state.movement];
    this.chart.show(row, style);
    this.chartKey.style.setProperty("--movement", style?.colour ?? "#1c1f24");
    this.chart.at_mm(state.travel_mm);
    set(this.chartTitle, { textContent: row ? `Teeth in contact, ${lowerFirst(row.title)}` : "Teeth in contact" });
    this.#chartWords(row ? row.text : rowless(study, state));
    const none = results === null || study.isOfOther(results);
    this.element.classList.toggle("waiting", none);
    show(this.head, !none);
    this.element.classList.toggle("old", !none && !study.fresh);
    mark(this.element, { "aria-busy": study.computing });
    const standing = `${study.fresh} ${study.computing}`;
    const sure = this.sure.update(study, state);
    if (results) this.findings.show(results.header, welcome.severities, openWords(study), sure);
    if (results && (results !== this.results || standing !== this.standing || state.movement !== this.movement || state.start !== this.start)) {
      this.#guides(results.header, state, results.whole ? "" : openWords(study));
      this.#replacement(results);
      this.#facts(results, study);
    }
    show(this.sections[LOADS], this.loads.update(study, state));
    this.tracks.show(results, welcome, state, study.teeth?.header.axis);
    if (study.pose) this.tracks.at(study.pose.header);
    if (!this.legend.firstChild) this.legend.append(legend(welcome));
    Object.assign(this, { results, standing, movement: state.movement, start: state.start });
  }

  #chartWords(text) {
    if (text === this.chartTold) return;
    this.chartTold = text;
    this.chartText.replaceChildren(...explained(text));
  }

  #guides(header, state, open) {
    this.guides.replaceChildren(...header.guidance.map((one) => {
      const chosen = one.movement === state.movement && one.start === state.start;
      return el("li", {},
        el("button", { type: "button", "aria-pressed": String(chosen),
          onclick: () => this.calls.movement(one.movement, one.start) },
        el("span", { class: "guide-title", text: one.title }),
        el("span", { class: "guide-words", text: one.words })));
    }), ...(open ? [el("li", { class: "quiet", text: `others ${open}` })] : []));
  }

  #replacement({ header, whole }) {
    const rows = header.replacement;
    const none = [el("li", { class: "quiet", text: "This case has no replacement teeth." })];
    this.replacement.replaceChildren(...(rows.length ? rows.map((row) => replacementRow(row, whole)) : none));
  }

  #facts({ header, whole }, study) {
    this.slide.replaceChildren(...explained(header.slide ?? ""));
    show(this.slide, Boolean(header.slide));
    const rows = header.facts.map(([name, text]) =>
      el("div", {}, el("dt", {}, explained(name)), el("dd", { text: unparted(text) })));
    const wait = whole ? [] : [el("div", { class: "quiet" }, el("dt", { text: openWords(study) }), el("dd"))];
    this.facts.replaceChildren(...rows, ...wait);
  }
}

/** A section that can be folded. */
export function section(name, title, ...children) {
  const words = typeof title === "string" ? document.createTextNode(title) : title;
  return el("details", { class: "section", id: `section-${name}`, open: true },
    el("summary", {}, el("h3", {}, words)), children);
}

function chartKey() {
  const swatch = (name, words) => el("span", { class: "key" }, el("span", { class: `swatch ${name}`, "aria-hidden": "true" }), words);
  return el("p", { class: "quiet keys" }, swatch("touch", "touches"), swatch("near", "near"),
    swatch("first", "holds the jaw"), swatch("now", "this pose"), swatch("beyond", "beyond edge-to-edge"));
}

function lowerFirst(words) {
  return words.charAt(0).toLowerCase() + words.slice(1);
}

/** What is not there yet, or never will be; "" when all is there. */
export function openWords(study) {
  if (study.whole) return "";
  if (study.computing) return "still being computed";
  return study.results?.whole ? "of the settings before" : "not computed";
}

/** Why there is no chart of an excursion. */
function rowless(study, { movement }) {
  if (movement === RAISED_BITE) return "There is no travel along which teeth could be followed.";
  return study.computing ? "Still being computed." : "Not computed.";
}

/** Whether a replacement tooth touches, and where. */
export function replacementRow({ tooth, name, words, touches }, whole = true) {
  return el("li", { class: touches ? "touches" : "" },
    el("span", { class: "flag", "aria-hidden": "true", text: touches ? "◆" : "◇" }),
    el("span", {}, el("strong", { text: `${tooth} ` }), touches ? "touches" : whole ? "free" : "free so far",
      el("span", { class: "quiet", text: ` ${name ?? ""}` }),
      touches ? el("ul", {}, words.split("; ").map((one) => el("li", { text: one }))) : null));
}
