/** What the page shows, as one plain object that is never changed, only replaced. */

import { rangeText } from "./numbers.js";
import { reasonAgainstTrial, trialFrom } from "./trial.js";

/**
 * @typedef {object} Settings
 * @property {string} case name of the case. @property {Object<string, number|string|boolean|null>}
 *   changes settings that differ from it, by their paths. @property {object[]} [trial] changes of
 *   teeth in their order; left out: those of the case.
 *
 * @typedef {object} Look
 * @property {"solid"|"ghosted"|"away"} upper @property {"solid"|"ghosted"|"away"} lower
 * @property {boolean} numbers @property {boolean} around gums and bases
 * @property {boolean} forces arrows on teeth that carry something
 * @property {boolean} before changed teeth as they were
 * @property {string} look name of a view
 * @property {Object<string, boolean>} linked by group: do right and left go together
 *
 * @typedef {object} State
 * @property {Settings} a @property {Settings|null} b null: one state only
 * @property {"a"|"b"} chosen whose settings are edited
 * @property {string} movement @property {"MI"|"CR"} start
 * @property {number} travel_mm @property {number} opening_mm
 * @property {"pose"|"excursion"|"none"} map
 * @property {Look} display
 */

export const VIEWS = ["front", "right", "left", "behind", "upper occlusal", "lower occlusal", "mouth"];
const SOLIDITY = ["solid", "ghosted", "away"];
const MAPS = ["pose", "excursion", "none"];
const MOST_TRAVEL_MM = 50;
const MOST_OPENING_MM = 40;
const MOST_CHANGES = 200;

/** How things are looked at in the beginning. @returns {Look} */
export function firstLook() {
  return {
    upper: "solid", lower: "solid", numbers: true, around: true, forces: false, before: true, look: "front", linked: {},
  };
}

/**
 * The state that a page begins with.
 *
 * @param {object} first as the server says. @returns {State}
 */
export function firstState(first) {
  return {
    a: { case: first.case, changes: { ...first.changes } },
    b: null,
    chosen: "a",
    movement: first.movement,
    start: first.start,
    travel_mm: first.travel_mm,
    opening_mm: first.opening_mm,
    map: first.map,
    display: firstLook(),
  };
}

/** What the server is to show for one of the two. */
export function asked(state, which) {
  const { movement, start, travel_mm, opening_mm, map } = state;
  return { ...state[which], movement, start, travel_mm, opening_mm, map };
}

/** A text that is the same for the same settings. */
export function settingsKey({ case: name, changes, trial }) {
  const rows = Object.entries(changes).sort(([one], [other]) => (one < other ? -1 : 1));
  return JSON.stringify(trial ? [name, rows, trial] : [name, rows]);
}

/**
 * Settings with some of them changed; what equals the case is left out.
 *
 * @param {Settings} settings
 * @param {Object<string, *>} changes by path.
 * @param {Object<string, *>} values of the unchanged case. @returns {Settings}
 */
export function changedSettings(settings, changes, values) {
  const all = { ...settings.changes, ...changes };
  const kept = Object.entries(all).filter(([path, value]) => value !== (values[path] ?? null));
  return { ...settings, changes: Object.fromEntries(kept) };
}

/** Paths whose values differ between two settings, each with both values. */
export function differences(one, other, valuesOne, valuesOther) {
  const paths = new Set([...Object.keys(valuesOne), ...Object.keys(valuesOther)]);
  const value = (settings, values, path) =>
    path in settings.changes ? settings.changes[path] : (values[path] ?? null);
  return [...paths]
    .map((path) => ({
      path, one: value(one, valuesOne, path), other: value(other, valuesOther, path),
    }))
    .filter((row) => row.one !== row.other);
}

/** A state as it is written into links and files. */
export function toPlain(state) {
  const told = { ...asked(state, "a"), display: state.display };
  if (state.b) Object.assign(told, { other: state.b, chosen: state.chosen });
  return told;
}

/**
 * Read a state that came from a link or a file; nothing in it is taken on trust.
 *
 * @param {*} plain @returns {State}
 * @throws {Error} says what is wrong, in words for the user.
 */
export function fromPlain(plain) {
  if (!isObject(plain)) throw new Error("it holds no state of this page");
  return {
    a: settingsFrom(plain),
    b: plain.other === undefined || plain.other === null ? null : settingsFrom(plain.other),
    chosen: plain.other && plain.chosen === "b" ? "b" : "a",
    movement: textFrom(plain, "movement", 60),
    start: oneOf(plain, "start", ["MI", "CR"]),
    travel_mm: numberFrom(plain, "travel_mm", MOST_TRAVEL_MM),
    opening_mm: numberFrom(plain, "opening_mm", MOST_OPENING_MM),
    map: oneOf(plain, "map", MAPS),
    display: lookFrom(plain.display),
  };
}

