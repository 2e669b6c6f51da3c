/** What is kept and shared: link, files, picture, report; and what is told of the connection. */

import { captionOf } from "./caption.js";
import { chooseState, copyText, follow, saveBlob, saveJson } from "./files.js";
import { openHelp } from "./help_dialog.js";
import { toFragment } from "./link.js";
import { toPlain } from "./state.js";

/** What to do with one's work while there is no program. */
const KEPT =
  "What is shown can still be looked at, but nothing is computed. To go on elsewhere, save the state and open it in the " +
  "new page; or put the part of this address from # on behind the new address.";
const NAMES = { report: "report", case_file: "case file" };

export class Commands {
  /** @param {object} desk holds state, study, panes, notices. */
  constructor(desk) {
    this.desk = desk;
    this.under = new Map();
  }

  calls() {
    return {
      "copy-link": () => this.#copyLink(),
      "save-state": () => this.#whenReady(() => this.#saveState()),
      "open-state": () => this.#openState(),
      "case-file": () => this.#ask("case_file"),
      picture: () => this.#picture(),
      report: () => this.#ask("report"),
      help: () => openHelp(),
    };
  }

  #whenReady(call) {
    if (this.desk.state) call();
  }

  #saveState() {
    const name = this.#name("json");
    saveJson(toPlain(this.desk.state), name);
    this.tell(`Saved: ${name}`);
  }

  #name(ending) {
    const { state } = this.desk;
    return `${state[state.chosen].case}_${state.movement.replace(/[^a-z0-9]+/gi, "_")}.${ending}`;
  }

  /** Say what was done, for some seconds, or why not. */
  tell(words, kind = "info") {
    clearTimeout(this.timer);
    this.desk.notices.tell("done", kind, words);
    if (kind === "info") this.timer = setTimeout(() => this.desk.notices.tell("done", kind, ""), 6000);
  }

  async #copyLink() {
    if (!this.desk.state) return;
    const address = location.origin + location.pathname + location.search + toFragment(toPlain(this.desk.state));
    const done = await copyText(address);
    this.tell(done ? "Link copied. It works on this machine until the program is ended." : `The link: ${address}`);
  }

  async #openState() {
    if (!this.desk.state) return;
    try {
      this.desk.take(await chooseState());
      this.tell("State opened. Undo brings back the one before.");
    } catch (error) {
      this.tell(`This file cannot be shown: ${error.message}. Nothing was changed.`, "fault");
    }
  }

  async #picture() {
    const pane = this.desk.state && this.desk.panes.of(this.desk.state.chosen);
    if (!pane?.view?.stage) {
      this.tell("There is no picture to save.", "fault");
      return;
    }
    saveBlob(await pane.view.picture(captionOf(this.desk)), this.#name("png"));
    this.tell("Picture saved.");
  }

  #ask(kind) {
    if (!this.desk.state) return;
    const number = this.desk.study?.ask(kind, this.desk.state) ?? null;
    if (number === null) this.tell(`The ${NAMES[kind]} cannot be made while the connection is lost.`, "fault");
    else this.desk.notices.tell(kind, "info", `Making the ${NAMES[kind]}`);
  }

  /** What the server says while a file is made. */
  answered({ kind, words, text, asked }) {
    if (kind === "fault") this.desk.notices.tell(asked, "fault", `No ${NAMES[asked]} was made. ${this.#sentences(text)}`);
    else this.desk.notices.tell(asked, "info", `Making the ${NAMES[asked]}: ${words}`);
  }

  fileCame({ name, address, asked }) {
    this.desk.notices.tell(asked, "info", "");
    follow(address, name);
    this.tell(`Saved: ${name}`);
  }

  /** Tell faults of states and lost connections. */
  tellLinks(studies) {
    const apart = studies.find(({ link }) => link === "apart");
    const words = apart?.teeth ? `${apart.words} ${KEPT}` : (apart?.words ?? "");
    const act = this.desk.state ? { words: "Save state", call: this.calls()["save-state"] } : null;
    this.desk.notices.tell("apart", "apart", words, { keeps: true, act });
    for (const which of ["a", "b"]) {
      const study = studies.find((one) => one.which === which);
      const place = studies.length > 1 ? `${which.toUpperCase()}: ` : "";
      const stays = study?.pose ? " The last picture stays." : "";
      const fault = study?.fault ? `${place}${this.#sentences(study.fault.text)}${stays}` : "";
      this.desk.notices.tell(`fault-${which}`, "fault", fault, { keeps: true });
    }
  }

  /** What the server says, in the page's words, each line as a sentence. */
  #sentences(text) {
    const lines = this.desk.settings.inWords(text).split("\n");
    const alike = lines.length === 2 && lines[0].replace("right", "left") === lines[1];
    const told = alike ? [lines[0].replace("right", "right and left")] : lines;
    return told.map(sentence).join("\n");
  }
}

function sentence(words) {
  const text = words.trim();
  return text.charAt(0).toUpperCase() + text.slice(1) + (/[.!?]$/.test(text) ? "" : ".");
}
