/** One round of a lesson: predict, move, see, explain. */

import { el, show } from "./dom.js";
import { icon } from "./icons.js";
import { math } from "./math.js";
import { unparted } from "./numbers.js";

const REACHED = { true: "✓", false: "○" };

export class LessonPanel {
  /**
   * @param {{leave: function(), show: function(), back: function(), next: function()}} calls
   */
  constructor(calls) {
    this.calls = calls;
    this.head = el("h2", { id: "lesson-title", tabindex: "-1" });
    this.where = el("p", { class: "quiet", id: "lesson-where" });
    this.about = el("p", { id: "lesson-about" });
    this.body = el("div", { id: "lesson-body" });
    this.element = el("section", { id: "lesson", "aria-labelledby": "lesson-title" },
      el("div", { class: "panel-head" }, this.head,
        el("button", { type: "button", class: "icon-only", id: "lesson-close", "aria-label": "Leave the lesson", title: "Leave the lesson",
          onclick: () => calls.leave() }, icon("close"))),
      this.where, this.about, this.body);
    show(this.element, false);
    this.#makeSteps();
  }

  #makeSteps() {
    this.question = el("p", { id: "lesson-question" });
    this.answers = el("div", { id: "lesson-answers", role: "radiogroup", "aria-labelledby": "lesson-question" });
    this.choose = el("button", { type: "button", id: "lesson-predict", text: "That is what I expect", disabled: true,
      onclick: () => this.#predict() });
    this.task = el("p", { id: "lesson-task" });
    this.goal = el("ul", { id: "lesson-goal" });
    this.showButton = el("button", { type: "button", class: "small", id: "lesson-show", text: "Show me", onclick: () => this.calls.show() });
    this.table = el("table", { id: "lesson-readings" });
    this.verdict = el("p", { id: "lesson-verdict", role: "status" });
    this.explanation = el("p", { id: "lesson-explanation" });
    this.formula = el("div", { id: "lesson-formula" });
    this.next = el("button", { type: "button", id: "lesson-next", onclick: () => this.calls.next() });
    this.working = el("p", { class: "quiet", id: "lesson-working", role: "status" });
    this.steps = {
      predict: step("1 Predict", this.question, this.answers, this.choose),
      move: step("2 Move", this.task, this.goal, this.showButton),
      see: step("3 See", this.table, this.verdict),
      explain: step("4 Explain", this.explanation, this.formula, this.next),
    };
    this.body.append(this.working, ...Object.values(this.steps));
  }

  /** Begin a round. @param {object} lesson @param {{place: string, round: number, rounds: number, last: boolean}} where */
  begin(lesson, { place, round, rounds, last }) {
    this.head.textContent = lesson.title;
    this.where.textContent = rounds > 1 ? `${place}, round ${round + 1} of ${rounds}` : place;
    this.about.textContent = lesson.about;
    this.next.textContent = round + 1 < rounds ? "Next round" : last ? "All lessons" : "Next lesson";
    this.chosen = null;
    this.predicted = null;
    this.end = null;
    this.words = null;
    this.choose.disabled = true;
    this.working.textContent = "Getting the teeth and the figures ready";
    for (const part of Object.values(this.steps)) show(part, false);
    show(this.choose, true);
    show(this.element, true);
    this.head.focus();
  }

  /** Take what the program says of the round where the jaw is now. */
  came(told) {
    if (told.away) return this.#away("The lesson is about another case.");
    if (told.fault) return this.#away(`This cannot be read here: ${told.fault}.`);
    this.#say("");
    if (told.done && this.predicted !== null) this.end = told;
    const question = JSON.stringify([told.predict, told.answers]);
    if (this.words === null || (this.predicted === null && question !== this.words)) this.#ask(told, question);
    this.task.textContent = unparted(told.move);
    this.goal.replaceChildren(...told.goal.map(({ words, reached }) => el("li", { class: reached ? "reached" : "" },
      el("span", { class: "mark", "aria-hidden": "true", text: REACHED[reached] }), ` ${words}`,
      el("span", { class: "spoken", text: reached ? ": reached" : ": not yet" }))));
    this.#readings(told.readings);
    this.#result();
    this.#showSteps();
    return undefined;
  }

  /** Nothing is known of where the jaw is now. */
  #away(words) {
    this.#say(words, true);
    for (const cell of this.table.querySelectorAll(".now")) cell.textContent = "–";
    for (const mark of this.goal.querySelectorAll(".mark")) mark.textContent = "–";
  }

