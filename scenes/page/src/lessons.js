/** Lessons: their list, and which round of which one is being taken. */

import { byId, el, show } from "./dom.js";
import { LessonPanel } from "./lesson_panel.js";

const DONE = "cuspway lessons done";

export class Lessons {
  /** @param {object} desk holds welcome, study, asking. */
  constructor(desk) {
    this.desk = desk;
    this.panel = new LessonPanel({
      leave: () => this.leave(), back: () => this.#go(this.lesson.start),
      show: () => this.#go(this.lesson.shown[this.round]), next: () => this.#next(),
    });
    byId("results").prepend(this.panel.element);
    this.done = new Set(stored());
  }

  /** Open the list. */
  open() {
    const dialog = byId("lessons-dialog");
    const { lessons } = this.desk.welcome ?? {};
    if (!lessons) return;
    dialog.replaceChildren(
      el("h2", { id: "lessons-title", tabindex: "-1", autofocus: true, text: "Lessons" }),
      el("p", { class: "quiet", text: "Each asks what you expect, lets you move the jaw or its settings, and shows and explains what the program finds." }),
      el("ol", {}, lessons.map((one) => el("li", {},
        el("button", { type: "button", class: "lesson-choice", "data-lesson": one.name, onclick: () => this.#choose(dialog, one.name) },
          el("span", { class: "lesson-name", text: one.title }), this.done.has(one.name) ? el("span", { class: "lesson-done", text: "✓ done" }) : null,
          el("span", { class: "quiet", text: one.about }))))),
      el("button", { type: "button", id: "lessons-close", text: "Close", onclick: () => dialog.close() }),
    );
    dialog.showModal();
  }

  #choose(dialog, name) {
    dialog.close();
    this.begin(name);
  }

  /** Begin a lesson, or a later round of it where the jaw stands. */
  begin(name, round = 0) {
    const { lessons } = this.desk.welcome;
    const at = lessons.findIndex((one) => one.name === name);
    this.lesson = lessons[at];
    this.round = round;
    this.#ask({ name, round });
    this.panel.begin(this.lesson, {
      place: `Lesson ${at + 1} of ${lessons.length}`, round, rounds: this.lesson.shown.length, last: at + 1 === lessons.length,
    });
    if (round === 0) this.#go(this.lesson.start);
    else this.desk.asking.now();
  }

  /** Ask for a round beside every state, or for none. */
  #ask(lesson) {
    this.desk.studies.a.lesson = lesson;
    document.documentElement.toggleAttribute("data-lesson", lesson !== null);
  }

  /** Put the page where a lesson has it. */
  #go({ changes, trial, ...rest }) {
    this.desk.goTo(this.lesson.case, { changes, ...(trial && { trial }) }, { ...rest, opening_mm: 0, map: "pose" }, this.lesson.look);
    this.desk.asking.now();
  }

  /** What the program says of the round. */
  came(told) {
    if (told.name !== this.lesson?.name || told.round !== this.round) return;
    this.panel.came(told);
  }

  #next() {
    const { lessons } = this.desk.welcome;
    if (this.round + 1 < this.lesson.shown.length) {
      this.begin(this.lesson.name, this.round + 1);
      return;
    }
    this.done.add(this.lesson.name);
    keep([...this.done]);
    const next = lessons[lessons.indexOf(this.lesson) + 1];
    if (next) this.begin(next.name);
    else {
      this.leave();
      this.open();
    }
  }

  leave() {
    this.lesson = null;
    this.#ask(null);
    show(this.panel.element, false);
    byId("results").focus();
  }
}

function stored() {
  try {
    const names = JSON.parse(localStorage.getItem(DONE) ?? "[]");
    return Array.isArray(names) ? names : [];
  } catch {
    return [];
  }
}

function keep(names) {
  try {
    localStorage.setItem(DONE, JSON.stringify(names));
  } catch {
    // Where nothing may be kept, lessons are not marked as done the next time.
  }
}
