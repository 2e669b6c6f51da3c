/** What stands below a saved picture. */

import { counted, unparted } from "./numbers.js";
import { trialNow, trialWords } from "./trial.js";

/**
 * @param {object} desk holds state, study, welcome.
 * @returns {string[]} case; movement, travel, opening; settings that differ from the case; program.
 */
export function captionOf({ state, study, welcome, settings }) {
  const { chosen, movement, start, travel_mm, opening_mm } = state;
  const title = study.case?.title ?? state[chosen].case;
  const titled = study.case?.movements.find((one) => one.movement === movement && one.start === start)?.title ?? movement;
  const from = /, from /.test(titled) ? "" : `, from ${start}`;
  const changes = Object.entries(state[chosen].changes);
  const named = changes.map(([path, value]) => settings.told(path, value));
  const tried = trialWords(trialNow(state[chosen], study.case?.trial), welcome.trial);
  return [
    state.b ? `State ${chosen.toUpperCase()}: ${title}` : title,
    `${titled}${from}; travel ${travel_mm.toFixed(1)} mm; opened ${opening_mm.toFixed(1)} mm beyond closure`,
    changes.length ? `${counted(changes.length, "setting")} changed: ${named.join("; ")}` : "Settings as in the case",
    ...(tried ? [`Trial set-up: ${tried}`] : []),
    `Cuspway ${welcome.version}. ${welcome.cautions}`,
  ].map(unparted);
}
