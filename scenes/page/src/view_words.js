/** Words on a canvas. */

export const INK = "#1c1f24";
export const SOFT_INK = "#5b626c";
export const PAPER = "#ffffff";
export const RIM_PX = 3.5;
const FACE = 'system-ui, "Segoe UI", Roboto, "Liberation Sans", "DejaVu Sans", sans-serif';
const PLAIN = { size: 12, bold: false, colour: INK, align: "left", rim: RIM_PX };

const fontOf = ({ size, bold }) => `${bold ? "600 " : ""}${size}px ${FACE}`;

/** Write a text with a light rim, so that it can be read on any ground. */
export function write(context, text, x, y, look) {
  const { size, bold, colour, align, rim } = { ...PLAIN, ...look };
  context.font = fontOf({ size, bold });
  context.textAlign = align;
  context.textBaseline = "middle";
  context.lineJoin = "round";
  context.strokeStyle = PAPER;
  context.lineWidth = rim;
  if (rim > 0) context.strokeText(text, x, y);
  context.fillStyle = colour;
  context.fillText(text, x, y);
}

/** How wide a text is, pixels. */
export function widthOf(context, text, look) {
  context.font = fontOf({ ...PLAIN, ...look });
  return context.measureText(text).width;
}

/** Words in lines no wider than so many pixels. @returns {string[]} */
export function linesOf(context, text, wide, look) {
  const lines = [];
  for (const word of text.split(" ")) {
    const longer = lines.length ? `${lines.at(-1)} ${word}` : word;
    if (lines.length && widthOf(context, longer, look) <= wide) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}
