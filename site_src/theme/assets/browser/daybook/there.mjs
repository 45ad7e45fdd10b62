// Whether a day-book is on this device, without opening one.

import { siteRoot } from "../shared/root.mjs";

export const NAMES = { own: "day-book", demo: "day-book-demo" };

/** Whether the page was opened from a batch, or this device has a book of its own. */
export async function bookIsThere() {
  if (new URLSearchParams(location.search).has("batch")) return true;
  try {
    const kept = await indexedDB.databases();
    return kept.some(({ name }) => name === siteRoot.pathname + NAMES.own);
  } catch {
    return false; // nothing is kept here, or this browser does not say
  }
}
