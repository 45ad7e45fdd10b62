// The line being typed, and who writes, kept on this device until it is written.

import { siteRoot } from "../shared/root.mjs";

/** @typedef {{ batch: string, kind: string, values: import("../sheet/form.mjs").Values, number: string, at: string, remark: string, replaces: string | null, who?: string, by?: string }} Draft `by` the tab in which it is typed */

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
/** This tab, until the page is loaded again. */
export const TAB = crypto.getRandomValues(new Uint32Array(1))[0].toString(36);
const APART = "\n"; // stands in no batch’s name
const placeOf = (/** @type {string} */ batch, /** @type {string} */ by) => (by ? batch + APART + by : batch); // earlier editions named no tab
/** @typedef {Draft & { typed?: number, done?: boolean }} Kept */

/**
 * Kept twice: this store is there at once but reaches the disk some seconds later, the other one is the other way round.
 * @param {Book} book
 * @param {string} batch
 * @param {string} by whose line it is: that of another tab stays
 * @param {Draft | null} draft null takes it away
 */
export function keepDraft(book, batch, by, draft) {
  const place = placeOf(batch, by);
  const { [place]: _, ...others } = recall(draftsOf(book)) ?? {};
  const kept = { ...draft, by, typed: Date.now() };
  const all = draft ? { ...others, [place]: kept } : others;
  keep(draftsOf(book), Object.fromEntries(Object.entries(all).slice(-MOST)));
  if (!by && recall(FORMER + book.which)?.batch === batch) keep(FORMER + book.which, null);
  book.beside.put("drafts", [[place, draft ? kept : { done: true, by, typed: kept.typed }]]);
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
  const here = Object.entries(recall(draftsOf(book)) ?? {}).filter(([place]) => place.split(APART)[0] === batch);
  const beside = await book.beside.within("drafts", batch, `${batch}${APART}\uffff`);
  /** @type {Kept[]} */
  const found = [...here.map(([, one]) => one), ...beside, former?.batch === batch && former].filter(Boolean);
  /** @type {Map<string, Kept>} */
  const newest = new Map(); // of each tab
  for (const one of found.sort((first, next) => (first.typed ?? 0) - (next.typed ?? 0))) newest.set(one.by ?? "", one);
  return [...newest.values()].filter((draft) => draft.batch === batch && isWhole(draft)).at(-1) ?? null;
}

/** @param {Kept} draft */
const isWhole = (draft) => !draft.done && typeof draft.kind === "string" && draft.values && typeof draft.values === "object";

