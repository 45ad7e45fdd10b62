// The book out to a file and in from one, the invented year, and taking everything away.

import * as draft from "./draft.mjs";
import { askOnce } from "./ask.mjs";
import { SetAside } from "./aside.mjs";
import { Backup } from "./backup.mjs";
import { withClock } from "./running-demo.mjs";
import { bookOf } from "./book.mjs";
import { Keeping } from "./keeping.mjs";
import { asJson } from "./pieces.mjs";
import { Share } from "./share/share.mjs";
import { Taking } from "./taking.mjs";
import { found, part, parts } from "../shared/element.mjs";
import { saidBy } from "../shared/fault.mjs";
import { giveFile } from "../shared/file.mjs";
import { localMinute, saidTime } from "../shared/moment.mjs";
import { siteRoot } from "../shared/root.mjs";

const REMIND_LINES = 20; // so many lines written since the last saved file are worth a word
const CSV_PORTION = 500; // lines of a table made at a time
const NOT_ASKED = -1;
const MARK = "saved"; // the last line that is in a saved file

/** @typedef {{ seq: number, id?: string, at: string }} Mark */

export class Files {
  asked = NOT_ASKED; // of how many lines it was asked whether they shall all go

  /**
   * @param {HTMLElement} section
   * @param {import("./book.mjs").Book} book
   * @param {{ say: (text: string) => void, version: string, demoIsThere: () => void, removed: () => void }} page
   */
  constructor(section, book, { say, version, demoIsThere, removed }) {
    this.section = section;
    this.book = book;
    this.say = say;
    this.version = version;
    this.demoIsThere = demoIsThere;
    this.removed = removed;
    this.file = found(section, "input[type=file]", HTMLInputElement);
    this.aside = new SetAside(part(section, "[data-daybook=aside]"), book);
    this.taking = new Taking(section, book, say);
    this.keeping = new Keeping(section, book, { say, takeFile: () => this.file.click(), savedIn: () => this.marked()?.at.replace("T", " ") ?? "" });
    this.backup = new Backup(section, book, { version, saved: (last) => this.mark(last), takeFile: (file) => this.take(file), changed: () => this.draw() });
    this.share = new Share(section, book, { version, setAside: (name, refused) => this.taking.setAside(name, refused).then(() => this.aside.draw()) });
    this.aside.draw();
    this.keeping.drawPromise();
    this.backup.begin();
    this.share.begin();
  }

  close() {
    this.backup.close();
    this.share.close();
  }

  /**
   * @param {HTMLElement} button
   * @returns {Record<string, () => unknown>}
   */
  actions(button) {
    return {
      "save-json": () => this.saveJson(),
      "save-csv": () => this.saveCsv(),
      "read-in": () => this.file.click(),
      "load-demo": () => this.loadDemo(button),
      remove: () => this.remove(),
    };
  }

  /**
   * The last line that is in a file, if the book is still the one that was saved: numbers begin anew in a new one.
   * @returns {Mark | null}
   */
  marked() {
    /** @type {Mark | null} */
    const mark = draft.recall(MARK);
    const line = mark && this.book.lines[this.upTo(mark)];
    return line && line.seq === mark.seq && (!mark.id || line.id === mark.id) ? mark : null;
  }

  /**
   * Where the last line stands that may be in the file; sought from the newest on, as a book is long.
   * @param {Mark} mark
   */
  upTo(mark) {
    return this.book.lines.findLastIndex((line) => line.seq <= mark.seq);
  }

  draw() {
    const { lines, which } = this.book;
    const count = lines.length;
    if (this.asked !== count) this.asked = NOT_ASKED; // what is asked has to be so when it is answered
    part(this.section, "[data-action=remove]").textContent = this.asked === count ? `Remove all ${count} lines for good: press again` : which === "demo" ? "Remove the demo book" : "Remove everything";
    for (const one of parts(this.section, "[data-own-only]")) one.hidden = which === "demo";
    const mark = this.marked();
    const unsaved = count - (mark ? this.upTo(mark) + 1 : 0);
    const line = part(this.section, "[data-daybook=backup]");
    const since = mark ? `since the book was last saved as a file, ${saidTime(mark.at)}` : "and the book was never saved as a file";
    const words = lines.length ? `${lines.length} lines in this book; ${unsaved} written ${since}.` : "There is nothing in this book.";
    if (!this.book.readFrom) {
      line.textContent = "The book has not been read so far.";
      return;
    }
    line.textContent = which === "demo" ? `${lines.length} invented lines.` : words;
    line.toggleAttribute("data-remind", which === "own" && unsaved >= REMIND_LINES);
    const reminder = part(this.section, "[data-daybook=reminder]");
    const stopped = this.backup.stopped();
    reminder.hidden = which === "demo" || unsaved < (stopped ? 1 : REMIND_LINES);
    part(reminder, "span").textContent = `${unsaved === 1 ? "1 line is" : `${unsaved} lines are`} on this device only. ${stopped}`;
    this.backup.draw();
    this.keeping.draw();
    this.share.draw();
  }

