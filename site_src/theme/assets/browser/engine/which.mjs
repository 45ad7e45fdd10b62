// Which of the two engines answers. Both run the same source and give the same words and figures: the small one is there
// sooner and knows sheets only, Python answers everything and works faster once it is up.

import { engines } from "./built.mjs";

/** @typedef {import("./runner.mjs").Runner} Runner */
/** @typedef {{ python: Runner, small: Runner }} Both */

const sheets = new Set(engines.startsOnSmall);
let gaveUp = false; // for this visit

/** After a fault of the small engine nothing is asked of it any more. */
export function giveUpSmall() {
  gaveUp = true;
}

/** @param {string} [sheet] */
export const startsOnSmall = (sheet) => !gaveUp && sheet !== undefined && sheets.has(sheet);

/**
 * @param {Both} both
 * @param {{ sheet?: string, needs: string[] }} request
 */
export function engineFor({ python, small }, { sheet, needs }) {
  if (!startsOnSmall(sheet)) return python;
  if (python.phase !== "ready") return small;
  return small.isUp && python.notLoaded(needs).length ? small : python;
}
