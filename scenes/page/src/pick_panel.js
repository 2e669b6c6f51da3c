/** What is picked on casts: what to click, all points with their coordinates, what is missing. */

import { el, idOf, set, show } from "./dom.js";
import { readNumber } from "./numbers.js";
import { mmText } from "./pick_points.js";

const AXES = ["x", "y", "z"];
const FARTHEST_MM = 10_000;

export class PickPanel {
  /**
   * @param {{target: function(object), type: function(object, number[]), remove: function(number),
   *   propose: function(), tell: function(), use: function(), save: function(string), files: function(), close: function()}} calls
   */
  constructor(calls) {
    this.calls = calls;
    this.rows = new Map();
    this.say = el("p", { class: "pick-say", id: "pick-say", role: "status" });
    this.missing = el("p", { class: "pick-missing", id: "pick-missing", role: "status" });
    this.fault = el("p", { class: "wrong", id: "pick-fault", role: "alert" });
    this.list = el("div", { role: "radiogroup", "aria-label": "What to pick" });
    this.others = el("ul", { class: "pick-others", "aria-label": "Seeds and rest seats picked" });
    const button = (id, text, call, title = null) => el("button", { type: "button", id, text, title, onclick: call });
    this.tell = button("tell-teeth", "Tell the teeth by seeds", () => calls.tell(), "Part both casts among the teeth that have a seed");
    this.propose = button("propose-seeds", "Propose seeds", () => calls.propose(), "Look for teeth in the shape of the casts; you confirm them");
    this.told = el("p", { class: "pick-told", id: "pick-told", role: "status" });
    this.use = button("use-points", "Use these points", () => calls.use());
    this.facts = el("div", { class: "quiet pick-facts" });
    this.element = el("div", { class: "pick-panel panel" },
      el("div", { class: "panel-head" }, el("h2", { id: "picking-title", tabindex: "-1", text: "Points on your casts" }),
        button("picking-close", "Back", () => calls.close(), "Back to the page; the points stay")),
      el("div", { class: "pick-body", tabindex: "-1" },
        this.say, this.told, this.list, this.others,
        el("details", { class: "pick-read" }, el("summary", { text: "What was read" }), this.facts)),
      el("div", { class: "pick-foot" },
        this.missing, this.fault,
        el("div", { class: "pick-buttons" }, this.propose, this.tell, this.use,
          button("save-case", "Save case (ZIP)", () => calls.save("case"), "Case file, scans, labels and points, for the command line"),
          button("save-points", "Save points (CSV)", () => calls.save("points")),
          button("picking-files", "Other files…", () => calls.files()))));
  }

