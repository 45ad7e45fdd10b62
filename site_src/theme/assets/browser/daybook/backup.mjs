// A backup by itself: the book written to a file that the reader chose once, after each line, where the browser can.
// It never writes over lines that this book does not have.

import { hold } from "../edition/edition.mjs";
import { asJson } from "./pieces.mjs";
import { button, element, part } from "../shared/element.mjs";
import { saidBy } from "../shared/fault.mjs";
import { localMinute } from "../shared/moment.mjs";

/**
 * A file on the device, with what browsers have beside the standard.
 * @typedef {FileSystemFileHandle & {
 *   queryPermission?: (wanted: { mode: "readwrite" }) => Promise<PermissionState>,
 *   requestPermission?: (wanted: { mode: "readwrite" }) => Promise<PermissionState>,
 * }} Handle
 */

/** @typedef {{ handle: Handle, lines: number, last: string, at: string, modified: number, size: number }} Kept */
/** @typedef {"" | "lapsed" | "other" | "shorter" | "failed"} Stop why nothing is written */

const KEY = "backup";
const SOON_MS = 800;
const LONG_BOOK = 3000; // lines; such a file is not written anew after every line
const LATER_MS = 20_000;
const WANTED = /** @type {const} */ ({ mode: "readwrite" });

/** @type {{ showSaveFilePicker?: (options: object) => Promise<Handle> }} */
const browser = /** @type {any} */ (window);

export class Backup {
  /** @type {Kept | null} */
  kept = null;
  /** @type {Stop} */
  stop = "";
  fault = "";
  timer = 0;
  leaving = new AbortController();

  /**
   * @param {HTMLElement} section
   * @param {import("./book.mjs").Book} book
   * @param {{ version: string, saved: (last: import("./book.mjs").Line) => void, takeFile: (file: File) => Promise<boolean>, changed: () => void }} page
   */
  constructor(section, book, { version, saved, takeFile, changed }) {
    this.section = section;
    this.book = book;
    this.version = version;
    this.saved = saved;
    this.takeFile = takeFile;
    this.changed = changed;
    this.able = Boolean(browser.showSaveFilePicker) && book.which === "own";
    document.addEventListener("visibilitychange", () => document.hidden && this.timer && this.now(), { signal: this.leaving.signal });
  }

  close() {
    this.leaving.abort();
    if (this.timer) this.now();
  }

  async begin() {
    this.kept = this.able ? await this.book.beside.get("kept", KEY) : null;
    this.stop = "";
    if (this.kept) this.soon();
    this.changed();
  }

  // Why lines are not in the backup, in words; nothing while all goes well.
  stopped() {
    const name = this.kept?.handle.name ?? "";
    const words = {
      "": "",
      lapsed: `The browser does not let this page write to ${name} any more.`,
      other: `${name} was changed by something else, so it is not written over.`,
      shorter: `${name} holds lines that this book does not have, so it is not written over.`,
      failed: `${name} could not be written (${this.fault}).`,
    };
    return words[this.stop];
  }

  draw() {
    const place = part(this.section, "[data-daybook=own-file]");
    place.hidden = this.book.which === "demo";
    const { kept, able } = this;
    if (!able) return place.replaceChildren("This browser cannot write a backup by itself. Save the book as a file often, and keep the file on another device.");
    if (!kept) {
      place.replaceChildren("A backup can be written by itself, after each line, to a file that you choose once. Give it a new name: what is in the file you choose is written over. ", this.button("Choose a file for the backup", () => this.choose()));
      return;
    }
    if (this.book.lines.length && kept.last !== this.book.lines.at(-1)?.id && !this.stop && !this.timer) this.soon();
    const last = kept.at ? `Last written ${kept.at.replace("T", " ")}, with ${kept.lines} lines.` : "Not written so far.";
    const offers = {
      "": [],
      lapsed: [this.button("Allow it again", () => this.allow())],
      other: [this.button("Read it in, then go on", () => this.readAndGoOn())],
      shorter: [this.button("Read it in, then go on", () => this.readAndGoOn())],
      failed: [this.button("Try again", () => this.now())],
    }[this.stop];
    place.replaceChildren(element("strong", this.stop ? this.stopped() : `Backup by itself to ${kept.handle.name}.`), ` ${last} `, ...offers, this.button("Stop the backup", () => this.end()));
    place.toggleAttribute("data-remind", Boolean(this.stop));
  }

