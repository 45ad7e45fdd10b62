// Whether a day-book is on this device, without opening one.

import { siteRoot } from "../shared/root.mjs";

export const NAMES = { own: "day-book", demo: "day-book-demo" };

/**
 * Whether a book is on this device.
 * @param {keyof typeof NAMES} which
 */
export async function isThere(which) {
  try {
    const kept = await indexedDB.databases();
    return kept.some(({ name }) => name === siteRoot.pathname + NAMES[which]);
  } catch {
    return false; // nothing is kept here, or this browser does not say
  }
}

/** Whether the page was opened from a batch, or this device has a book of its own. */
export const bookIsThere = async () => new URLSearchParams(location.search).has("batch") || isThere("own");
