// What a batch lent to a sheet last, kept beside the book, so that a form is filled in before Python is there. It holds while
// nothing was written since; what is another number by the clock an hour later is left out.

import { calculators } from "../edition/edition.mjs";

/** @typedef {import("./book.mjs").Book} Book */
/** @typedef {import("../sheet/lending.mjs").FromBook} FromBook */
/** @typedef {{ batch: string, prefer: string }} Which was asked for, and was chosen last */

const OLDEST_MS = 24 * 3_600_000;

// The last line on the device: the same for as long as nothing is written.
const endOf = async (/** @type {Book} */ book) => {
  const end = await book.end();
  return end ? `${end.seq} ${end.id}` : "";
};

/**
 * @param {Book} book
 * @param {string} sheet
 * @param {Which} which
 * @returns {Promise<FromBook | null>}
 */
export async function recallLent(book, sheet, { batch, prefer }) {
  const kept = await book.beside.get("kept", `lent ${sheet}`);
  const same = kept && kept.mark === calculators() && kept.batch === batch && kept.prefer === prefer && Date.now() - kept.at < OLDEST_MS;
  return same && kept.end === (await endOf(book)) ? kept.reply : null;
}

/**
 * @param {Book} book
 * @param {string} sheet
 * @param {Which} which
 * @param {FromBook} reply
 */
export async function keepLent(book, sheet, which, { batch, lent, whole_house: ofAll = false }) {
  const still = Object.fromEntries(Object.entries(lent).filter(([, one]) => !one.moves));
  if (ofAll || !batch) return;
  const kept = { ...which, at: Date.now(), mark: calculators(), end: await endOf(book), reply: { batch, lent: still } };
  await book.beside.put("kept", [[`lent ${sheet}`, kept]]);
}
