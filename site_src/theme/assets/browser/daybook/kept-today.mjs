// The batches at work as Python drew them last, for the home page until it draws them anew.

import { localMinute } from "../shared/moment.mjs";
import { keep, recall } from "./draft.mjs";

const KEPT = "today";

/** @param {HTMLElement} place where they stand; their links will be followed from another page */
export function keepToday(place) {
  const copy = place.cloneNode(true);
  if (!(copy instanceof HTMLElement)) return;
  for (const link of copy.querySelectorAll("a")) link.setAttribute("href", new URL(link.getAttribute("href") ?? "", location.href).href);
  keep(KEPT, copy.innerHTML ? { html: copy.innerHTML, at: localMinute() } : null);
}

/** @returns {{ html: string, at: string } | null} */
export function recallToday() {
  const kept = recall(KEPT);
  return typeof kept?.html === "string" && typeof kept.at === "string" ? kept : null;
}
