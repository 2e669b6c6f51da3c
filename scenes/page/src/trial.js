/** Changes of single teeth: as a state keeps them, and in words. */

import { plain, withUnit } from "./numbers.js";

/**
 * @typedef {Object<string, string|number>} Change as its table in a case file: kind, tooth, amounts.
 */

const MOST = 100;

/** Changes as they stand: those of the settings, or else those of the case. @returns {Change[]} */
export function trialNow(settings, own) {
  return settings.trial ?? own ?? [];
}

/** Settings with other changes of teeth; the very changes of the case are none. */
export function withTrial({ case: name, changes }, rows, own) {
  const same = trialKey(rows) === trialKey(own ?? []);
  return same ? { case: name, changes } : { case: name, changes, trial: rows };
}

/** A text that is the same for the same changes in the same order. */
export function trialKey(rows) {
  return JSON.stringify(rows.map((row) => Object.entries(row).sort(([one], [other]) => (one < other ? -1 : 1))));
}

/**
 * Read changes that came from a link or a file.
 *
 * @param {*} rows @returns {Change[]} @throws {Error} in words for the user.
 */
export function trialFrom(rows) {
  if (!Array.isArray(rows)) throw new Error("its changes of teeth are no list");
  if (rows.length > MOST) throw new Error(`it changes teeth more than ${MOST} times`);
  const isChange = (row) => typeof row === "object" && row !== null && typeof row.kind === "string" &&
    Number.isInteger(row.tooth) && Object.keys(row).length <= 10 &&
    Object.entries(row).every(([name, value]) => name === "kind" || (/^[a-z_]{1,20}$/.test(name) && Number.isFinite(value)));
  if (!rows.every(isChange)) throw new Error("one of its changes of teeth is none");
  return rows.map((row) => ({ ...row }));
}

/** Why changes are none that are offered; "" where they are. */
export function reasonAgainstTrial(rows, { kinds }) {
  for (const row of rows) {
    const kind = kinds.find((one) => one.kind === row.kind);
    if (!kind) return `there is no change of a tooth called ${row.kind.slice(0, 20)}`;
    const names = kind.amounts.map(({ name }) => name);
    const other = Object.keys(row).find((name) => !["kind", "tooth", ...names].includes(name));
    if (other) return `${kind.title}: takes no ${other.replaceAll("_", " ")}`;
  }
  return "";
}

/** One change in words, as "46 lowered by 1.2 mm". */
export function changeWords(row, { kinds }) {
  const kind = kinds.find((one) => one.kind === row.kind);
  const amounts = (kind?.amounts ?? []).filter(({ name }) => row[name]).map(({ name, unit, said }) => {
    const size = withUnit(plain(Math.abs(row[name])), unit);
    return said[row[name] > 0 ? 0 : 1].replace("{}", size);
  });
  return [`${row.tooth} ${kind?.done ?? row.kind}`, amounts.join(" and ")].filter(Boolean).join(" ");
}

/** Changes in words, one after the other; "" where there are none. */
export function trialWords(rows, offered) {
  return rows.map((row) => changeWords(row, offered)).join(", ");
}

/** What a fault says of the change at a place of the list; "" nothing. */
export function faultOfChange(fault, i) {
  const where = `change[${i}]`;
  if (!fault?.keys?.includes(where)) return "";
  const lines = fault.text.split("\n").filter((line) => line.startsWith(where));
  return (lines.length ? lines : [fault.text]).map((line) => line.replace(where, "").replace(/^[.:\s]+/, "")).join("\n");
}
