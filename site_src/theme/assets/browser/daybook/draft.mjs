// The line being typed, and who writes, kept on this device until it is written.

import { siteRoot } from "../shared/root.mjs";

/** @typedef {{ batch: string, kind: string, values: import("../sheet/form.mjs").Values, number: string, at: string, remark: string, replaces: string | null, who?: string }} Draft */

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

/** @typedef {import("./book.mjs").Book} Book */

const MOST = 20;
const FORMER = "draft-"; // of one draft for the whole book, as earlier editions kept it
/** @param {Book} book */
const draftsOf = (book) => `drafts-${book.which}`;
/** @typedef {Draft & { typed?: number, done?: boolean }} Kept */

/**
 * Kept twice: this store is there at once but reaches the disk some seconds later, the other one is the other way round.
 * @param {Book} book
 * @param {string} batch
 * @param {Draft | null} draft null takes it away
 */
export function keepDraft(book, batch, draft) {
  const { [batch]: _, ...others } = recall(draftsOf(book)) ?? {};
  const kept = { ...draft, typed: Date.now() };
  const all = draft ? { ...others, [batch]: kept } : others;
  keep(draftsOf(book), Object.fromEntries(Object.entries(all).slice(-MOST)));
  if (recall(FORMER + book.which)?.batch === batch) keep(FORMER + book.which, null);
  book.beside.put("drafts", [[batch, draft ? kept : { done: true, typed: kept.typed }]]);
}

/** @param {Book} book */
export function forgetDrafts(book) {
  keep(draftsOf(book), null);
  keep(FORMER + book.which, null);
}

/**
 * The line that was being typed, or null; anything that does not look like one is dropped.
 * @param {Book} book
 * @param {string} batch
 * @returns {Promise<Draft | null>}
 */
export async function recallDraft(book, batch) {
  const former = recall(FORMER + book.which);
  /** @type {Kept[]} */
  const found = [recall(draftsOf(book))?.[batch], await book.beside.get("drafts", batch), former?.batch === batch && former].filter(Boolean);
  const [draft] = found.sort((one, other) => (other.typed ?? 0) - (one.typed ?? 0));
  const whole = draft && !draft.done && typeof draft.batch === "string" && typeof draft.kind === "string" && draft.values && typeof draft.values === "object";
  return whole ? draft : null;
}
