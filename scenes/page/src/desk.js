/** Holds the state of the page, asks for what it shows, and shows what comes. */

import { Asking } from "./asking.js";
import { Commands } from "./commands.js";
import { Comparison } from "./comparison.js";
import { byId, show } from "./dom.js";
import { Drawing } from "./drawing.js";
import { middleOf } from "./findings.js";
import { offerFirstSteps } from "./first_steps.js";
import { makeHeader, nameCases, welcomeHeader } from "./header.js";
import { History } from "./history.js";
import { fromFragment } from "./link.js";
import { Lessons } from "./lessons.js";
import { lookChange, makeLookBar } from "./look_bar.js";
import { MovementBar, RAISED_BITE } from "./movement_bar.js";
import { Notices } from "./notices.js";
import { OwnCasts } from "./own_casts.js";
import { Panes } from "./panes.js";
import { Playing } from "./playing.js";
import { ResultsPanel } from "./results_panel.js";
import { SettingsPanel } from "./settings_panel.js";
import { changedSettings, checkOffered, firstState, fromPlain, settingsKey } from "./state.js";
import { Study } from "./study.js";
import { TrialPanel } from "./trial_panel.js";

export class Desk {
  constructor() {
    this.notices = new Notices();
    this.studies = {};
    this.panes = new Panes((frame) => this.#frame(frame), (which, tooth) => this.trial.clicked(which, tooth));
    this.commands = new Commands(this);
    this.drawing = new Drawing(this);
    this.playing = new Playing(this);
    this.asking = new Asking(this);
    this.trial = new TrialPanel(this);
    this.#makeParts();
  }

  #makeParts() {
    const end = () => this.end();
    const travel = (mm, gesture) => this.travel(mm, gesture);
    makeHeader({
      ...this.commands.calls(), case: (name) => this.#chooseCase(name),
      undo: () => this.undo(), redo: () => this.redo(), reset: () => this.reset(),
      compare: () => this.compare(), lessons: () => this.lessons.open(),
    });
    this.ownCasts = new OwnCasts(this);
    byId("own-casts").addEventListener("click", () => this.ownCasts.open());
    this.settings = new SettingsPanel({
      set: (changes, gesture) => this.set(changes, gesture), end,
      points: (name) => this.ownCasts.pickOn(name),
      link: (group, on, changes) => this.#link(group, on, changes),
    });
    this.lookBar = makeLookBar({
      display: (change) => this.#display(change), look: (name) => this.lookFrom(name),
      map: (map) => this.put({ map }),
    });
    this.movementBar = new MovementBar({
      movement: (movement) => this.#chooseMovement(movement), start: (start) => this.put({ start }),
      travel, end, play: () => this.playing.toggle(),
      opening: (mm, gesture) => this.put({ opening_mm: mm }, gesture, "opening"),
    });
    this.results = new ResultsPanel({
      travel, end, pick: (finding) => this.#pick(finding),
      movement: (movement, start) => this.put({ movement, start }), put: (change) => this.put(change),
    });
    this.comparison = new Comparison(
      { travel, end, choose: (chosen) => this.put({ chosen }) }, (path) => this.settings.nameOf(path));
    byId("results-body").append(this.results.element, this.comparison.element);
    show(this.comparison.element, false);
    this.lessons = new Lessons(this);
  }

