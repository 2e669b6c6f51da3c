/** A web socket that comes back by itself; one message "show" at a time, the newest meant. */

import { decode } from "./message.js";

const FIRST_WAIT_MS = 500;
const LONGEST_WAIT_MS = 8000;
/** Close codes after which trying again soon is of no use, in words. */
const ENDED = "The program was ended. Start it again and open the address it shows.";
const ENDS = {
  1001: ENDED,
  1012: ENDED,
  1013: "Too many pages are open. Close one of them; this one tries again.",
};

/** So many failed tries, and the program is probably gone. */
const MANY_TRIES = 5;
const GONE =
  "The program does not answer. If it was ended, start it again and open the address it shows; " +
  "this page tries again meanwhile.";
/** Somebody answers at the old place, but does not know this page. */
const STARTED_ANEW =
  "The program was started anew and has a new address: open the one it shows. This page belongs to the program before.";
/** What any running program hands out to everybody. */
const OPEN_TO_ALL = "/page.css";

export class Connection {
  /**
   * @param {string} address of the socket.
   * @param {{onMessage: function(object, object, number), onState: function(string, string)}} calls
   *   a message's header and buffers, and the number of its settings; "open", "apart" with words.
   */
  constructor(address, { onMessage, onState }) {
    this.address = address;
    this.onMessage = onMessage;
    this.onState = onState;
    this.number = 0;
    this.waiting = null;
    this.inFlight = null;
    this.wait = FIRST_WAIT_MS;
    this.closed = false;
    this.#open();
  }

  #open() {
    const socket = new WebSocket(this.address);
    socket.binaryType = "arraybuffer";
    this.socket = socket;
    socket.addEventListener("open", () => {
      this.wait = FIRST_WAIT_MS;
      this.tries = 0;
      this.ended = "";
      this.onState("open", "");
    });
    socket.addEventListener("message", ({ data }) => this.#took(data));
    socket.addEventListener("close", ({ code }) => this.#lost(code));
  }

  #took(data) {
    const { header, buffers } = decode(data);
    const answers = header.kind === "pose" || header.kind === "fault";
    if (answers && (header.number === this.inFlight || header.number === null)) this.inFlight = null;
    this.onMessage(header, buffers);
    if (answers) this.#flush();
  }

  #lost(code) {
    this.inFlight = null;
    if (this.closed) return;
    this.tries = (this.tries ?? 0) + 1;
    this.ended = ENDS[code] ?? this.ended ?? "";
    const lost = this.tries > MANY_TRIES ? GONE : "Connection lost; trying again.";
    this.onState("apart", this.ended || lost);
    if (this.tries > 1) this.#look();
    this.timer = setTimeout(() => this.#open(), this.wait);
    this.wait = Math.min(2 * this.wait, LONGEST_WAIT_MS);
  }

  /** Tell a program that is gone from one that was started anew at the same place. */
  async #look() {
    const { ok } = await fetch(OPEN_TO_ALL, { cache: "no-store" }).catch(() => ({ ok: false }));
    if (!ok || this.closed || this.isOpen || this.socket.readyState === WebSocket.CONNECTING) return;
    this.ended = STARTED_ANEW;
    this.onState("apart", this.ended);
  }

  get isOpen() {
    return this.socket.readyState === WebSocket.OPEN;
  }

  /** Ask that a state be shown, now or as soon as the last one was; the newest replaces older. */
  show(state, onSent) {
    this.waiting = { state, onSent };
    this.#flush();
  }

  #flush() {
    if (!this.waiting || this.inFlight !== null || !this.isOpen) return;
    const { state, onSent } = this.waiting;
    this.waiting = null;
    this.inFlight = this.#send("show", state);
    onSent?.(this.inFlight);
  }

  /** Ask for a file ("report", "case_file"), or about own casts. @returns {number|null} its number; null: apart. */
  ask(kind, state) {
    return this.isOpen ? this.#send(kind, state) : null;
  }

  #send(kind, state) {
    this.number += 1;
    this.socket.send(JSON.stringify({ kind, number: this.number, ...state }));
    return this.number;
  }

  /** Is a state on its way that was not shown yet? */
  get busy() {
    return this.inFlight !== null || this.waiting !== null;
  }

  close() {
    this.closed = true;
    clearTimeout(this.timer);
    this.socket.close();
  }
}