  /** Make a row for every point there is. */
  make(about) {
    this.about = about;
    this.rows.clear();
    const group = (title, names) => [
      el("h3", { text: title }),
      ...names.map((name) => this.#row(about.points.find(({ point }) => point === name))),
    ];
    const [mean, hinge] = about.ways;
    this.list.replaceChildren(
      ...group("Mounting by mean values", mean.points),
      ...group("or by a located hinge axis", hinge.points),
      ...group("Further points", about.points.filter(({ point }) =>
        !about.ways.some((way) => way.points.includes(point))).map(({ point }) => point)),
    );
  }

  #row(about) {
    const { point, title, where, of_tooth: ofTooth } = about;
    const id = idOf("pick", point);
    const radio = el("input", { type: "radio", name: "pick-target", id, onchange: () => this.calls.target(this.#named(row)) });
    const row = { point, radio, typed: {}, tooth: null };
    if (ofTooth) {
      row.tooth = el("select", { id: `${id}-tooth`, "aria-label": `${title}: tooth`,
        onchange: () => this.calls.target(this.#named(row)) },
        this.about.teeth.map((code) => el("option", { value: String(code), text: String(code) })));
      row.tooth.value = "16";
    }
    row.fields = AXES.map((axis) => el("input", {
      type: "text", inputmode: "decimal", id: `${id}-${axis}`, "aria-label": `${title}, ${axis}, mm`,
      autocomplete: "off", spellcheck: "false", placeholder: axis, title: `${axis}, mm`,
      onchange: () => this.#typed(row),
    }));
    row.remove = el("button", { type: "button", class: "icon-only", "aria-label": `Remove: ${title}`, title: "Remove", text: "×",
      onclick: () => this.calls.remove(row.index) });
    row.wrong = el("p", { class: "wrong" });
    row.note = el("p", { class: "quiet pick-note" });
    this.rows.set(point, row);
    return el("div", { class: "pick-row" },
      el("label", { for: id, title: where }, radio, el("span", { text: title })), row.tooth,
      el("span", { class: "pick-xyz" }, row.fields, el("span", { class: "unit", text: "mm" }), row.remove),
      row.wrong, row.note);
  }

  #named({ point, tooth }) {
    return { point, tooth: tooth ? Number(tooth.value) : null };
  }

  #typed(row) {
    const texts = row.fields.map(({ value }) => value.trim());
    if (texts.some((text) => text === "")) {
      set(row.wrong, { textContent: "" });
      return;
    }
    const values = texts.map((text) => readNumber(text, "mm"));
    const wrong = values.findIndex((value) => !(Math.abs(value) <= FARTHEST_MM));
    set(row.wrong, { textContent: wrong < 0 ? "" : `“${texts[wrong].slice(0, 20)}” is not taken; a number from −10000 to 10000 mm is needed.` });
    show(row.wrong, wrong >= 0);
    row.fields.forEach((field, i) => field.setAttribute("aria-invalid", String(i === wrong)));
    if (wrong < 0) this.calls.type(this.#named(row), values);
  }

  /** Show the points as they are. */
  update({ points, target, missing, casts, fault, busy, seeded, proposal }) {
    const about = this.about.points.find(({ point }) => point === target.point);
    const tooth = target.tooth === null ? "" : ` ${target.tooth}`;
    set(this.say, { textContent: `Click ${about.where}${tooth && ` (${tooth.trim()})`}. Drag turns the casts, the wheel enlarges.` });
    set(this.missing, { textContent: missing ? `Still missing for a run: ${missing}` : "Everything for a run is there." });
    this.missing.classList.toggle("whole", missing === "");
    set(this.fault, { textContent: fault });
    show(this.fault, fault !== "");
    set(this.use, { disabled: busy !== "", textContent: busy === "use" ? "Making the case" : "Use these points" });
    show(this.tell, casts.by_seeds);
    show(this.propose, casts.by_seeds);
    set(this.propose, { disabled: busy !== "", textContent: busy === "propose" ? "Looking for teeth" : "Propose seeds" });
    set(this.tell, { disabled: busy !== "" || !seeded, textContent: busy === "tell" ? "Telling the teeth" : "Tell the teeth by seeds" });
    set(this.told, { textContent: proposal || casts.teeth_told });
    show(this.told, this.told.textContent !== "");
    for (const row of this.rows.values()) this.#updateRow(row, points, target);
    this.#updateOthers(points);
    if (casts !== this.casts) this.#tell(casts);
    this.casts = casts;
  }

  #updateRow(row, points, target) {
    set(row.radio, { checked: row.point === target.point });
    if (row.tooth && row.point === target.point) set(row.tooth, { value: String(target.tooth) });
    const { several } = this.about.points.find(({ point }) => point === row.point);
    const code = row.tooth ? Number(row.tooth.value) : null;
    row.index = several ? (target.point === row.point ? (target.index ?? -1) : -1)
      : points.findIndex((one) => one.point === row.point && one.tooth === code);
    const pick = points[row.index];
    const text = JSON.stringify([code, pick?.place ?? null]);
    if (text !== row.shown) {
      row.fields.forEach((field, i) => {
        field.value = pick ? mmText(pick.place[i]) : "";
        field.setAttribute("aria-invalid", "false");
      });
      set(row.wrong, { textContent: "" });
    }
    row.shown = text;
    set(row.remove, { disabled: !pick });
    set(row.note, { textContent: pick?.note ?? (pick?.proposed ? "proposed: check it" : "") });
    show(row.note, row.note.textContent !== "");
    show(row.wrong, row.wrong.textContent !== "");
  }

  #updateOthers(points) {
    const own = points.map((pick, index) => ({ ...pick, index })).filter(({ tooth }) => tooth !== null);
    const key = JSON.stringify(own);
    if (key === this.othersKey) return;
    this.othersKey = key;
    this.others.replaceChildren(...own.map(({ point, tooth, place, index, note }) => {
      const { title } = this.about.points.find((one) => one.point === point);
      const name = `${title} ${tooth}`;
      return el("li", {}, el("span", { text: `${name}: ${place.map(mmText).join(", ")} mm${note ? ` (${note})` : ""}` }),
        el("button", { type: "button", class: "small", text: "Move", "aria-label": `Move: ${name}`, onclick: () => this.calls.target({ point, tooth, index }) }),
        el("button", { type: "button", class: "small", text: "Remove", "aria-label": `Remove: ${name}`, onclick: () => this.calls.remove(index) }));
    }));
  }

  #tell(casts) {
    const guess = casts.oriented ? [] : [el("p", { text: "How the casts lie was guessed from their shape: turn them by hand." })];
    this.facts.replaceChildren(...guess, ...casts.files.flatMap(({ side, triangles, kind, cleaning }) => [
      el("p", { text: `${side} cast, ${kind}, ${triangles.toLocaleString("en")} triangles:` }),
      el("ul", {}, cleaning.map((words) => el("li", { text: words }))),
    ]));
  }
}
