/** The film on its page: casts, words, time slider, buttons, keys. */

import { CastsView } from "./casts_view.js";
import { byId, el, mark, set } from "./dom.js";
import { keyEntries } from "./film_key.js";
import { icon } from "./icons.js";
import { Player } from "./player.js";
import { segmented } from "./segmented.js";
import { moveByKey } from "./view_keys.js";
import { INK } from "./view_words.js";

/** How the view of the casts calls the views of a film. */
const LOOKS = { front: "front", right: "right", left: "left", upper: "upper occlusal", lower: "lower occlusal" };
/** Times the speed that the film was made for. */
const SPEEDS = [0.25, 0.5, 1, 2, 4];
/** What takes the space bar, and what takes arrows, for itself. */
const PRESSED = "button, select, input[type=radio], summary, a";
const STEPPED = "select, input";
const STEPS = { ArrowLeft: -1, ArrowRight: 1, Home: -Infinity, End: Infinity };

export class FilmDesk {
  /** @param {{header: object, buffers: object}} teeth both casts. @param {Film} film */
  constructor(teeth, film) {
    this.film = film;
    this.number = 0;
    this.seconds = 0;
    this.speed = 1;
    this.holder = byId("casts");
    this.view = new CastsView(this.holder, {
      colours: film.told.roles,
      styles: film.told.styles,
      gapScale: film.told.gap_scale,
      onFrame: ({ pose, still }) => this.#drawn(pose, still),
      onLook: () => this.#looked(),
    });
    this.player = new Player({ step: (seconds) => this.#step(seconds), ended: () => this.#ended() });
    this.#makeControls();
    this.view.setTeeth(teeth.header, teeth.buffers);
    this.look(film.told.begin);
    this.show(0);
    document.addEventListener("keydown", (event) => this.#key(event));
    document.documentElement.dataset.state = "ready";
  }

  #makeControls() {
    const { told } = this.film;
    this.views = segmented("view", "View", told.views.map(({ key, words }) => [key, words]), (key) => this.look(key));
    this.movements = segmented(
      "movement", "Movement", told.movements.map(({ words }, i) => [String(i), words]),
      (i) => this.goTo(told.movements[Number(i)].first),
    );
    byId("film-views").append(this.views.element);
    byId("film-movements").append(this.movements.element);
    this.play = el("button", { type: "button", id: "play", class: "play", onclick: () => this.toggle() });
    this.slider = el("input", {
      type: "range", id: "slider", min: 0, max: this.film.length - 1, step: 1, value: 0, "aria-label": "Time",
      oninput: () => this.goTo(Number(this.slider.value)),
    });
    this.time = el("span", { id: "time" });
    this.speeds = el(
      "select", { id: "speed", onchange: () => { this.speed = Number(this.speeds.value); } },
      SPEEDS.map((factor) => el("option", { value: factor, selected: factor === 1 })),
    );
    const chosen = el("span", { class: "chosen" }, el("label", { for: "speed", text: "Speed" }), this.speeds);
    byId("film-time").append(this.play, this.slider, this.time, chosen);
    this.#tellPlaying();
  }

  /** Look from one of the views of the film; casts that are not seen from there are put away. */
  look(key) {
    const { right, up, casts } = this.film.told.views.find((one) => one.key === key);
    const shown = (arch) => (casts.includes(arch) ? "solid" : "away");
    this.view.setDisplay({ upper: shown("upper"), lower: shown("lower") });
    const [centre, pxPerMm] = [[0, 0, 0], 1];
    this.view.setCamera({ name: LOOKS[key], right, up, centre, pxPerMm, turnedAway: false, fitted: true, sized: false });
    this.looking = key;
    this.views.update(key);
  }

  /** Once turned by hand it is none of the views; a click on any leads back. */
  #looked() {
    if (this.view.eye.turnedAway) this.views.update(null);
  }

  /** Stop, and show a picture. */
  goTo(number) {
    this.player.stop();
    this.show(Math.min(Math.max(number, 0), this.film.length - 1));
    this.seconds = this.film.secondsOf(this.number);
  }

  /** Show a picture, in three dimensions and in words. */
  show(number) {
    this.number = number;
    const { told } = this.film;
    const moment = this.film.at(number);
    this.view.setPose(...this.film.poseOf(number));
    set(byId("head"), { textContent: moment.head });
    set(byId("travel"), { textContent: moment.travel });
    set(byId("told"), { textContent: moment.told });
    this.#explain(moment);
    this.#followPoint(moment.point);
    const [now, all] = [number, this.film.length - 1].map((one) => this.film.secondsOf(one).toFixed(2));
    set(this.time, { textContent: `${now} of ${all} s` });
    set(this.slider, { value: String(number) });
    mark(this.slider, { "aria-valuetext": `${now} seconds: ${moment.head}, ${moment.travel}` });
    this.#tellMovement(this.film.movementOf(number));
    mark(document.documentElement, { "data-picture": `${number + 1}/${told.pictures.length}` });
  }

  /** Press the button of the movement that is shown, and say how fast it goes. */
  #tellMovement(number) {
    this.movements.update(String(number));
    const { speed_mm_a_s: speed } = this.film.told.movements[number];
    for (const option of this.speeds.options) {
      set(option, { text: `${Number((Number(option.value) * speed).toFixed(3))} mm/s` });
    }
  }

