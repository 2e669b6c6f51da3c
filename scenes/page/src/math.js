/** Formulas as MathML, made of trees of plain lists: [tag, child, ...]; no markup is read. */

const MATH = "http://www.w3.org/1998/Math/MathML";
const TAGS = ["mrow", "mi", "mn", "mo", "mfrac", "msub", "msup", "msqrt", "mfenced", "mtext"];

function element([tag, ...children]) {
  if (!TAGS.includes(tag)) throw new Error(`no formula has <${tag}>`);
  const made = document.createElementNS(MATH, tag);
  for (const child of children) made.append(typeof child === "string" ? child : element(child));
  return made;
}

/** @param {Array[]} trees one after the other. @param {boolean} own in a line of its own. @returns {Element} */
export function math(trees, own = false) {
  const made = document.createElementNS(MATH, "math");
  if (own) made.setAttribute("display", "block");
  made.append(...trees.map(element));
  return made;
}
