// A run for somebody else, or for another device: as a link, or as a file.

import { fileOf, linkOf, MOST_BYTES } from "./practice-address.mjs";
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
 * @param {Run | null} run
 * @param {HTMLElement} place
 */
export function giveRunFile(run, place) {
  place.textContent = run ? "Saved as a file. A trainer can read it beside others." : NONE;
  if (run) giveFile([fileOf(run)], `practice-${run.number}-${run.level}.json`, "application/json");
}