  #explain({ movement, keys }) {
    const shown = JSON.stringify([movement, keys]);
    if (shown === this.explained) return;
    this.explained = shown;
    byId("keys").replaceChildren(...keyEntries(keys, this.film.told.styles[movement]));
  }

  /** Draw the way of the lower incisal point, and where on it that is; null: neither. */
  #followPoint(point) {
    const shown = point !== null;
    if (shown !== this.following) {
      this.following = shown;
      const places = Float32Array.from(this.film.told.tracks.flat());
      this.view.setTrail(shown ? [{ places, colour: INK, shape: "o", filled: true }] : []);
    }
    const pin = { place: point, shape: "o", colour: INK, text: "lower incisal point", chosen: false };
    this.view.lay({ pins: shown ? [pin] : [] });
  }

  /** Where the lower stands in what was drawn last, for whoever wants to know. */
  #drawn(pose, still) {
    mark(this.holder, { "data-move": [...this.view.move].join(" "), "data-pose": pose, "data-still": still });
  }

  toggle() {
    if (this.player.playing) {
      this.player.stop();
      return;
    }
    if (this.number === this.film.length - 1) this.goTo(0);
    this.view.moving(true);
    this.player.start();
    this.#tellPlaying();
  }

  /** Over and over; once where motion is not wanted. */
  #step(seconds) {
    const end = this.film.secondsOf(this.film.length - 1);
    const wanted = this.seconds + seconds * this.speed;
    const once = matchMedia("(prefers-reduced-motion: reduce)").matches;
    this.seconds = wanted <= end ? wanted : once ? end : 0;
    const number = this.film.numberAt(this.seconds);
    if (number !== this.number) this.show(number);
    return !(wanted > end && once);
  }

  #ended() {
    this.view.moving(false);
    this.#tellPlaying();
  }

  #tellPlaying() {
    const [name, words] = this.player.playing ? ["pause", "Pause"] : ["play", "Play"];
    this.play.replaceChildren(icon(name), el("span", { text: words }));
  }

  #key(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const on = event.target;
    if (event.key === " " && !on.matches(PRESSED)) this.toggle();
    else if (this.holder.contains(on)) {
      if (moveByKey(this.view, event)) this.#looked();
      return;
    } else if (event.key in STEPS && !on.matches(STEPPED)) this.goTo(this.number + STEPS[event.key]);
    else return;
    event.preventDefault();
  }
}
