// A file read into the book: part by part past Python, asked about where its letters are a guess, written all at once
// or not at all. Rows that cannot be lines are set aside, to be looked at.

import { askOnce } from "./ask.mjs";
import { breath } from "./pieces.mjs";
import { Reading } from "./reading.mjs";
import { button, element, found, part } from "../shared/element.mjs";
import { saidBy } from "../shared/fault.mjs";
import { localMinute } from "../shared/moment.mjs";

/** @typedef {import("./book.mjs").Entry} Entry */
/** @typedef {{ row: number, what: string, why: string, text: string, file: string, at: string }} Aside */
/** @typedef {{ new: number, same: number, differing: number, doubtful: number, refused: Aside[] }} Counts */

const MOST_BYTES = 50e6;
const MOST_SHOWN = 200;
const LONGEST_KEY = 1500;
const AT_A_TIME = 5000;
const AGAIN_MS = 700; // how far it is: each picture of the page takes time from the reading, and each word is read out
const TOO_DEEP = "Its lists stand too deep in one another.";

/** @param {Aside} aside */
const keyOf = ({ text, why, what }) => `${text || what}\n${why}`.slice(0, LONGEST_KEY);

/** @param {number} count */
const lines = (count) => (count === 1 ? "1 line" : `${count} lines`);

/**
 * Rows that could not be lines, beside the book.
 * @param {import("./book.mjs").Book} book
 * @param {string} name
 * @param {Aside[]} refused
 */
export async function keepAside(book, name, refused) {
  const at = localMinute();
  await book.beside.put("aside", refused.map((one) => [keyOf(one), { ...one, file: name, at }]));
}

export class Taking {
  busy = false;
  told = -Infinity; // when it was last said how far it is

  /**
   * @param {HTMLElement} section
   * @param {import("./book.mjs").Book} book
   * @param {(text: string) => void} say
   */
  constructor(section, book, say) {
    this.book = book;
    this.say = say;
    this.report = part(section, "[data-daybook=report]");
    this.asking = part(section, "[data-daybook=first-lines]");
    this.bar = found(section, "[data-daybook=progress]", HTMLProgressElement);
    this.more = found(section, "details.day-book-files", HTMLDetailsElement);
  }

  /**
   * Null when nothing could be read; `whole` when every line of the book is in the file, so that it is saved by it.
   * @param {File} file
   */
  async take(file) {
    if (this.busy) return null;
    if (file.size > MOST_BYTES) {
      this.say("That file is too long to be a saved day-book. Nothing was changed.");
      return null;
    }
    this.busy = true;
    this.say("Reading the file …");
    const reading = new Reading();
    try {
      return await this.taken(file, reading);
    } catch (fault) {
      this.say(`${saidBy(fault)} Nothing was changed.`);
      return null;
    } finally {
      this.busy = false;
      reading.close();
      this.bar.hidden = true;
    }
  }

  /**
   * @param {File} file
   * @param {Reading} reading
   */
  async taken(file, reading) {
    const { rows, letters, lines: first } = await reading.open(file);
    if (letters && !(await this.agreed(file.name, letters, first))) {
      this.say("Left as it was. Nothing was changed.");
      return null;
    }
    const known = await this.known();
    /** @type {Set<string>} */
    const fresh = new Set(); // ids of what is to be written, which the reader holds
    /** @type {Counts} */
    const counts = { new: 0, same: 0, differing: 0, doubtful: 0, refused: [] };
    const before = async (/** @type {string[]} */ ids) => {
      const held = ids.filter((id) => fresh.has(id));
      return [...ids.flatMap((id) => known.get(id) ?? []), ...(held.length ? await reading.recall(held) : [])];
    };
    let checked = "[]"; // lines, as one text: the page hands them on, and is spared reading them
    for (let some = await reading.next(checked); some; some = await reading.next(checked)) {
      this.progress("Read", some.first, rows);
      const request = { text: some.text, first: some.first, name: file.name, apart: true };
      let reply = await askOnce("import", this.book, { ...request, entries: await before(some.ids) });
      if (reply.whole) return this.refused(reply.report);
      // A table's rows may get their ids only there.
      const again = await before(reply.ids);
      if (again.length) reply = await askOnce("import", this.book, { ...request, entries: again });
      checked = reply.lines;
      for (const id of reply.ids) fresh.add(id);
      counts.same += reply.same;
      counts.doubtful += reply.doubtful;
      counts.differing += reply.differing;
      const deep = new Map(some.deep.map(({ row, text }) => [row, text]));
      for (const one of reply.aside) counts.refused.push({ ...one, ...(deep.has(one.row) && { why: TOO_DEEP, text: deep.get(one.row) }) });
    }
    counts.new = fresh.size;
    return this.written(file.name, reading, counts);
  }

