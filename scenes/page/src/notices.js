/** What the page has to tell now, one line each, over the casts; and the pose for screen readers. */

import { byId, el } from "./dom.js";
import { icon } from "./icons.js";

const SPOKEN_EVERY_MS = 1500;
const SIGNS = { fault: "■", apart: "▲", info: "" };

export class Notices {
  constructor() {
    this.rows = new Map();
    this.place = byId("notices");
    this.spoken = byId("spoken");
  }

  /**
   * Tell something, or take it back.
   *
   * @param {string} id of the notice. @param {"fault"|"apart"|"info"} kind
   * @param {string} words "" takes it back. @param {{keeps?: boolean, act?: object}} options a button puts it away
   *   unless it keeps as long as it is so; `act` is a button beside the words.
   * @param {{words: string, call: function()}|null} [options.act]
   */
  tell(id, kind, words, { keeps = false, act = null } = {}) {
    const old = this.rows.get(id);
    if (old && old.words === words) return;
    old?.element.remove();
    this.rows.delete(id);
    if (!words) return;
    const close = keeps ? null : el("button", { type: "button", class: "icon-only", "aria-label": "Put away",
      onclick: () => this.tell(id, kind, "") }, icon("close"));
    const sign = SIGNS[kind] ? el("span", { class: "sign", "aria-hidden": "true", text: SIGNS[kind] }) : null;
    const element = el("div", { class: `notice ${kind}`, id: `notice-${id}` }, sign, el("p", { text: words }),
      act && el("button", { type: "button", class: "small", id: `notice-${id}-act`, text: act.words, onclick: act.call }), close);
    this.place.append(element);
    this.rows.set(id, { words, element });
  }

  /** Say where the jaw stands, not more often than one can listen. */
  say(words) {
    this.wanted = words;
    if (this.timer) return;
    this.timer = setTimeout(() => {
      this.timer = 0;
      if (this.wanted !== this.spoken.textContent) this.spoken.textContent = this.wanted;
    }, SPOKEN_EVERY_MS);
  }
}
