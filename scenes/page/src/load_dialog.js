/** Choosing the files of one's own casts: each is sent to the program on this machine at once. */

import { byId, el, set, show } from "./dom.js";
import { takenBackWith } from "./cast_files.js";

const SLOTS = [
  ["upper", "Upper scan", "STL, PLY, OBJ or GLB"],
  ["lower", "Lower scan", "STL, PLY, OBJ or GLB"],
  ["upper_labels", "Labels of the upper scan", "JSON, if the scan holds none"],
  ["lower_labels", "Labels of the lower scan", "JSON, if the scan holds none"],
  ["bite", "Bite record", "text, only if the scans do not lie as they bite: the transform of the lower one, mm"],
  ["points", "Points picked before", "CSV, if there are any"],
];
const UNITS = [["mm", "mm"], ["cm", "cm"], ["m", "m"], ["inch", "inch"], ["um", "µm"]];

export class LoadDialog {
  /** @param {{read: function(string), stop: function(), forget: function(string)}} calls */
  constructor(calls) {
    this.calls = calls;
    this.rows = new Map();
    this.dialog = byId("casts-dialog");
    this.units = el("select", { id: "casts-units" }, UNITS.map(([value, text]) => el("option", { value, text })));
    this.status = el("p", { class: "quiet", id: "casts-status", role: "status" });
    this.fault = el("p", { class: "wrong", id: "casts-fault", role: "alert" });
    this.read = el("button", { type: "button", id: "casts-read", text: "Read the casts", onclick: () => this.calls.read(this.units.value) });
    this.stop = el("button", { type: "button", id: "casts-stop", text: "Stop", onclick: () => this.calls.stop() });
    this.dialog.append(
      el("h2", { id: "casts-title", tabindex: "-1", autofocus: true, text: "Your own casts" }),
      el("p", { class: "quiet", text: "Files go to the program on this machine only, and are removed when the page is closed." }),
      ...SLOTS.map((slot) => this.#row(...slot)),
      el("div", { class: "casts-row" }, el("label", { for: "casts-units", text: "Unit of the scans" }), this.units),
      this.status, this.fault,
      el("div", { class: "casts-buttons" }, this.read, this.stop,
        el("button", { type: "button", id: "casts-close", text: "Close", onclick: () => this.dialog.close() })));
    for (const part of [this.stop, this.fault]) show(part, false);
    set(this.read, { disabled: true });
  }

  #row(slot, words, hint) {
    const input = el("input", { type: "file", id: `file-${slot}`, "aria-describedby": `file-${slot}-hint file-${slot}-said`,
      onchange: () => this.#chosen(slot) });
    const said = el("p", { class: "casts-said", id: `file-${slot}-said`, role: "status" });
    const bar = el("progress", { max: "1", "aria-label": `${words}: sent` });
    const remove = el("button", { type: "button", class: "small", id: `file-${slot}-remove`, text: "Remove",
      "aria-label": `Remove: ${words}`, onclick: () => this.#remove(slot) });
    for (const part of [bar, remove]) show(part, false);
    this.rows.set(slot, { input, said, bar, remove, words, done: false, read: false });
    return el("div", { class: "casts-row" }, el("label", { for: `file-${slot}`, text: words }),
      el("div", { class: "casts-file" }, input, remove),
      el("span", { class: "quiet", id: `file-${slot}-hint`, text: hint }), bar, said);
  }

  /** @param {object} place where files go: address, slots with endings and sizes. */
  open(place, token) {
    const anew = this.place && this.place.key !== place.key;
    Object.assign(this, { place, token });
    for (const [slot, row] of this.rows) {
      row.input.accept = place.slots[slot].endings.join(",");
      if (anew) {
        row.input.value = "";
        row.read = false;
        this.#said(slot, "", false);
      }
    }
    this.#update();
    if (!this.dialog.open) this.dialog.showModal();
  }

  close() {
    this.dialog.close();
  }

  /** The files that are there were read: they belong together from now on. */
  wereRead() {
    for (const row of this.rows.values()) row.read = row.done;
  }

  /** Take the file of a row back, and say why. */
  #takeBack(slot, words = "") {
    const row = this.rows.get(slot);
    if (!this.calls.forget(slot)) {
      this.#said(slot, "Not taken back: the connection is lost. Try again when it is back.", row.done, true);
      return;
    }
    this.#breakOff(row);
    row.read = false;
    row.input.value = "";
    this.#said(slot, words, false);
  }

  #breakOff(row) {
    row.request?.abort();
    row.request = null;
    show(row.bar, false);
  }

  /** Say why a file is not taken; the one before is used no longer. */
  #refused(slot, words) {
    this.calls.forget(slot);
    this.#said(slot, words, false, true);
  }

  #remove(slot) {
    this.#takeBack(slot);
    this.tell("");
    this.rows.get(slot).input.focus();
  }

