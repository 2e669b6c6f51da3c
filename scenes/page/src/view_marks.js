/** Shapes of contact marks: each movement has its own beside its colour. */

/** Corners of each shape, in shares of its size; y down. A circle has none. */
const CORNERS = {
  square: [[-0.84, -0.84], [0.84, -0.84], [0.84, 0.84], [-0.84, 0.84]],
  pentagon: [[0, -1.1], [1.05, -0.34], [0.65, 0.89], [-0.65, 0.89], [-1.05, -0.34]],
  diamond: [[0, -1.15], [1.15, 0], [0, 1.15], [-1.15, 0]],
  triangle: [[0, -1.1], [1.05, 0.8], [-1.05, 0.8]],
  "triangle down": [[0, 1.1], [1.05, -0.8], [-1.05, -0.8]],
  plus: [
    [-0.38, -1.1], [0.38, -1.1], [0.38, -0.38], [1.1, -0.38], [1.1, 0.38], [0.38, 0.38],
    [0.38, 1.1], [-0.38, 1.1], [-0.38, 0.38], [-1.1, 0.38], [-1.1, -0.38], [-0.38, -0.38],
  ],
  cross: [
    [-1, -0.55], [-0.55, -1], [0, -0.45], [0.55, -1], [1, -0.55], [0.45, 0],
    [1, 0.55], [0.55, 1], [0, 0.45], [-0.55, 1], [-1, 0.55], [-0.45, 0],
  ],
};
/** Shapes are also known by the short signs of plots. */
const SIGNS = {
  s: "square", D: "diamond", p: "pentagon", "^": "triangle", v: "triangle down", P: "plus", x: "cross", X: "cross",
};
const RIM = "#1c1f24";
const PAPER = "#ffffff";

/** Lay the outline of a shape. */
export function outline(context, shape, x, y, size) {
  const corners = CORNERS[SIGNS[shape] ?? shape];
  context.beginPath();
  if (!corners) {
    context.arc(x, y, size, 0, 2 * Math.PI);
    return;
  }
  corners.forEach(([dx, dy], i) => {
    if (i === 0) context.moveTo(x + dx * size, y + dy * size);
    else context.lineTo(x + dx * size, y + dy * size);
  });
  context.closePath();
}

/**
 * Draw a mark: filled with its colour inside a dark rim, or hollow with a coloured ring in it.
 *
 * @param {CanvasRenderingContext2D} context
 * @param {{x: number, y: number, shape: string, colour: string, filled: boolean, size: number}} mark
 */
export function drawMark(context, { x, y, shape, colour, filled, size }) {
  context.lineJoin = "round";
  outline(context, shape, x, y, size);
  context.strokeStyle = PAPER;
  context.lineWidth = 5;
  context.stroke();
  context.strokeStyle = RIM;
  context.lineWidth = 3;
  context.stroke();
  context.fillStyle = filled ? colour : PAPER;
  context.fill();
  if (!filled) {
    outline(context, shape, x, y, size - 1.6);
    context.strokeStyle = colour;
    context.lineWidth = 2.2;
    context.stroke();
  }
}

/** Draw a mark behind a surface: its outline alone, in its colour. */
export function drawHiddenMark(context, { x, y, shape, colour, size }) {
  context.lineJoin = "round";
  outline(context, shape, x, y, 0.8 * size);
  context.strokeStyle = PAPER;
  context.lineWidth = 3.4;
  context.globalAlpha = 0.75;
  context.stroke();
  context.strokeStyle = colour;
  context.lineWidth = 1.6;
  context.globalAlpha = 1;
  context.setLineDash([2.2, 1.8]);
  context.stroke();
  context.setLineDash([]);
}

/** Two rings around a place, dark and light, to be seen on any ground. */
export function drawRing(context, x, y, radius) {
  for (const [colour, width] of [[PAPER, 5.5], [RIM, 2.5]]) {
    context.beginPath();
    context.arc(x, y, radius, 0, 2 * Math.PI);
    context.strokeStyle = colour;
    context.lineWidth = width;
    context.stroke();
  }
}
