// A sheet with a batch at hand: what the day-book knows of it goes into the form, and its answer can be kept in the
// book. Python says which numbers; several batches at work are asked for. Never for a sheet about gas, vessels or lifting.

import { button, element, part } from "../shared/element.mjs";
import { askOnce } from "./ask.mjs";
import { dayBookPage, named } from "./address.mjs";
import { bookOf } from "./book.mjs";
import { keep, recall } from "./draft.mjs";
import { offerMore } from "../engine/more.mjs";
import { keepLent, recallLent } from "./kept-lent.mjs";
import * as engine from "../engine/engine.mjs";
import { offerKeeping } from "./keep.mjs";
import { offerPlans } from "./plans.mjs";
import { ofLate } from "./of-late.mjs";
import { sumsOf } from "./sums.mjs";

/** @typedef {import("../sheet/sheet.mjs").Sheet} Sheet */
/** @typedef {import("./address.mjs").Where} Where */
/** @typedef {import("../sheet/lending.mjs").FromBook & { running: { id: string, state: string }[], glance?: boolean }} Reply */

const CHOSEN = "at-hand"; // the batch chosen last, in the address or by a tap
const HOURS = 12; // so long a choice counts on this device: our convention
const NEEDS = ["psychrolib"];
const NONE = "-";

/** @returns {string} the batch chosen of late, or nothing */
function chosenOfLate() {
  const last = recall(CHOSEN);
  return last && Date.now() - last.at < HOURS * 3_600_000 ? String(last.batch) : "";
}

class Lender {
  /**
   * @param {Sheet} sheet
   * @param {Where} where
   */
  constructor(sheet, where) {
    this.sheet = sheet;
    this.where = where;
    this.book = bookOf(where.which);
    this.line = element("p", "", { class: "batch-line", hidden: "" });
    part(sheet.section, ".sheet-purpose").after(this.line);
    this.line.addEventListener("click", (event) => {
      const pressed = event.target instanceof Element && event.target.closest("button");
      if (pressed instanceof HTMLButtonElement) this.choose(pressed.dataset.of ?? "");
    });
  }

  /** @param {string} batch */
  choose(batch) {
    keep(CHOSEN, { batch: batch || NONE, at: Date.now() });
    this.ask({ batch, prefer: batch || NONE });
  }

  /** @param {{ batch: string, prefer: string }} which the one that it has to be, and the one chosen last */
  async ask({ batch, prefer }) {
    const { section, lending } = this.sheet;
    const fetch = (/** @type {object} */ more) => askOnce("lend", this.book, { sheet: section.dataset.sheet, batch, prefer, ...more });
    const sheet = section.dataset.sheet ?? "";
    const which = { batch, prefer };
    try {
      const kept = await recallLent(this.book, sheet, which).catch(() => null);
      if (kept) lending.fromBook(kept);
      const asked = fetch({ quick: true, entries: ofLate(this.book.lines, batch) });
      if (engine.asksFirst(NEEDS)) this.offer();
      if (engine.asksFirst(NEEDS) && !kept) lending.settle(batch); // what other sheets offer waits for nobody
      /** @type {Reply} */
      let reply = await asked;
      if (!section.isConnected) return;
      this.draw(reply);
      lending.fromBook(reply);
      if (reply.glance) lending.fromBook((reply = await fetch({ batch: reply.batch, ...sumsOf(this.book).forBatch(reply.batch) })));
      await keepLent(this.book, sheet, which, reply);
    } catch {
      lending.settle(batch); // the sheet is there without the book
    }
  }

  /** @param {{ batch: string, running: Reply["running"], lent?: object, whole_house?: boolean }} reply */
  draw({ batch, running, lent = {}, whole_house: ofAll = false }) {
    const { line, sheet, where } = this;
    line.replaceChildren();
    if (ofAll) return this.drawHouse();
    line.hidden = !batch && !running.length;
    offerKeeping(sheet, { ...where, batch });
    if (batch) {
      line.append(element("a", `Back to batch ${batch}`, { href: dayBookPage({ ...where, batch }) }), " ");
      if (where.which === "demo") line.append("An invented batch of the example maltings. ");
      if (Object.keys(lent).length) line.append("Its numbers stand below, marked. ", button("Without them", { "data-of": "" }), " ");
    } else if (running.length) line.append("Fill in from a batch at work: ");
    for (const { id, state } of running) {
      if (id !== batch) line.append(button(`${id}, ${state}`, { "data-of": id }), " ");
    }
  }

  /** What the book knows comes when the reader says so. */
  offer() {
    this.line.hidden = false;
    offerMore(this.line, engine.asksFirst(NEEDS), { what: "To fill in what the day-book knows of a batch at work, this page", put: (box) => this.line.append(box) });
  }

  /** A sheet about all batches at work names none; its plan can be taken into the book. */
  drawHouse() {
    this.line.hidden = true;
    offerPlans(this.sheet, this.where);
  }
}

/** @param {Sheet[]} sheets */
export async function lendTo(sheets) {
  const where = named();
  const wanted = new URLSearchParams(location.search).get("sheet");
  const first = sheets.find((one) => one.section.id === wanted) ?? sheets[0];
  if (where.batch && first.results.guarded) return wayBack(first, where);
  const open = sheets.filter((sheet) => !sheet.results.guarded);
  const book = bookOf(where.which);
  try {
    await Promise.all([book.read(), sumsOf(book).load()]);
  } catch {
    // without the book
  }
  if (where.batch) keep(CHOSEN, { batch: where.batch, at: Date.now() });
  const which = { batch: where.batch, prefer: chosenOfLate() };
  for (const sheet of open) {
    if (!sheet.section.isConnected) return;
    const lender = new Lender(sheet, where);
    if (where.batch) lender.draw({ batch: where.batch, running: [] }); // the way back waits for nobody
    if (book.lines.length) await lender.ask(which);
    else sheet.lending.settle(where.batch);
  }
}

/**
 * A sheet about gas, vessels or lifting takes nothing; only the way back stands on it.
 * @param {Sheet} sheet
 * @param {Where} where
 */
function wayBack(sheet, where) {
  const back = element("p", "", { class: "batch-line" });
  back.append(element("a", `Back to batch ${where.batch}`, { href: dayBookPage(where) }), " Nothing of it is filled in here.");
  part(sheet.section, ".sheet-title").after(back);
}
