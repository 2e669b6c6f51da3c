/** Which colour and which shape means what. */

import { el, svg } from "./dom.js";
import { CHANGED } from "./view_model.js";
import { gapColour } from "./view_gap_colours.js";

const ROLES = [
  ["upper tooth", "natural tooth"], ["replacement tooth", "replacement tooth (its number is framed)"],
  ["gum", "gum"], ["denture base", "denture base"], ["stone", "stone of the cast"],
];
const MOVEMENTS = {
  MI: "in MI", protrusion: "protrusion", "right lateral": "right lateral", "left lateral": "left lateral",
  "right between": "between, right", "left between": "between, left", retrusion: "retrusion",
};
const SHAPES = {
  s: "M3 3h8v8H3z", "^": "M7 2.5l5 9H2z", o: "M7 2.5a4.5 4.5 0 1 1 0 9 4.5 4.5 0 0 1 0-9z",
  D: "M7 2l5 5-5 5-5-5z", v: "M2 2.5h10l-5 9z", P: "M5 2h4v3h3v4H9v3H5V9H2V5h3z", x: "M3 3l8 8M11 3l-8 8",
};

/** @param {object} welcome @returns {HTMLElement} */
export function legend(welcome) {
  const { roles, styles, severities, gap_scale: scale, map_limit_mm: limit } = welcome;
  const surfaces = ROLES.filter(([role]) => roles[role]).map(([role, words]) => item(swatch(roles[role]), words));
  const movements = Object.entries(MOVEMENTS).filter(([name]) => styles[name]).map(([name, words]) =>
    item(mark(styles[name].shape, styles[name].colour, true), `contact${name === "MI" ? "" : ","} ${words}`));
  const signs = Object.entries(severities ?? {}).map(([name, sign]) =>
    item(el("span", { class: `sign ${name}`, text: sign }), name));
  return el("div", { class: "legend" },
    list("Surfaces", [...surfaces,
      item(el("span", { class: "sign", text: CHANGED }), "behind a number: changed on trial; its outline as it was is drawn over it")]),
    list("Contacts", [...movements,
      item(mark("s", INK, false), "hollow: on the nonworking side"),
      item(mark("s", INK, false, "2 1.6"), "dotted: behind what is seen"),
      item(strokes(), "four strokes: first contact, which holds the jaw"),
      item(ring(), "ring: the finding that is picked"),
      item(dot(), "small dots: contacts of the whole excursion, pale where hidden")]),
    scale ? el("div", {}, el("h4", { text: "Gap to the opposing arch" }), gapBar(scale, roles["upper tooth"]),
      el("p", { class: "quiet ends" }, el("span", { text: "0 mm" }), el("span", { text: `${limit ?? 1} mm and more` }))) : null,
    list("Findings", signs));
}

function list(title, items) {
  return el("div", {}, el("h4", { text: title }), el("ul", {}, items));
}

function item(sign, words) {
  return el("li", {}, sign, el("span", { text: words }));
}

function swatch(colour) {
  return small(
    svg("rect", { x: 0.5, y: 0.5, width: 13, height: 13, rx: 2, fill: colour, stroke: "#5b626c" }));
}

const INK = "#1c1f24";

function small(...children) {
  return svg("svg", { viewBox: "0 0 14 14", width: 14, height: 14, "aria-hidden": "true" }, children);
}

function strokes() {
  return small(svg("path", { d: "M7 0v3.5M7 10.5V14M0 7h3.5M10.5 7H14", fill: "none", stroke: INK, "stroke-width": 1.8 }));
}

function ring() {
  return small(svg("circle", { cx: 7, cy: 7, r: 5.5, fill: "none", stroke: INK, "stroke-width": 2 }));
}

function dot() {
  return small(svg("circle", { cx: 4, cy: 7, r: 1.8, fill: INK }), svg("circle", { cx: 10, cy: 7, r: 1.8, fill: INK, opacity: 0.45 }));
}

function mark(shape, colour, filled, dash = null) {
  const open = !filled || shape === "x";
  return small(
    svg("path", { d: SHAPES[shape] ?? SHAPES.o, fill: open ? "none" : colour, stroke: open ? colour : "#1c1f24", "stroke-width": open ? 1.8 : 0.8, "stroke-dasharray": dash }));
}

/** The colours as they are on the teeth: they fade into that of a tooth. */
function gapBar(scale, tooth) {
  const steps = 48;
  const wide = 100 / steps;
  const bars = Array.from({ length: steps }, (_, i) => {
    const [red, green, blue, strength] = gapColour(scale, (i + 0.5) / steps);
    return svg("rect", { x: i * wide, y: 0, width: wide + 0.2, height: 8, fill: `rgb(${red} ${green} ${blue})`, "fill-opacity": strength / 255 });
  });
  return svg("svg", { class: "gap-bar", viewBox: "0 0 100 8", preserveAspectRatio: "none", role: "img", "aria-label": "dark: near; light: far" },
    svg("rect", { x: 0, y: 0, width: 100, height: 8, fill: tooth ?? "#fff" }), bars);
}
