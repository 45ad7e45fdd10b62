// The step of a start in a place that is read out. How a slow line stands changes every few seconds: it has a part of its
// own there, which is not read out again and again.

import { element } from "../shared/element.mjs";

const PART = "wait-told";

/**
 * @param {HTMLElement} place
 * @param {{ step: string, wait: string }} state
 * @param {string} [after] words that stand behind the step
 */
export function tellStep(place, { step, wait }, after = "") {
  const words = `${step} …${after && ` ${after}`}`;
  const quiet = place.querySelector(`.${PART}`) ?? element("span", "", { class: PART, "aria-live": "off" });
  if (place.firstChild?.textContent !== words) {
    place.textContent = words;
    place.append(quiet);
  }
  const line = wait && ` ${wait}.`;
  if (quiet.textContent !== line) quiet.textContent = line;
}

/** Whether a step stands there still. @param {HTMLElement} place */
export const tellsStep = (place) => Boolean(place.querySelector(`.${PART}`));
