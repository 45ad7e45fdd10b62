// The batches at work as Python drew them last, for the home page until it draws them anew.

import { localMinute } from "../shared/moment.mjs";
import { siteRoot } from "../shared/root.mjs";
import { keep, recall } from "./draft.mjs";

const KEPT = "today";

/** @param {HTMLElement} place on the day-book's page; its links will be followed from another one */
export function keepToday(place) {
  const page = new URL("records/day-book/", siteRoot); // not where the window is: the reader may be on the way elsewhere
  const copy = place.cloneNode(true);
  if (!(copy instanceof HTMLElement)) return;
  for (const link of copy.querySelectorAll("a")) link.setAttribute("href", new URL(link.getAttribute("href") ?? "", page).href);
  keep(KEPT, copy.innerHTML ? { html: copy.innerHTML, at: localMinute() } : null);
}

/** @returns {{ html: string, at: string } | null} */
export function recallToday() {
  const kept = recall(KEPT);
  return typeof kept?.html === "string" && typeof kept.at === "string" ? kept : null;
}
