/** Elements made by script: no markup is ever read from text. */

const SVG = "http://www.w3.org/2000/svg";

function fill(element, attributes, children) {
  for (const [name, value] of Object.entries(attributes ?? {})) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else if (name === "text") element.textContent = value;
    else element.setAttribute(name, value === true ? "" : String(value));
  }
  for (const child of children.flat(Infinity)) {
    if (child !== null && child !== undefined && child !== false) element.append(child);
  }
  return element;
}

/**
 * Make an element.
 *
 * @param {string} tag
 * @param {Object<string, *>} [attributes] "text" is its text, "onclick" and the like are listeners,
 *   null and false leave an attribute out, true gives an empty one.
 * @param {...(Node|string|null|Array)} children
 * @returns {HTMLElement}
 */
export function el(tag, attributes, ...children) {
  return fill(document.createElement(tag), attributes, children);
}

/** Make an element of a drawing; see `el`. @returns {SVGElement} */
export function svg(tag, attributes, ...children) {
  return fill(document.createElementNS(SVG, tag), attributes, children);
}

/** The element of an id that is in the page from the start. @returns {HTMLElement} */
export function byId(id) {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no #${id}`);
  return found;
}

/** An id made of any words. */
export function idOf(...words) {
  return words.join("-").replace(/[^A-Za-z0-9_]+/g, "-").replace(/-+$/, "");
}

/**
 * Set those properties of an element that are to be others than they are: a text that is set anew
 * is laid out and painted anew, though it says the same.
 */
export function set(element, properties) {
  for (const [name, value] of Object.entries(properties)) {
    if (element[name] !== value) element[name] = value;
  }
}

/** Set those attributes of an element that are to be others than they are. */
export function mark(element, attributes) {
  for (const [name, value] of Object.entries(attributes)) {
    if (element.getAttribute(name) !== String(value)) element.setAttribute(name, value);
  }
}

/** Show or hide, for everybody. */
export function show(element, shown) {
  set(element, { hidden: !shown });
}

/** Whether somebody is in the middle of typing into a field; `keys.js` marks it. */
export function isBeingTyped(input) {
  return "dirty" in input.dataset && document.activeElement === input; // to ask what has the focus costs more
}
