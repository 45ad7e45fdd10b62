// What fills the whole form of a sheet at once: a link, what was typed last time, the worked case, "Clear", "Put back".

import * as edition from "../edition/edition.mjs";
import { button, part } from "../shared/element.mjs";
import { saidTime } from "../shared/moment.mjs";
import * as form from "./form.mjs";
import * as lent from "./lent.mjs";
import * as link from "./link.mjs";
import * as memory from "./memory.mjs";

/** @typedef {{ values: form.Values, example: string[], lent: Record<string, lent.Lent> }} Kept */

export class Filling {
  /** @type {Kept | null} */
  kept = null; // what "Put back" brings back

  /** @param {import("./sheet.mjs").Sheet} sheet */
  constructor(sheet) {
    this.sheet = sheet;
    this.section = sheet.section;
  }

  inHand() {
    return { values: form.carried(this.section), example: form.fromExample(this.section), lent: lent.all(this.section) };
  }

  keep() {
    this.kept = this.inHand();
  }

  // What the book or another sheet lends is theirs to remember. Of the batches at work all stands that was typed here.
  remember() {
    const { values, example, lent: marks } = this.inHand();
    const changed = this.sheet.lending.ofAll ? [] : lent.ofBook(this.section);
    for (const name of [...Object.keys(marks), ...changed]) delete values[name];
    memory.save(this.section, { values, example, batch: this.sheet.lending.batch });
  }

  /**
   * Fills the whole form; the marks go along with the values.
   * @param {Partial<Kept>} kept
   */
  write({ values = {}, example = [], lent: marks = {} }) {
    lent.unmark(this.section);
    this.sheet.lending.afresh();
    form.write(this.section, values, { example });
    lent.again(this.section, marks);
  }

  // What is carried over when the page is loaded again for a new edition.
  typed() {
    if (form.untouched(this.section) && !this.kept) return null;
    return { ...this.inHand(), kept: this.kept, words: form.inWords(this.section) };
  }

  /** @param {Kept & { kept: Kept | null, words: Record<string, string> }} carried */
  takeUp(carried) {
    edition.placed(this.sheet.carriedAs, form.takeOver(this.section, carried));
    lent.again(this.section, carried.lent ?? {});
    this.kept = carried.kept;
    if (this.kept) this.offerPutBack(part(this.section, "[data-action=clear]"));
    if (!form.untouched(this.section)) this.sheet.ask();
  }

  // What is carried over comes first, then a link, then what was typed before this script ran, then what was typed last time.
  atFirst() {
    const { sheet, section } = this;
    const carried = edition.carriedFor(sheet.carriedAs);
    if (carried) return this.takeUp(carried);
    const linked = link.read(section);
    if (linked) {
      form.write(section, linked, { example: sheet.results.guarded ? Object.keys(linked) : [] });
      sheet.lending.linked = true;
      sheet.status.remark(sheet.results.guarded ? "An example came with the link. NOT YOUR VESSEL." : "These numbers came with the link. Check them against your own.");
      return sheet.ask();
    }
    if (link.unmarked(section)) {
      link.leave();
      sheet.status.remark("No link brings numbers to this sheet. Measure, and type your own.");
    }
    if (!form.untouched(section)) return sheet.ask();
    const last = memory.recall(section);
    if (!last) return;
    form.write(section, last.values, { example: last.example });
    if (form.untouched(section)) return;
    sheet.lending.remembered = last;
    sheet.status.remark(`Filled in with what was typed on this device, ${saidTime(last.at)}.`);
    sheet.ask();
  }

  /** @param {HTMLElement} pressed */
  example(pressed) {
    const values = JSON.parse(this.section.dataset.example ?? "{}");
    this.keepTyped(pressed);
    this.write({ values, example: Object.keys(values) });
    this.filled();
  }

  /**
   * What this house has under a name, marked as that; what stood there comes back with “Take it out”.
   * @param {HTMLElement} pressed
   */
  house(pressed) {
    const values = JSON.parse(pressed.dataset.values ?? "{}");
    const source = `this house: ${pressed.dataset.name ?? ""}`;
    const offered = Object.fromEntries(Object.entries(values).map(([name, value]) => [name, { value, source }]));
    const done = lent.lend(this.section, offered, "house", () => true);
    form.clearErrors(this.sheet.form);
    this.sheet.status.remark(done ? "" : "Nothing was filled in: another way of asking is begun. Clear it first.");
    this.sheet.changed();
    this.sheet.ask();
  }

  /**
   * What of the answer is gone on from; what stood there comes back with “Put back”.
   * @param {HTMLElement} pressed
   */
  goOn(pressed) {
    const values = JSON.parse(pressed.dataset.values ?? "{}");
    this.keepTyped(part(this.section, "[data-action=clear]"));
    const { values: typed, example, lent: marks } = this.inHand();
    const named = Object.keys(values);
    this.write({
      values: { ...typed, ...values },
      example: example.filter((name) => !named.includes(name)),
      lent: Object.fromEntries(Object.entries(marks).filter(([name]) => !named.includes(name))),
    });
    this.filled();
    this.sheet.status.remark(pressed.dataset.said ?? "");
  }

  /** @param {HTMLElement} pressed */
  clear(pressed) {
    this.keepTyped(pressed);
    this.write({});
    memory.forget(this.section);
    link.leave();
    this.sheet.startAfresh();
    this.sheet.status.say(this.kept ? "Cleared. “Put back” brings your numbers back." : "Cleared.");
  }

  putBack() {
    const { kept } = this;
    if (!kept) return;
    this.keep();
    this.write(kept);
    this.filled();
  }

  filled() {
    form.clearErrors(this.sheet.form);
    this.sheet.status.remark("");
    link.leave();
    this.sheet.changed();
    this.sheet.ask();
  }

  /** @param {HTMLElement} beside the button that takes the numbers away */
  keepTyped(beside) {
    if (form.untouched(this.section)) return;
    this.keep();
    this.offerPutBack(beside);
  }

  /** @param {HTMLElement} beside */
  offerPutBack(beside) {
    if (this.section.querySelector("[data-action=put-back]")) return;
    beside.after(button("Put back", { "data-action": "put-back" }));
  }
}
