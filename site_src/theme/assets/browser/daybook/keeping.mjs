// How well the book is kept: whether one has vanished, what another tab still holds of it, what the browser promises.

import * as draft from "./draft.mjs";
import { button, element, part } from "../shared/element.mjs";
import { saidBy } from "../shared/fault.mjs";

const KNOWN = "known"; // how many lines there were, outside of the book's own store
const GONE = "gone"; // the same of a book that has vanished, until the reader has dealt with it
const PROMISES = {
  kept: "The browser has promised to keep this book until somebody removes it.",
  none: "The browser has not promised to keep this book: it may drop it when the device is short of room, or after days without a visit.",
  refused: "The browser was asked and did not promise to keep this book. It may drop it when the device is short of room: save it as a file.",
  unknown: "This browser cannot be asked to keep the book. Save it as a file.",
};

/** @typedef {{ lines: number, at: string, saved: string }} Known */

/** @param {number} count */
const lines = (count) => (count === 1 ? "1 line" : `${count} lines`);
/** @param {string} at */
const minute = (at) => at.slice(0, 16).replace("T", " ");

export class Keeping {
  /**
   * @param {HTMLElement} section
   * @param {import("./book.mjs").Book} book
   * @param {{ say: (text: string) => void, takeFile: () => void, savedIn: () => string }} page
   */
  constructor(section, book, { say, takeFile, savedIn }) {
    this.section = section;
    this.book = book;
    this.say = say;
    this.takeFile = takeFile;
    this.savedIn = savedIn;
    this.own = book.which === "own";
  }

  // Only once the book was read: nothing is known of one that does not open.
  draw() {
    this.remember();
    this.drawGone();
    this.drawLost();
  }

  remember() {
    if (!this.own || !this.book.readFrom) return;
    const { lines: there } = this.book;
    const last = there.at(-1);
    /** @type {Known | null} */
    const known = draft.recall(KNOWN);
    if (!last && known?.lines) {
      draft.keep(GONE, known);
      draft.keep(KNOWN, null);
    }
    const now = last && { lines: there.length, at: last.at || last.written, saved: this.savedIn() };
    if (now && JSON.stringify(now) !== JSON.stringify(known)) draft.keep(KNOWN, now);
    const gone = this.gone();
    if (gone && there.length >= gone.lines) draft.keep(GONE, null);
  }

  /** @returns {Known | null} */
  gone() {
    return this.own ? draft.recall(GONE) : null;
  }

  forget() {
    draft.keep(KNOWN, null);
    draft.keep(GONE, null);
  }

  drawGone() {
    const place = part(this.section, "[data-daybook=gone]");
    const gone = this.gone();
    place.hidden = !gone;
    if (!gone) return place.replaceChildren();
    const words = `There was a book of ${lines(gone.lines)} on this device, the last one of ${minute(gone.at)}. It is gone: a browser drops what it keeps when its data is cleared, or when it is short of room.`;
    const saved = gone.saved ? `It was last saved as a file on ${gone.saved}. Read that file in, and go on.` : "It was never saved as a file from this page. If there is a file on another device, read it in.";
    const read = button("Read the file in", { class: "main-button" });
    read.addEventListener("click", this.takeFile);
    const without = button("There is no file");
    without.addEventListener("click", () => {
      draft.keep(GONE, null);
      this.drawGone();
    });
    const buttons = element("div", "", { class: "sheet-buttons" });
    buttons.append(read, without);
    place.replaceChildren(element("p", words), element("p", saved), buttons);
  }

  drawLost() {
    const place = part(this.section, "[data-daybook=lost]");
    const { lost } = this.book;
    place.hidden = !lost.length;
    if (!lost.length) return place.replaceChildren();
    const back = button("Put them back", { class: "main-button" });
    back.addEventListener("click", () => this.putBack());
    const leave = button("Leave them out");
    leave.addEventListener("click", () => {
      this.book.lost = [];
      this.drawLost();
    });
    const buttons = element("div", "", { class: "sheet-buttons" });
    buttons.append(back, leave);
    place.replaceChildren(element("p", `The book on this device was deleted while this page was open. This page still holds ${lines(lost.length)} of it.`), buttons);
  }

  async putBack() {
    try {
      const { written } = await this.book.append(this.book.lost);
      this.say(`${lines(written)} put back.`);
    } catch (fault) {
      this.say(saidBy(fault));
    }
  }

  /** @param {boolean} [asked] whether the reader asked for it */
  async drawPromise(asked = false) {
    const place = part(this.section, "[data-daybook=promise]");
    const { storage } = navigator;
    const able = Boolean(storage) && "persist" in storage;
    const kept = able && ((await storage.persisted().catch(() => false)) || (asked && (await storage.persist().catch(() => false))));
    place.textContent = able ? PROMISES[kept ? "kept" : asked ? "refused" : "none"] : PROMISES.unknown;
    if (kept || !able) return;
    const ask = button("Ask it to keep the book");
    ask.addEventListener("click", () => this.drawPromise(true));
    place.append(" ", ask);
  }
}