function isObject(value) {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function settingsFrom(plain) {
  if (!isObject(plain)) throw new Error("its second state is none");
  const changes = plain.changes ?? {};
  if (!isObject(changes)) throw new Error("its changes are no list of settings");
  const rows = Object.entries(changes);
  if (rows.length > MOST_CHANGES) throw new Error(`it changes more than ${MOST_CHANGES} settings`);
  for (const [path, value] of rows) {
    const fits =
      value === null || typeof value === "boolean" || Number.isFinite(value) ||
      (typeof value === "string" && value.length <= 80);
    if (!fits || path.length > 120) throw new Error(`its setting ${path.slice(0, 60)} is none`);
  }
  const name = textFrom(plain, "case", 60);
  if (!/^[a-z0-9_]+$/.test(name)) throw new Error("its case has an impossible name");
  const trial = plain.trial === undefined || plain.trial === null ? {} : { trial: trialFrom(plain.trial) };
  return { case: name, changes: Object.fromEntries(rows), ...trial };
}

function textFrom(plain, name, most) {
  const value = plain[name];
  if (typeof value !== "string" || value === "" || value.length > most) {
    throw new Error(`its ${name} is missing`);
  }
  return value;
}

function oneOf(plain, name, accepted) {
  if (!accepted.includes(plain[name])) {
    throw new Error(`its ${name} is none of ${accepted.join(", ")}`);
  }
  return plain[name];
}

function numberFrom(plain, name, most) {
  const value = plain[name];
  if (!Number.isFinite(value) || value < 0 || value > most) {
    throw new Error(`its ${name.replace("_mm", "")} is not between 0 and ${most} mm`);
  }
  return value;
}

function lookFrom(plain) {
  const look = firstLook();
  if (plain === undefined) return look;
  if (!isObject(plain)) throw new Error("its display is none");
  for (const arch of ["upper", "lower"]) {
    if (plain[arch] !== undefined) look[arch] = oneOf(plain, arch, SOLIDITY);
  }
  for (const name of ["numbers", "around", "forces", "before"]) {
    if (plain[name] !== undefined) look[name] = plain[name] === true;
  }
  if (plain.look !== undefined) look.look = oneOf(plain, "look", VIEWS);
  if (isObject(plain.linked)) {
    const rows = Object.entries(plain.linked).slice(0, 20);
    look.linked = Object.fromEntries(rows.map(([id, on]) => [id.slice(0, 40), on === true]));
  }
  return look;
}

/**
 * Compare a state with what the server offers.
 *
 * @param {State} state
 * @param {{cases: {name: string}[], groups: object[]}} offered
 * @throws {Error} says in words what does not fit.
 */
export function checkOffered(state, { cases, controls, trial }) {
  const known = new Map(
    controls.flatMap(({ controls: rows }) =>
      rows.flatMap((control) => Object.values(control.keys).map((path) => [path, control])),
    ),
  );
  for (const settings of [state.a, state.b].filter(Boolean)) {
    if (!cases.some(({ name }) => name === settings.case)) {
      const own = settings.case.startsWith("given") || settings.case.startsWith("own_");
      throw new Error(own ? "it is of a case file or of own casts that this page was not given"
        : `there is no case ${settings.case} here`);
    }
    for (const [path, value] of Object.entries(settings.changes)) {
      const control = known.get(path);
      if (!control) throw new Error(`there is no setting ${path}`);
      const reason = reasonAgainst(control, value);
      if (reason) throw new Error(`${control.label}: ${reason}`);
    }
    const against = settings.trial ? reasonAgainstTrial(settings.trial, trial) : "";
    if (against) throw new Error(against);
  }
}

/** Why a control does not accept a value; "" where it does. */
export function reasonAgainst(control, value) {
  if (value === null) return control.optional ? "" : "a value is needed";
  if (control.type === "switch") return typeof value === "boolean" ? "" : "is neither on nor off";
  if (control.type === "choice") {
    const fits = control.choices.some((choice) => choice.value === value);
    return fits ? "" : `is none of ${control.choices.map(({ label }) => label).join(", ")}`;
  }
  const { least, most } = control;
  const range = rangeText(control);
  if (!Number.isFinite(value)) return `a number is needed, ${range}`;
  if (control.whole && !Number.isInteger(value)) return `a whole number is needed, ${range}`;
  return value >= least && value <= most ? "" : `accepted: ${range}`;
}
