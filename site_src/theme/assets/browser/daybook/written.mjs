// What is said of a line that has just been written: what stands in it, and what comes of it.

import { inWords } from "./lines.mjs";
import { button, element } from "../shared/element.mjs";
import { localMinute, saidTime } from "../shared/moment.mjs";

/** @typedef {import("./book.mjs").Entry} Entry */
/** @typedef {import("./kinds.mjs").Kinds} Kinds */

/**
 * A line as it was written; with its day where that is not today, so that a slip of the date is seen.
 * @param {Kinds} kinds
 * @param {Entry} entry
 */
export function receipt(kinds, entry) {
  const today = entry.at.slice(0, 10) === localMinute().slice(0, 10);
  const words = inWords(kinds, entry);
  return `Written, ${today ? entry.at.slice(11) : saidTime(entry.at)}: ${kinds.labelOf(entry.kind)}${words ? `, ${words}` : ""}.`;
}

/**
 * Offers to correct the line that was just written.
 * @param {HTMLElement} line where it is said
 * @param {Entry} entry
 */
export function offerCorrection(line, entry) {
  line.dataset.entry = entry.id;
  line.append(" ", button("Correct it", { "data-action": "correct" }));
}

/**
 * Beside the line just written stands what comes of it: the step itself may lie above what is in view.
 * @param {HTMLElement} line where it is said
 * @param {string} entry of which it is said
 * @param {string} step
 */
export function sayNext(line, entry, step) {
  if (!step || line.dataset.entry !== entry || !line.querySelector("[data-action=correct]")) return;
  const below = line.getBoundingClientRect().bottom;
  line.append(element("span", `Next: ${step}`, { class: step.startsWith("Past a stop") ? "written-next stop-said" : "written-next" }));
  scrollBy({ top: line.getBoundingClientRect().bottom - below, behavior: "instant" }); // the buttons below stay under the finger
}
