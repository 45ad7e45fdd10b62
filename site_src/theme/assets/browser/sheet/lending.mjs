// What a sheet takes from the day-book and from other sheets, and what it gives to them. Nothing of it is judged here.

import { saidTime } from "../shared/moment.mjs";
import { around, part } from "../shared/element.mjs";
import * as form from "./form.mjs";
import * as lent from "./lent.mjs";
import * as shared from "./shared.mjs";

/** @typedef {{ batch: string, whole_house?: boolean, lent: Record<string, { value: import("../shared/blank.mjs").Typed, source: string, moves?: boolean }> }} FromBook */

/** @param {HTMLElement} section */
const titleOf = (section) => part(section, ".sheet-title").textContent?.trim() ?? "";

export class Lending {
  batch = ""; // at which the reader works
  ofAll = false; // the book lends what it knows of all batches at work
  visit = String(Math.random());
  /** @type {Set<string>} */
  own = new Set(); // typed here, in this visit
  /** @type {Set<string>} */
  faulty = new Set(); // and cannot be read
  linked = false;
  /** @type {{ at: Date, batch: string } | null} */
  remembered = null; // what stood in the form last time was put in again

  /** @param {import("./sheet.mjs").Sheet} sheet */
  constructor(sheet) {
    this.sheet = sheet;
    this.section = sheet.section;
  }

  get isGuarded() {
    return this.section.dataset.guarded === "yes";
  }

  /** @param {HTMLElement | null} field */
  edited(field) {
    if (!field) return;
    this.own.add(form.nameOf(field));
    lent.changed(field);
    lent.clearOthers(field);
  }

  /**
   * The form was cleared or filled from elsewhere: nothing in it was typed here.
   */
  afresh() {
    this.own.clear();
    this.remembered = null;
  }

  /** @param {{ errors: form.Fault[], gives?: Record<string, string>, state: string }} reply */
  replied({ errors, gives = {}, state }) {
    this.faulty = new Set(errors.map((error) => error.question));
    if (this.isGuarded) return;
    this.commit(around(document.activeElement, "[data-question]"));
    if (state === "answered" && this.own.size) shared.give(gives, { from: `${titleOf(this.section)}, its answer`, batch: this.batch, visit: this.visit });
  }

  /**
   * What is typed out is offered to other sheets; not the field in which somebody still types.
   * @param {HTMLElement | null} [except]
   */
  commit(except = null) {
    if (this.isGuarded || !this.own.size) return;
    /** @type {form.Values} */
    const typed = {};
    for (const field of shared.fieldsOf(this.section)) {
      const name = form.nameOf(field);
      const stands = this.own.has(name) && field !== except && !this.faulty.has(name) && form.isTyped(field);
      if (stands) typed[name] = form.readOne(field);
    }
    if (!Object.keys(typed).length) return;
    const newLot = shared.take(typed, { section: this.section, from: titleOf(this.section), batch: this.batch, visit: this.visit });
    if (newLot && lent.takeOutAll(this.section, "sheet")) {
      this.sheet.status.remark("Another barley: what was typed for the earlier one has been taken out.");
      this.sheet.changed();
    }
  }

  /**
   * It is known at which batch the reader works, or that there is none: now other sheets may offer what they have.
   * @param {string} batch
   */
  settle(batch) {
    if (this.isGuarded || !this.section.isConnected) return;
    const other = this.batch !== batch && lent.takeOutAll(this.section, "sheet");
    this.batch = batch;
    const title = titleOf(this.section);
    const offers = Object.entries(shared.offered(this.section, batch)).filter(([, { from }]) => !from.startsWith(title));
    const values = Object.fromEntries(offers.map(([name, { value, from, at }]) => [name, { value, source: `${from}, ${saidTime(new Date(at))}` }]));
    const newer = Object.fromEntries(offers.map(([name, { at }]) => [name, at > (this.remembered?.at.getTime() ?? Infinity)]));
    const done = !this.linked && lent.lend(this.section, values, "sheet", (field) => !this.own.has(form.nameOf(field)) && newer[form.nameOf(field)]);
    if (done) this.sheet.status.remark("Some numbers come from other sheets. Each says from where; look at them.");
    if (done || other) this.sheet.changed();
  }

  /**
   * The numbers of a batch, as the day-book has them.
   * @param {FromBook} reply
   */
  fromBook({ batch, lent: values, whole_house: ofAll = false }) {
    if (this.isGuarded || !this.section.isConnected) return;
    this.ofAll = ofAll;
    const left = this.batch !== batch && lent.takeOutAll(this.section, "book");
    const dropped = batch !== "" && this.dropOthers(batch);
    const givesWay = (/** @type {HTMLElement} */ field) => !ofAll && !this.linked && !this.own.has(form.nameOf(field));
    const done = lent.lend(this.section, values, "book", givesWay, ofAll);
    if (done) this.sheet.status.remark(`What the day-book knows of ${ofAll ? "the batches at work" : `batch ${batch}`} stands in the form, marked. A change counts for this answer only.`);
    if (done || left || dropped) this.sheet.changed();
    this.settle(batch);
  }

  /**
   * What was typed last time for another batch is not this one's.
   * @param {string} batch
   */
  dropOthers(batch) {
    if (this.linked || !this.remembered || this.remembered.batch === batch) return false;
    this.sheet.filling.keep();
    this.remembered = null;
    for (const field of form.fields(this.section)) {
      if (!this.own.has(form.nameOf(field)) && !field.hasAttribute("data-lent")) form.writeOne(field, form.defaultOf(field));
    }
    this.sheet.filling.offerPutBack(part(this.section, "[data-action=clear]"));
    return true;
  }
}
