// What was typed last, kept on this device only. A private window or a full disk may refuse: then nothing is kept.

import { siteRoot } from "../shared/root.mjs";

const PREFIX = `${siteRoot.pathname}sheet:`;
/** @param {HTMLElement} section */
const key = (section) => PREFIX + section.id;
/** @param {HTMLElement} section */
const allowed = (section) => section.dataset.guarded !== "yes";

/**
 * @param {HTMLElement} section
 * @param {{ values: import("./form.mjs").Values, example: string[], batch: string }} typed `example` names the questions
 * whose values are the worked case's, `batch` the one that they were typed for
 */
export function save(section, typed) {
  if (!allowed(section)) return;
  try {
    localStorage.setItem(key(section), JSON.stringify({ ...typed, at: Date.now() }));
  } catch {
    // nothing kept
  }
}

/** @param {HTMLElement} section */
export function forget(section) {
  try {
    localStorage.removeItem(key(section));
  } catch {
    // nothing kept
  }
}

/** The sheet that an address is named after. @param {string} pathname */
export const sheetOf = (pathname) => pathname.split("/").at(-2);

/**
 * Whether that sheet has something kept. No form need be there yet.
 * @param {string} pathname
 */
export function holds(pathname) {
  try {
    return localStorage.getItem(PREFIX + sheetOf(pathname)) !== null;
  } catch {
    return false;
  }
}

/**
 * What was typed last, and when, or null; anything that does not look like that is dropped.
 * @param {HTMLElement} section
 */
export function recall(section) {
  if (!allowed(section)) return null;
  try {
    const kept = JSON.parse(localStorage.getItem(key(section)) ?? "null");
    const at = new Date(kept?.at);
    if (!kept?.values || typeof kept.values !== "object" || !Array.isArray(kept.example) || Number.isNaN(at.getTime())) return null;
    return { values: kept.values, example: kept.example, batch: typeof kept.batch === "string" ? kept.batch : "", at };
  } catch {
    return null;
  }
}
