/** How sure the findings are: asks for a study of the uncertain settings, and shows what it says. */

import { el, set, show, svg } from "./dom.js";
import { unparted } from "./numbers.js";

const WHAT =
  "Tries the settings within what they are known to, in the background, and tells in how many samples each finding holds. " +
  "Takes a minute or more.";

export class SurePanel {
  constructor() {
    this.button = el("button", { type: "button", id: "how-sure", title: WHAT, text: "How sure?",
      onclick: () => this.study?.askSure(this.state) });
    this.stop = el("button", { type: "button", id: "stop-sure", text: "Stop", onclick: () => this.#leave() });
    this.bar = el("progress", { id: "sure-progress", max: "1", "aria-label": "How far the study is" });
    this.words = el("span", { class: "quiet", id: "sure-words", role: "status" });
    this.running = el("div", { class: "sure-running" }, this.bar, this.stop);
    this.about = el("div", { class: "sure-about", id: "sure-about" });
    this.others = el("div", { class: "sure-others", id: "sure-others" });
    this.head = el("div", { class: "sure" }, this.button, this.running, this.words, this.about);
  }

  #leave() {
    this.study.leaveSure();
    show(this.button, true);
    this.button.focus();
  }

  /** @param {object} study @param {object} state @returns {object|null} what is shown beside findings, by their ids. */
  update(study, state) {
    Object.assign(this, { study, state });
    const { sure } = study;
    const runs = sure?.stands === "running";
    const found = study.freshSure;
    show(this.button, !runs && !found);
    set(this.button, { disabled: !study.whole });
    show(this.running, runs);
    if (runs && sure.share !== null) set(this.bar, { value: sure.share });
    else this.bar.removeAttribute("value");
    set(this.words, { textContent: wordsOf(sure, found) });
    if (found !== this.shown) this.#result(found);
    return found?.findings ?? null;
  }

  #result(found) {
    this.shown = found;
    show(this.about, Boolean(found));
    show(this.others, Boolean(found));
    this.about.replaceChildren(...(found ? [
      el("p", { class: "quiet", text: found.lead }),
      el("details", {}, el("summary", { text: "What a share means" }), found.about.map((text) => el("p", { class: "quiet", text }))),
    ] : []));
    const rows = found?.others ?? [];
    this.others.replaceChildren(...(rows.length ? [
      el("h4", { text: "Not as set, but in some samples" }),
      el("ul", {}, rows.map((one) => el("li", {}, el("span", { text: `${one.title} ` }), shareLine(one)))),
    ] : []));
  }
}

function wordsOf(sure, found) {
  if (found || !sure) return "";
  if (sure.stands === "running") return sure.words || "Getting ready";
  if (sure.stands === "fault") return unparted(`Not studied: ${sure.text}`);
  return sure.stands === "left" ? "Stopped: the study was left off." : "";
}

/** A share as a bar with its interval, and in a few words. */
export function shareLine(one) {
  return el("span", { class: "share-line" }, shareBar(one), el("span", { text: `holds in ${one.short}` }));
}

/** The share as a filled part of a bar; on it the interval, as a line with ends. */
function shareBar({ low, share, high }) {
  const ends = `M${low + 2} 8H${high + 2}M${low + 2} 4.5v7M${high + 2} 4.5v7`;
  return svg("svg", { class: "share", viewBox: "0 0 104 16", "aria-hidden": "true" },
    svg("rect", { class: "whole", x: 2, y: 3, width: 100, height: 10 }),
    svg("rect", { class: "part", x: 2, y: 3, width: share, height: 10 }),
    svg("path", { class: "halo", d: ends }), svg("path", { class: "interval", d: ends }));
}

/** What is told of a finding that is picked. */
export function shareFacts(one) {
  const rows = [["how sure", `${one.text}: ${one.settled}`], ...(one.decides ? [["what decides it", one.decides]] : [])];
  return rows.map(([name, text]) => el("div", {}, el("dt", { text: name }), el("dd", { text: unparted(text) })));
}
