/** Two states side by side: which settings differ, and what follows from that. */

import { el, mark, show } from "./dom.js";
import { countsLine } from "./findings.js";
import { unparted } from "./numbers.js";
import { gapWords } from "./pose_now.js";
import { openWords, section } from "./results_panel.js";
import { valueWords } from "./settings_panel.js";
import { segmented } from "./segmented.js";
import { differences } from "./state.js";
import { trialNow, trialWords } from "./trial.js";
import { TouchChart } from "./touch_chart.js";

const LOADS_TITLE = "Largest load across replacement teeth";

export class Comparison {
  /**
   * @param {{travel: function, end: function, choose: function("a"|"b"), swap: function()}} calls
   * @param {function(string): object|null} named control and name of a setting.
   */
  constructor(calls, named) {
    this.named = named;
    this.chosen = segmented("edited", "Settings shown of", [["a", "A"], ["b", "B"]], calls.choose);
    this.settings = el("div", { id: "differences" });
    this.pose = el("div", { id: "compare-pose" });
    this.guides = el("div", { id: "compare-guides" });
    this.charts = ["a", "b"].map((which) => new TouchChart(`touch-chart-${which}`, calls.travel, calls.end));
    this.findings = el("div", { id: "compare-findings" });
    this.replacement = el("div", { id: "compare-replacement" });
    this.loads = el("div", { id: "compare-loads" });
    this.element = el("div", { id: "results-of-two" },
      el("div", { class: "compare-head" }, this.chosen.element),
      section("differences", "Settings that differ", this.settings),
      section("compare-pose", "In this pose", this.pose),
      section("compare-guides", "What guides", this.guides),
      section("compare-touch", "Teeth in contact",
        this.charts.map(({ element }, i) => [el("h4", { text: "AB"[i] }), element])),
      section("compare-replacement", "Replacement teeth that touch", this.replacement),
      section("compare-loads", LOADS_TITLE, this.loads),
      section("compare-findings", "Findings", this.findings));
  }

  /** @param {{a: object, b: object}} studies */
  update(studies, state, welcome) {
    const { a, b } = studies;
    this.chosen.update(state.chosen);
    this.#settings(a, b, state, welcome.trial);
    this.#pose(a, b);
    [a, b].forEach((study, i) => {
      this.charts[i].show(study.excursion(state.movement, state.start), welcome.styles[state.movement]);
      this.charts[i].at_mm(state.travel_mm);
    });
    this.#loads(a, b);
    this.element.classList.toggle("old", [a, b].some((study) => study.results !== null && !study.fresh));
    mark(this.element, { "aria-busy": a.computing || b.computing });
    const key = [a, b].map(({ results, fresh }) => `${results?.header.number} ${results?.header.kind} ${fresh}`).join();
    if (key === this.key) return;
    this.key = key;
    this.#guides(a, b);
    this.#findings(a, b, welcome);
    this.#replacement(a, b);
  }

