/** Files that the page writes and reads, and the clipboard. */

import { el } from "./dom.js";

const MOST_BYTES = 1_000_000;

/** Hand a file to the user. */
export function saveBlob(blob, name) {
  const address = URL.createObjectURL(blob);
  follow(address, name);
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** Follow an address as a download. */
export function follow(address, name) {
  const link = el("a", { href: address, download: name });
  document.body.append(link);
  link.click();
  link.remove();
}

/** Save a plain object as JSON. */
export function saveJson(plain, name) {
  saveBlob(new Blob([`${JSON.stringify(plain, null, 1)}\n`], { type: "application/json" }), name);
}

/**
 * Let the user choose a state that was saved.
 *
 * @returns {Promise<*>} not yet checked. @throws {Error} in words for the user.
 */
export function chooseState() {
  return new Promise((resolve, reject) => {
    const input = el("input", { type: "file", accept: ".json,application/json", id: "open-state-file" });
    input.hidden = true;
    document.body.append(input);
    input.addEventListener("cancel", () => input.remove());
    input.addEventListener("change", async () => {
      const [file] = input.files;
      input.remove();
      try {
        if (file.size > MOST_BYTES) throw new Error("it is too large for a state");
        resolve(JSON.parse(await file.text()));
      } catch (error) {
        reject(error instanceof SyntaxError ? new Error(noState(file.name)) : error);
      }
    });
    input.click();
  });
}

/** Why a file is no state of this page. */
function noState(name) {
  return /\.toml$/i.test(name)
    ? `it is a case file: end the program and start it with “cuspway page ${name}” to open it`
    : "it is no state saved by this page";
}

/** Put text on the clipboard. @returns {Promise<boolean>} */
export async function copyText(text) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return false;
  }
}
