// The book shared through a folder of the server that this handbook comes from; only once the reader has switched it on.

import { askOnce } from "../ask.mjs";
import { asJson } from "../pieces.mjs";
import { button, element, part } from "../../shared/element.mjs";
import { saidBy } from "../../shared/fault.mjs";
import { saidTime } from "../../shared/moment.mjs";
import { siteRoot } from "../../shared/root.mjs";
import { Folder, Hindered } from "./folder.mjs";
import { freshDevice } from "./names.mjs";
import { turn } from "./turn.mjs";

/** @typedef {import("../book.mjs").Entry} Entry */
/** @typedef {import("./turn.mjs").Known} Known */
/** @typedef {import("./turn.mjs").Outcome} Outcome */

const FOLDER = "shared/";
const KEY = "shared";
const SOON_MS = 1000;
const AGAIN_MS = 60_000;
const PATIENCE_MS = 90_000;
const SKEW_MS = 120_000; // of a clock, worth a word
const BY_HAND = ["password", "closed", "absent", "unlisted"]; // not tried again before the reader presses
const HOW = "reference/sharing/";

/**
 * @param {number} count
 * @param {string} single
 * @param {string} many
 */
const one = (count, single, many) => (count === 1 ? single : many);
/** @param {number} count */
const lines = (count) => (count === 1 ? "1 line" : `${count} lines`);
/** @param {number} count */
const files = (count) => (count === 1 ? "1 file" : `${count} files`);

/**
 * An answer of the calculator, or a fault: a page without it must not hold up the lines that go out.
 * @param {Promise<any>} answer
 */
function inTime(answer) {
  const late = new Promise((_, fail) => setTimeout(() => fail(new Error("The calculator did not answer, so what others wrote is read in later.")), PATIENCE_MS));
  return Promise.race([answer, late]);
}

export class Share {
  /** @type {Known | null} */
  known = null; // nothing while it is switched off
  /** @type {Outcome | null} */
  last = null;
  seen = ""; // when the server was last reached
  came = 0; // lines of others, since this page was opened
  /** @type {Set<string>} */
  batches = new Set(); // that these belong to
  timer = 0;
  busy = false;
  leaving = new AbortController();
  folder = new Folder(new URL(FOLDER, siteRoot));

  /**
   * @param {HTMLElement} section
   * @param {import("../book.mjs").Book} book
   * @param {{ version: string, setAside: (name: string, refused: import("../taking.mjs").Aside[]) => Promise<unknown> }} page
   */
  constructor(section, book, { version, setAside }) {
    this.section = section;
    this.book = book;
    this.version = version;
    this.setAside = setAside;
    const { signal } = this.leaving;
    addEventListener("online", () => this.soon(0), { signal });
    document.addEventListener("visibilitychange", () => document.hidden || this.soon(0), { signal });
  }

  async begin() {
    if (this.book.which !== "own") return this.draw();
    this.known = (await this.book.beside.get("kept", KEY)) ?? null;
    this.draw();
    this.soon(0);
  }

  close() {
    this.leaving.abort();
    clearTimeout(this.timer);
  }

  remember() {
    return this.book.beside.put("kept", [[KEY, this.known ?? undefined]]);
  }

