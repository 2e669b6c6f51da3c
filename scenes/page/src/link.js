/** A state in the address of the page, behind #state=. */

const MARK = "#state=";
const MOST_LENGTH = 32_768;

/** @param {object} plain @returns {string} fragment of an address, with its "#". */
export function toFragment(plain) {
  const bytes = new TextEncoder().encode(JSON.stringify(plain));
  let text = "";
  for (const byte of bytes) text += String.fromCharCode(byte);
  return MARK + btoa(text).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
}

/**
 * @param {string} fragment with its "#"; may be empty.
 * @returns {*} null where it says nothing of a state; not yet checked.
 * @throws {Error} in words for the user.
 */
export function fromFragment(fragment) {
  if (!fragment.startsWith(MARK)) return null;
  const text = fragment.slice(MARK.length);
  if (text.length > MOST_LENGTH) throw new Error("it is too long");
  try {
    const base = text.replaceAll("-", "+").replaceAll("_", "/");
    const bytes = Uint8Array.from(atob(base), (letter) => letter.charCodeAt(0));
    return JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  } catch {
    throw new Error("it was cut short or altered on the way");
  }
}
