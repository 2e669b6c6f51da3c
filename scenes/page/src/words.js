/** Words of the trade that are not known to everybody, explained where they stand and in the help. */

import { el } from "./dom.js";

/** What each means, in plain words. */
export const WORDS = {
  "closing arc":
    "the arc on which a lower tooth moves while the jaw only turns about the line through both condyles",
  "Christensen angle":
    "the angle by which the jaw has turned after moving forward: the condyles go down, so back teeth come " +
    "farther apart than front teeth",
  "existing guidance":
    "what guides the jaw when no replacement tooth is there: the natural teeth that are left, and the condyles",
  settled: "at least 95 % of samples of the uncertain settings agree that a finding holds, or that it does not",
  settling:
    "moving the cusps that hold the bite towards the opposing teeth until each rests on them",
  "edge-to-edge":
    "the place of an excursion where the edges of the guiding teeth stand on one another; beyond it they cross over",
  "near MI": "so short a way from maximal intercuspation that contacts there count as those of MI",
  "nonworking side": "the side from which the jaw moves away",
  "working side": "the side to which the jaw moves",
  "replacement tooth": "an artificial tooth on a denture base, in place of one that is lost",
  "MI": "maximal intercuspation: the teeth closed as fully as they fit",
  "CR": "centric relation: the jaw as the condyles alone place it, whatever the teeth do",
};

/** In running text these are common enough, or stand beside their meaning. */
const EXPLAINED = ["closing arc", "Christensen angle", "existing guidance", "settling", "edge-to-edge"];
const FOUND = new RegExp(`(${EXPLAINED.join("|")})`);

/** A text in which such words tell what they mean when pointed at. @returns {(string|Node)[]} */
export function explained(text) {
  return text.split(FOUND).filter(Boolean).map((part) =>
    (EXPLAINED.includes(part) ? el("dfn", { title: WORDS[part], text: part }) : part));
}
