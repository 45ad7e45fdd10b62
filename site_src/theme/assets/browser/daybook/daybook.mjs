// The day-book's page: the shelf of batches, one batch with its lines, and the look back. What is written stands at
// once, before the calculator is up and without it; what Python has to say of it follows.

import * as edition from "../edition/edition.mjs";
import * as engine from "../engine/engine.mjs";
import { tellStep } from "../engine/told.mjs";
import { lookAt } from "./ahead.mjs";
import { ask, forget, heldBack } from "./ask.mjs";
import { codesPage, handOverPage, named, query } from "./address.mjs";
import { Files } from "./files.mjs";
import * as draft from "./draft.mjs";
import { drawBatches, drawLines } from "./lines.mjs";
import { around, part, parts } from "../shared/element.mjs";
import { saidBy } from "../shared/fault.mjs";
import { painted, quiet } from "./quiet.mjs";
import { byBatch, sumsOf } from "./sums.mjs";
import * as views from "./views.mjs";
import { keepToday } from "./kept-today.mjs";
import { afterPress } from "../shared/press.mjs";
import { Places } from "./places.mjs";
import { printAs } from "../shared/printing.mjs";
import { bookOf } from "./book.mjs";
import { Kinds } from "./kinds.mjs";
import { Writing } from "./entry.mjs";
import { WhatNow } from "./what-now.mjs";
import { offerCorrection, receipt, WhatComes } from "./written.mjs";

/** @typedef {import("./address.mjs").Where} Where */
/** @typedef {import("./book.mjs").Entry} Entry */
/** @typedef {{ places: Record<string, string>, likely?: string[], glance?: boolean, status?: string, stop?: boolean, at?: string, off?: string[] }} Reply */

const AGAIN_MS = 60_000; // clock times are said anew
const LINES = 60; // of a batch, and batches of the shelf, until the reader asks for more
const MORE = 240;
const OF_SHELF = ["batches", "today"];
const OF_BATCH = ["next", "checks", "lines", "course", "fit", "sheets", "print"];

