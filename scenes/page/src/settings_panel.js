/** All settings in groups, each for both sides together or apart. */

import { Field, helpOf, resetOf } from "./control_row.js";
import { byId, el, idOf, set, show } from "./dom.js";
import { acceptedWords, counted, plain, withUnit } from "./numbers.js";

const SIDE_WORDS = { right: "Right", left: "Left", both: "" };
const OPEN_AT_FIRST = ["condyles"];

/** Settings of the state that is chosen. */
export class SettingsPanel {
  /**
   * @param {{set: function(Object<string, *>, string|null), end: function(), points: function(string),
   *   link: function(string, boolean, Object<string, *>)}} calls changes by path and their gesture;
   *   the end of a gesture; a group's sides linked or apart, with what that changes.
   */
  constructor(calls) {
    this.calls = calls;
    this.groups = [];
  }

  /** Make everything that the server offers; `first` stands before it. */
  make(groups, first) {
    const labels = new Map(
      groups.flatMap(({ controls }) =>
        controls.map(({ id, label }) => [id.split(".").at(-1), label])),
    );
    this.groups = groups.map((group, i) => this.#group(group, labels, i));
    this.scans = el("div", { class: "scans-told", id: "scans-told" });
    byId("settings-body").replaceChildren(this.scans, first, ...this.groups.map(({ element }) => element));
  }

  #group(group, labels) {
    const sided = group.controls.some(({ keys }) => "right" in keys);
    const made = { group, sided };
    made.changed = el("span", { class: "changed-count" });
    made.rows = group.controls.map((control) => this.#row(control, made, labels));
    made.link = sided ? this.#linkSwitch(made) : null;
    made.element = el(
      "details",
      { id: idOf("group", group.id), class: "group", open: OPEN_AT_FIRST.includes(group.id) },
      el("summary", {}, el("h3", { text: group.title }), made.changed),
      el("p", { class: "quiet", text: group.words }),
      made.link,
      made.rows.map(({ element }) => element),
    );
    return made;
  }

  #linkSwitch(made) {
    const id = idOf("linked", made.group.id);
    made.linkInput = el("input", {
      type: "checkbox", role: "switch", id,
      onchange: () => this.#linked(made, made.linkInput.checked),
    });
    return el("label", { class: "switch linked", for: id }, made.linkInput,
      el("span", { text: "Right and left alike" }));
  }

