/** Which tooth, what to do to it and by how much: a form whose change is made when it is applied. */

import { Field } from "./control_row.js";
import { el, set, show } from "./dom.js";

const NO_TOOTH = 0;
/** Groups of the list of teeth. */
const PLACES = { upper: "Upper teeth", lower: "Lower teeth", missing: "Missing teeth" };

export class TrialForm {
  /**
   * @param {object} offered kinds with their amounts, and all teeth.
   * @param {{apply: function(object), tooth: function(number), leave: function()}} calls the change;
   *   the tooth that was chosen; a change that was to be altered is not.
   */
  constructor(offered, calls) {
    Object.assign(this, { offered, calls, tooth: NO_TOOTH, kind: "lower", amounts: {}, there: [] });
    this.teeth = el("select", { id: "trial-tooth", onchange: () => this.choose(Number(this.teeth.value)) });
    this.kinds = el("select", { id: "trial-kind", "aria-describedby": "trial-help",
      onchange: () => { this.kind = this.kinds.value; this.#draw(); } });
    this.help = el("p", { class: "quiet", id: "trial-help" });
    this.#makeFields();
    this.wrong = el("p", { class: "wrong", id: "trial-wrong", role: "alert" });
    this.button = el("button", { type: "submit", id: "trial-apply", class: "act" });
    this.cancel = el("button", { type: "button", id: "trial-leave", text: "Leave it as it is", onclick: () => calls.leave() });
    this.element = el("form", { class: "trial-form", id: "trial-form", novalidate: true,
      onsubmit: (event) => { event.preventDefault(); this.#apply(); } },
      el("label", { for: "trial-tooth", text: "Tooth (or click it in the picture)" }), this.teeth,
      el("label", { for: "trial-kind", text: "What to do to it" }), this.kinds, this.help,
      Object.values(this.fields).map(({ row }) => row), this.wrong,
      el("div", { class: "trial-acts" }, this.button, this.cancel));
  }

  #makeFields() {
    this.fields = {};
    for (const amount of this.offered.kinds.flatMap(({ amounts }) => amounts)) {
      const { name, label, start } = amount;
      if (name in this.fields) continue;
      this.amounts[name] = start;
      const field = new Field(amount, `trial.${name}`, label, {
        set: (value) => { this.amounts[name] = value; this.#draw(); }, end: () => {},
      });
      const row = el("div", { class: "control", role: "group", "aria-label": label },
        el("div", { class: "control-head" }, el("span", { class: "label", text: label })),
        el("div", { class: "side-row" }, field.element));
      this.fields[name] = { field, row };
    }
  }

  /** Take a tooth, by hand or in the picture; 0: none. */
  choose(tooth) {
    this.tooth = tooth;
    this.#draw();
    this.calls.tooth(tooth);
  }

  /** Take up a change that stands in the list, to alter it. */
  load(row, place) {
    Object.assign(this.amounts, ...this.#amountsOf(row.kind).map(({ name }) => ({ [name]: row[name] ?? 0 })));
    Object.assign(this, { kind: row.kind, altering: place });
    this.choose(row.tooth);
    this.teeth.focus();
  }

  /** Which change is altered; null: the next one is new. */
  alter(place) {
    this.altering = place;
    this.#draw();
  }

  /** Take over which teeth stand. @param {object} teeth the header of the message with them. */
  stand(teeth) {
    const codes = Object.keys(teeth.names).map(Number);
    const key = codes.join();
    if (key === this.codes) return;
    Object.assign(this, { codes: key, there: codes });
    const standing = codes.map((tooth) => ({ tooth, name: teeth.names[tooth], place: isUpper(tooth) ? "upper" : "lower" }));
    const missing = this.offered.teeth.filter(({ tooth }) => !codes.includes(tooth)).map((one) => ({ ...one, place: "missing" }));
    const rows = [...standing, ...missing];
    if (!rows.some(({ tooth }) => tooth === this.tooth)) this.tooth = NO_TOOTH;
    this.teeth.replaceChildren(el("option", { value: NO_TOOTH, text: "Choose a tooth" }),
      ...Object.entries(PLACES).map(([place, label]) => el("optgroup", { label },
        rows.filter((one) => one.place === place).map(({ tooth, name }) => el("option", { value: tooth, text: numberFirst(tooth, name) })))));
    this.#draw();
    this.calls.tooth(this.tooth);
  }

  /** What can be done to the chosen tooth. */
  #fitting() {
    const { tooth, there } = this;
    const missing = tooth !== NO_TOOTH && !there.includes(tooth);
    // What is altered may itself have taken out or added the tooth.
    const isAltered = this.altering !== null && this.altering !== undefined;
    return this.offered.kinds.filter(({ of: which }) =>
      (which !== "front" || tooth % 10 <= 3) && (isAltered || (which === "missing") === missing));
  }

  #amountsOf(kind) {
    return this.offered.kinds.find((one) => one.kind === kind)?.amounts ?? [];
  }

  #draw() {
    const fitting = this.#fitting();
    if (!fitting.some(({ kind }) => kind === this.kind)) this.kind = fitting[0].kind;
    const key = fitting.map(({ kind }) => kind).join();
    if (key !== this.fittingKey) this.kinds.replaceChildren(...fitting.map(({ kind, title }) => el("option", { value: kind, text: title })));
    this.fittingKey = key;
    set(this.teeth, { value: String(this.tooth) });
    set(this.kinds, { value: this.kind });
    set(this.help, { textContent: fitting.find(({ kind }) => kind === this.kind).help });
    const shown = this.#amountsOf(this.kind).map(({ name }) => name);
    for (const [name, { field, row }] of Object.entries(this.fields)) {
      show(row, shown.includes(name));
      field.update(this.amounts[name], null, "");
    }
    const altered = this.altering !== null && this.altering !== undefined;
    set(this.button, { textContent: altered ? `Apply to change ${this.altering + 1}` : "Apply" });
    show(this.cancel, altered);
    this.#say("");
  }

  /** Words of the server with the names of amounts as they stand at their fields. */
  inWords(text) {
    const amounts = this.offered.kinds.flatMap((one) => one.amounts);
    return text.replace(/\b[a-z]+_(?:mm|deg)\b/g, (name) => {
      const amount = amounts.find((one) => one.name === name);
      return amount ? `“${amount.label}”` : name;
    });
  }

  #say(words) {
    set(this.wrong, { textContent: words });
    show(this.wrong, words !== "");
  }

  #apply() {
    const amounts = this.#amountsOf(this.kind);
    const refused = amounts.map(({ name }) => this.fields[name].field).find(({ note }) => note.words && note.words !== this.told);
    if (refused) {
      // Told once: who applies again means the amounts that the fields show.
      this.told = refused.note.words;
      refused.input.focus();
      return;
    }
    this.told = null;
    if (this.tooth === NO_TOOTH) {
      this.#say("Choose a tooth first, in the list or in the picture.");
      this.teeth.focus();
      return;
    }
    const given = amounts.filter(({ name }) => this.amounts[name] !== 0);
    if (amounts.length && !given.length) {
      this.#say(`Say by how much: ${amounts.map(({ label, unit }) => `“${label}”, ${unit === "°" ? "degrees" : unit}`).join(", or ")}.`);
      this.fields[amounts[0].name].field.input.focus();
      return;
    }
    this.calls.apply({ kind: this.kind, tooth: this.tooth, ...Object.fromEntries(given.map(({ name }) => [name, this.amounts[name]])) });
  }
}

/** The name of a tooth with its number in front, so that typing the number finds it. */
function numberFirst(tooth, name) {
  return `${tooth} ${name.replace(`(${tooth})`, "").trim()}`;
}

/** Whether an ISO 3950 number is one of the upper arch. */
function isUpper(tooth) {
  return [1, 2, 5, 6].includes(Math.floor(tooth / 10));
}