export class DayBook {
  carriedAs = "day-book";
  /** @type {string[]} */
  needs = [];
  leaving = new AbortController();
  held = ""; // why nothing is answered
  /** @type {string | null} */
  glanced = null; // the batch, or the shelf, that was looked at quickly
  toPrint = false;
  most = LINES;
  answered = 0; // the last line that Python has seen, by its place
  trouble = ""; // why the book could not be read
  /** @type {[string, import("./book.mjs").Line[]][]} */
  order = []; // batches with their last lines, until the book is read
  soon = false; // Python will be asked
  askedUpTo = ""; // the last line of the book when it was

  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    this.places = new Places(section);
    this.comes = new WhatComes(this.part("state"));
    this.kinds = new Kinds(part(document, "[data-entry-forms]"));
    this.where = named();
    this.book = bookOf(this.where.which);
    this.leaveBook = this.book.subscribe(() => this.changed());
    this.files = this.filesOfBook();
    this.whatNow = new WhatNow(this.part("what-now"), {
      ways: (asked, onReply, onTrouble) => void this.ready.then(() => this.ways(asked, onReply, onTrouble)), // a finger may be quicker
      begin: (kind, values, aside) => this.writing.begin(kind, { values, aside }),
    });
    this.writing = this.opened();
    this.listen();
    this.leaveEngine = engine.subscribe((state) => this.follow(state));
    heldBack.then((why) => {
      this.held = why;
      this.follow(engine.state());
    });
    this.timer = setInterval(() => document.hidden || this.ask(), AGAIN_MS);
    part(section, "[data-daybook=whole]").hidden = false;
    this.ready = this.read();
  }

  get batch() {
    return this.where.batch;
  }

  listen() {
    const { signal } = this.leaving;
    addEventListener("click", (event) => this.pressed(event), { capture: true, signal }); // before the theme follows a link
    addEventListener("popstate", () => this.section.isConnected && this.turnTo(named()), { signal });
    part(this.section, "input[type=file]").addEventListener("change", () => this.files.readFile(), { signal });
    document.addEventListener("visibilitychange", () => document.hidden || this.ask(), { signal });
  }

  close() {
    this.leaving.abort();
    clearInterval(this.timer);
    this.leaveEngine();
    this.leaveBook();
    this.files.close();
    this.whatNow.close();
    this.writing.close();
    forget();
  }

  /** @param {string} name */
  part(name) {
    return part(this.section, `[data-daybook="${name}"]`);
  }

  /**
   * @param {string} text
   * @param {Entry | null} [entry] the line just written: it can be corrected from here
   */
  say(text, entry = null) {
    const line = this.part("state");
    line.textContent = text;
    if (entry) offerCorrection(line, entry);
  }

  /**
   * Turns to a batch of a book, or to the shelf when no batch is named.
   * @param {Where} where
   */
  turnTo(where) {
    this.writing.close();
    this.places.clear(this.book.which === where.which ? OF_BATCH : [...OF_SHELF, ...OF_BATCH]);
    this.where = where;
    if (this.book.which !== where.which) {
      this.leaveBook();
      this.book = bookOf(where.which);
      this.leaveBook = this.book.subscribe(() => this.changed());
      this.files.close();
      this.files = this.filesOfBook();
    }
    this.writing = this.opened();
    this.ready = this.read();
  }

  // Shows the place in the book where the reader is; gives back what writes lines there.
  opened() {
    const { batch, which } = this.where;
    this.glanced = null;
    this.order = [];
    this.toPrint = false;
    this.most = LINES;
    this.answered = 0;
    this.askedUpTo = "";
    this.part("shelf").hidden = Boolean(batch);
    this.part("page").hidden = !batch;
    this.part("batch").textContent = batch ? `Batch ${batch}` : "";
    this.part("all").setAttribute("href", query({ which }));
    this.part("by-codes").setAttribute("href", codesPage(this.where));
    this.part("over").setAttribute("href", handOverPage(which));
    const place = this.part(batch ? "writing" : "beginning");
    place.before(this.part("state"), this.part("progress"));
    this.say("");
    this.whatNow.opened(batch);
    const writing = new Writing(place, this.kinds, batch, {
      book: this.book,
      write: (entry) => this.write(entry),
      check: (entry, onFaults) => void ask("entry", this.book, { entry, batch: entry.batch, entries: [] }, (reply) => onFaults(reply.faults)),
      known: (name) => sumsOf(this.book).kept.has(name) || this.lines().some((line) => line.batch === name),
      saveWith: (entry) => this.files.saveJson([entry]),
      lines: () => this.lines(),
    });
    if (batch) writing.offer(draft.recall(`likely-${which}`)?.[batch] ?? []);
    this.draw();
    return writing;
  }

  typed() {
    const line = this.writing.typed();
    return line && { ...line, where: this.where };
  }

  filesOfBook() {
    for (const one of parts(this.section, "[data-demo-only]")) one.hidden = this.book.which !== "demo";
    return new Files(this.section, this.book, {
      say: (text) => this.say(text),
      version: this.kinds.version,
      demoIsThere: () => this.go({ batch: "", which: "demo" }),
      removed: () => this.go({ batch: "", which: "own" }),
    });
  }

  async read() {
    const { writing } = this;
    // At once: what is typed while a long book is being read is no draft of before.
    const drafted = this.takeUpCarried() ? null : writing.takeUpDraft();
    try {
      if (await this.look(writing)) await quiet();
      if (this.batch && !this.book.readFrom) this.book.near = (await this.book.beside.get("sums", this.batch))?.span ?? null;
      await Promise.all([this.book.read(), sumsOf(this.book).load()]);
      if (this.where.which === "demo" && !this.book.lines.length) await this.files.fetchDemo(); // the link that led here asked for it
    } catch (fault) {
      this.trouble = saidBy(fault);
      this.say(this.trouble);
    }
    if (!this.section.isConnected || writing !== this.writing) return;
    this.changed();
    await drafted;
  }

  /**
   * What was drawn last stands at once where it still holds; tells whether it does.
   * @param {Writing} writing
   */
  async look(writing) {
    const { batch, book } = this;
    const view = await lookAt(book, batch);
    if (!view || writing !== this.writing || !this.section.isConnected) return false;
    if (!book.readFrom) book.tail = view.fresh;
    this.order = view.order;
    if (batch || !view.fresh.length) this.places.putAll(view.places);
    if (batch) this.glanced = batch; // its lines are in view
    this.answered = view.last.seq;
    this.draw();
    return true;
  }

  // What is known of the lines so far.
  lines() {
    return this.book.readFrom ? this.book.lines : this.book.tail;
  }

  takeUpCarried() {
    const carried = edition.carriedFor(this.carriedAs);
    if (!carried?.where || query(carried.where) !== query(this.where)) return false;
    const left = this.writing.takeUp(carried);
    if (left) edition.placed(this.carriedAs, left);
    return Boolean(left);
  }

  // A long book is put to its batches first, with pauses.
  changed() {
    const { book } = this;
    const gathered = sumsOf(book).gather();
    if (gathered) gathered.then(() => this.section.isConnected && book === this.book && this.stands());
    else this.stands();
  }

  stands() {
    if (this.trouble && this.book.readFrom && this.part("state").textContent === this.trouble) this.say(""); // it has opened after all
    this.draw();
    if (this.book.lines.length) this.askSoon();
    else this.ask();
  }

  // What stands is seen first, and what is being typed goes before.
  async askSoon() {
    if (this.soon) return;
    this.soon = true;
    await quiet();
    this.soon = false;
    if (this.section.isConnected && this.askedUpTo !== this.book.last().id) this.ask();
  }

  // What Python has not drawn so far stands below in plain words.
  draw() {
    this.files.draw();
    const { tail } = this.book;
    if (!this.batch) {
      if (!this.places.shown.get("batches")) drawBatches(this.places.get("batches"), tail.length ? byBatch(tail, new Map(this.order)) : sumsOf(this.book).batches(), (batch) => query({ batch, which: this.where.which }));
      return;
    }
    const own = tail.length ? tail.filter((line) => line.batch === this.batch) : (sumsOf(this.book).batches().get(this.batch) ?? []);
    drawLines(this.part("waiting"), this.kinds, own.filter((line) => line.seq > this.answered));
  }

  ask() {
    if (!this.book.readFrom) return; // it is being read
    if (!this.book.lines.length) return this.places.clear(this.batch ? [] : OF_SHELF);
    const { batch, book, most } = this;
    const sums = sumsOf(book);
    const seen = sums.batches().get(batch)?.at(-1)?.seq ?? 0;
    const still = () => this.section.isConnected && this.batch === batch && this.book === book && book.lines.length > 0; // not removed meanwhile
    const quick = this.glanced !== batch; // first the lines, then what earlier batches say of them
    const last = book.last();
    this.askedUpTo = last.id;
    const onReply = (/** @type {Reply} */ reply) => {
      if (!still()) return;
      this.glanced = batch;
      this.answered = seen;
      this.replied(reply);
      if (!reply.glance) this.comes.next(last.id, reply);
      if (most === LINES) views.keepDrawn(book, batch, last, reply);
      if (reply.glance) this.ask();
      else this.sumUp();
    };
    const along = batch ? sums.forBatch(batch) : sums.forShelf(most);
    ask(batch ? "batch" : "book", book, { batch, quick, most, print: this.toPrint, ...along }, (reply) => still() && afterPress(() => onReply(reply)), (text) => still() && this.say(`${text} What you write is kept.`));
  }

  /** @type {import("./what-now.mjs").Does["ways"]} */
  ways(asked, onReply, onTrouble) {
    const { batch, book } = this;
    const still = () => this.section.isConnected && this.batch === batch && this.book === book;
    ask("ways", book, { batch, ...asked, ...sumsOf(book).forBatch(batch) }, (reply) => still() && onReply(reply.places.ways), (text) => still() && onTrouble(text));
  }

  // What the shelf and looking back will need is worked out while nobody waits for anything.
  async sumUp() {
    const { book } = this;
    const still = () => this.section.isConnected && book === this.book && !this.held;
    if ((await sumsOf(book).sumUp(this.most, still)) && still() && !this.batch) this.ask();
  }

  more() {
    this.most += MORE;
    this.ask();
  }

  /** @param {Reply} reply */
  replied(reply) {
    this.places.putAll(reply.places);
    if (reply.places.today !== undefined && this.where.which === "own") keepToday(this.places.get("today"));
    if (this.batch && reply.likely) {
      this.writing.offer(reply.likely);
      const all = draft.recall(`likely-${this.where.which}`) ?? {};
      draft.keep(`likely-${this.where.which}`, { ...Object.fromEntries(Object.entries(all).slice(-20)), [this.batch]: reply.likely });
    }
    if (reply.at !== undefined) this.whatNow.follow(reply.at, reply.off ?? []);
    this.draw();
    if (!this.toPrint || !reply.places.print) return;
    this.toPrint = false;
    this.say("");
    printAs("prints-batch");
  }

  /** @param {Entry} entry */
  async write(entry) {
    await this.book.append([entry]);
    this.whatNow.aged();
    const other = entry.batch !== this.batch;
    if (other) this.go({ ...this.where, batch: entry.batch });
    else painted().then(() => this.section.isConnected && this.ask()); // who has written a line waits for what comes of it
    this.say(receipt(this.kinds, entry), this.kinds.is(entry.kind, "strikes") ? null : entry);
    this.comes.of(entry.id, other);
    this.comes.waits(Boolean(this.held), engine.state());
    this.part("state").scrollIntoView({ block: "nearest" });
    if (other) this.writing.focusChoice();
  }

  /** @param {Where} where */
  go(where) {
    history.pushState(history.state, "", location.pathname + query(where));
    this.turnTo(where);
    this.section.closest("article")?.scrollIntoView(); // another page of the book begins at its top
  }

  /** @param {MouseEvent} event */
  pressed(event) {
    if (!(event.target instanceof Node) || !this.section.contains(event.target)) return;
    const link = around(event.target, "a[data-batch], a[data-book]");
    if (link && !(event.ctrlKey || event.metaKey || event.shiftKey)) {
      event.preventDefault();
      event.stopImmediatePropagation(); // it is this same page
      const which = { own: /** @type {const} */ ("own"), demo: /** @type {const} */ ("demo") }[link.dataset.book ?? ""] ?? this.where.which;
      return this.go({ batch: link.dataset.batch ?? "", which });
    }
    const pressed = around(event.target, "button[data-action]");
    if (!pressed) return;
    /** @type {Record<string, () => unknown>} */
    const actions = {
      begin: () => this.writing.begin(this.kinds.of("begins")),
      correct: () => this.correct(around(pressed, "[data-entry]")?.dataset.entry),
      "print-batch": () => this.print(),
      "save-batch": () => this.files.saveBatch(this.batch),
      "more-lines": () => this.more(),
      "more-batches": () => this.more(),
      ...this.files.actions(pressed),
    };
    actions[pressed.dataset.action ?? ""]?.();
  }

  /** @param {string} [id] */
  async correct(id) {
    const find = () => this.lines().find((line) => line.id === id);
    if (!find()) await this.book.read().catch(() => {}); // it was drawn before its line was read
    const entry = find();
    if (entry) this.writing.correct(entry);
  }

  // The complete record of one batch; the rest of the page stays off the paper.
  print() {
    this.toPrint = true;
    this.say("The record is being written out. It prints as soon as it stands.");
    this.ask();
  }

  /** @param {engine.State} state */
  follow(state) {
    const line = this.part("engine");
    if (!this.held && state.phase === "starting") tellStep(line, state, "What you write is kept at once.");
    else line.textContent = this.held || (state.phase === "failed" ? `The calculator could not start (${state.failure}). Lines are written and kept all the same.` : "");
    line.hidden = !line.textContent;
    this.comes.waits(Boolean(this.held), state);
  }
}

export const openDayBook = () => parts(document, "section[data-day-book=write]").map((section) => new DayBook(section));
