// Taking: codes read by the camera until all are there, or a file; then what it brings is said, and a tap takes it.

import { button, element, found, part } from "../../shared/element.mjs";
import { saidBy } from "../../shared/fault.mjs";
import { siteRoot } from "../../shared/root.mjs";
import { dayBookPage } from "../address.mjs";
import { askOnce } from "../ask.mjs";
import { bookOf } from "../book.mjs";
import { keepAside } from "../taking.mjs";
import { Camera, loadedForIt, noCamera, wasWanted } from "./code-camera.mjs";

const MOST_NAMED = 12;
const MOST_BYTES = 4e6;

/** @typedef {{ text: string, ids: string[], batches: { id: string, lines: number }[], lines: number, invented: boolean, fault?: string }} Found */

/** @param {number} count */
const lines = (count) => (count === 1 ? "1 line" : `${count} lines`);

export class CodeTaking {
  /** @type {Map<number, string>} */
  frames = new Map();
  /** @type {Set<string>} */
  met = new Set(); // every text, so that none is asked about twice
  /** @type {string[]} */
  queue = [];
  transfer = "";
  total = 0;
  busy = false;
  done = false;

  /**
   * @param {HTMLElement} section
   * @param {(text: string) => void} say
   */
  constructor(section, say) {
    this.section = section;
    this.say = say;
    this.video = found(section, "video", HTMLVideoElement);
    this.file = found(section, "input[type=file]", HTMLInputElement);
    this.progress = part(section, "[data-codes=progress]");
    this.odd = part(section, "[data-codes=odd]");
    this.brought = part(section, "[data-codes=brought]");
    this.camera = new Camera(this.video, (text) => this.saw(text), (words) => this.failed(words));
    this.file.addEventListener("change", () => this.takeFile());
    if (wasWanted()) this.start();
  }

  close() {
    this.camera.stop();
  }

  /** @param {string} words */
  failed(words) {
    this.stop();
    this.say(words);
  }

  async start() {
    const why = noCamera();
    if (why) return this.say(why);
    if (loadedForIt()) return;
    this.anew();
    this.say("");
    part(this.section, "[data-codes=taking]").hidden = false;
    if (!(await this.camera.start())) return;
    this.told();
    this.progress.scrollIntoView({ block: "end" }); // with the picture above it
  }

  stop() {
    this.camera.stop();
    part(this.section, "[data-codes=taking]").hidden = true;
  }

  anew() {
    this.frames.clear();
    this.met.clear();
    this.queue = [];
    this.transfer = "";
    this.total = 0;
    this.done = false;
    this.odd.textContent = "";
    this.brought.replaceChildren();
    this.told();
  }

  /** @param {string} text */
  saw(text) {
    if (this.done || this.met.has(text)) return;
    this.met.add(text);
    this.queue.push(text);
    this.read();
  }

  // One after the other, however quickly they come.
  async read() {
    if (this.busy) return;
    this.busy = true;
    try {
      for (let text = this.queue.shift(); text !== undefined && !this.done; text = this.queue.shift()) await this.one(text);
    } catch (fault) {
      this.say(saidBy(fault));
    } finally {
      this.busy = false;
    }
  }

  /** @param {string} text */
  async one(text) {
    const reply = await askOnce("code-seen", bookOf("own"), { entries: [], text, transfer: this.transfer });
    if (reply.is === "odd") return this.strange("That code carries no lines of a day-book: it was left.");
    if (reply.is === "other") return this.strange("That code belongs to another transfer: it was left. To read that one, press “Begin anew”.");
    this.odd.textContent = "";
    this.transfer = reply.transfer;
    this.total = reply.total;
    this.frames.set(reply.number, text);
    this.told();
    if (this.frames.size === this.total) await this.whole();
  }

  /** @param {string} words */
  strange(words) {
    this.odd.textContent = words;
  }

  told() {
    if (!this.total) {
      this.progress.textContent = "Hold the camera so that the other device’s code fills half of the picture.";
      return;
    }
    const missing = Array.from({ length: this.total }, (_, at) => at + 1).filter((number) => !this.frames.has(number));
    const named = missing.slice(0, MOST_NAMED).join(", ");
    const more = missing.length > MOST_NAMED ? ` and ${missing.length - MOST_NAMED} more` : "";
    this.progress.textContent = `${this.frames.size} of ${this.total} codes read.${missing.length ? ` Still to come: ${named}${more}.` : ""}`;
  }

