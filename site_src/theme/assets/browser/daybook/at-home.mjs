// The batches at work on the home page: as they were drawn last, at once; then as they stand now. Of the book only what may
// be at work is read. Where this device has nothing at work, invented batches that run are shown, and say so.

import * as engine from "../engine/engine.mjs";
import { part, parts } from "../shared/element.mjs";
import { saidTime } from "../shared/moment.mjs";
import { siteRoot } from "../shared/root.mjs";
import { handOverPage } from "./address.mjs";
import { ask, forget, heldBack } from "./ask.mjs";
import { bookOf } from "./book.mjs";
import { keepToday, recallToday } from "./kept-today.mjs";
import { ofLate } from "./of-late.mjs";
import { LIVE_MS } from "./running-demo.mjs";
import { sumsOf } from "./sums.mjs";
import { isThere } from "./there.mjs";

const AGAIN_MS = 60_000;

export class AtHome {
  /** @type {string[]} */
  needs = [];
  turn = 0; // only the last look counts

  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    this.place = part(section, "[data-place=today]");
    this.line = part(section, "[data-daybook=as-of]");
    this.timer = setInterval(() => document.hidden || this.ask(), AGAIN_MS);
    this.leaveBook = bookOf("own").subscribe(() => this.ask());
    this.open();
  }

  close() {
    clearInterval(this.timer);
    this.leaveBook();
    forget();
  }

  async open() {
    const kept = (await heldBack) ? null : recallToday();
    if (kept) this.show(kept.html, `As it stood ${saidTime(kept.at)}; it is being looked at again.`);
    this.ask();
  }

  /** @param {"own" | "demo"} which */
  async entries(which) {
    const book = bookOf(which);
    if (!(await isThere(which))) return [];
    const some = book.readFrom ? null : await sumsOf(book).atWork();
    if (some) return ofLate(some);
    await book.read();
    return ofLate(book.lines);
  }

  async found() {
    const own = await this.entries("own");
    if (own.length) return { which: /** @type {const} */ ("own"), entries: own };
    const demo = await this.entries("demo");
    const runs = demo.some(({ written }) => Date.now() - Date.parse(written) < LIVE_MS);
    return { which: /** @type {const} */ ("demo"), entries: runs ? demo : [] };
  }

  async ask() {
    const mine = (this.turn += 1);
    const found = await this.found().catch(() => null); // nothing is kept here
    if (!found || mine !== this.turn || !this.section.isConnected) return;
    const { which, entries } = found;
    if (!entries.length) return this.show("", "");
    part(this.section, "[data-daybook=over]").setAttribute("href", handOverPage(which));
    engine.start();
    ask("today", bookOf(which), { entries, quick: true, root: siteRoot.href, page: `${siteRoot.href}records/day-book/` }, (reply) => {
      if (!this.section.isConnected) return;
      this.show(reply.places.today, "");
      if (which === "own") keepToday(this.place);
    });
  }

  /**
   * @param {string} html
   * @param {string} words
   */
  show(html, words) {
    this.section.hidden = !html;
    this.line.textContent = words;
    this.line.hidden = !words;
    if (this.place.innerHTML !== html) this.place.innerHTML = html;
  }
}

export const openAtHome = () => parts(document, "section[data-day-book=today]").map((section) => new AtHome(section));
