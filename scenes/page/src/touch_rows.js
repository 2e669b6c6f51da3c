/** Rows of the chart of contacts. */

/**
 * Rows of the chart: those that touch beyond the start first, then those that touch at all.
 *
 * @param {object[]} pairs as the server says. @returns {object[]}
 */
export function orderedRows(pairs) {
  const reach = ({ touch }) => Math.max(0, ...touch.map(([, to]) => to));
  const shown = pairs.filter(({ touch, near, first }) => touch.length + near.length + first.length > 0);
  return shown
    .map((row) => ({ ...row, reach: reach(row) }))
    .sort((one, other) => other.reach - one.reach || one.upper - other.upper || one.lower - other.lower);
}
