/** A field for a number: what is typed is taken, or told why not and put back on leaving. */

import { el, isBeingTyped, mark, set, show } from "./dom.js";
import { acceptedWords, readNumber, within } from "./numbers.js";
import { reasonAgainst } from "./state.js";

const STEPS = { ArrowUp: 1, ArrowDown: -1, PageUp: 10, PageDown: -10 };

/** Words on a value that was refused; on what holds a value when nothing else is wrong with it. */
export class Note {
  /** @param {HTMLElement} input that it is about. @param {string} id */
  constructor(input, id) {
    this.input = input;
    this.element = el("p", { class: "wrong", id });
    show(this.element, false);
  }

  /** @param {string} words "" none. @param {boolean} stands whether the field still holds it. */
  say(words, stands = true) {
    set(this.element, { textContent: words });
    show(this.element, words !== "");
    mark(this.input, { "aria-invalid": words !== "" && stands });
    if (words && document.activeElement === this.input) this.element.scrollIntoView({ block: "nearest" });
  }

  get words() {
    return this.element.textContent;
  }
}

export class NumberField {
  /**
   * @param {object} told
   * @param {string} told.id @param {string|null} told.name for screen readers, if no label names it.
   * @param {string} told.note id of what is said of it.
   * @param {function(): object} told.accepts least, most, step, unit, whole, optional as they are now.
   * @param {function(number|null): string} told.text of a value, in the field.
   * @param {{take: function(number|null), step: function(number), end: function()}} told.calls
   */
  constructor({ id, name, note, accepts, text, calls }) {
    Object.assign(this, { accepts, text, calls, value: null, faulty: false });
    this.range = el("span", { class: "spoken", id: `${id}-range` });
    this.input = el("input", {
      type: "text", inputmode: "decimal", id, "aria-label": name, autocomplete: "off", spellcheck: "false",
      "aria-describedby": `${note} ${this.range.id}`,
      placeholder: accepts().optional ? "not set" : null,
      onchange: () => this.#typed(),
      onblur: () => this.#left(),
      onkeydown: (event) => this.#key(event),
      onkeyup: (event) => event.key.startsWith("Arrow") && calls.end(),
    });
    this.note = new Note(this.input, note);
    this.tellRange();
  }

  /** Tell what is accepted, before anything is refused. */
  tellRange() {
    const words = acceptedWords(this.accepts());
    set(this.range, { textContent: words });
    set(this.input, { title: words });
  }

  #read(text) {
    return readNumber(text, this.accepts().unit);
  }

  #typed() {
    delete this.input.dataset.dirty;
    const text = this.input.value.trim();
    const value = text === "" ? null : this.#read(text);
    const reason = reasonAgainst(this.accepts(), value);
    this.refused = reason ? text : null;
    this.note.say(reason ? `${quoted(text)} is not taken; ${reason}.` : "");
    if (reason) return;
    this.calls.end();
    this.calls.take(value);
  }

  /** Whoever leaves finds the value that holds; what was refused stays told. */
  #left() {
    if (this.refused === null || this.refused === undefined) return;
    const reason = reasonAgainst(this.accepts(), this.refused === "" ? null : this.#read(this.refused));
    this.#restore();
    const stays = this.text(this.value) || "not set";
    this.note.say(`${quoted(this.refused)} was not taken; ${reason}. It stays ${stays}.`, false);
    this.refused = null;
    // Until something else is changed; what is typed here next has words of its own.
    const later = ({ target }) => target !== this.input && !this.faulty && this.quiet();
    document.addEventListener("change", later, { once: true });
  }

  #restore() {
    delete this.input.dataset.dirty;
    this.input.value = this.text(this.value);
  }

  #key(event) {
    if (event.key === "Escape") {
      this.refused = null;
      this.#restore();
      if (!this.faulty) this.note.say("");
      return;
    }
    const way = STEPS[event.key];
    if (!way) return;
    event.preventDefault();
    const { least, most, step } = this.accepts();
    const typed = this.#read(this.input.value);
    const now = Number.isNaN(typed) ? (this.value ?? least) : typed;
    const next = within(now + way * step, least, most);
    this.quiet();
    this.input.value = this.text(next);
    this.calls.step(next);
  }

  /** Nothing is wrong any more. */
  quiet() {
    this.refused = null;
    this.note.say("");
  }

  /** Show a value. @param {string} fault what the server says against it; "" nothing. */
  update(value, fault = "") {
    const other = value !== this.value;
    if (fault && fault !== this.note.words) this.note.say(fault);
    else if (!fault && (this.faulty || other)) this.quiet();
    this.faulty = fault !== "";
    this.value = value;
    const kept = !other && typeof this.refused === "string";
    if (!kept && !isBeingTyped(this.input)) set(this.input, { value: this.text(value) });
  }
}

function quoted(text) {
  return text === "" ? "An empty field" : `“${text.slice(0, 20)}”`;
}