  async whole() {
    /** @type {Found} */
    const reply = await askOnce("codes-whole", bookOf("own"), { entries: [], frames: [...this.frames.values()] });
    if (reply.fault) {
      this.anew();
      return this.say(reply.fault);
    }
    this.done = true;
    this.stop();
    await this.arrived(reply, "the codes");
  }

  async takeFile() {
    const file = this.file.files?.[0];
    if (!file) return;
    this.anew();
    try {
      if (file.size > MOST_BYTES) throw new Error("That file is long. Read it in on the day-book’s page, under “Save, read in, remove”.");
      const reply = await askOnce("codes-whole", bookOf("own"), { entries: [], text: await file.text() });
      if (reply.fault) this.say(reply.fault);
      else await this.arrived(reply, file.name);
    } catch (fault) {
      this.say(saidBy(fault));
    } finally {
      this.file.value = "";
    }
  }

  /**
   * What came, whole: what it brings is said, and nothing is written before a tap.
   * @param {Found} came
   * @param {string} name
   */
  async arrived(came, name) {
    const book = bookOf(came.invented ? "demo" : "own");
    await book.read();
    const ids = new Set(came.ids);
    const reply = await askOnce("import", book, { text: came.text, name, entries: book.lines.filter(({ id }) => ids.has(id)) });
    if (reply.whole) {
      this.brought.innerHTML = reply.report;
      return this.say("Nothing was taken.");
    }
    /** @type {Map<string, number>} */
    const fresh = new Map();
    for (const { batch } of reply.new) fresh.set(batch, (fresh.get(batch) ?? 0) + 1);
    const list = element("ul");
    for (const { id, lines: count } of came.batches) list.append(element("li", `${lines(count)} of batch ${id}, of which ${fresh.get(id) ?? 0} new`));
    const parts = [element("h3", "All of it has come"), list];
    if (came.invented) parts.push(element("p", "These lines are invented. They go into the demo book."));
    if (reply.aside.length) parts.push(element("p", `${lines(reply.aside.length)} cannot be taken and will be set aside, below the day-book.`));
    const buttons = element("div", "", { class: "sheet-buttons" });
    const count = reply.new.length;
    if (count || reply.aside.length) {
      const yes = button(count ? `Take ${count === 1 ? "the new line" : `the ${count} new lines`} into the book` : "Set them aside", { class: "main-button" });
      yes.addEventListener("click", () => this.take(book, reply, name, came.batches));
      buttons.append(yes);
    } else parts.push(element("p", "This book has every line of it already."), this.after(book, came.batches));
    const no = button("Leave it");
    no.addEventListener("click", () => {
      this.anew();
      this.say("Left. Nothing was changed.");
    });
    if (buttons.childElementCount) buttons.append(no);
    this.brought.replaceChildren(...parts, buttons);
    this.say("");
    this.brought.scrollIntoView({ block: "nearest" });
    buttons.querySelector("button")?.focus();
  }

  /**
   * @param {import("../book.mjs").Book} book
   * @param {{ new: import("../book.mjs").Entry[], aside: import("../taking.mjs").Aside[] }} reply
   * @param {string} name
   * @param {Found["batches"]} batches
   */
  async take(book, reply, name, batches) {
    try {
      const { written } = await book.append(reply.new);
      await keepAside(book, name, reply.aside);
      this.brought.replaceChildren(this.after(book, batches));
      this.say(`${lines(written)} taken into the ${book.which === "demo" ? "demo book" : "book"}.`);
    } catch (fault) {
      this.say(saidBy(fault));
    }
  }

  /**
   * Where one goes on from here.
   * @param {import("../book.mjs").Book} book
   * @param {Found["batches"]} batches
   */
  after({ which }, batches) {
    const line = element("p", "Now look at each batch: ");
    const over = new URL(`records/hand-over/${which === "demo" ? "?book=demo" : ""}`, siteRoot).href;
    line.append(element("a", "the hand-over", { href: over }), ". Or open ");
    for (const { id } of batches.slice(0, MOST_NAMED)) line.append(element("a", id, { href: dayBookPage({ batch: id, which }) }), " ");
    return line;
  }

  /** @returns {Record<string, () => unknown>} */
  actions() {
    return {
      "read-codes": () => this.start(),
      "read-anew": () => this.anew(),
      "stop-reading": () => this.stop(),
      "take-file": () => this.file.click(),
    };
  }
}
