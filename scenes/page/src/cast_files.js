/** Which files of one's own casts belong to which scan. */

/** What is of a scan, and of how both lie: it says nothing of another patient's. */
const BELONG = {
  upper: ["upper_labels", "bite", "points"],
  lower: ["lower_labels", "bite", "points"],
};

/**
 * Which files are to be taken back when another one is chosen.
 *
 * @param {string} slot what another file is chosen for.
 * @param {boolean} wasRead whether casts were read with the file before.
 * @param {function(string): boolean} isOld whether casts were read with the file of a slot.
 * @returns {string[]} slots.
 */
export function takenBackWith(slot, wasRead, isOld) {
  return wasRead ? (BELONG[slot] ?? []).filter(isOld) : [];
}
