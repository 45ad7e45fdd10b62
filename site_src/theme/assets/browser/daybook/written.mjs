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

/** Beside the line just written stands what comes of it: the step itself may lie above what is in view. */
export class WhatComes {
  entry = ""; // of which it is still to be said
  turned = false; // to a batch with it: its next step stands at the top there, in view

  /** @param {HTMLElement} line where it is said */
  constructor(line) {
    this.line = line;
  }

  /**
   * @param {string} entry
   * @param {boolean} turned
   */
  of(entry, turned) {
    this.entry = entry;
    this.turned = turned;
  }

  /**
   * @param {string} entry the last line that was asked about
   * @param {{ status?: string, stop?: boolean }} reply what comes next, and whether it is past a stop
   */
  next(entry, { status, stop }) {
    if (entry !== this.entry) return;
    this.beside(!this.turned && status ? element("span", `Next: ${status}`, { class: stop ? "written-next stop-said" : "written-next" }) : null);
    this.entry = "";
  }

  /**
   * Only the calculator says it, which on a slow line may be minutes away, or does not come.
   * @param {boolean} held
   * @param {import("../engine/engine.mjs").State} state
   */
  waits(held, { phase, more }) {
    if (!this.entry || (!held && phase === "ready")) return;
    const comes = more ? "What comes next needs the calculator, which the box at the top of the page fetches." : "What comes next is said as soon as the calculator has come.";
    const words = held || phase === "failed" ? "What comes next is not worked out: see below." : `${comes} “What now?” does not need it.`;
    this.beside(element("span", words, { class: "written-to-come" }));
  }

  /** @param {HTMLElement | null} words */
  beside(words) {
    const { line } = this;
    if (line.dataset.entry !== this.entry || !line.querySelector("[data-action=correct]")) return;
    const before = line.querySelector(".written-next, .written-to-come");
    if (before?.textContent === words?.textContent) return; // it is read out once
    const below = line.getBoundingClientRect().bottom;
    before?.remove();
    if (words) line.append(words);
    scrollBy({ top: line.getBoundingClientRect().bottom - below, behavior: "instant" }); // the buttons below stay under the finger
  }
}