  #linked(made, on) {
    const changes = {};
    if (on) {
      for (const { control } of made.rows) {
        if (control.keys.right) changes[control.keys.left] = this.valueOf(control.keys.right);
      }
    }
    this.calls.link(made.group.id, on, changes);
  }

  #row(control, made, labels) {
    const words = control.help.replace(/`([^`]+)`/g, (_, name) => {
      const label = labels.get(name.split(".").at(-1));
      return label ? `“${label}”` : name.replaceAll("_", " ");
    });
    const id = idOf("set", Object.values(control.keys)[0]);
    const { button, text } = helpOf(id, control.label, words);
    const sides = Object.entries(control.keys).map(([side, path]) =>
      this.#side(control, made, side, path));
    const range = control.type === "number" ? acceptedWords(control) : "";
    const element = el(
      "div",
      { class: "control", role: "group", "aria-label": control.label },
      el("div", { class: "control-head" },
        el("span", { class: "label", text: control.label }), button),
      text,
      sides.map((side) => side.element),
    );
    if (range) text.append(` ${range}`);
    return { control, element, sides };
  }

  #side(control, made, side, path) {
    const words = SIDE_WORDS[side];
    const name = words ? `${control.label}, ${words.toLowerCase()}` : control.label;
    const paths = () =>
      side === "right" && this.isLinked(made) ? Object.values(control.keys) : [path];
    const take = (value, gesture) =>
      this.calls.set(Object.fromEntries(paths().map((one) => [one, value])), gesture);
    const field = new Field(control, path, name, { set: take, end: () => this.calls.end() });
    const reset = resetOf(field.id, name, () => {
      this.calls.set(Object.fromEntries(paths().map((one) => [one, this.usualOf(one)])), null);
      field.input.focus();
    });
    const tag = words ? el("span", { class: "side", text: words }) : null;
    const element = el("div", { class: `side-row${words ? " sided" : ""}` }, tag, field.element, reset);
    return { side, path, field, reset, element, tag };
  }

  isLinked(made) {
    return made.sided && made.linkInput.checked;
  }

  /**
   * Show the settings of a state.
   *
   * @param {object} told
   * @param {{changes: object}} told.settings @param {object} told.case what the server says of it
   * @param {Object<string, boolean>} told.linked @param {{keys: string[], text: string}|null}
   *   told.fault
   */
  update({ settings, case: about, linked, fault }) {
    const { values, hidden } = about;
    if (about !== this.about) this.#tellScans(about);
    this.about = about;
    this.valueOf = (path) => (path in settings.changes ? settings.changes[path] : (values[path] ?? null));
    this.usualOf = (path) => values[path] ?? null;
    const faulty = new Set(fault?.keys ?? []);
    let all = 0;
    for (const made of this.groups) {
      const count = this.#updateGroup(made, settings, hidden, linked, faulty, fault);
      set(made.changed, { textContent: count ? `${count} changed` : "" });
      all += count;
    }
    set(byId("settings-note"), { textContent: changedWords(all, settings.trial) });
    const first = this.groups.find(({ hasFault }) => hasFault);
    if (first && fault !== this.lastFault) first.element.open = true;
    this.lastFault = fault;
  }

  /** Which scans the case is of, and a way to the points on them. */
  #tellScans({ scans, name }) {
    show(this.scans, scans.length > 0);
    const steps = document.getElementById("first-steps"); // they are about a built-in case
    if (steps) show(steps, scans.length === 0);
    this.scans.replaceChildren(
      el("ul", {}, scans.map((text) => el("li", { text }))),
      el("button", { type: "button", class: "small", id: "scans-points", text: "Points on the casts…",
        onclick: () => this.calls.points(name) }),
    );
  }

  #updateGroup(made, settings, hidden, linked, faulty, fault) {
    const alike = made.rows.every(({ control: { keys } }) =>
      !keys.right || this.valueOf(keys.right) === this.valueOf(keys.left));
    const together = made.sided && alike && linked[made.group.id] !== false;
    if (made.linkInput) set(made.linkInput, { checked: together });
    let count = 0;
    made.hasFault = false;
    for (const { control, element, sides } of made.rows) {
      const shownSides = sides.filter(
        ({ side }) => !(together && side === "left") && this.#needed(control, side));
      show(element, shownSides.length > 0 && !hidden.includes(control.id));
      for (const one of sides) {
        const changed = one.path in settings.changes;
        const wrong = faulty.has(one.path);
        count += changed ? 1 : 0;
        made.hasFault ||= wrong;
        show(one.element, shownSides.includes(one));
        set(one.reset, { disabled: !changed });
        one.element.classList.toggle("changed", changed);
        if (one.tag) set(one.tag, { textContent: together ? "Both" : SIDE_WORDS[one.side] });
        one.field.update(this.valueOf(one.path), this.usualOf(one.path), wrong ? this.#faultAt(one, fault) : "");
      }
    }
    show(made.element, made.rows.some(({ control }) => !hidden.includes(control.id)));
    return count;
  }

  #needed(control, side) {
    return Object.entries(control.needs ?? {}).every(
      ([path, value]) => this.valueOf(path.replace("{side}", side)) === value);
  }

  /** What a fault says of one setting: its own lines, where there are several. */
  #faultAt({ path }, { text }) {
    const lines = text.split("\n");
    const group = path.slice(0, path.lastIndexOf("."));
    const own = lines.filter((line) => line.startsWith(group));
    const words = this.inWords((own.length ? own : lines).join("\n"));
    return words.charAt(0).toUpperCase() + words.slice(1);
  }

  /** Words of the server with the names of settings as they stand on the page. */
  inWords(text) {
    const labels = new Map();
    for (const { rows } of this.groups) {
      for (const { control } of rows) labels.set(control.id.split(".").at(-1).replace("_side", ""), control.label);
    }
    return text
      .replace(/\bchange\[(\d+)\](?:\.|: )/g, (_, place) => `trial set-up, change ${Number(place) + 1}: `)
      .replace(/\bguidance\.(right|left)(?=[:.])\.?/g, (_, side) => `${side} condylar guidance`)
      .replace(/\b[a-z]+(?:_[a-z0-9]+)+\b/g, (name) => {
        const label = labels.get(name);
        return label ? `“${label}”` : name.replaceAll("_", " ");
      });
  }

  /** A setting and its value, as a caption tells them. */
  told(path, value) {
    const found = this.nameOf(path);
    return `${found?.name ?? path} ${valueWords(found?.control, value)}`;
  }

  /** The name of a setting, with its side. */
  nameOf(path) {
    for (const { rows } of this.groups) {
      for (const { control } of rows) {
        for (const [side, key] of Object.entries(control.keys)) {
          if (key === path) return { control, name: side === "both" ? control.label : `${control.label}, ${side}` };
        }
      }
    }
    return null;
  }
}

/** What differs from the case. */
function changedWords(count, trial) {
  const told = [count ? counted(count, "setting") : "", trial ? "teeth" : ""].filter(Boolean);
  return told.length ? `${told.join(" and ")} changed` : "as in the case";
}

/** A value of a setting, in words. */
export function valueWords(control, value) {
  if (value === null) return "not set";
  if (typeof value === "boolean") return value ? "on" : "off";
  if (typeof value === "number") return withUnit(plain(value), control?.unit ?? "");
  return control?.choices.find((one) => one.value === value)?.label ?? String(value);
}
