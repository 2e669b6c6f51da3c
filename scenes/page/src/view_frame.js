/** What stands still around the casts: a strip with the view's name, one with colour bar and scale. */

import { gapColour, gapTicks } from "./view_gap_colours.js";
import { INK, PAPER, SOFT_INK, widthOf, write } from "./view_words.js";

const MARGIN = 10;
/** Lower pictures than this have narrow strips. */
const LOW_PX = 330;
const HEADING = { tall: 28, low: 22 };
const [HEADING_PX, LEAST_PX] = [13, 9];
const FOOT = { tall: 54, low: 24, bare: 34 };
const BAR = { width: 184, height: 10, beyond: 26 };
const LOW_BAR = { width: 92, height: 9, beyond: 16 };
const SCALES_MM = [10, 5, 2, 1, 0.5];
const HAIRLINE = "#d5d9df";

/** How high the strips above and below the casts are, pixels. */
export function stripsOf(height, hasBar) {
  const how = height < LOW_PX ? "low" : "tall";
  return { top: HEADING[how], bottom: how === "low" ? FOOT.low : hasBar ? FOOT.tall : FOOT.bare };
}

/** Where the strips stand. */
export function frameBoxes(width, height, { bar }) {
  const { top, bottom } = stripsOf(height, Boolean(bar));
  return [{ x: 0, y: 0, w: width, h: top }, { x: 0, y: height - bottom, w: width, h: bottom }];
}

/**
 * Draw the strips.
 *
 * @param {object} frame {title, hint, left, right: words, pxPerMm,
 *   bar: {limitMm, title, short, tooth, scale}|null}; the hint is left out where it does not fit.
 */
export function drawFrame(context, width, height, frame) {
  const [head, foot] = frameBoxes(width, height, frame);
  const isLow = height < LOW_PX;
  context.fillStyle = PAPER;
  for (const { x, y, w, h } of [head, foot]) context.fillRect(x, y, w, h);
  context.fillStyle = HAIRLINE;
  context.fillRect(0, head.h - 1, width, 1);
  context.fillRect(0, foot.y, width, 1);
  drawHeading(context, width, head.h, frame);
  drawScale(context, width, foot, frame.pxPerMm, isLow);
  if (frame.bar) (isLow ? drawLowBar : drawBar)(context, foot, frame.bar);
}

function drawHeading(context, width, tall, { title, hint, left, right }) {
  const y = tall / 2;
  const soft = { colour: SOFT_INK };
  const beside = Math.max(widthOf(context, left, soft), widthOf(context, right, soft)) + MARGIN + 12;
  const more = hint ? `   ${hint}` : "";
  const room = width - 2 * beside;
  const look = fitting(context, title, room);
  const [own, added] = [widthOf(context, title, look), widthOf(context, more, soft)];
  const fits = own + added <= room;
  const from = (width - own - (fits ? added : 0)) / 2;
  write(context, title, from, y, look);
  if (fits) write(context, more, from + own, y, soft);
  write(context, left, MARGIN, y, soft);
  write(context, right, width - MARGIN, y, { ...soft, align: "right" });
}

/** How a heading is written to have room, in smaller letters if need be. */
function fitting(context, title, room) {
  const look = { size: HEADING_PX, bold: true };
  const own = widthOf(context, title, look);
  return own <= room ? look : { ...look, size: Math.max(LEAST_PX, Math.floor((HEADING_PX * room) / own)) };
}

function drawScale(context, width, foot, pxPerMm, isLow) {
  const mm = SCALES_MM.find((length) => length * pxPerMm <= 0.3 * width) ?? SCALES_MM.at(-1);
  const right = width - MARGIN;
  const left = right - mm * pxPerMm;
  const y = foot.y + (isLow ? foot.h / 2 + 1 : foot.h - 12);
  context.strokeStyle = INK;
  context.lineWidth = 2;
  context.beginPath();
  context.moveTo(left, y - 5);
  context.lineTo(left, y + 4);
  context.moveTo(left, y);
  context.lineTo(right, y);
  context.moveTo(right, y - 5);
  context.lineTo(right, y + 4);
  context.stroke();
  if (isLow) write(context, `${mm} mm`, left - 6, y, { size: 11, align: "right" });
  else write(context, `${mm} mm`, (left + right) / 2, y - 12, { align: "center" });
}

/** A strip of gaps, dark for touching at its left, the colour of teeth beyond its right end. */
function drawColours(context, left, top, { width, height, beyond }, { tooth, scale }) {
  for (let i = 0; i < width; i += 1) {
    const [red, green, blue, strength] = gapColour(scale, (i + 0.5) / width);
    context.fillStyle = tooth;
    context.fillRect(left + i, top, 1, height);
    context.globalAlpha = strength / 255;
    context.fillStyle = `rgb(${red} ${green} ${blue})`;
    context.fillRect(left + i, top, 1, height);
    context.globalAlpha = 1;
  }
  context.fillStyle = tooth;
  context.fillRect(left + width, top, beyond, height);
  context.strokeStyle = SOFT_INK;
  context.lineWidth = 1;
  context.strokeRect(left - 0.5, top - 0.5, width + beyond + 1, height + 1);
}

function drawBar(context, foot, bar) {
  const left = 14;
  const top = foot.y + 22;
  drawColours(context, left, top, BAR, bar);
  const ticksY = top + BAR.height + 12;
  for (const { value, text } of gapTicks(bar.limitMm)) {
    const x = left + (value / bar.limitMm) * BAR.width;
    context.fillStyle = SOFT_INK;
    context.fillRect(x - 0.5, top + BAR.height, 1, 3);
    write(context, text, x, ticksY, { size: 11, align: "center" });
  }
  write(context, "more", left + BAR.width + 20, ticksY, { size: 11 });
  write(context, `${bar.title}, mm`, left - 1, top - 10);
}

/** All in one line. */
function drawLowBar(context, foot, bar) {
  const y = foot.y + foot.h / 2 + 1;
  const small = { size: 11 };
  const words = `${bar.short}, mm: 0`;
  write(context, words, MARGIN, y, small);
  const left = MARGIN + widthOf(context, words, small) + 6;
  drawColours(context, left, y - LOW_BAR.height / 2, LOW_BAR, bar);
  write(context, `${bar.limitMm} and more`, left + LOW_BAR.width + LOW_BAR.beyond + 6, y, small);
}
