// The day-book's page: the shelf of batches, one batch with its lines, and the look back. What is written stands at
// once, before the calculator is up and without it; what Python has to say of it follows.

import * as edition from "../edition/edition.mjs";
import * as engine from "../engine/engine.mjs";
import { ask, forget, heldBack } from "./ask.mjs";
import { named, query } from "./address.mjs";
import { Files } from "./files.mjs";
import * as draft from "./draft.mjs";
import { drawBatches, drawLines, inWords, labelOf } from "./lines.mjs";
import { afterPress } from "../shared/press.mjs";
import { bookOf } from "./book.mjs";
import { Writing } from "./entry.mjs";

const AGAIN_MS = 60_000; // clock times are said anew
const OF_BATCH = ["next", "checks", "lines", "course", "fit", "sheets", "print"];

function formsIn(home) {
  return new Map([...home.querySelectorAll("form[data-entry-kind]")].map((form) => [form.dataset.entryKind, form]));
}

export class DayBook {
  constructor(section) {
    this.section = section;
    this.carriedAs = "day-book";
    this.needs = [];
    const home = document.querySelector("[data-entry-forms]");
    this.forms = formsIn(home);
    this.version = home.dataset.version ?? "";
    this.shown = new Map(); // what Python drew, to leave alone what stays the same
    this.leaving = new AbortController();
    this.listen();
    this.leaveEngine = engine.subscribe((state) => this.follow(state));
    heldBack.then((why) => {
      this.held = why;
      this.follow(engine.state());
    });
    this.timer = setInterval(() => document.hidden || this.ask(), AGAIN_MS);
    section.querySelector("[data-daybook=whole]").hidden = false;
    this.turnTo(named());
  }

  listen() {
    const { signal } = this.leaving;
    addEventListener("click", (event) => this.pressed(event), { capture: true, signal }); // before the theme follows a link
    addEventListener("popstate", () => this.section.isConnected && this.turnTo(named()), { signal });
    this.section.querySelector("input[type=file]").addEventListener("change", () => this.files.readFile(), { signal });
    document.addEventListener("visibilitychange", () => document.hidden || this.ask(), { signal });
  }

  close() {
    this.leaving.abort();
    clearInterval(this.timer);
    this.leaveEngine();
    this.leaveBook?.();
    this.writing?.close();
    forget();
  }

  place(name) {
    return this.section.querySelector(`[data-place="${name}"]`);
  }

  part(name) {
    return this.section.querySelector(`[data-daybook="${name}"]`);
  }

  // `entry` is the line just written: it can be corrected from here.
  say(text, entry = null) {
    const line = this.part("state");
    line.textContent = text;
    if (!entry) return;
    const button = document.createElement("button");
    button.type = "button";
    button.dataset.action = "correct";
    button.textContent = "Correct it";
    line.dataset.entry = entry.id;
    line.append(" ", button);
  }

  // Turns to a batch of a book, or to the shelf when no batch is named.
  turnTo({ batch, which }) {
    const { book } = this;
    this.batch = batch;
    this.glanced = "";
    this.toPrint = false;
    this.where = { batch, which };
    if (book?.which !== which) this.take(which);
    this.part("shelf").hidden = Boolean(batch);
    this.part("page").hidden = !batch;
    this.part("batch").textContent = batch ? `Batch ${batch}` : "";
    this.part("all").setAttribute("href", query({ which }));
    for (const name of OF_BATCH) this.put(name, "");
    this.writing?.close();
    const place = this.part(batch ? "writing" : "beginning");
    place.before(this.part("state"));
    this.say("");
    this.writing = new Writing(place, this.forms, this.where, {
      write: (entry) => this.write(entry),
      check: (entry, onFaults) => ask("entry", this.book, { entry, batch: entry.batch }, (reply) => onFaults(reply.faults)),
      known: (name) => this.book.lines.some((line) => line.batch === name),
      saveWith: (entry) => this.files.saveJson([entry]),
    });
    if (batch) this.writing.offer(draft.recall(`likely-${which}`)?.[batch] ?? []);
    this.draw();
    this.ready = this.read();
  }

  typed() {
    const line = this.writing.typed();
    return line && { ...line, where: this.where };
  }

  take(which) {
    this.leaveBook?.();
    this.book = bookOf(which);
    this.leaveBook = this.book.subscribe(() => this.changed());
    this.files = new Files(this.section, this.book, { say: (text) => this.say(text), version: this.version });
    this.files.demoIsThere = () => this.go({ batch: "", which: "demo" });
    this.files.removed = () => this.go({ batch: "", which: "own" });
    this.put("batches", "");
    for (const one of this.section.querySelectorAll("[data-demo-only]")) one.hidden = which !== "demo";
  }

  async read() {
    try {
      await this.book.read();
    } catch (fault) {
      this.say(fault.message);
    }
    if (!this.section.isConnected) return;
    this.changed();
    if (!this.takeUpCarried()) this.writing.takeUpDraft();
  }

