/** One setting: its name, help, field, slider, and what is wrong with it. */

import { el, idOf, mark, set, show } from "./dom.js";
import { icon } from "./icons.js";
import { Note, NumberField } from "./number_field.js";
import { plain, withUnit } from "./numbers.js";

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
    const parts = { number: () => this.#number(name), choice: () => this.#choice(name), switch: () => this.#switch(name) };
    const made = parts[control.type]();
    this.note ??= new Note(this.input, `${this.id}-note`);
    this.element = el("div", { class: `field field-${control.type}` }, made, this.note.element);
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
    this.typing = new NumberField({
      id: this.id, name: unit ? `${name}, ${unit}` : name, note: `${this.id}-note`,
      accepts: () => control, text: (value) => (value === null ? "" : plain(value)),
      calls: {
        take: (value) => this.calls.set(value, null),
        step: (value) => this.calls.set(Number(value.toFixed(Math.max(control.decimals, 3))), this.gesture),
        end: () => this.calls.end(),
      },
    });
    this.input = this.typing.input;
    this.note = this.typing.note;
    return [
      el("div", { class: "slide" }, this.slider, this.tick),
      el("span", { class: most >= 10_000 ? "number long" : "number" }, this.input, el("span", { class: "unit", text: unit, "aria-hidden": "true" })),
      this.typing.range,
    ];
  }

  #choice(name) {
    const options = this.control.choices.map(({ value, label }) => el("option", { value, text: label }));
    this.input = el(
      "select",
      { id: this.id, "aria-label": name, "aria-describedby": `${this.id}-note`,
        onchange: () => this.calls.set(this.input.value, null) },
      options,
    );
    return this.input;
  }

  #switch(name) {
    this.input = el("input", {
      type: "checkbox", role: "switch", id: this.id, "aria-label": name, "aria-describedby": `${this.id}-note`,
      onchange: () => this.calls.set(this.input.checked, null),
    });
    return el("label", { class: "switch" }, this.input, el("span", { text: "off" }));
  }

  #slid() {
    const { least, step } = this.control;
    const steps = Math.round((Number(this.slider.value) - least) / step);
    const value = Number((least + steps * step).toFixed(6));
    this.typing.quiet();
    this.calls.set(value, this.gesture);
  }

  /**
   * Show a value.
   *
   * @param {*} value
   * @param {*} usual value of the unchanged case.
   * @param {string} fault what the server says against it; "" nothing.
   */
  update(value, usual, fault) {
    if (this.control.type === "number") {
      this.typing.update(value, fault);
      this.#updateSlider(value, usual);
      return;
    }
    if (fault !== this.note.words) this.note.say(fault);
    if (this.control.type === "switch") {
      set(this.input, { checked: value === true });
      set(this.input.nextSibling, { textContent: value === true ? "on" : "off" });
    } else set(this.input, { value: value ?? "" });
  }

  #updateSlider(value, usual) {
    const { least, most, unit } = this.control;
    set(this.slider, { value: String(value ?? least) });
    mark(this.slider, { "aria-valuetext": value === null ? "not set" : withUnit(plain(value), unit) });
    this.slider.classList.toggle("unset", value === null);
    show(this.tick, usual !== null);
    if (usual !== null) {
      const share = (usual - least) / (most - least);
      this.tick.style.left = `calc(${HANDLE_PX}px + ${share} * (100% - ${2 * HANDLE_PX}px))`;
      set(this.tick, { title: `as in the case: ${withUnit(plain(usual), unit)}` });
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