  /** Connect. */
  open() {
    this.panes.open("a");
    this.panes.of("a").working("Connecting to the program on this machine", true);
    this.#openStudy("a");
    window.addEventListener("hashchange", (event) => this.#hashChanged(new URL(event.newURL).hash));
  }

  #openStudy(which) {
    const token = new URLSearchParams(location.search).get("token") ?? "";
    const scheme = location.protocol === "https:" ? "wss" : "ws";
    const address = `${scheme}://${location.host}/socket?token=${encodeURIComponent(token)}`;
    this.studies[which] = new Study(which, address, (kind, header) => this.#news(which, kind, header));
  }

  #news(which, kind, header) {
    const study = this.studies[which];
    const takes = {
      welcome: () => this.#welcomed(which),
      case: () => this.#caseCame(which),
      teeth: () => this.panes.teeth(which, study),
      pose: () => this.panes.pose(which, study, this.state),
      lesson: () => this.lessons.came(header),
      file: () => this.commands.fileCame(header),
      answer: () => this.commands.answered(header),
    };
    takes[kind]?.();
    if (kind === "pose") this.notices.say(this.#spoken());
    this.drawing.soon();
  }

  get state() {
    return this.history?.present ?? null;
  }

  get study() {
    return this.state ? this.studies[this.state.chosen] : null;
  }

  #welcomed(which) {
    const study = this.studies[which];
    if (!this.welcome) {
      this.welcome = study.welcome;
      welcomeHeader(this.welcome);
      this.settings.make(this.welcome.controls, this.trial.make(this.welcome.trial));
      this.history = new History(this.#firstState());
      offerFirstSteps((...step) => this.goTo(...step));
    }
    this.panes.make(which, this.welcome);
    this.ownCasts.resume(study);
    this.#syncStudies();
    this.asking.now();
  }

  #firstState() {
    const usual = firstState(this.welcome.first);
    try {
      const plain = fromFragment(location.hash);
      if (plain === null) return usual;
      const state = fromPlain(plain);
      checkOffered(state, this.welcome);
      return state;
    } catch (error) {
      this.notices.tell("link", "fault",
        `The state in the address cannot be shown: ${error.message}. The page starts with the usual one.`);
      return usual;
    }
  }

