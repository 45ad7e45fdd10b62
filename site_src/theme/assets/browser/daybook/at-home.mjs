// The batches at work on the home page: as they were drawn last, at once; then as they stand now.

import * as engine from "../engine/engine.mjs";
import { part, parts } from "../shared/element.mjs";
import { saidTime } from "../shared/moment.mjs";
import { siteRoot } from "../shared/root.mjs";
import { ask, forget, heldBack } from "./ask.mjs";
import { bookOf } from "./book.mjs";
import { keepToday, recallToday } from "./kept-today.mjs";
import { ofLate } from "./of-late.mjs";

const AGAIN_MS = 60_000;

export class AtHome {
  /** @type {string[]} */
  needs = [];

  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    this.book = bookOf("own");
    this.place = part(section, "[data-place=today]");
    this.line = part(section, "[data-daybook=as-of]");
    this.timer = setInterval(() => document.hidden || this.ask(), AGAIN_MS);
    this.leaveBook = this.book.subscribe(() => this.ask());
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
    try {
      await this.book.read();
    } catch {
      return; // nothing is kept here
    }
    this.ask();
  }

  ask() {
    const entries = ofLate(this.book.lines);
    if (!this.section.isConnected) return;
    if (!entries.length) return this.show("", "");
    engine.start();
    ask("today", this.book, { entries, quick: true, root: siteRoot.href, page: `${siteRoot.href}records/day-book/` }, (reply) => {
      if (!this.section.isConnected) return;
      this.show(reply.places.today, "");
      keepToday(this.place);
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