  /** @param {number} ms */
  soon(ms) {
    if (!this.known || this.leaving.signal.aborted || (this.last?.fault instanceof Hindered && BY_HAND.includes(this.last.fault.kind))) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => (document.hidden ? this.soon(AGAIN_MS) : this.now()), ms);
  }

  async now() {
    clearTimeout(this.timer);
    if (this.busy || !this.known) return;
    this.busy = true;
    this.draw();
    const { locks } = navigator;
    const go = () => this.turn();
    try {
      await (locks ? locks.request(`${this.book.name}-${KEY}`, go) : go()); // one tab at a time
    } catch (fault) {
      if (this.last) this.last.fault = fault;
    } finally {
      this.busy = false;
      this.draw();
      this.soon(AGAIN_MS);
    }
  }

  async turn() {
    /** @type {Known | null | undefined} */
    const kept = await this.book.beside.get("kept", KEY); // another tab may have been at it; null where nothing can be kept
    if (kept === undefined) this.known = null; // or has switched it off
    const known = kept ?? this.known;
    if (!this.known || !known) return;
    const outcome = await turn(this.folder, this.shelf(), known);
    if (!this.known) return; // switched off meanwhile
    this.known = known;
    this.last = outcome;
    this.came += outcome.came.length;
    for (const { batch } of outcome.came) this.batches.add(batch);
    if (!outcome.fault) this.seen = saidTime(new Date());
    await this.remember();
  }

  /** @returns {import("./turn.mjs").Shelf} */
  shelf() {
    const { book } = this;
    return {
      lines: async () => {
        await book.read();
        return book.lines;
      },
      take: (name, text) => this.take(name, text),
      asText: async (some) => {
        let text = "";
        for await (const piece of asJson([...some], this.version)) text += piece;
        return text;
      },
    };
  }

  /**
   * A file of the folder goes past Python like any other file: what is known stays, what is new is added.
   * @param {string} name
   * @param {string} text
   */
  async take(name, text) {
    await this.book.read();
    const ids = new Set(JSON.parse(text).entries.map((/** @type {any} */ entry) => String(entry?.id)));
    const entries = this.book.lines.filter(({ id }) => ids.has(id));
    const reply = await inTime(askOnce("shared", this.book, { daybook: "import", text, name, entries }));
    if (reply.whole) return null;
    if (reply.new.length) await this.book.append(reply.new);
    if (reply.aside.length) await this.setAside(name, reply.aside);
    return /** @type {Entry[]} */ (reply.new);
  }

  async turnOn() {
    this.known = { device: freshDevice(), number: 0, read: {} };
    this.last = null;
    await this.remember();
    await this.now();
  }

  async turnOff() {
    clearTimeout(this.timer);
    this.known = null;
    this.last = null;
    await this.remember();
    this.draw();
  }

  // Also called when the book has changed.
  draw() {
    const place = part(this.section, "[data-daybook=share]");
    const told = part(this.section, "[data-daybook=shared]");
    const own = this.book.which === "own";
    place.hidden = !own;
    told.hidden = !own || !this.known;
    if (!own) return;
    if (!self.isSecureContext) return place.replaceChildren("Sharing through the server needs an address that begins with https://. ", this.how());
    if (!this.known) {
      const on = this.button("Share this book through the server", () => this.turnOn());
      return place.replaceChildren("Not shared. Where the server of this handbook has a folder for it, every device that shares writes its lines there and reads the others’. ", on, " ", this.how());
    }
    if (this.waiting() && !this.busy && this.last && !this.last.fault) this.soon(SOON_MS);
    told.replaceChildren(...this.words());
    told.toggleAttribute("data-remind", Boolean(this.last?.fault));
    place.replaceChildren(`Shared through the server; in its folder this device is called ${this.known.device}. `, this.button("Look now", () => this.now()), " ", this.button("Stop sharing", () => this.turnOff()), " What is in the folder stays there. ", this.how());
  }

  waiting() {
    const there = new Set(Object.values(this.known?.read ?? {}).flat());
    return this.book.lines.filter(({ id }) => !there.has(id)).length;
  }

  words() {
    const waiting = this.waiting();
    const out = waiting ? `${lines(waiting)} of this book ${one(waiting, "waits", "wait")} here and ${one(waiting, "goes", "go")} out later.` : "Every line of this book is in the shared folder.";
    const came = this.came && `${lines(this.came)} came from other devices since this page was opened (batch ${[...this.batches].slice(0, 5).join(", ")}).`;
    const looked = this.busy ? "Looking …" : this.seen && `Last looked ${this.seen}.`;
    const more = [this.hindered(), came, ...this.oddFiles(), this.clock(), looked];
    return [element("strong", this.book.readFrom ? out : "The book has not been read so far."), ` ${more.filter(Boolean).join(" ")}`];
  }

  hindered() {
    const { fault = null } = this.last ?? {};
    if (!fault) return "";
    const byHand = fault instanceof Hindered && BY_HAND.includes(fault.kind);
    return `${saidBy(fault)} ${byHand ? "Put it right, then press “Look now” under “Save, read in, remove”." : "It is tried again every minute."}`;
  }

  oddFiles() {
    const { halves = [], odd = [] } = this.last ?? {};
    return [
      halves.length && `${files(halves.length)} in the folder ${one(halves.length, "is", "are")} not whole and ${one(halves.length, "was", "were")} not read; the device that wrote ${one(halves.length, "it", "them")} sends its lines again.`,
      odd.length && `${files(odd.length)} in the folder could not be read. A newer handbook may have written it: load this page again.`,
    ];
  }

  clock() {
    const { skew } = this.folder;
    return Math.abs(skew) > SKEW_MS && `This device’s clock is ${Math.round(Math.abs(skew) / 60_000)} min ${skew > 0 ? "ahead of" : "behind"} the server’s. Put it right: lines carry its times.`;
  }

  how() {
    return element("a", "How a house sets it up", { href: new URL(HOW, siteRoot).href });
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
}