  takeUpCarried() {
    const carried = edition.carriedFor(this.carriedAs);
    if (!carried?.where || query(carried.where) !== query(this.where)) return false;
    const left = this.writing.takeUp(carried);
    if (left) edition.placed(this.carriedAs, left);
    return Boolean(left);
  }

  changed() {
    this.draw();
    this.ask();
  }

  // What Python has not drawn so far stands below in plain words.
  draw() {
    this.files.draw();
    const { lines } = this.book;
    if (!this.batch) {
      if (!this.shown.get("batches")) drawBatches(this.place("batches"), lines, (batch) => query({ batch, which: this.where.which }));
      return;
    }
    const drawn = new Set([...this.place("lines").querySelectorAll("[data-entry]")].map((row) => row.dataset.entry));
    drawLines(this.part("waiting"), this.forms, lines.filter((line) => line.batch === this.batch && !drawn.has(line.id)));
  }

  ask() {
    if (!this.book.lines.length) {
      if (!this.batch) this.put("batches", "");
      return;
    }
    const { batch, book } = this;
    const still = () => this.section.isConnected && this.batch === batch && this.book === book;
    const quick = Boolean(batch) && this.glanced !== batch; // first the lines, then what earlier batches say of them
    const onReply = (reply) => {
      if (!still()) return;
      this.glanced = batch;
      this.replied(reply);
      if (reply.glance) this.ask();
    };
    ask(batch ? "batch" : "book", book, { batch, quick }, (reply) => still() && afterPress(() => onReply(reply)), (text) => still() && this.say(`${text} What you write is kept.`));
  }

  replied(reply) {
    for (const [name, html] of Object.entries(reply.places)) this.put(name, html);
    if (this.batch && reply.likely) {
      this.writing.offer(reply.likely);
      const all = draft.recall(`likely-${this.where.which}`) ?? {};
      draft.keep(`likely-${this.where.which}`, { ...Object.fromEntries(Object.entries(all).slice(-20)), [this.batch]: reply.likely });
    }
    this.draw();
    if (this.toPrint && reply.places.print) this.print();
  }

  put(name, html) {
    const place = this.place(name);
    if (!place || this.shown.get(name) === html) return;
    this.shown.set(name, html);
    const at = place.contains(document.activeElement) ? document.activeElement.closest("[data-entry]")?.dataset.entry : "";
    place.innerHTML = html;
    if (at) place.querySelector(`[data-entry="${CSS.escape(at)}"] button`)?.focus();
  }

  async write(entry) {
    await this.book.append([entry]);
    const other = entry.batch !== this.batch;
    if (other) this.go({ ...this.where, batch: entry.batch });
    const words = inWords(this.forms, entry);
    this.say(`Written, ${entry.at.slice(11)}: ${labelOf(this.forms, entry)}${words ? `, ${words}` : ""}.`, entry.kind === "withdrawn" ? null : entry);
    this.part("state").scrollIntoView({ block: "nearest" });
    if (other) this.writing.kinds.querySelector("button")?.focus();
  }

  go(where) {
    history.pushState(history.state, "", location.pathname + query(where));
    this.turnTo(where);
    this.section.closest("article").scrollIntoView(); // another page of the book begins at its top
  }

  pressed(event) {
    if (!this.section.contains(event.target)) return;
    const link = event.target.closest("a[data-batch], a[data-book]");
    if (link && !(event.ctrlKey || event.metaKey || event.shiftKey)) {
      event.preventDefault();
      event.stopImmediatePropagation(); // it is this same page
      const which = link.dataset.book ?? this.where.which;
      return this.go({ batch: link.dataset.batch ?? "", which });
    }
    const button = event.target.closest("button[data-action]");
    if (!button) return;
    const actions = {
      begin: () => this.writing.begin("start"),
      correct: () => this.correct(button.closest("[data-entry]").dataset.entry),
      "print-record": () => this.print(),
      ...this.files.actions(button),
    };
    actions[button.dataset.action]?.();
  }

  correct(id) {
    const entry = this.book.lines.find((line) => line.id === id);
    if (entry) this.writing.correct(entry);
  }

  // The complete record of one batch; the rest of the page stays off the paper.
  print() {
    this.toPrint = !this.shown.get("print");
    if (this.toPrint) return this.say("The record is being written out. It prints as soon as it stands.");
    const done = () => {
      document.body.classList.remove("prints-record");
      removeEventListener("afterprint", done);
    };
    document.body.classList.add("prints-record");
    addEventListener("afterprint", done);
    print();
  }

  follow({ phase, step, failure }) {
    const words = { starting: `${step} … What you write is kept at once.`, failed: `The calculator could not start (${failure}). Lines are written and kept all the same.` };
    const line = this.part("engine");
    line.textContent = this.held || words[phase] || "";
    line.hidden = !line.textContent;
  }
}

export const openDayBook = () => [...document.querySelectorAll("section[data-day-book=write]")].map((section) => new DayBook(section));