  /**
   * @param {string} text
   * @param {() => unknown} work
   */
  button(text, work) {
    const made = button(text);
    made.addEventListener("click", work);
    return made;
  }

  async choose() {
    try {
      const handle = await browser.showSaveFilePicker?.({ id: "day-book", suggestedName: "day-book-backup.json", types: [{ description: "Day-book", accept: { "application/json": [".json"] } }] });
      if (!handle) return;
      this.kept = { handle, lines: 0, last: "", at: "", modified: 0, size: 0 };
      this.stop = "";
      await this.remember();
      await this.now();
    } catch (fault) {
      if (!(fault instanceof DOMException && fault.name === "AbortError")) this.failed(fault); // left without a choice
    }
  }

  async allow() {
    const answer = await this.kept?.handle.requestPermission?.(WANTED);
    if (answer === "granted") await this.now();
  }

  async end() {
    clearTimeout(this.timer);
    this.timer = 0;
    this.kept = null;
    this.stop = "";
    await this.book.beside.put("kept", [[KEY, undefined]]);
    this.changed();
  }

  async readAndGoOn() {
    const { kept } = this;
    if (!kept) return;
    try {
      const file = await kept.handle.getFile();
      if (!(await this.takeFile(file))) return; // it is none of ours, and stays as it is
      this.kept = { ...kept, lines: 0, last: "", modified: file.lastModified, size: file.size };
      await this.remember();
      await this.now();
    } catch (fault) {
      this.failed(fault);
    }
  }

  remember() {
    return this.book.beside.put("kept", [[KEY, this.kept ?? undefined]]);
  }

  soon() {
    if (this.timer || !this.kept) return;
    this.timer = setTimeout(() => this.now(), this.book.lines.length > LONG_BOOK ? LATER_MS : SOON_MS);
  }

  now() {
    clearTimeout(this.timer);
    this.timer = 0;
    const write = () => this.write().catch((fault) => this.failed(fault));
    const { locks } = navigator;
    return hold(Promise.resolve(locks ? locks.request(`${this.book.name}-backup`, write) : write())); // one tab at a time
  }

  /** @param {unknown} fault */
  failed(fault) {
    this.fault = saidBy(fault);
    this.halt("failed");
  }

  /** @param {Stop} why */
  halt(why) {
    this.stop = why;
    this.changed();
  }

  // Why the file must not be written over, if so.
  /** @param {Kept} kept @returns {Promise<Stop>} */
  async hindered(kept) {
    if (((await kept.handle.queryPermission?.(WANTED)) ?? "granted") !== "granted") return "lapsed";
    const { lines } = this.book;
    if (kept.lines && lines[kept.lines - 1]?.id !== kept.last) return "shorter";
    const file = await kept.handle.getFile().catch(() => null); // one that was moved away is made anew
    if (file && file.size && (file.size !== kept.size || file.lastModified !== kept.modified)) return "other";
    return "";
  }

  // What is kept of the backup: another tab may have written it, or stopped it.
  /** @returns {Promise<Kept | null>} */
  async agreed() {
    const { kept } = this;
    /** @type {Kept | null | undefined} */
    const found = await this.book.beside.get("kept", KEY); // null where nothing can be kept
    if (found !== undefined || this.kept !== kept) return found ?? this.kept;
    this.kept = null;
    this.changed();
    return null;
  }

  async write() {
    await this.book.read();
    const kept = await this.agreed();
    const mine = this.kept;
    const { lines } = this.book;
    const last = lines.at(-1);
    if (!mine || !kept || !last) return;
    const why = await this.hindered(kept);
    if (why) return this.halt(why);
    if (kept.last !== last.id || kept.lines !== lines.length) {
      const out = await kept.handle.createWritable();
      try {
        for await (const piece of asJson(lines, this.version)) await out.write(piece);
        await out.close(); // the file is changed here, at once, and not before
      } catch (fault) {
        await out.abort().catch(() => {});
        throw fault;
      }
      const file = await kept.handle.getFile();
      if (!(await this.agreed()) || this.kept !== mine) return; // stopped meanwhile, or it goes to another file now
      this.kept = { handle: kept.handle, lines: lines.length, last: last.id, at: localMinute(), modified: file.lastModified, size: file.size };
      await this.remember();
    } else {
      this.kept = kept;
    }
    this.stop = "";
    this.saved(last);
  }
}
