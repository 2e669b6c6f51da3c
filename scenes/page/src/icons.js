/** Small drawings on buttons; the words beside them or the button's name say what they mean. */

import { svg } from "./dom.js";

const PATHS = {
  undo: "M7 4 3 8l4 4M3.5 8H11a4.5 4.5 0 0 1 0 9H8",
  redo: "M13 4l4 4-4 4M16.5 8H9a4.5 4.5 0 0 0 0 9h3",
  reset: "M4.5 7A6.5 6.5 0 1 1 3.5 11M4.5 2.5V7H9",
  link: "M8.5 11.5a3.5 3.5 0 0 0 5 0l2.5-2.5a3.54 3.54 0 0 0-5-5L10 5M11.5 8.5a3.5 3.5 0 0 0-5 0L4 11a3.54 3.54 0 0 0 5 5l1-1",
  save: "M10 3v9M6 8.5l4 4 4-4M3.5 13v3.5h13V13",
  open: "M10 12.5v-9M6 7l4-4 4 4M3.5 13v3.5h13V13",
  casefile: "M5 2.5h7l3.5 3.5v11.5H5zM12 2.5V6h3.5M7.5 10h5.5M7.5 13h5.5",
  picture: "M3 4h14v12H3zM3 13.5l4-4 3.5 3.5 2.5-2 4 3.5M12.5 7.5h.1",
  report: "M4 2.5h12v15H4zM7 6.5h6M7 9.5h6M7 14v-1.5M10 14v-2.5M13 14v-1",
  lessons: "M10 5.5C8 4 5.500 3.500 3 4v11.500c2.500-.5 5 0 7 1.500 2-1.500 4.500-2 7-1.500V4c-2.500-.5-5 0-7 1.500zM10 5.500V17",
  compare: "M3 4h6v12H3zM11 4h6v12h-6z",
  help: "M7.5 7.5a2.5 2.5 0 1 1 3.5 2.3c-.7.3-1 .9-1 1.7v.5M10 14.5v.2",
  play: "M6 4l10 6-10 6z",
  pause: "M6.5 4v12M13.5 4v12",
  close: "M5 5l10 10M15 5L5 15",
  both: "M3 10h14M6.5 6.5 3 10l3.5 3.5M13.5 6.5 17 10l-3.5 3.5",
};

/** @param {string} name @returns {SVGElement} hidden from screen readers. */
export function icon(name) {
  return svg(
    "svg",
    { viewBox: "0 0 20 20", width: 18, height: 18, class: `icon icon-${name}`, "aria-hidden": "true", focusable: "false" },
    svg("path", { d: PATHS[name] }),
  );
}