  /**
   * A file takes its time: lines may have been written since its last one, and another file may have more.
   * @param {Mark | import("./book.mjs").Line} [last] that went into the file
   */
  mark(last = this.book.lines.at(-1)) {
    const more = (this.marked()?.seq ?? 0) > (last?.seq ?? 0);
    if (this.book.which === "own" && last && !more) draft.keep(MARK, { seq: last.seq, id: last.id, at: localMinute() });
    this.draw();
  }

  /** @param {string} ending */
  nameOf(ending) {
    return `${this.book.which === "demo" ? "invented-" : ""}day-book-${localMinute().replaceAll(":", "")}.${ending}`;
  }

  /** @param {import("./book.mjs").Entry[]} [extra] */
  async saveJson(extra = []) {
    /** @type {string[]} */
    const pieces = [];
    const { lines } = this.book;
    for await (const piece of asJson([...lines, ...extra], this.version)) pieces.push(piece);
    giveFile(pieces, this.nameOf("json"), "application/json");
    this.mark(lines.at(-1));
    this.say("Saved as a file. Keep it on another device as well.");
  }

  /**
   * One batch for another device; the book does not count as saved by it.
   * @param {string} batch
   */
  async saveBatch(batch) {
    /** @type {string[]} */
    const pieces = [];
    for await (const piece of asJson(this.book.lines.filter((line) => line.batch === batch), this.version)) pieces.push(piece);
    giveFile(pieces, `batch-${batch.replace(/[^0-9A-Za-z-]+/g, "-")}-${this.nameOf("json")}`, "application/json");
    this.say("Saved as a file. On the other device: “Save, read in, remove”, then “Read a file in”.");
  }

  async saveCsv() {
    try {
      const { lines } = this.book;
      /** @type {string[]} */
      const pieces = [];
      for (let from = 0; from === 0 || from < lines.length; from += CSV_PORTION) {
        const { text } = await askOnce("export", this.book, { as: "csv", part: from > 0, entries: lines.slice(from, from + CSV_PORTION) });
        pieces.push(text);
      }
      giveFile(pieces, this.nameOf("csv"), "text/csv");
      this.mark(lines.at(-1));
      this.say("Saved as a table for a spreadsheet.");
    } catch (fault) {
      this.say(`${saidBy(fault)} Save it as a file instead.`);
    }
  }

  async readFile() {
    const file = this.file.files?.[0];
    if (!file) return;
    await this.take(file);
    this.file.value = ""; // not before: a browser may let the file go with it
  }

  /** @param {File} file */
  async take(file) {
    const taken = await this.taking.take(file);
    if (taken?.whole) this.mark();
    await this.aside.draw();
    return Boolean(taken);
  }

  async fetchDemo() {
    const demo = bookOf("demo");
    const [year, running] = await Promise.all(["demo-batches", "demo-running"].map((name) => fetch(new URL(`assets/${name}.json`, siteRoot))));
    if (!year.ok || !running.ok) throw new Error("The demo year could not be fetched.");
    await demo.append((await year.json()).entries);
    await demo.append(withClock((await running.json()).entries, demo.lines));
  }

  /** @param {HTMLElement} button */
  async loadDemo(button) {
    button.toggleAttribute("disabled", true);
    try {
      await this.fetchDemo();
      this.demoIsThere();
    } catch (fault) {
      this.say(saidBy(fault));
    } finally {
      button.toggleAttribute("disabled", false);
    }
  }

  async remove() {
    if (this.asked !== this.book.lines.length) {
      this.asked = this.book.lines.length;
      this.draw();
      return;
    }
    this.asked = NOT_ASKED;
    try {
      await this.book.removeAll();
      draft.forgetDrafts(this.book);
      if (this.book.which === "own") {
        draft.keep(MARK, null);
        this.keeping.forget();
      }
      await this.backup.begin();
      await this.share.begin();
      await this.aside.draw();
      this.removed();
      this.say("Removed. The book is empty.");
    } catch (fault) {
      this.say(saidBy(fault));
    }
    this.draw();
  }
}
