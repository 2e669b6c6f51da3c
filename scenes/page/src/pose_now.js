/** Where the jaw stands: what holds it, what touches. Words change in place, so that motion stays fluent. */

import { el, set, show } from "./dom.js";
import { areaWords, fixed, travelText, withUnit } from "./numbers.js";
import { explained } from "./words.js";

const GUIDES = { teeth: "teeth", table: "the guide table", pin: "the pin", nothing: "nothing" };
const COLUMNS = ["Upper", "Lower", "Side", "Gap, µm", "Area, mm²"];
const FACTS = {
  travel: "at a travel of",
  held: "jaw held by",
  first: "first contact",
  next: "next to touch",
  opening: "opening at closure",
  opened: "opened beyond it, lower incisal point",
};

/** Two kinds of distance stand in one place; what tells them apart. */
const GAP_WORDS = "Gap: shortest distance between both surfaces as they stand.";
const CLOSING_WORDS = "Closing: how far the jaw would still close, along the closing arc, until the next pair touches.";

export class PoseNow {
  constructor() {
    this.facts = Object.fromEntries(Object.entries(FACTS).map(([name, title]) => {
      const words = el("dd", {});
      return [name, { words, line: el("div", {}, el("dt", { text: title }), words) }];
    }));
    this.list = el("dl", { class: "facts" });
    this.rows = [];
    /** Height kept while something moves, px. */
    this.kept = null;
    this.body = el("tbody", {});
    this.table = el("table", { class: "contacts" },
      el("caption", { class: "spoken", text: "Contacts of this pose" }),
      el("thead", {}, el("tr", {}, COLUMNS.map((text) => el("th", { scope: "col", text })))),
      this.body);
    this.none = el("p", { class: "quiet", id: "no-contact" });
    this.kinds = el("p", { class: "quiet", id: "kinds-of-distance" });
    this.element = el("div", { class: "pose-now" },
      el("div", { id: "pose-now" }, this.list), el("div", { id: "contacts" }, this.none, this.table, this.kinds));
  }

  /** Keep as much room as was needed at most while something moves, so that nothing below jumps. */
  moving(on) {
    if (on === (this.kept !== null)) return;
    this.kept = on ? 0 : null;
    this.element.style.minHeight = "";
    this.#keepRoom();
  }

  #keepRoom() {
    if (this.kept === null) return;
    const needs = this.element.offsetHeight;
    if (needs <= this.kept) return;
    this.kept = needs;
    this.element.style.minHeight = `${needs}px`;
  }

  /** @param {object|undefined} pose as the server tells it. */
  show(pose) {
    if (!pose || pose === this.pose) return;
    this.pose = pose;
    this.#facts(factsOf(pose));
    this.#contacts(pose);
    this.#keepRoom();
  }

  #facts(told) {
    const names = Object.keys(FACTS).filter((name) => told[name]);
    for (const name of names) set(this.facts[name].words, { textContent: told[name] });
    const key = names.join();
    if (key === this.told) return;
    this.told = key;
    this.list.replaceChildren(...names.map((name) => this.facts[name].line));
  }

  #contacts(pose) {
    const { contacts, next } = pose;
    const any = contacts.length > 0;
    show(this.table, any);
    show(this.none, !any);
    set(this.none, { textContent: any ? "" : noneWords(pose) });
    contacts.forEach((one, i) => this.#row(i, one, isFirst(one, pose)));
    for (const row of this.rows.splice(contacts.length)) row.line.remove();
    this.#explain([any ? GAP_WORDS : "", next ? CLOSING_WORDS : ""].filter(Boolean).join(" "));
  }

  #row(i, one, strong) {
    this.rows[i] ??= this.#newRow();
    const { line, cells } = this.rows[i];
    set(line, { className: strong ? "is-first" : "" });
    wordsOf(one).forEach((textContent, k) => set(cells[k], { textContent }));
  }

  #newRow() {
    const cells = COLUMNS.map(() => el("td", {}));
    const line = el("tr", {}, cells);
    this.body.append(line);
    return { line, cells };
  }

  #explain(words) {
    show(this.kinds, words !== "");
    if (words === this.explained) return;
    this.explained = words;
    this.kinds.replaceChildren(...explained(words));
  }
}

function factsOf(pose) {
  const { first, next } = pose;
  return {
    travel: withUnit(travelText(pose.travel_mm), "mm"),
    held: pose.opened_mm > 0 ? "nothing: opened" : (GUIDES[pose.guide] ?? pose.guide),
    first: first && `${first.upper} on ${first.lower}`,
    next: next && `${next.upper} on ${next.lower}, after ${gapWords(next.gap_mm)} of closing`,
    opening: withUnit(fixed(pose.opening_deg, 2), "°"),
    opened: pose.opened_mm > 0 ? withUnit(pose.opened_mm.toFixed(1), "mm") : null,
  };
}

function noneWords(pose) {
  if (pose.opened_mm > 0) return "No contact: the jaw is opened beyond closure.";
  return pose.guide === "table" ? "No tooth touches: the guide table holds the jaw." : "No tooth touches in this pose.";
}

function isFirst({ upper, lower }, { first }) {
  return upper === first?.upper && lower === first?.lower;
}

function wordsOf({ upper, lower, side, gap_mm: gap, area_mm2: area }) {
  return [String(upper), String(lower), side || "–", String(Math.round(gap * 1000)), areaWords(area)];
}

/** A gap with the unit that suits it. */
export function gapWords(mm) {
  const micrometres = Math.round(mm * 1000);
  return Math.abs(micrometres) < 100 ? withUnit(String(micrometres), "µm") : withUnit(mm.toFixed(2), "mm");
}
