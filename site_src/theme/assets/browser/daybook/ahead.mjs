// What is kept of a page of the book, looked up and drawn while the rest of the page is still on its way; and what the
// page's own script then finds.

import { part, parts } from "../shared/element.mjs";
import { dayBookPage, named, query } from "./address.mjs";
import { bookOf } from "./book.mjs";
import { Kinds } from "./kinds.mjs";
import { drawBatches, drawLines } from "./lines.mjs";
import { byBatch } from "./sums.mjs";
import { BACK, isOf, keyOf, recall } from "./views.mjs";

/** @typedef {import("./book.mjs").Book} Book */
/** @typedef {import("./views.mjs").Seen} Seen */

/** @type {{ key: string, which: string, view: Promise<Seen | null> } | null} */
let ahead = null;
let taken = false; // the page's own script has begun
/** @type {Map<Element, string>} */
let drawn = new Map(); // what was drawn ahead of the page's own script

/**
 * What is kept of the shelf, or of a batch.
 * @param {Book} book
 * @param {string} batch
 */
export function lookAt(book, batch) {
  const key = keyOf(batch);
  return takeAhead(book, key) ?? recall(book, key);
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
  for (const box of parts(section, "[data-place] .md-typeset__scrollwrap")) box.replaceWith(...box.querySelectorAll("table")); // as the theme puts around what it finds
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

/**
 * Draws what is kept while the rest of the page, and the theme's script, are still on their way.
 * @param {boolean} back whether it is the page that looks back
 */
export async function lookAhead(back) {
  const { batch, which } = named();
  if (ahead || taken) return;
  const book = bookOf(which);
  book.open().catch(() => {}); // both at once
  const key = back ? BACK : keyOf(batch);
  const mine = (ahead = { key, which, view: recall(book, key) });
  const [view, section] = await Promise.all([mine.view.catch(() => null), come("section[data-day-book]")]);
  if (!view || !section || (back && (!isOf(view, batch) || view.fresh.length))) return;
  const fresh = back ? [] : view.fresh.filter((line) => line.batch === batch);
  const forms = fresh.length ? await come("[data-entry-forms]") : null; // their words say what was written
  if (ahead !== mine) return; // the page's own script goes on from here
  section.toggleAttribute("data-ahead", true);
  part(section, "[data-daybook=whole]").hidden = false;
  if (back) {
    put(section, view.places);
    leadToBatches(section, which);
  } else if (batch) {
    drawBatch(section, batch, view.places);
    if (forms) drawLines(part(section, "[data-daybook=waiting]"), new Kinds(forms), fresh);
  } else drawShelf(section, which, view);
}

/**
 * @param {HTMLElement} section
 * @param {Record<string, string>} places
 */
function put(section, places) {
  for (const [name, html] of Object.entries(places)) {
    for (const place of parts(section, `[data-place="${name}"]`)) {
      place.innerHTML = html;
      drawn.set(place, html);
    }
  }
}

/**
 * @param {HTMLElement} section
 * @param {string} batch
 * @param {Record<string, string>} places
 */
function drawBatch(section, batch, places) {
  part(section, "[data-daybook=page]").hidden = false;
  part(section, "[data-daybook=batch]").textContent = `Batch ${batch}`;
  put(section, places);
}

/**
 * The table where it holds; else the plain list, with the batches on top that were written in since.
 * @param {HTMLElement} section
 * @param {"own" | "demo"} which
 * @param {Seen} view
 */
function drawShelf(section, which, view) {
  part(section, "[data-daybook=shelf]").hidden = false;
  if (!view.fresh.length) return put(section, view.places);
  drawBatches(part(section, "[data-place=batches]"), byBatch(view.fresh, new Map(view.order)), (batch) => query({ batch, which }));
}
