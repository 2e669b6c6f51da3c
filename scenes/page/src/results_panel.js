/** What is known of one state: contacts now, what guides, what to notice, tracks, figures. */

import { byId, el, show } from "./dom.js";
import { FindingList } from "./findings.js";
import { legend } from "./legend.js";
import { fixed, unparted, withUnit } from "./numbers.js";
import { TouchChart } from "./touch_chart.js";
import { TrackCharts } from "./track_charts.js";

const GUIDES = { teeth: "teeth", table: "the guide table", pin: "the pin", nothing: "nothing" };

export class ResultsPanel {
  /** @param {{travel: function, end: function, pick: function, movement: function}} calls */
  constructor(calls) {
    this.calls = calls;
    this.now = el("div", { id: "pose-now" });
    this.guides = el("ul", { class: "guides", id: "guides" });
    this.chart = new TouchChart("touch-chart", calls.travel, calls.end);
    this.chartTitle = el("span", { text: "Teeth in contact" });
    this.chartText = el("p", { class: "quiet", id: "guide-text" });
    this.contacts = el("div", { id: "contacts" });
    this.findings = new FindingList("findings", calls.pick);
    this.replacement = el("ul", { class: "replacement", id: "replacement" });
    this.tracks = new TrackCharts("track-");
    this.facts = el("dl", { class: "facts", id: "facts" });
    this.slide = el("p", { id: "slide" });
    this.legend = el("div", { id: "legend" });
    this.sections = [
      section("now", "In this pose", this.now, this.contacts),
      section("guides", "What guides", this.guides),
      section("touch", this.chartTitle, this.chart.element, chartKey(), this.chartText),
      section("findings", "Findings", this.findings.element),
      section("replacement", "Replacement teeth", this.replacement),
      section("tracks", "Tracks", this.tracks.element),
      section("facts", "Facts", this.slide, this.facts),
      section("legend", "Legend", this.legend),
    ];
    this.element = el("div", { id: "results-of-one", class: "waiting" }, this.sections);
  }

  /** @param {object} study @param {object} state */
  update(study, state, welcome) {
    this.#pose(study.pose?.header, state);
    const { results } = study;
    const row = study.excursion(state.movement, state.start);
    this.chart.show(row, welcome.styles[state.movement]);
    this.chart.at_mm(state.travel_mm);
    this.chartTitle.textContent = row ? `Teeth in contact, ${lowerFirst(row.title)}` : "Teeth in contact";
    this.chartText.textContent = row ? row.text : "There is no travel along which teeth could be followed.";
    this.element.classList.toggle("waiting", results === null);
    this.element.classList.toggle("old", results !== null && !study.fresh);
    this.element.setAttribute("aria-busy", String(!study.fresh || !results?.whole));
    if (results && (results !== this.results || state.movement !== this.movement || state.start !== this.start)) {
      this.#guides(results.header, state);
      this.findings.show(results.header, welcome.severities);
      this.#replacement(results.header);
      this.#facts(results);
    }
    this.tracks.show(results, welcome, state, study.teeth?.header.axis);
    if (study.pose) this.tracks.at(study.pose.header);
    if (!this.legend.firstChild) this.legend.append(legend(welcome));
    Object.assign(this, { results, movement: state.movement, start: state.start });
  }

  #pose(pose, state) {
    if (!pose || pose === this.pose) return;
    this.pose = pose;
    const { first, next } = pose;
    const line = (name, text) => el("div", {}, el("dt", { text: name }), el("dd", { text }));
    const guided = pose.opened_mm > 0 ? "nothing: opened" : (GUIDES[pose.guide] ?? pose.guide);
    const lines = [
      line("jaw held by", guided),
      first ? line("first contact", `${first.upper} on ${first.lower}`) : null,
      next ? line("would touch next", `${next.upper} on ${next.lower}, after ${gapWords(next.gap_mm)}`) : null,
      line("opening at closure", withUnit(fixed(pose.opening_deg, 2), "°")),
      pose.opened_mm > 0 ? line("opened beyond it, lower incisal point", withUnit(pose.opened_mm.toFixed(1), "mm")) : null,
    ];
    this.now.replaceChildren(el("dl", { class: "facts" }, lines));
    this.contacts.replaceChildren(contactTable(pose, state));
  }

  #guides(header, state) {
    this.guides.replaceChildren(...header.guidance.map((one) => {
      const chosen = one.movement === state.movement && one.start === state.start;
      return el("li", {},
        el("button", { type: "button", "aria-pressed": String(chosen),
          onclick: () => this.calls.movement(one.movement, one.start) },
        el("span", { class: "guide-title", text: one.title }),
        el("span", { class: "guide-words", text: one.words })));
    }));
  }

  #replacement(header) {
    const rows = header.replacement;
    const none = [el("li", { class: "quiet", text: "This case has no replacement teeth." })];
    this.replacement.replaceChildren(...(rows.length ? rows.map(replacementRow) : none));
  }

  #facts({ header, whole }) {
    this.slide.textContent = header.slide ?? "";
    show(this.slide, Boolean(header.slide));
    const rows = header.facts.map(([name, text]) =>
      el("div", {}, el("dt", { text: name }), el("dd", { text: unparted(text) })));
    const wait = whole ? [] : [el("div", { class: "quiet" }, el("dt", { text: "still being computed" }), el("dd"))];
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

/** A gap with the unit that suits it. */
export function gapWords(mm) {
  const micrometres = Math.round(mm * 1000);
  return Math.abs(micrometres) < 100 ? withUnit(String(micrometres), "µm") : withUnit(mm.toFixed(2), "mm");
}

function contactTable(pose) {
  if (pose.contacts.length === 0) {
    const words = pose.opened_mm > 0
      ? "No contact: the jaw is opened beyond closure."
      : pose.guide === "table" ? "No tooth touches: the guide table holds the jaw." : "No tooth touches in this pose.";
    return el("p", { class: "quiet", id: "no-contact", text: words });
  }
  const isFirst = ({ upper, lower }) => upper === pose.first?.upper && lower === pose.first?.lower;
  return el("table", { class: "contacts" },
    el("caption", { class: "spoken", text: "Contacts of this pose" }),
    el("thead", {}, el("tr", {}, ["Upper", "Lower", "Side", "Gap, µm", "Area, mm²"].map((words) =>
      el("th", { scope: "col", text: words })))),
    el("tbody", {}, pose.contacts.map((one) => el("tr", { class: isFirst(one) ? "is-first" : "" },
      el("td", { text: String(one.upper) }), el("td", { text: String(one.lower) }),
      el("td", { text: one.side || "–" }),
      el("td", { text: String(Math.round(one.gap_mm * 1000)) }),
      el("td", { text: one.area_mm2.toFixed(2) })))));
}

/** Whether a replacement tooth touches, and where. */
export function replacementRow({ tooth, name, words, touches }) {
  return el("li", { class: touches ? "touches" : "" },
    el("span", { class: "flag", "aria-hidden": "true", text: touches ? "◆" : "◇" }),
    el("span", {}, el("strong", { text: `${tooth} ` }), touches ? "touches" : "free", 
      el("span", { class: "quiet", text: ` ${name ?? ""}` }),
      touches ? el("ul", {}, words.split("; ").map((one) => el("li", { text: one }))) : null));
}
