// What Python drew last of a page of the book, kept beside its lines: it stands again before Python is asked, or the lines
// are read. A view holds as long as the calculators are the same and the book has gone on from where it was drawn.

import { calculators } from "../edition/edition.mjs";
import { heldBack } from "./ask.mjs";
import { quiet } from "./quiet.mjs";
import { sumsOf } from "./sums.mjs";

/** @typedef {import("./book.mjs").Book} Book */
/** @typedef {import("./book.mjs").Line} Line */
/** @typedef {{ seq: number, id: string }} Last */
/** @typedef {{ mark: string, last: Last, places: Record<string, string>, [more: string]: any }} View `last` is the last line of the book as it was drawn */
/** @typedef {View & { fresh: Line[] }} Seen with the lines that were written since */

const MOST = 12; // batches of which a view is kept
const MOST_LISTED = 60; // batches with their last lines
const ORDER = "views";
export const BACK = "view of all";

/** @param {string} batch nothing for the shelf */
export const keyOf = (batch) => (batch ? `view of batch ${batch}` : "view of the shelf");

/**
 * Whether a view of all batches is set against this one; the newest is taken where none is named.
 * @param {View} view
 * @param {string} batch
 */
export const isOf = (view, batch) => view.batch === (batch || view.names[0]);

/**
 * The view as it was kept, or null where it does not hold any more.
 * @param {Book} book
 * @param {string} key
 * @returns {Promise<Seen | null>}
 */
export async function recall(book, key) {
  try {
    /** @type {[string, View | null, Last | null]} */
    const [held, view, end] = await Promise.all([heldBack, book.beside.get("kept", key), book.end()]);
    if (held || !view || view.mark !== calculators()) return null;
    const same = end?.seq === view.last.seq && end.id === view.last.id;
    const fresh = same ? [] : await book.since(view.last);
    return fresh && { ...view, fresh };
  } catch {
    return null; // the book does not open; whoever reads its lines says so
  }
}

/**
 * @param {Book} book
 * @param {string} key
 * @param {Omit<View, "mark">} view
 */
export async function keep(book, key, view) {
  /** @type {string[]} */
  const order = (await book.beside.get("kept", ORDER)) ?? [];
  const now = [...order.filter((one) => one !== key), key];
  const gone = now.splice(0, Math.max(now.length - MOST, 0));
  await book.beside.put("kept", [...gone.map((one) => /** @type {[string, undefined]} */ ([one, undefined])), [key, { ...view, mark: calculators() }], [ORDER, now]]);
}

let lately = "";

/**
 * Keeps what was drawn of the lines alone: it holds until one is added, whatever the clock says.
 * @param {Book} book
 * @param {string} batch
 * @param {Last} last
 * @param {{ glance?: boolean, places: Record<string, string> }} reply
 */
export async function keepDrawn(book, batch, last, { glance, places: { batches, lines, next } }) {
  const html = batch ? lines : batches;
  const now = [book.name, batch, last.seq, html].join(" ");
  if (!html || now === lately) return;
  lately = now;
  await quiet();
  const order = [...sumsOf(book).batches()].slice(-MOST_LISTED).map(([name, own]) => [name, own.slice(-1)]);
  await keep(book, keyOf(batch), batch ? { last, places: { lines, ...(glance && { next }) } } : { last, order, places: { batches } });
}
