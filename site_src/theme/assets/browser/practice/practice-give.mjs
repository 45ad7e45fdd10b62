// A run for somebody else, or for another device: as a link, or as a file.

import { fileOf, linkOf, MOST_BYTES } from "./practice-address.mjs";
import { drawCode } from "../paper/code.mjs";
import { element } from "../shared/element.mjs";
import { giveFile } from "../shared/file.mjs";

/** @typedef {import("./practice-kept.mjs").Run} Run */

const NONE = "There is no run yet: begin one.";

/**
 * @param {Run | null} run
 * @param {HTMLElement} place where it is said
 */
export async function giveLink(run, place) {
  const link = run ? linkOf(run) : "";
  if (!run || link.length > MOST_BYTES) {
    place.textContent = run ? "This run is too long for a link. Save it as a file." : NONE;
    return;
  }
  place.replaceChildren(element("span", "Whoever opens this link goes on from here: "), element("a", link, { href: link, class: "code-link" }));
  await navigator.clipboard?.writeText(link).catch(() => {});
}

/**
 * The run for the learner who takes over: a code to read with the other device, and its link.
 * @param {Run | null} run
 * @param {HTMLElement} place
 */
export function giveCode(run, place) {
  const link = run ? linkOf(run) : "";
  if (!run || link.length > MOST_BYTES) {
    place.textContent = run ? "This run is too long for a code. Save it as a file." : NONE;
    return;
  }
  const code = element("div");
  const words = "For the learner who takes over: read this code with the other device, or open the link. They find the book and the clock, and nothing that was not written.";
  place.replaceChildren(element("p", words), code, element("a", link, { href: link, class: "code-link" }));
  drawCode(code, link);
}

/**
 * @param {Run | null} run
 * @param {HTMLElement} place
 */
export function giveRunFile(run, place) {
  place.textContent = run ? "Saved as a file. A trainer can read it beside others." : NONE;
  if (run) giveFile([fileOf(run)], `practice-${run.number}-${run.level}.json`, "application/json");
}
