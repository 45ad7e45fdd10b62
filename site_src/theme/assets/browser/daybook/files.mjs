// The book out to a file and in from one, the invented year, and taking everything away.

import * as draft from "./draft.mjs";
import { askOnce } from "./ask.mjs";
import { bookOf, localMinute } from "./book.mjs";
import { siteRoot } from "../shared/root.mjs";

const REMIND_LINES = 20; // so many lines written since the last saved file are worth a word
const MOST_BYTES = 50e6;
const MARK = "saved"; // the last line that is in a saved file

export function giveFile(text, name, type) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

// The same as Python's own export; here so that a book can be saved when the calculator cannot start.
export function asJson(entries, version) {
  const plain = entries.map(({ seq: _, ...entry }) => entry);
  return `${JSON.stringify({ schema: 1, kind: "steep-to-kiln day-book", version, saved: localMinute(), entries: plain }, null, 1)}\n`;
}

export class Files {
  constructor(section, book, { say, version }) {
    Object.assign(this, { section, book, say, version });
    this.report = section.querySelector("[data-daybook=report]");
    this.file = section.querySelector("input[type=file]");
  }

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
    const line = this.section.querySelector("[data-daybook=backup]");
    const since = mark ? `since the book was last saved as a file, ${mark.at.replace("T", " ")}` : "and the book was never saved as a file";
    const words = lines.length ? `${lines.length} lines in this book; ${unsaved} written ${since}.` : "There is nothing in this book.";
    line.textContent = which === "demo" ? `${lines.length} invented lines.` : words;
    line.toggleAttribute("data-remind", which === "own" && unsaved >= REMIND_LINES);
    const reminder = this.section.querySelector("[data-daybook=reminder]");
    reminder.hidden = which === "demo" || unsaved < REMIND_LINES;
    reminder.querySelector("span").textContent = `${unsaved} lines are on this device only.`;
    this.section.querySelector("[data-action=remove]").textContent = which === "demo" ? "Remove the demo book" : "Remove everything";
    for (const one of this.section.querySelectorAll("[data-own-only]")) one.hidden = which === "demo";
  }

  mark() {
    if (this.book.which === "own") draft.keep(MARK, { seq: this.book.lines.at(-1)?.seq ?? 0, at: localMinute() });
    this.draw();
  }

  nameOf(ending) {
    return `${this.book.which === "demo" ? "invented-" : ""}day-book-${localMinute().replaceAll(":", "")}.${ending}`;
  }

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
      this.say(`${fault.message} Save it as a file instead.`);
    }
  }

  async readFile() {
    const [file] = this.file.files;
    this.file.value = "";
    if (!file) return;
    if (file.size > MOST_BYTES) return this.say("That file is too long to be a saved day-book. Nothing was changed.");
    this.say("Reading the file …");
    try {
      const reply = await askOnce("import", this.book, { text: await file.text(), name: file.name });
      const { written } = reply.new.length ? await this.book.append(reply.new) : { written: 0 };
      this.report.innerHTML = reply.report;
      this.report.hidden = false;
      this.report.closest("details").open = true;
      this.say(`${written === 1 ? "1 line" : `${written} lines`} added. ${reply.same} were here already. ${reply.refused} refused.`);
    } catch (fault) {
      this.say(`${fault.message} Nothing was changed.`);
    }
  }

  async loadDemo(button) {
    button.disabled = true;
    try {
      const demo = bookOf("demo");
      const coming = await fetch(new URL("assets/demo-batches.json", siteRoot));
      if (!coming.ok) throw new Error("The demo year could not be fetched.");
      await demo.append((await coming.json()).entries);
      this.demoIsThere?.();
    } catch (fault) {
      this.say(fault.message);
    } finally {
      button.disabled = false;
    }
  }

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
      this.removed?.();
      this.say("Removed. The book is empty.");
    } catch (fault) {
      this.say(fault.message);
    }
    this.draw();
  }
}