  // The lines of the book by their ids; of a long one not all at once, or the page would stand still.
  async known() {
    /** @type {Map<string, Entry>} */
    const known = new Map();
    const there = this.book.lines;
    for (let from = 0; from < there.length; from += AT_A_TIME) {
      for (const line of there.slice(from, from + AT_A_TIME)) known.set(line.id, line);
      await breath();
    }
    return known;
  }

  /**
   * @param {string} name
   * @param {Reading} reading
   * @param {Counts} counts
   */
  async written(name, reading, counts) {
    const all = counts.new;
    if (all) {
      this.progress("Read", all, all);
      const write = (/** @type {string} */ store) => reading.write(store, (at) => this.progress("Written", at, all));
      const done = await this.book.grow(write, () => this.say(`${lines(all)} written. Now the page reads them …`));
      counts.new = done.written;
      counts.same += done.same; // another tab was faster
    }
    const { refused } = counts;
    await this.setAside(name, refused);
    const { report } = await askOnce("report", this.book, { entries: [], name, counts: { ...counts, refused: refused.slice(0, MOST_SHOWN).map(({ row, what, why }) => ({ row, what, why })), most: refused.length } });
    this.show(report);
    this.say(`${lines(counts.new)} added. ${counts.same} were here already. ${refused.length} refused${refused.length ? " and set aside" : ""}.`);
    return { whole: counts.new + counts.same >= this.book.lines.length };
  }

  /** @param {string} report */
  refused(report) {
    this.show(report);
    this.say(`0 lines added. ${this.report.textContent}`);
    return null;
  }

  /** @param {string} report */
  show(report) {
    this.report.innerHTML = report;
    this.report.hidden = false;
    this.more.open = true;
  }

  /**
   * @param {string} word
   * @param {number} done
   * @param {number} all
   */
  progress(word, done, all) {
    const now = performance.now();
    if (done && done < all && now - this.told < AGAIN_MS) return;
    this.told = now;
    this.bar.hidden = all <= done;
    this.bar.max = Math.max(all, 1);
    this.bar.value = done;
    if (done) this.say(`${word} ${done} of ${all} lines …`);
  }

  /**
   * @param {string} name
   * @param {Aside[]} refused
   */
  setAside(name, refused) {
    return keepAside(this.book, name, refused);
  }

  /**
   * The first lines, with those whose letters are in doubt; nothing is taken before the reader has seen them.
   * @param {string} name
   * @param {string} letters
   * @param {string[]} first
   * @returns {Promise<boolean>}
   */
  agreed(name, letters, first) {
    this.say("Look at the first lines below before this file is taken.");
    this.more.open = true;
    const yes = button("The letters are right: take it", { class: "main-button" });
    const no = button("Leave it");
    const buttons = element("div", "", { class: "sheet-buttons" });
    buttons.append(yes, no);
    const words = element("p", `${name} does not say how its letters are written. Read as ${letters}, as older spreadsheets save them, it begins like this. A line is never changed once it is in the book: are the letters right?`);
    this.asking.replaceChildren(words, element("pre", first.join("\n"), { tabindex: "0" }), element("p", "If not, save the table again as “CSV UTF-8” and read that in.", { class: "remark" }), buttons);
    this.asking.hidden = false;
    this.asking.scrollIntoView({ block: "nearest" });
    yes.focus();
    return new Promise((done) => {
      const answered = (/** @type {boolean} */ right) => {
        this.asking.hidden = true;
        this.asking.replaceChildren();
        done(right);
      };
      yes.addEventListener("click", () => answered(true));
      no.addEventListener("click", () => answered(false));
    });
  }
}
