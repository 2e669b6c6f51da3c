/** The casts as scanned, to be clicked on: a view with marks on what was picked. */

import { CastsView } from "./casts_view.js";
import { el, set } from "./dom.js";
import { lookChange } from "./look_bar.js";
import { segmented } from "./segmented.js";
import { moveByKey } from "./view_keys.js";

const SOLIDITY = [["solid", "solid"], ["ghosted", "ghosted"], ["away", "away"]];
const LOOKS = [
  ["front", "Front"], ["right", "Right"], ["left", "Left"],
  ["upper occlusal", "Upper occlusal surface"], ["lower occlusal", "Lower occlusal surface"],
  ["mouth", "Into the mouth"], ["behind", "Behind"],
];

export class PickView {
  /** @param {function({arch: string, place: number[]})} onPick gets a place as it is drawn. */
  constructor(onPick) {
    this.onPick = onPick;
    this.display = { upper: "solid", lower: "solid", look: "lower occlusal" };
    this.pins = [];
    this.upper = segmented("pick-upper", "Upper", SOLIDITY, (value) => this.#display({ upper: value }));
    this.lower = segmented("pick-lower", "Lower", SOLIDITY, (value) => this.#display({ lower: value }));
    this.looks = el("select", { id: "pick-look", onchange: () => this.look(this.looks.value) },
      LOOKS.map(([value, words]) => el("option", { value, text: words })));
    this.holder = el("div", { class: "holder", id: "pick-view", "aria-describedby": "keys-of-view" });
    this.caption = el("p", { class: "pick-caption", id: "pick-caption" });
    this.bar = el("div", { class: "pick-bar", role: "group", "aria-label": "How the casts are shown" },
      el("div", { class: "chosen" }, el("label", { for: "pick-look", text: "View" }), this.looks),
      this.upper.element, this.lower.element,
      el("button", { type: "button", class: "small", text: "Fit", onclick: () => this.look(this.looks.value) }));
    this.element = el("div", { class: "pick-centre" },
      this.bar, el("div", { class: "pick-pane" }, this.holder, this.caption));
  }

  make(welcome) {
    if (this.view) return;
    this.view = new CastsView(this.holder, {
      colours: welcome.roles, styles: welcome.styles, gapScale: welcome.gap_scale,
      onClick: (hit) => this.onPick(hit),
      onFrame: () => {
        const { dataset } = document.documentElement;
        dataset.pickFrames = String(Number(dataset.pickFrames ?? 0) + 1);
      },
    });
    this.view.setDisplay({ map: "none", numbers: false });
    this.holder.addEventListener("keydown", (event) => moveByKey(this.view, event));
  }

  casts(header, buffers) {
    this.view.setTeeth(header, buffers);
    this.look(this.display.look);
  }

  #display(change) {
    this.display = { ...this.display, ...change };
    const { upper, lower, look } = this.display;
    this.view?.setDisplay({ upper, lower });
    this.upper.update(upper);
    this.lower.update(lower);
    this.#pin();
    set(this.looks, { value: look });
  }

  look(name) {
    this.#display(name === this.display.look ? { look: name, ...lookChange({ ...this.display, look: "" }, name) } : lookChange(this.display, name));
    this.view?.look(name);
  }

  /** Say what to click, and show what was picked. @param {object[]} pins place, colour, shape, text, whether it is chosen; `arch`: the cast they lie on, if on one.  */
  update(words, pins) {
    set(this.caption, { textContent: words });
    this.pins = pins;
    this.#pin();
  }

  /** Marks on a cast that is away are away with it. */
  #pin() {
    this.view?.lay({ pins: this.pins.filter(({ arch }) => this.display[arch] !== "away") });
  }
}
