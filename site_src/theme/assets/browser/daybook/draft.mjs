// The line being typed, and who writes, kept on this device until it is written.

import { siteRoot } from "../shared/root.mjs";

/** @typedef {{ batch: string, kind: string, values: import("../sheet/form.mjs").Values, number: string, at: string, remark: string, replaces: string | null }} Draft */

/** @param {string} name */
const key = (name) => `${siteRoot.pathname}day-book-${name}`;

/**
 * @param {string} name
 * @returns {any}
 */
export function recall(name) {
  try {
    return JSON.parse(localStorage.getItem(key(name)) ?? "null");
  } catch {
    return null;
  }
}

/**
 * @param {string} name
 * @param {unknown} value null takes it away
 */
export function keep(name, value) {
  try {
    if (value === null) localStorage.removeItem(key(name));
    else localStorage.setItem(key(name), JSON.stringify(value));
  } catch {
    // nothing kept
  }
}

/** @param {string} which */
const draftOf = (which) => `draft-${which}`;

/**
 * @param {string} which
 * @param {Draft | null} draft
 */
export const keepDraft = (which, draft) => keep(draftOf(which), draft);

/**
 * The line that was being typed, or null; anything that does not look like one is dropped.
 * @param {string} which
 * @returns {Draft | null}
 */
export function recallDraft(which) {
  const draft = recall(draftOf(which));
  const whole = draft && typeof draft.batch === "string" && typeof draft.kind === "string" && draft.values && typeof draft.values === "object";
  return whole ? draft : null;
}
