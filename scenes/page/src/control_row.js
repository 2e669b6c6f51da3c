/** One setting: its name, help, field, slider, and what is wrong with it. */

import { el, idOf, show, isBeingTyped } from "./dom.js";
import { icon } from "./icons.js";
import { plain, readNumber, within, withUnit } from "./numbers.js";
import { reasonAgainst } from "./state.js";

/** Half of a slider's handle, px: how far its middle stays from the ends. */
const HANDLE_PX = 8;

/**
 * The field of one setting of one side, or of both.
 *
 * @param {object} control as the server describes it.
 * @param {string} path the setting that the field is named after.
 * @param {string} name of the field for screen readers.
 * @param {{set: function(*, string|null), end: function()}} calls
 */
export class Field {
  constructor(control, path, name, calls) {
    this.control = control;
    this.calls = calls;
    this.id = idOf("set", path);
    this.gesture = `set ${path}`;
    this.note = el("p", { class: "wrong", id: `${this.id}-note` });
    show(this.note, false);
    const parts = { number: () => this.#number(name), choice: () => this.#choice(name), switch: () => this.#switch(name) };
    this.element = el("div", { class: `field field-${control.type}` }, parts[control.type](), this.note);
  }

  #number(name) {
    const { control } = this;
    const { least, most, step, unit } = control;
    this.slider = el("input", {
      type: "range", id: `${this.id}-slider`, min: least, max: most, step: step,
      "aria-label": `${name}, slider`,
      oninput: () => this.#slid(),
      onchange: () => this.calls.end(),
    });
    this.tick = el("span", { class: "tick", "aria-hidden": "true" });
    this.input = el("input", {
      type: "text", inputmode: "decimal", id: this.id, "aria-label": unit ? `${name}, ${unit}` : name,
      autocomplete: "off", spellcheck: "false", "aria-describedby": this.note.id,
      placeholder: control.optional ? "not set" : null,
      onchange: () => this.#typed(),
      onkeydown: (event) => this.#stepped(event),
      onkeyup: (event) => event.key.startsWith("Arrow") && this.calls.end(),
    });
    return [
      el("div", { class: "slide" }, this.slider, this.tick),
      el("span", { class: most >= 10_000 ? "number long" : "number" }, this.input, el("span", { class: "unit", text: unit, "aria-hidden": "true" })),
    ];
  }

  #choice(name) {
    const options = this.control.choices.map(({ value, label }) => el("option", { value, text: label }));
    this.input = el(
      "select",
      { id: this.id, "aria-label": name, "aria-describedby": this.note.id,
        onchange: () => this.calls.set(this.input.value, null) },
      options,
    );
    return this.input;
  }

  #switch(name) {
    this.input = el("input", {
      type: "checkbox", role: "switch", id: this.id, "aria-label": name, "aria-describedby": this.note.id,
      onchange: () => this.calls.set(this.input.checked, null),
    });
    return el("label", { class: "switch" }, this.input, el("span", { text: "off" }));
  }

  #slid() {
    const { least, step } = this.control;
    const steps = Math.round((Number(this.slider.value) - least) / step);
    const value = Number((least + steps * step).toFixed(6));
    this.#say("");
    this.calls.set(value, this.gesture);
  }

  #stepped(event) {
    const ways = { ArrowUp: 1, ArrowDown: -1, PageUp: 10, PageDown: -10 };
    const way = ways[event.key];
    if (!way) return;
    event.preventDefault();
    const { least, most, step, decimals } = this.control;
    const now = readNumber(this.input.value);
    const value = within((Number.isNaN(now) ? least : now) + way * step, least, most);
    this.#say("");
    this.input.value = plain(value);
    this.calls.set(Number(value.toFixed(Math.max(decimals, 3))), this.gesture);
  }

  #typed() {
    delete this.input.dataset.dirty;
    const text = this.input.value.trim();
    const value = text === "" ? null : readNumber(text);
    const reason = reasonAgainst(this.control, value);
    if (reason) this.#say(`${text === "" ? "Nothing" : `“${text.slice(0, 20)}”`} is not taken: ${reason}.`);
    else {
      this.#say("");
      this.calls.end();
      this.calls.set(value, null);
    }
    this.wrong = reason !== "";
  }

  #say(words) {
    this.wrong = words !== "";
    this.note.textContent = words;
    show(this.note, words !== "");
    this.input.setAttribute("aria-invalid", String(this.wrong));
    if (this.wrong && document.activeElement === this.input) this.note.scrollIntoView({ block: "nearest" });
  }

  /**
   * Show a value.
   *
   * @param {*} value
   * @param {*} usual value of the unchanged case.
   * @param {string} fault what the server says against it; "" nothing.
   */
  update(value, usual, fault) {
    if (fault && fault !== this.note.textContent) this.#say(fault);
    if (fault) this.wrong = true;
    else if (this.faulty || !this.wrong || value !== this.value) this.#say("");
    this.faulty = fault !== "";
    if (this.control.type === "number") this.#updateNumber(value, usual);
    else if (this.control.type === "switch") {
      this.input.checked = value === true;
      this.input.nextSibling.textContent = value === true ? "on" : "off";
    } else this.input.value = value ?? "";
    this.value = value;
  }

  #updateNumber(value, usual) {
    const { least, most, unit } = this.control;
    if ((!this.wrong || value !== this.value) && !isBeingTyped(this.input)) {
      this.input.value = value === null ? "" : plain(value);
    }
    this.slider.value = String(value ?? least);
    this.slider.setAttribute("aria-valuetext", value === null ? "not set" : withUnit(plain(value), unit));
    this.slider.classList.toggle("unset", value === null);
    show(this.tick, usual !== null);
    if (usual !== null) {
      const share = (usual - least) / (most - least);
      this.tick.style.left = `calc(${HANDLE_PX}px + ${share} * (100% - ${2 * HANDLE_PX}px))`;
      this.tick.title = `as in the case: ${withUnit(plain(usual), unit)}`;
    }
  }
}

/** The "?" of a setting and the words it opens. */
export function helpOf(id, label, words) {
  const text = el("p", { class: "help", id: `${id}-help-words`, text: words });
  show(text, false);
  const button = el(
    "button",
    {
      type: "button", class: "help-button", id: `${id}-help`, "aria-expanded": "false",
      "aria-controls": text.id, "aria-label": `What is “${label}”?`, title: words, text: "?",
      onclick: () => {
        show(text, text.hidden);
        button.setAttribute("aria-expanded", String(!text.hidden));
      },
    },
  );
  return { button, text };
}

/** The button that puts a setting back. */
export function resetOf(id, label, call) {
  return el(
    "button",
    { type: "button", class: "reset-button", id: `${id}-reset`, "aria-label": `Put back: ${label}`,
      title: "Put back to the case", onclick: call },
    icon("reset"),
  );
}