  #chosen(slot) {
    const row = this.rows.get(slot);
    this.#breakOff(row);
    const [file] = row.input.files;
    this.#said(slot, "", false);
    this.tell("");
    for (const other of takenBackWith(slot, row.read, (one) => this.rows.get(one).read)) {
      this.#takeBack(other, `Taken back: it belonged to the ${slot} scan before. Choose it again if it holds for the new one.`);
    }
    row.read = false;
    if (!file) {
      this.calls.forget(slot);
      return;
    }
    const { endings, largest_bytes: largest } = this.place.slots[slot];
    if (!endings.some((ending) => file.name.toLowerCase().endsWith(ending))) {
      this.#refused(slot, `“${file.name}” is not taken; its name must end with ${endings.join(", ")}.`);
    } else if (file.size > largest) {
      this.#refused(slot, `It is larger than ${largest / 1e6} MB: export it with fewer triangles, or as binary STL or PLY.`);
    } else if (file.size === 0) {
      this.#refused(slot, "It is empty (0 bytes): was its export broken off?");
    } else this.#send(slot, file);
  }

  #send(slot, file) {
    const row = this.rows.get(slot);
    const request = new XMLHttpRequest();
    row.request = request;
    const query = new URLSearchParams({ token: this.token, name: file.name });
    request.open("POST", `${this.place.address}/${slot}?${query}`);
    request.upload.addEventListener("progress", ({ loaded, total }) => {
      row.bar.value = total ? loaded / total : 0;
    });
    const failed = (words) => this.#refused(slot, words);
    request.addEventListener("load", () => {
      show(row.bar, false);
      row.request = null;
      if (request.status === 200) this.#said(slot, `Sent: ${(file.size / 1e6).toFixed(1)} MB`, true);
      else failed(`Not taken: ${request.responseText.trim().slice(0, 200)}.`);
    });
    request.addEventListener("error", () => {
      show(row.bar, false);
      row.request = null;
      failed("It could not be sent: the connection was lost. Choose it again.");
    });
    row.bar.value = 0;
    show(row.bar, true);
    request.send(file);
    this.#update();
  }

  #said(slot, words, done, wrong = false) {
    const row = this.rows.get(slot);
    row.done = done;
    set(row.said, { textContent: words });
    row.said.classList.toggle("wrong", wrong);
    row.input.setAttribute("aria-invalid", String(wrong));
    show(row.remove, row.input.files.length > 0);
    this.#update();
  }

  #update() {
    const sending = [...this.rows.values()].some(({ request }) => request);
    const ready = this.rows.get("upper").done && this.rows.get("lower").done && !sending;
    set(this.read, { disabled: !ready || this.working });
    show(this.stop, Boolean(this.working));
    if (!this.working) set(this.status, { textContent: ready ? "Both scans are there." : "Choose the files of both scans." });
  }

  /** Say what is being done; "" nothing. */
  work(words) {
    this.working = words !== "";
    set(this.status, { textContent: words });
    this.#update();
  }

  /** Tell a fault, beside the field it is about. */
  tell(words, field = null) {
    const row = this.rows.get(field);
    if (row && words) this.#said(field, words, row.done, true);
    set(this.fault, { textContent: row ? "" : words });
    show(this.fault, words !== "" && !row);
  }
}
