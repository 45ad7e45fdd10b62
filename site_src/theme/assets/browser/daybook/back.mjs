// Looking back over the batches of a book.

import * as engine from "../engine/engine.mjs";
import { tellStep } from "../engine/told.mjs";
import { ask, askOnce, forget, heldBack } from "./ask.mjs";
import { named, query } from "./address.mjs";
import { drawnIn, leadToBatches, takeAhead } from "./ahead.mjs";
import { bookOf } from "./book.mjs";
import { quiet } from "./quiet.mjs";
import { sumsOf } from "./sums.mjs";
import * as views from "./views.mjs";
import { around, found, part, parts } from "../shared/element.mjs";
import { saidBy } from "../shared/fault.mjs";
import { giveFile } from "../shared/file.mjs";
import { localMinute } from "../shared/moment.mjs";

const MOST = 60;
const MORE = 240;
const PATIENCE_MS = 20_000;
const FEW = 20; // batches that are looked at with their lines instead of their sums

export class LookingBack {
  most = MOST; // batches in the table
  summing = false;
  /** @type {string[]} */
  needs = [];
  fits = { text: "", name: "" }; // the file of fits
  held = ""; // why nothing is answered
  stands = false; // what was drawn last is in view: how the calculator starts is not told over it
  aged = ""; // how old what stands is, until Python has drawn it anew
  /** @type {Promise<void> | null} */
  reading = null;

  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    this.drawn = drawnIn(section);
    const { batch, which } = named();
    this.batch = batch;
    this.book = bookOf(which);
    part(section, "[data-daybook=whole]").hidden = false;
    for (const one of parts(section, "[data-demo-only]")) one.hidden = which !== "demo";
    for (const one of parts(section, "[data-own-only]")) one.hidden = which === "demo";
    this.leaveEngine = engine.subscribe((state) => this.follow(state));
    this.leaveBook = this.book.subscribe(() => this.ask());
    section.addEventListener("click", (event) => around(event.target, "[data-action=more-batches]") && this.more());
    section.addEventListener("change", (event) => this.chose(event.target));
    part(section, "[data-action=save-fits]").addEventListener("click", () => giveFile([this.fits.text], this.fits.name, "application/json"));
    this.read();
    heldBack.then((why) => {
      this.held = why;
      if (why) this.say(why);
    });
  }

  close() {
    this.leaveEngine();
    this.leaveBook();
    forget();
  }

  /** @param {string} name */
  part(name) {
    return part(this.section, `[data-daybook="${name}"]`);
  }

  /** @param {string} text */
  say(text) {
    this.part("state").textContent = [this.aged, text].filter(Boolean).join(" ");
  }

  // What was drawn last stands at once; where no line was added since, none is read, and Python only looks again.
  async read() {
    try {
      await this.look();
    } catch (fault) {
      this.say(saidBy(fault));
    }
  }

  async look() {
    const view = await (takeAhead(this.book, views.BACK) ?? views.recall(this.book, views.BACK));
    const same = view && views.isOf(view, this.batch) && this.section.isConnected;
    if (same) this.show(view);
    if (same) await quiet();
    if (same && !view.fresh.length && view.places.held) return this.lookAgain();
    await this.readLines(!same);
  }

  // From sums alone, when nobody waits for anything.
  async lookAgain() {
    const { batch, book, most } = this;
    const sums = sumsOf(book);
    await sums.load();
    if (!this.section.isConnected) return;
    const along = { batch, most, entries: [], sums: [...sums.kept.values()] };
    ask("look-back", book, along, (reply) => this.put(batch, reply, reply.status));
    ask("fits", book, along, (reply) => this.put(batch, reply));
  }

  /** @param {views.Seen} view */
  show(view) {
    this.stands = true;
    const count = view.fresh.length;
    if (count) this.aged = `As it stood before the last ${count === 1 ? "line" : `${count} lines`}. It is being looked at again.`;
    this.batch = view.batch;
    this.put(view.batch, view, count ? "" : view.status);
    this.offerFits({ ...view.fits, name: view.fits.name.replace(/\d{4}-\d\d-\d\d/, localMinute().slice(0, 10)) });
    quiet().then(() => this.offerBatches(view.names));
  }

  /** @param {boolean} [bare] whether nothing stands on the page so far */
  readLines(bare = false) {
    this.reading ??= this.allRead(bare);
    return this.reading;
  }

  /** @param {boolean} bare */
  async allRead(bare) {
    const sums = sumsOf(this.book);
    try {
      if (bare && (await sums.areWhole())) await this.lookBack([...sums.kept.values()]);
      await Promise.all([this.book.read(), sums.load()]);
    } catch (fault) {
      this.say(saidBy(fault));
    }
    if (this.section.isConnected) this.ask();
  }

  /**
   * From sums, without a line, as soon as they are there.
   * @param {import("./sums.mjs").Sum[]} sums
   */
  async lookBack(sums) {
    if (!this.section.isConnected) return;
    const { batch, book, most } = this;
    const asked = askOnce("look-back", book, { batch, most, entries: [], sums }).then((reply) => this.put(batch, reply), () => {});
    await Promise.race([asked, new Promise((done) => setTimeout(done, PATIENCE_MS))]); // reading lines takes from the same processor
  }

  /** @param {string[]} names the newest first */
  offerBatches(names) {
    const select = this.against();
    this.part("choice").hidden = false;
    if (names.includes(this.batch) && select.options.length === names.length) return;
    if (!names.includes(this.batch)) this.batch = names[0] ?? "";
    select.replaceChildren(...names.map((name) => new Option(name, name, false, name === this.batch)));
  }

  against() {
    return found(this.section, "[data-daybook=against]", HTMLSelectElement);
  }

  /** @param {EventTarget | null} target */
  chose(target) {
    if (target !== this.against()) return;
    this.batch = this.against().value;
    history.replaceState(history.state, "", location.pathname + query({ batch: this.batch, which: this.book.which }));
    this.askAnew();
  }

  // What stands was kept from an earlier look, perhaps, and no line has been read for it.
  askAnew() {
    if (this.book.readFrom) this.ask();
    else this.readLines();
  }

  ask() {
    const { book } = this;
    if (!book.readFrom) return; // it is being read
    if (!book.lines.length) return this.say("There is nothing in this book to look back on.");
    this.offerBatches([...sumsOf(book).batches().keys()].reverse());
    const { batch, most } = this;
    const trouble = (/** @type {string} */ text) => this.section.isConnected && this.say(text);
    const sums = sumsOf(book);
    const names = [...sums.batches().keys()];
    const missing = sums.missing(names);
    if (missing.length > FEW) return void this.sumUp(missing, false);
    /** @type {Omit<views.View, "mark">} */
    const view = { last: book.last(), batch, names: [...names].reverse(), places: {} };
    const draws = (/** @type {any} */ reply, /** @type {string | null} */ line = null) => {
      Object.assign(view.places, reply.places);
      this.put(batch, reply, line);
    };
    const keeps = () => void (view.status && view.fits && most === MOST && views.keep(book, views.BACK, view));
    const along = { batch, most, entries: sums.linesOf(missing), sums: sums.sumsOf(names) };
    ask("look-back", book, along, (reply) => {
      this.aged = "";
      draws(reply, reply.status);
      if (reply.wanted?.length) return void this.sumUp(reply.wanted, true);
      view.status = reply.status;
      ask("held", book, { entries: sums.forHeld() }, (later) => {
        draws(later);
        keeps();
      }, (text) => this.section.isConnected && (part(this.section, "[data-place=held]").textContent = text));
    }, trouble);
    ask("fits", book, along, (reply) => {
      view.fits = { text: reply.text, name: reply.name };
      this.offerFits(reply);
      draws(reply);
      keeps();
    }, trouble);
  }

  /** @param {{ text: string, name: string }} fits */
  offerFits({ text, name }) {
    this.fits = { text, name };
    part(this.section, "[data-action=save-fits]").hidden = !text;
  }

  /**
   * @param {string} batch that was asked about
   * @param {{ places: Record<string, string> }} reply
   * @param {string | null} [line]
   */
  put(batch, reply, line = null) {
    if (!this.section.isConnected || this.batch !== batch) return;
    for (const [name, html] of Object.entries(reply.places)) {
      if (this.drawn.get(name) === html) continue;
      this.drawn.set(name, html);
      for (const place of parts(this.section, `[data-place="${name}"]`)) place.innerHTML = html;
    }
    leadToBatches(this.section, this.book.which);
    if (line !== null) this.say(line);
  }

  more() {
    this.most += MORE;
    this.askAnew();
  }

  /**
   * Works out what is not kept so far, a portion at a time, then looks again.
   * @param {string[]} names
   * @param {boolean} deep
   */
  async sumUp(names, deep) {
    if (this.summing || this.held) return;
    this.summing = true;
    const what = deep ? "Fits and doubts" : "Sums";
    const said = (/** @type {number} */ done) => this.section.isConnected && this.say(`${what} of the batches: ${done} of ${names.length} …`);
    said(0);
    try {
      await sumsOf(this.book).make(names, { deep, still: () => this.section.isConnected, progress: said });
    } catch (fault) {
      this.say(saidBy(fault));
      return;
    } finally {
      this.summing = false;
    }
    if (this.section.isConnected) this.ask();
  }

  /** @param {engine.State} state */
  follow(state) {
    const { phase, failure } = state;
    if (this.held) return;
    if (phase === "starting" && !this.stands) tellStep(this.part("state"), state);
    if (phase === "failed" && !(this.stands && !this.aged)) this.say(`The calculator could not start (${failure}), ${this.aged ? "so it is not" : "so there is nothing to show here"}.`);
  }
}

export const openLookingBack = () => parts(document, "section[data-day-book=look-back]").map((section) => new LookingBack(section));