  #say(words, back = false) {
    this.working.replaceChildren(words, ...(back ? [" ", el("button", { type: "button", class: "small", id: "lesson-back",
      text: "Back to its start", onclick: () => this.calls.back() })] : []));
    this.working.classList.toggle("lesson-away", back);
    show(this.working, words !== "");
  }

  #ask({ predict, answers }, question) {
    this.words = question;
    this.chosen = null;
    this.choose.disabled = true;
    this.question.textContent = unparted(predict);
    this.answers.replaceChildren(...answers.map((words, i) => el("label", { class: "answer" },
      el("input", { type: "radio", name: "lesson-answer", value: String(i), onchange: () => this.#chose(i) }), el("span", { text: words }))));
  }

  #chose(i) {
    this.chosen = i;
    this.choose.disabled = false;
  }

  #predict() {
    this.predicted = this.chosen;
    for (const input of this.answers.querySelectorAll("input")) input.disabled = true;
    show(this.choose, false);
    this.#showSteps();
    this.steps.move.querySelector("h3").focus();
  }

  #readings(rows) {
    const head = ["", "at the start", "now"].map((text) => el("th", { scope: "col", text }));
    this.table.replaceChildren(el("thead", {}, el("tr", {}, head)), el("tbody", {}, rows.map((row) => el("tr", {},
      el("th", { scope: "row", text: row.name }), el("td", { text: row.start }), el("td", { class: "now", text: row.now })))));
  }

  #result() {
    const { end } = this;
    if (!end) return;
    const words = this.answers.querySelectorAll("label span");
    const right = end.right.flatMap((holds, i) => (holds ? [words[i].textContent] : []));
    const hit = end.right[this.predicted];
    const mine = words[this.predicted].textContent;
    this.verdict.className = hit ? "hit" : "missed";
    this.verdict.textContent = hit ? `✓ You expected: “${mine}”. So it is.`
      : `✗ You expected: “${mine}”. It is: “${right.join("”, “")}”.`;
    this.explanation.textContent = unparted(end.explain);
    this.formula.replaceChildren(...(end.formula ? formulaParts(end.formula) : []));
  }

  #showSteps() {
    show(this.steps.predict, this.words !== null);
    show(this.steps.move, this.predicted !== null);
    show(this.steps.see, this.predicted !== null);
    show(this.verdict, this.end !== null);
    show(this.steps.explain, this.end !== null);
    show(this.showButton, this.end === null);
  }
}

function step(title, ...children) {
  return el("div", { class: "lesson-step" }, el("h3", { tabindex: "-1", text: title }), children);
}

function formulaParts({ equation, numbers, result, given, found, meaning, terms, source, exact }) {
  const engine = found === "" ? "" : `; measured on the casts: ${found}`;
  const kind = exact ? "" : " (to first order)";
  return [
    el("div", { class: "formula-line", tabindex: "0", role: "group", "aria-label": "Formula" }, math([equation], true)),
    el("div", { class: "formula-line numbers", tabindex: "0", role: "group", "aria-label": "Formula with numbers" }, ...summands(numbers).flatMap((trees) => [math(trees), " "])),
    el("p", { class: "formula-result" }, math([result, ["mo", "="], ["mn", given]]), `${kind}${engine}`),
    el("dl", { class: "facts formula-terms" }, terms.map((term) => el("div", {},
      el("dt", {}, math([term.symbol]), ` ${term.meaning}`), el("dd", { text: term.value }))),
    el("div", {}, el("dt", {}, math([result]), ` ${meaning}`), el("dd", { text: given }))),
    el("p", { class: "quiet", text: `Where from: ${source}.` }),
  ];
}

/** The two sides of an equation, the right one parted at its plus and minus signs: lines break there. */
function summands(equation) {
  const [, left, equals, right] = equation;
  const parts = right[0] === "mrow" && right.slice(1).some(isSign) ? right.slice(1) : [right];
  const lines = [[left, equals]];
  for (const part of parts) {
    if (isSign(part) || lines.length === 1) lines.push([part]);
    else lines.at(-1).push(part);
  }
  return lines;
}

function isSign([tag, text]) {
  return tag === "mo" && (text === "+" || text === "−");
}
