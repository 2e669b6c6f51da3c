/** A slider and a field in millimetres. */

import { el, mark, set } from "./dom.js";
import { NumberField } from "./number_field.js";
import { travelText } from "./numbers.js";

export class MmField {
  /**
   * @param {string} id @param {string} words @param {number} step mm
   * @param {function(number, string|null)} call with the value and its gesture. @param {function()} end
   */
  constructor(id, words, step, call, end) {
    this.most = 1;
    this.slider = el("input", {
      type: "range", id: `${id}-slider`, min: 0, max: 1, step, "aria-label": `${words}, slider`,
      oninput: () => { this.field.quiet(); call(Number(this.slider.value), id); }, onchange: end,
    });
    this.field = new NumberField({
      id, name: null, note: `${id}-wrong`,
      accepts: () => ({ type: "number", least: 0, most: Number(this.most.toFixed(2)), step, unit: "mm" }),
      text: (value) => travelText(value ?? 0),
      calls: {
        take: (value) => call(value, null),
        step: (value) => call(Number(value.toFixed(3)), id),
        end,
      },
    });
    this.input = this.field.input;
    this.slide = el("div", { class: "slide" }, this.slider);
    this.element = el("div", { class: `mm mm-${id}` },
      el("label", { for: id, text: words }), this.slide,
      el("span", { class: "number" }, this.input, el("span", { class: "unit", text: "mm" })),
      this.field.range, this.field.note.element);
  }

  limit(most) {
    this.most = most;
    set(this.slider, { max: String(most) });
    this.field.tellRange();
  }

  off(on) {
    set(this.slider, { disabled: on });
    set(this.input, { disabled: on });
  }

  update(value) {
    set(this.slider, { value: String(value) });
    mark(this.slider, { "aria-valuetext": `${value.toFixed(1)} mm` });
    this.field.update(value);
  }
}