  #settings(a, b, state, offered) {
    if (!a.case || !b.case) return;
    const rows = differences(state.a, state.b, a.case.values, b.case.values);
    const cases = state.a.case === state.b.case ? [] : [["Case", a.case.title, b.case.title]];
    const words = (path, value) => valueWords(this.named(path)?.control, value);
    const tried = [a, b].map(({ which, case: about }) => trialWords(trialNow(state[which], about.trial), offered) || "none");
    if (tried[0] !== tried[1]) cases.push(["Trial set-up", ...tried]);
    const told = [...cases, ...rows.map(({ path, one, other }) =>
      [this.named(path)?.name ?? path, words(path, one), words(path, other)])];
    const key = JSON.stringify(told);
    if (key === this.settingsKey) return;
    this.settingsKey = key;
    this.settings.replaceChildren(told.length
      ? twoColumns("Settings that differ", "Setting", told)
      : el("p", { class: "quiet", text: "None yet. Choose A or B, and change a setting of it." }));
  }

  #pose(a, b) {
    const [one, other] = [a, b].map(({ pose }) => pose?.header);
    if (!one || !other || (one === this.one && other === this.other)) return;
    Object.assign(this, { one, other });
    const pairs = (pose) => {
      const found = [...new Set(pose.contacts.map(({ upper, lower }) => `${upper}\u2009/\u2009${lower}`))];
      return found.length ? found.join(", ") : "none";
    };
    const next = ({ next: after }) => (after ? `${after.upper}\u2009/\u2009${after.lower}, ${gapWords(after.gap_mm)}` : "–");
    this.pose.replaceChildren(twoColumns("Contacts of this pose", "Teeth", [
      ["in contact", pairs(one), pairs(other)], ["next, after so much closing", next(one), next(other)],
    ]));
  }

  #guides(a, b) {
    const rows = (study) => study.results?.header.guidance ?? [];
    const other = new Map(rows(b).map((one) => [one.title, one.words]));
    const told = rows(a).map(({ title, words }) => [title, words, other.get(title) ?? missing(b)]);
    this.guides.replaceChildren(twoColumns("What guides", "Movement", told));
  }

  #replacement(a, b) {
    const rows = (study) => study.results?.header.replacement ?? [];
    const words = (study, tooth) => {
      const row = rows(study).find((one) => one.tooth === tooth);
      if (!row) return missing(study);
      return row.touches ? `◆ ${row.words}` : study.results.whole ? "◇ free" : "◇ free so far";
    };
    const teeth = [...new Set([...rows(a), ...rows(b)].map(({ tooth }) => tooth))];
    this.replacement.replaceChildren(teeth.length
      ? twoColumns("Replacement teeth", "Tooth", teeth.map((tooth) => [String(tooth), words(a, tooth), words(b, tooth)]))
      : el("p", { class: "quiet", text: "There are no replacement teeth." }));
  }

  #loads(a, b) {
    const key = [a, b].map(({ freshLoads: loads }) => `${loads?.header.number} ${loads?.header.excursions.length}`).join();
    if (key === this.loadsKey) return;
    this.loadsKey = key;
    const [one, other] = [a, b].map(largestLoads);
    const names = [...new Set([...one.keys(), ...other.keys()])];
    show(this.loads.parentElement, names.length > 0);
    this.loads.replaceChildren(twoColumns(LOADS_TITLE, "Movement", names.map((name) => [name, one.get(name) ?? "–", other.get(name) ?? "–"])));
  }

  #findings(a, b, welcome) {
    const headers = [a, b].map(({ results }) => results?.header);
    const leads = headers.map((header) => new Map(
      (header?.findings ?? []).filter(({ severity }) => severity !== "note").map((one) => [one.lead, one])));
    const only = (i) => [...leads[i].values()].filter(({ lead }) => !leads[1 - i].has(lead));
    const open = (i) => {
      const words = openWords([a, b][i]);
      return words ? el("span", { class: "quiet", text: words }) : null;
    };
    this.findings.replaceChildren(...headers.flatMap((header, i) => [
      el("p", { class: "counts" }, el("strong", { text: `${"AB"[i]} ` }), countsLine(header?.counts, welcome.severities), open(i)),
      only(i).length
        ? el("ul", { class: "only" }, only(i).map((one) => el("li", {},
          el("span", { class: `sign ${one.severity}`, "aria-hidden": "true", text: `${one.sign} ` }),
          el("span", { class: "spoken", text: `${one.severity}: ` }), `only ${"AB"[i]}: ${one.lead}`)))
        : el("p", { class: "quiet",
          text: openWords([a, b][i]) ? "" : `None that only ${"AB"[i]} has, notes left out.` }),
    ]));
  }
}

/** The largest load of every movement and framework, by their names. */
function largestLoads({ freshLoads }) {
  return new Map((freshLoads?.header.excursions ?? []).flatMap(({ title, frames }) =>
    frames.map(({ framework, largest, none }) => [
      frames.length > 1 ? `${title}, ${framework}` : title, largest ? unparted(`${largest.words} ${largest.where}`) : none])));
}

/** What stands where a state has no row. */
function missing(study) {
  if (study.results?.whole) return "–";
  return study.computing ? "not yet" : "not computed";
}

/** Long words break where they are put together. */
function breakable(words) {
  return words.replaceAll(/(latero)(protrusion)/gi, "$1\u00ad$2");
}

function twoColumns(caption, first, rows) {
  return el("table", { class: "two" },
    el("caption", { class: "spoken", text: caption }),
    el("thead", {}, el("tr", {}, [first, "A", "B"].map((words) => el("th", { scope: "col", text: words })))),
    el("tbody", {}, rows.map(([name, one, other]) => el("tr", { class: one === other ? "" : "differs" },
      el("th", { scope: "row", text: breakable(name) }), el("td", { text: breakable(one) }), el("td", { text: breakable(other) })))));
}
