// What Python drew last of a page of the book, kept beside its lines: it stands again before Python is asked, or the lines
// are read. A view holds as long as the calculators are the same and the book has gone on from where it was drawn.

import { part, parts } from "../shared/element.mjs";
import { calculators } from "../edition/edition.mjs";
import { dayBookPage, named } from "./address.mjs";
import { heldBack } from "./ask.mjs";
import { bookOf } from "./book.mjs";
import { quiet } from "./quiet.mjs";

/** @typedef {import("./book.mjs").Book} Book */
/** @typedef {import("./book.mjs").Line} Line */
/** @typedef {{ seq: number, id: string }} Last */
/** @typedef {{ mark: string, last: Last, places: Record<string, string>, [more: string]: any }} View `last` is the last line of the book as it was drawn */
/** @typedef {View & { fresh: Line[] }} Seen with the lines that were written since */

const MOST = 12; // batches of which a view is kept
const ORDER = "views";
export const BACK = "view of all";

/** @param {string} batch nothing for the shelf */
export const keyOf = (batch) => (batch ? `view of batch ${batch}` : "view of the shelf");

/**
 * The view as it was kept, or null where it does not hold any more.
 * @param {Book} book
 * @param {string} key
 * @returns {Promise<Seen | null>}
 */
export async function recall(book, key) {
  try {
    if (await heldBack) return null;
    /** @type {View | null} */
    const view = await book.beside.get("kept", key);
    if (!view || view.mark !== calculators()) return null;
    const fresh = await book.since(view.last);
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
  await keep(book, keyOf(batch), { last, places: batch ? { lines, ...(glance && { next }) } : { batches } });
}

/** @type {{ key: string, which: string, view: Promise<Seen | null> } | null} */
let ahead = null;
let taken = false; // the page's own script has begun
/** @type {Map<Element, string>} */
let drawn = new Map(); // what was drawn ahead of the page's own script

const holdsFor = (/** @type {Seen} */ { fresh }, /** @type {string} */ batch) => !fresh.some((line) => !batch || line.batch === batch);

/**
 * Whether a view of all batches is set against this one; the newest is taken where none is named.
 * @param {View} view
 * @param {string} batch
 */
export const isOf = (view, batch) => view.batch === (batch || view.names[0]);

/**
 * The view of the shelf, or of a batch, if no line of theirs was written since.
 * @param {Book} book
 * @param {string} batch
 */
export async function lookAt(book, batch) {
  const key = keyOf(batch);
  const view = await (takeAhead(book, key) ?? recall(book, key));
  return view && holdsFor(view, batch) ? view : null;
}

/**
 * What was looked up before the page's own script ran; once.
 * @param {Book} book
 * @param {string} key
 */
export function takeAhead(book, key) {
  const view = ahead?.key === key && ahead.which === book.which ? ahead.view : null;
  ahead = null;
  taken = true;
  return view;
}

/**
 * The places that hold something already, by name; they are not drawn again with the same.
 * @param {HTMLElement} section
 */
export function drawnIn(section) {
  section.removeAttribute("data-ahead");
  const found = new Map(parts(section, "[data-place]").flatMap((place) => (drawn.has(place) ? [[place.dataset.place ?? "", drawn.get(place) ?? ""]] : [])));
  drawn = new Map();
  return /** @type {Map<string, string>} */ (found);
}

/**
 * Links of the page that looks back lead to the day-book’s.
 * @param {HTMLElement} section
 * @param {"own" | "demo"} which
 */
export function leadToBatches(section, which) {
  for (const link of parts(section, "[data-place] a[data-batch]")) link.setAttribute("href", dayBookPage({ batch: link.dataset.batch ?? "", which }));
}

/** @param {string} selector @returns {Promise<HTMLElement | null>} once all of it is there */
async function come(selector) {
  for (;;) {
    const one = document.querySelector(selector);
    const whole = document.readyState !== "loading";
    if (one instanceof HTMLElement && (whole || one.nextElementSibling)) return one;
    if (whole) return null;
    await new Promise((done) => setTimeout(done, 10));
  }
}

/** Draws what is kept while the rest of the page, and the theme's script, are still on their way. */
export async function lookAhead() {
  const { batch, which } = named();
  const book = bookOf(which);
  book.open().catch(() => {});
  const section = await come("section[data-day-book]");
  const back = section?.dataset.dayBook === "look-back";
  if (!section || ahead || taken) return;
  const key = back ? BACK : keyOf(batch);
  const mine = (ahead = { key, which, view: recall(book, key) });
  const view = await mine.view;
  const holds = view && (back ? isOf(view, batch) && !view.fresh.length : holdsFor(view, batch));
  if (ahead === mine && view && holds) draw(section, { batch, which }, view.places);
}

/**
 * @param {HTMLElement} section
 * @param {import("./address.mjs").Where} where
 * @param {Record<string, string>} places
 */
function draw(section, { batch, which }, places) {
  const back = section.dataset.dayBook === "look-back";
  section.toggleAttribute("data-ahead", true);
  part(section, "[data-daybook=whole]").hidden = false;
  if (!back) {
    part(section, `[data-daybook=${batch ? "page" : "shelf"}]`).hidden = false;
    part(section, "[data-daybook=batch]").textContent = batch ? `Batch ${batch}` : "";
  }
  for (const [name, html] of Object.entries(places)) {
    for (const place of parts(section, `[data-place="${name}"]`)) {
      place.innerHTML = html;
      drawn.set(place, html);
    }
  }
  if (back) leadToBatches(section, which);
}