  /** A link was put into the address; by now the page may have written its own there again. */
  #hashChanged(hash) {
    if (!this.welcome || hash === this.fragment) return;
    try {
      const plain = fromFragment(hash);
      if (plain !== null) this.take(plain);
    } catch (error) {
      this.notices.tell("link", "fault", `This link cannot be shown: ${error.message}. Nothing was changed.`);
    }
  }

  /** Take over a state that came from outside. @throws {Error} in words for the user. */
  take(plain) {
    const state = fromPlain(plain);
    checkOffered(state, this.welcome);
    this.notices.tell("link", "fault", "");
    this.#next(state, null);
  }

  #caseCame(which) {
    const { movements, name } = this.studies[which].case;
    if (which !== this.state.chosen || name !== this.state[which].case) return;
    const has = (movement, start) =>
      movements.some((one) => one.movement === movement && one.start === start);
    const { movement, start } = this.state;
    if (has(movement, start)) return;
    const other = movements.find((one) => one.movement === movement) ?? movements[0];
    this.history.amend({ ...this.state, movement: other.movement, start: other.start });
    this.asking.now();
  }

  /** Change the state; with the same gesture or in the same run as before it is the same step. */
  put(change, gesture = null, run = null) {
    if (!this.history) return;
    this.#next({ ...this.state, ...change }, gesture, run);
  }

  #next(state, gesture, run = null) {
    this.notices.tell("done", "info", "");
    this.history.put(state, gesture, run);
    if (gesture === null || run !== "travel") this.#changed();
    else this.#moved();
  }

  #changed() {
    this.#syncStudies();
    this.asking.now();
    this.moveAtOnce();
    this.drawing.soon();
  }

  /** Along a travel that is being dragged drawing comes first, where the casts follow by themselves. */
  #moved() {
    if (this.moveAtOnce()) this.asking.soon();
    else this.asking.now();
    this.drawing.soon();
  }

  /** Open or close the second connection, as the state has it. */
  #syncStudies() {
    const two = this.state.b !== null;
    if (two && !this.studies.b) {
      this.panes.open("b");
      this.#openStudy("b");
      const { a, b } = this.studies;
      if (this.state.b.case === this.state.a.case) b.case = a.case;
    } else if (!two && this.studies.b) {
      this.studies.b.close();
      delete this.studies.b;
      this.panes.close("b");
    }
  }

  /** Put the casts where the state has them. @returns {boolean} whether all could be. */
  moveAtOnce() {
    return Object.values(this.studies).map((study) => this.panes.moveAtOnce(study, this.state)).every(Boolean);
  }

  /** The chosen settings with changes; a change made before their case has come is kept. */
  #withChanges(changes) {
    return changedSettings(this.state[this.state.chosen], changes, this.study.case?.values ?? {});
  }

  /** Change settings of the chosen state. */
  set(changes, gesture = null) {
    if (!this.state) return;
    const { chosen } = this.state;
    const next = this.#withChanges(changes);
    if (settingsKey(next) === settingsKey(this.state[chosen])) this.drawing.soon();
    else this.put({ [chosen]: next }, gesture);
  }

  reset() {
    const { chosen, display } = this.state;
    this.put({ [chosen]: { case: this.state[chosen].case, changes: {} }, display: { ...display, linked: {} } });
  }

  #link(group, on, changes) {
    const display = { ...this.state.display, linked: { ...this.state.display.linked, [group]: on } };
    const { chosen } = this.state;
    const settings = this.#withChanges(changes);
    this.put({ display, [chosen]: settings });
  }

  #display(change) {
    this.put({ display: { ...this.state.display, ...change } });
  }

  lookFrom(name) {
    if (this.ownCasts.picking) {
      this.ownCasts.look(name);
      return;
    }
    if (!this.state) return;
    if (name !== this.state.display.look) this.#display(lookChange(this.state.display, name));
    this.panes.look(name);
  }

  /** Go on with a case of one's own casts, first in MI. @param {{name: string, title: string}} told */
  takeOwnCase(told) {
    this.welcome.cases = [...this.welcome.cases, { ...told, title: `${told.title} (${told.name.replace("own_", "")})` }];
    nameCases(this.welcome);
    const { movement, start } = this.welcome.first;
    this.put({ a: { case: told.name, changes: {} }, b: null, chosen: "a", movement, start, travel_mm: 0, opening_mm: 0 });
  }

  #chooseCase(name) {
    this.put({ [this.state.chosen]: { case: name, changes: {} } });
  }

  #chooseMovement(movement) {
    const rows = (this.study.case?.movements ?? []).filter((one) => one.movement === movement);
    const start = rows.some((one) => one.start === this.state.start) ? this.state.start : rows[0]?.start;
    const travel = movement === RAISED_BITE ? { travel_mm: 0 } : {};
    this.put({ movement, start: start ?? this.state.start, ...travel });
  }

  /** Show a case with what differs from it, where the rest of a state has the jaw. */
  goTo(name, differs, rest, look) {
    const display = { ...this.state.display, look };
    this.put({ ...rest, display, a: { case: name, ...differs }, b: null, chosen: "a" });
    this.panes.look(look);
  }

  #pick(finding) {
    this.ringed = finding;
    this.panes.ring(this.state.chosen, finding);
    if (!finding?.movement) return;
    const { movement, start } = finding;
    this.put({ movement, start, opening_mm: 0, travel_mm: middleOf(finding) });
  }

  travel(mm, gesture) {
    if (this.playing.on) this.playing.stop();
    if (gesture) this.results.moving(true);
    this.put({ travel_mm: mm }, gesture, "travel");
  }

  /** What was being dragged is let go of. */
  end() {
    this.history?.end();
    this.asking.rest();
    this.results.moving(false);
  }

  undo() {
    if (this.ownCasts.picking) {
      this.ownCasts.undo();
      return;
    }
    this.playing.stop();
    if (this.history?.undo()) this.#changed();
  }

  redo() {
    if (this.ownCasts.picking) {
      this.ownCasts.redo();
      return;
    }
    this.playing.stop();
    if (this.history?.redo()) this.#changed();
  }

  /** Two states side by side, or the chosen one alone again. */
  compare() {
    const { state } = this;
    if (state.b) {
      const [kept, gone] = state.chosen === "a" ? "AB" : "BA";
      this.put({ a: state[state.chosen], b: null, chosen: "a" });
      this.commands.tell(`State ${kept} is kept, ${gone} is put away. Undo brings back both.`);
    } else this.put({ b: { ...state.a }, chosen: "b" });
  }

  #frame({ which, pose }) {
    const { dataset } = document.documentElement;
    dataset.frames = String(Number(dataset.frames ?? 0) + 1);
    if (which === "a" && pose !== null) dataset.answered = String(pose);
  }

  #spoken() {
    const { state, studies } = this;
    if (!state.b) return studies.a.pose?.header.words ?? "";
    return ["a", "b"].map((which) => `${which.toUpperCase()}: ${studies[which]?.pose?.header.words ?? ""}`).join(". ");
  }
}
