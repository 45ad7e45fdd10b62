// Looking back over the batches of a book.

import * as engine from "../engine/engine.mjs";
import { tellStep } from "../engine/told.mjs";
import { ask, askOnce, forget, heldBack } from "./ask.mjs";
import { dayBookPage, named, query } from "./address.mjs";
import { bookOf } from "./book.mjs";
import { sumsOf } from "./sums.mjs";
import { around, found, part, parts } from "../shared/element.mjs";
import { saidBy } from "../shared/fault.mjs";
import { giveFile } from "../shared/file.mjs";

const MORE = 240;
const PATIENCE_MS = 20_000;
const FEW = 20; // batches that are looked at with their lines instead of their sums

export class LookingBack {
  most = 60; // batches in the table
  summing = false;
  /** @type {string[]} */
  needs = [];
  fits = { text: "", name: "" }; // the file of fits
  held = ""; // why nothing is answered

  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
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
    this.part("state").textContent = text;
  }

  async read() {
    const sums = sumsOf(this.book);
    try {
      if (await sums.areWhole()) await this.lookBack([...sums.kept.values()]);
      await this.book.read();
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

  offerBatches() {
    const select = this.against();
    this.part("choice").hidden = false;
    const names = [...sumsOf(this.book).batches().keys()].reverse();
    if (names.includes(this.batch) && select.options.length === names.length + 1) return;
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
    this.ask();
  }

  ask() {
    if (!this.book.readFrom) return; // it is being read
    if (!this.book.lines.length) return this.say("There is nothing in this book to look back on.");
    this.offerBatches();
    const { batch, book } = this;
    const trouble = (/** @type {string} */ text) => this.section.isConnected && this.say(text);
    const sums = sumsOf(book);
    const names = [...sums.batches().keys()];
    const missing = sums.missing(names);
    if (missing.length > FEW) return void this.sumUp(missing, false);
    const along = { batch, most: this.most, entries: sums.linesOf(missing), sums: sums.sumsOf(names) };
    ask("look-back", book, along, (reply) => {
      this.put(batch, reply, reply.status);
      if (reply.wanted?.length) return void this.sumUp(reply.wanted, true);
      ask("held", book, { entries: sums.forHeld() }, (later) => this.put(batch, later), (text) => this.section.isConnected && (part(this.section, "[data-place=held]").textContent = text));
    }, trouble);
    ask("fits", book, along, (reply) => {
      this.put(batch, reply);
      this.fits = reply;
      part(this.section, "[data-action=save-fits]").hidden = !reply.text;
    }, trouble);
  }

  /**
   * @param {string} batch that was asked about
   * @param {{ places: Record<string, string> }} reply
   * @param {string | null} [line]
   */
  put(batch, reply, line = null) {
    if (!this.section.isConnected || this.batch !== batch) return;
    for (const [name, html] of Object.entries(reply.places)) {
      for (const place of parts(this.section, `[data-place="${name}"]`)) place.innerHTML = html;
    }
    for (const link of parts(this.section, "[data-place] a[data-batch]")) link.setAttribute("href", dayBookPage({ batch: link.dataset.batch ?? "", which: this.book.which }));
    if (line !== null) this.say(line);
  }

  more() {
    this.most += MORE;
    this.ask();
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
    if (phase === "starting") tellStep(this.part("state"), state);
    if (phase === "failed") this.say(`The calculator could not start (${failure}), so there is nothing to show here.`);
  }
}

export const openLookingBack = () => parts(document, "section[data-day-book=look-back]").map((section) => new LookingBack(section));
