// The book out to a file and in from one, the invented year, and taking everything away.

import * as draft from "./draft.mjs";
import { askOnce } from "./ask.mjs";
import { withClock } from "./running-demo.mjs";
import { bookOf } from "./book.mjs";
import { found, part, parts } from "../shared/element.mjs";
import { saidBy } from "../shared/fault.mjs";
import { giveFile } from "../shared/file.mjs";
import { localMinute, saidTime } from "../shared/moment.mjs";
import { siteRoot } from "../shared/root.mjs";

const REMIND_LINES = 20; // so many lines written since the last saved file are worth a word
const MOST_BYTES = 50e6;
const MARK = "saved"; // the last line that is in a saved file

/**
 * The same as Python's own export; here so that a book can be saved when the calculator cannot start.
 * @param {import("./book.mjs").Entry[]} entries
 * @param {string} version
 */
function asJson(entries, version) {
  const plain = entries.map((entry) => ({ ...entry, seq: undefined })); // JSON leaves it out
  return `${JSON.stringify({ schema: 1, kind: "steep-to-kiln day-book", version, saved: localMinute(), entries: plain }, null, 1)}\n`;
}

export class Files {
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
    this.report = part(section, "[data-daybook=report]");
    this.file = found(section, "input[type=file]", HTMLInputElement);
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
      remove: () => this.remove(button),
    };
  }

  draw() {
    const { lines, which } = this.book;
    const mark = draft.recall(MARK);
    const unsaved = lines.filter((line) => !(line.seq <= mark?.seq)).length;
    const line = part(this.section, "[data-daybook=backup]");
    const since = mark ? `since the book was last saved as a file, ${saidTime(mark.at)}` : "and the book was never saved as a file";
    const words = lines.length ? `${lines.length} lines in this book; ${unsaved} written ${since}.` : "There is nothing in this book.";
    line.textContent = which === "demo" ? `${lines.length} invented lines.` : words;
    line.toggleAttribute("data-remind", which === "own" && unsaved >= REMIND_LINES);
    const reminder = part(this.section, "[data-daybook=reminder]");
    reminder.hidden = which === "demo" || unsaved < REMIND_LINES;
    part(reminder, "span").textContent = `${unsaved} lines are on this device only.`;
    part(this.section, "[data-action=remove]").textContent = which === "demo" ? "Remove the demo book" : "Remove everything";
    for (const one of parts(this.section, "[data-own-only]")) one.hidden = which === "demo";
  }

  mark() {
    if (this.book.which === "own") draft.keep(MARK, { seq: this.book.lines.at(-1)?.seq ?? 0, at: localMinute() });
    this.draw();
  }

  /** @param {string} ending */
  nameOf(ending) {
    return `${this.book.which === "demo" ? "invented-" : ""}day-book-${localMinute().replaceAll(":", "")}.${ending}`;
  }

  /** @param {import("./book.mjs").Entry[]} [extra] */
  saveJson(extra = []) {
    giveFile(asJson([...this.book.lines, ...extra], this.version), this.nameOf("json"), "application/json");
    this.mark();
    this.say("Saved as a file. Keep it on another device as well.");
  }

  async saveCsv() {
    try {
      const { text } = await askOnce("export", this.book, { as: "csv" });
      giveFile(text, this.nameOf("csv"), "text/csv");
      this.mark();
      this.say("Saved as a table for a spreadsheet.");
    } catch (fault) {
      this.say(`${saidBy(fault)} Save it as a file instead.`);
    }
  }

  async readFile() {
    const file = this.file.files?.[0];
    this.file.value = "";
    if (!file) return;
    if (file.size > MOST_BYTES) return this.say("That file is too long to be a saved day-book. Nothing was changed.");
    this.say("Reading the file …");
    try {
      const reply = await askOnce("import", this.book, { text: await file.text(), name: file.name });
      const { written } = reply.new.length ? await this.book.append(reply.new) : { written: 0 };
      this.report.innerHTML = reply.report;
      this.report.hidden = false;
      found(this.section, "details.day-book-files", HTMLDetailsElement).open = true;
      this.say(`${written === 1 ? "1 line" : `${written} lines`} added. ${reply.same} were here already. ${reply.refused} refused.`);
    } catch (fault) {
      this.say(`${saidBy(fault)} Nothing was changed.`);
    }
  }

  /** @param {HTMLElement} button */
  async loadDemo(button) {
    button.toggleAttribute("disabled", true);
    try {
      const demo = bookOf("demo");
      const [year, running] = await Promise.all(["demo-batches", "demo-running"].map((name) => fetch(new URL(`assets/${name}.json`, siteRoot))));
      if (!year.ok || !running.ok) throw new Error("The demo year could not be fetched.");
      await demo.append((await year.json()).entries);
      await demo.append(withClock((await running.json()).entries, demo.lines));
      this.demoIsThere();
    } catch (fault) {
      this.say(saidBy(fault));
    } finally {
      button.toggleAttribute("disabled", false);
    }
  }

  /** @param {HTMLElement} button */
  async remove(button) {
    if (button.dataset.sure !== "yes") {
      button.dataset.sure = "yes";
      button.textContent = `Remove all ${this.book.lines.length} lines for good: press again`;
      return;
    }
    button.dataset.sure = "";
    try {
      await this.book.removeAll();
      draft.keepDraft(this.book.which, null);
      if (this.book.which === "own") draft.keep(MARK, null);
      this.removed();
      this.say("Removed. The book is empty.");
    } catch (fault) {
      this.say(saidBy(fault));
    }
    this.draw();
  }
}
