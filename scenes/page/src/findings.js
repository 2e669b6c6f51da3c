/** What is to be noticed: sign and word of severity, the teeth, where; one picked shows its figures. */

import { el } from "./dom.js";
import { counted, unparted } from "./numbers.js";
import { shareFacts, shareLine } from "./sure_panel.js";
import { explained } from "./words.js";

const ORDER = ["serious", "attention", "note"];

/** How many there are of each severity, in words with their signs. */
export function countsLine(counts, signs) {
  return ORDER.map((severity) =>
    el("span", { class: `count ${severity}` },
      el("span", { class: "sign", "aria-hidden": "true", text: signs?.[severity] ?? "" }),
      ` ${severity === "note" ? counted(counts?.note ?? 0, "note") : `${counts?.[severity] ?? 0} ${severity}`}`));
}

/** A list of findings of which one can be picked. */
export class FindingList {
  /** @param {string} id @param {function(object|null)} pick */
  constructor(id, pick) {
    this.pick = pick;
    this.counts = el("span", { class: "counts", id: `${id}-counts` });
    this.list = el("ul", { class: "findings", id });
    this.more = el("button", { type: "button", class: "small", id: `${id}-more`,
      hidden: true, onclick: () => { this.all = !this.all; this.#draw(); } });
    this.element = el("div", {}, this.list, this.more);
    this.picked = null;
  }

  /**
   * @param {string} open what is not there yet, in words; "" all is.
   * @param {Object<string, object>|null} sure how sure findings are, by their ids.
   */
  show(header, signs, open, sure = null) {
    if (header === this.header && open === this.open && sure === this.sure) return;
    Object.assign(this, { header, signs, open, sure });
    const known = header?.findings.some(({ id }) => id === this.picked);
    if (!known) this.picked = null;
    this.counts.replaceChildren(...(header ? countsLine(header.counts, signs) : []),
      open ? el("span", { class: "quiet", text: open }) : "");
    this.#draw();
  }

  #draw() {
    const found = this.header?.findings ?? [];
    const rows = ORDER.flatMap((severity) => found.filter((one) => one.severity === severity));
    const shown = this.all ? rows : rows.filter((one) => one.severity !== "note" || one.id === this.picked);
    const notes = rows.length - rows.filter(({ severity }) => severity !== "note").length;
    this.more.hidden = notes === 0;
    this.more.textContent = this.all ? "Hide notes" : `Show ${counted(notes, "note")}`;
    this.more.setAttribute("aria-expanded", String(Boolean(this.all)));
    const none = rows.length === 0 && this.header && !this.open
      ? [el("li", { class: "quiet", text: "Nothing found. That says nothing about what was not looked at." })]
      : [];
    const rest = this.open ? [el("li", { class: "quiet", text: `${this.open.charAt(0).toUpperCase()}${this.open.slice(1)}.` })] : [];
    this.list.replaceChildren(...none, ...shown.map((one) => this.#item(one)), ...rest);
  }

  #item(one) {
    const picked = one.id === this.picked;
    const shares = this.sure?.[one.id];
    const rest = one.text.startsWith(one.lead) ? one.text.slice(one.lead.length).trim() : one.text;
    const longer = one.text !== one.lead;
    const button = el(
      "button",
      { type: "button", class: "finding", "aria-expanded": String(picked), "aria-pressed": String(picked),
        onclick: () => this.#choose(one) },
      el("span", { class: `sign ${one.severity}`, "aria-hidden": "true", text: one.sign }),
      el("span", { class: "finding-words" },
        el("span", { class: "severity", text: `${one.severity}: ` }), one.lead,
        one.replacement ? el("span", { class: "flag", text: " ◆ replacement tooth" }) : null,
        one.determined === false ? el("span", { class: "quiet", text: " not determined by these records" }) : null,
        shares ? shareLine(shares) : null),
    );
    const more = picked
      ? el("div", { class: "finding-more" },
        longer ? el("p", {}, explained(rest || one.text)) : null,
        one.movement ? null : el("p", { class: "quiet", text: "It belongs to no single excursion." }),
        el("dl", { class: "facts" }, shares ? shareFacts(shares) : null, one.details.map(([name, text]) =>
          el("div", {}, el("dt", {}, explained(name)), el("dd", { text: unparted(text) })))))
      : null;
    return el("li", { class: picked ? "picked" : "" }, button, more);
  }

  #choose(one) {
    this.picked = this.picked === one.id ? null : one.id;
    this.#draw();
    this.list.querySelector(".picked button")?.focus();
    this.pick(this.picked ? one : null);
  }

  /** Let go of what was picked. */
  forget() {
    if (this.picked === null) return;
    this.picked = null;
    this.#draw();
  }
}

/** Where on its way a finding is best seen: halfway, at a tenth of a millimetre where one lies there. */
export function middleOf({ from_mm: from, to_mm: to }) {
  if (from === null) return 0;
  const round = Math.round(5 * (from + to)) / 10;
  return Number((round >= from && round <= to ? round : from).toFixed(3));
}
