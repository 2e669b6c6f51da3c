/** One state of the casts with its own connection: what was asked, and the newest answers. */

import { Connection } from "./connection.js";
import { asked, settingsKey } from "./state.js";

const KEPT_NUMBERS = 200;

export class Study {
  /**
   * @param {"a"|"b"} which
   * @param {string} address of the web socket.
   * @param {function(string, object, object)} onNews kind of what came, header, buffers; also
   *   "open", "apart", "sent" and, of a file that is being made, "answer".
   */
  constructor(which, address, onNews) {
    this.which = which;
    this.onNews = onNews;
    this.link = "opening";
    this.words = "";
    this.keys = new Map();
    this.files = new Map();
    this.castsAsked = new Map();
    this.results = null;
    this.loads = null;
    this.sure = null;
    this.fault = null;
    this.progress = null;
    /** The round of a lesson that is asked for beside every state. */
    this.lesson = null;
    this.connection = new Connection(address, {
      onMessage: (header, buffers) => this.#took(header, buffers),
      onState: (link, words) => {
        this.link = link;
        this.words = words;
        if (link === "apart") this.#dropWork();
        if (link === "open") this.last = null;
        onNews(link);
      },
    });
  }

  /** Ask for a state, unless the very same was asked last. */
  show(state) {
    const wanted = asked(state, this.which);
    this.wanted = settingsKey(wanted);
    if (this.sure && this.sure.key !== this.wanted) this.leaveSure();
    const said = this.lesson ? { ...wanted, lesson: this.lesson } : wanted;
    const text = JSON.stringify(said);
    if (text === this.last || !this.welcome) return;
    this.last = text;
    this.connection.show(said, (number) => {
      this.keys.set(number, settingsKey(wanted));
      if (this.keys.size > KEPT_NUMBERS) this.keys.delete(this.keys.keys().next().value);
      this.onNews("sent");
    });
    this.onNews("sent");
  }

  /** Ask for a file. @returns {number|null} number of the message; null: there is no connection. */
  ask(kind, state) {
    const number = this.connection.ask(kind, asked(state, this.which));
    if (number !== null) this.files.set(number, kind);
    return number;
  }

  /** Ask how sure the findings of a state are. */
  askSure(state) {
    const wanted = asked(state, this.which);
    const number = this.connection.ask("how_sure", wanted);
    if (number === null) return;
    this.sure = { number, key: settingsKey(wanted), stands: "running", words: "", share: null };
    this.onNews("sure");
  }

  /** Leave off the study of how sure findings are, or forget what it said. */
  leaveSure() {
    const runs = this.sure?.stands === "running";
    if (runs) this.connection.ask("leave_sure", {});
    this.sure = runs ? { key: this.wanted, stands: "left" } : null;
    this.onNews("sure");
  }

  #takeSure(header) {
    if (header.kind === "progress") Object.assign(this.sure, { words: header.words, share: header.share });
    else if (header.kind === "fault") this.sure = { key: this.sure.key, stands: "fault", text: header.text };
    else this.sure = { key: this.sure.key, stands: "found", header };
    this.onNews("sure");
  }

  /** Ask something about own casts. @returns {boolean} whether there is a connection. */
  askCasts(kind, content, onAnswer) {
    const number = this.connection.ask(kind, content);
    if (number !== null) this.castsAsked.set(number, onAnswer);
    return number !== null;
  }

  #took(header, buffers) {
    const ofCasts = this.castsAsked.get(header.number);
    if (ofCasts) {
      if (header.kind !== "progress") this.castsAsked.delete(header.number);
      ofCasts(header, buffers);
      return;
    }
    if (this.sure?.stands === "running" && header.number === this.sure.number) {
      this.#takeSure(header);
      return;
    }
    const file = this.files.get(header.number);
    if (file) {
      if (header.kind !== "progress") this.files.delete(header.number);
      this.onNews(header.kind === "file" ? "file" : "answer", { ...header, asked: file });
      return;
    }
    const takes = {
      welcome: () => { this.welcome = header; },
      case: () => { this.case = header; },
      progress: () => { this.progress = header; },
      teeth: () => { this.teeth = { header, buffers, of: this.#caseOf(header) }; },
      pose: () => {
        this.pose = { header, buffers };
        this.fault = null;
        this.progress = null;
      },
      excursions: () => this.#takeResults(header, buffers),
      rest: () => this.#takeResults(header, buffers),
      loads: () => { this.loads = { header, buffers, key: this.keys.get(header.number) }; },
      lesson: () => { this.progress = null; },
      reach: () => { this.reach = { header, buffers }; },
      fault: () => {
        this.fault = header;
        this.progress = null;
      },
    };
    takes[header.kind]?.();
    this.onNews(header.kind, header, buffers);
  }

  /** Nothing that was under way comes any more. */
  #dropWork() {
    this.progress = null;
    for (const asked of this.files.values()) {
      this.onNews("answer", { kind: "fault", asked, text: "The connection was lost." });
    }
    this.files.clear();
    if (this.sure?.stands === "running") {
      this.sure = { key: this.sure.key, stands: "fault", text: "the connection was lost; try again when it is back." };
    }
    const asked = [...this.castsAsked.values()];
    this.castsAsked.clear();
    for (const call of asked) call({ kind: "fault", text: "The connection was lost; try again when it is back.", keys: [] });
  }

  #takeResults(header, buffers) {
    const key = this.keys.get(header.number);
    this.results = { header, buffers, whole: header.kind === "rest", key, of: this.#caseOf(header) };
  }

  /** Name of the case of a message, by its number. */
  #caseOf({ number }) {
    const key = this.keys.get(number);
    return key === undefined ? null : JSON.parse(key)[0];
  }

  /** Is something (teeth, results) of another case than the one that is wanted now? */
  isOfOther(something) {
    const { of: name } = something ?? {};
    return Boolean(name && this.wanted && name !== JSON.parse(this.wanted)[0]);
  }

  /** Do the casts that are shown not belong to what is wanted now, and are others being made? */
  get hasOldCasts() {
    if (!this.teeth) return false;
    const made = this.progress && this.pose && this.keys.get(this.pose.header.number) !== this.wanted;
    return this.isOfOther(this.teeth) || Boolean(made);
  }

  /** Is there nothing more to come for what is wanted? */
  get whole() {
    return this.fresh && this.results.whole;
  }

  /** Is what is wanted still being computed? */
  get computing() {
    return !this.whole && !this.fault && this.link !== "apart";
  }

  /** Do the results belong to the settings that are wanted now? */
  get fresh() {
    return this.results !== null && this.results.key === this.wanted;
  }

  /** Loads of the settings that are wanted now, as far as they have come; or null. */
  get freshLoads() {
    return this.fresh && this.loads?.key === this.wanted ? this.loads : null;
  }

  /** How sure the findings of the settings wanted now are, or null. */
  get freshSure() {
    return this.whole && this.sure?.stands === "found" && this.sure.key === this.wanted ? this.sure.header : null;
  }

  /** An excursion of the results, or null. */
  excursion(movement, start) {
    const rows = this.results?.header.movements ?? [];
    return rows.find((row) => row.movement === movement && row.start === start) ?? null;
  }

  /** A buffer that the results name. */
  buffer(name) {
    return this.results.buffers[name];
  }

  /** The value of a setting as it stands. */
  value(settings, path) {
    if (path in settings.changes) return settings.changes[path];
    return this.case?.values[path] ?? null;
  }

  close() {
    this.connection.close();
  }
}
