/** The trial set-up: changes of single teeth in their order, a form for the next, and ways back. */

import { byId, el, set, show } from "./dom.js";
import { counted } from "./numbers.js";
import { changeWords, faultOfChange, trialKey, trialNow, withTrial } from "./trial.js";
import { TrialForm } from "./trial_form.js";

export class TrialPanel {
  /** @param {object} desk holds state, study, panes, commands. */
  constructor(desk) {
    this.desk = desk;
  }

  /** @param {object} offered as the server says. @returns {HTMLElement} */
  make(offered) {
    this.offered = offered;
    this.form = new TrialForm(offered, {
      apply: (change) => this.#apply(change),
      tooth: () => this.#point(),
      leave: () => { this.form.alter(null); this.form.teeth.focus(); },
    });
    this.count = el("span", { class: "changed-count" });
    this.list = el("ol", { id: "trial-list", "aria-label": "Changes of teeth, in the order in which they are made" });
    this.none = el("p", { class: "quiet", id: "trial-none", text: "No tooth is changed." });
    this.said = el("p", { class: "quiet", id: "trial-said", role: "status" });
    this.notes = el("div", { id: "trial-notes" });
    this.all = el("button", { type: "button", class: "small", id: "trial-none-left", text: "Take all back",
      onclick: () => this.#put([], "All changes of teeth are taken back.") });
    this.back = el("button", { type: "button", class: "small", id: "trial-as-case", text: "As in the case",
      onclick: () => this.#put(this.own, "The changes of teeth are those of the case.") });
    this.before = el("input", { type: "checkbox", id: "before-shown",
      onchange: () => this.desk.put({ display: { ...this.desk.state.display, before: this.before.checked } }) });
    this.shown = el("label", { class: "toggle", for: "before-shown" }, this.before, el("span", { text: "Show changed teeth as they were" }));
    this.element = el("details", { id: "group-trial", class: "group", ontoggle: () => this.#point() },
      el("summary", {}, el("h3", { text: "Change a tooth" }), this.count),
      el("p", { class: "quiet", text: "A trial set-up: see what follows if one tooth were changed. What that does to the tooth itself, its pulp and its support is not told; the clinician decides." }),
      this.form.element, this.said,
      el("h4", { id: "trial-list-title", text: "Changes, in this order" }), this.none, this.list, this.notes,
      el("div", { class: "trial-acts" }, this.all, this.back), this.shown);
    return this.element;
  }

  /** A tooth was clicked in the picture; 0: something else. */
  clicked(which, tooth) {
    if (!this.form || !tooth) return;
    const { desk } = this;
    if (which !== desk.state.chosen) desk.put({ chosen: which });
    this.element.open = true;
    this.form.choose(tooth);
    const panel = byId("settings");
    if (panel.scrollHeight > panel.clientHeight) panel.scrollTop += this.element.getBoundingClientRect().top - panel.getBoundingClientRect().top;
  }

  /** Point out the chosen tooth in the picture, as long as there is something to do to it. */
  #point() {
    this.desk.panes.point(this.element.open ? this.form.tooth : 0);
  }

  /** Whether the changes shown are those of the case that is wanted, which may still be on its way. */
  get #isOfCase() {
    const { state, study } = this.desk;
    return study.case?.name === state[state.chosen].case;
  }

  #apply(change) {
    if (!this.#isOfCase) return;
    const { altering } = this.form;
    const place = altering ?? this.rows.length;
    if (place >= this.offered.most) {
      set(this.said, { textContent: `A case takes ${this.offered.most} changes of teeth; take one back first.` });
      return;
    }
    this.form.alter(null);
    this.#put([...this.rows.slice(0, place), change, ...this.rows.slice(place + 1)], `Applied: ${changeWords(change, this.offered)}. Undo takes it back.`);
  }

  #takeBack(place) {
    const row = this.rows[place];
    this.#put(this.rows.filter((_, i) => i !== place), `Taken back: ${changeWords(row, this.offered)}.`);
    const buttons = this.list.querySelectorAll(".trial-back");
    (buttons[Math.min(place, buttons.length - 1)] ?? this.form.teeth).focus();
  }

  #put(rows, words) {
    if (!this.#isOfCase) return;
    const { desk } = this;
    const { chosen } = desk.state;
    desk.put({ [chosen]: withTrial(desk.state[chosen], rows, this.own) });
    this.#show(rows, null);
    set(this.said, { textContent: words });
  }

  /** Show the changes of a state. @param {object} settings @param {object} study */
  update(settings, study, display) {
    this.own = study.case.trial;
    const { teeth, fault } = study;
    if (teeth) this.form.stand(teeth.header);
    this.#show(trialNow(settings, this.own), fault);
    const notes = teeth && !study.isOfOther(teeth) ? teeth.header.notes : [];
    const key = notes.join("\n");
    if (key !== this.notesKey) this.notes.replaceChildren(...notes.map((text) => el("p", { class: "quiet", text: `${text}.` })));
    this.notesKey = key;
    set(this.before, { checked: display.before });
  }

  #show(rows, fault) {
    const faults = rows.map((_, i) => faultOfChange(fault, i));
    const key = JSON.stringify([trialKey(rows), trialKey(this.own), faults, this.form.altering ?? null]);
    if (key === this.key) return;
    if (this.rows && trialKey(rows) !== trialKey(this.rows)) {
      this.form.alter(null);
      set(this.said, { textContent: "" });
    }
    Object.assign(this, { key, rows });
    const own = new Set(this.own.map((row) => trialKey([row])));
    this.list.replaceChildren(...rows.map((row, i) => this.#row(row, i, own.has(trialKey([row])), faults[i])));
    if (faults.some(Boolean)) {
      this.element.open = true;
      set(this.said, { textContent: "" });
    }
    const asCase = trialKey(rows) === trialKey(this.own);
    set(this.count, { textContent: rows.length ? counted(rows.length, "change") : "" });
    show(this.none, rows.length === 0);
    show(this.all, rows.length > 0);
    show(this.back, !asCase && this.own.length > 0);
    show(this.shown, rows.length > 0);
  }

  #row(row, i, isOwn, fault) {
    const words = changeWords(row, this.offered);
    const told = fault ? this.desk.settings.inWords(this.form.inWords(fault)) : "";
    const note = el("p", { class: "wrong", id: `trial-wrong-${i}`, text: told.charAt(0).toUpperCase() + told.slice(1) });
    show(note, told !== "");
    return el("li", { class: told ? "faulty" : "" },
      el("span", { class: "trial-words" }, words, isOwn ? el("span", { class: "quiet", text: " (in the case)" }) : null),
      el("button", { type: "button", class: "small trial-alter", text: "Alter", "aria-label": `Alter: ${words}`,
        "aria-describedby": note.id, onclick: () => { this.form.load(row, i); } }),
      el("button", { type: "button", class: "small trial-back", text: "Take back", "aria-label": `Take back: ${words}`,
        onclick: () => this.#takeBack(i) }),
      note);
  }
}
