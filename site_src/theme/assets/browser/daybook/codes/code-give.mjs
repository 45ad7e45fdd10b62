// Giving: the lines of a batch, or of all at work, as codes shown one after the other, as a file, and as short codes.

import * as engine from "../../engine/engine.mjs";
import { element, found, part } from "../../shared/element.mjs";
import { saidBy } from "../../shared/fault.mjs";
import { giveFile } from "../../shared/file.mjs";
import { localMinute } from "../../shared/moment.mjs";
import { askOnce, heldBack } from "../ask.mjs";
import { ofLate } from "../of-late.mjs";

const MOST_BATCHES = 60;
const PACES = [3000, 1500, 1000, 600, 400]; // never more than three changes a second: quicker flicker can harm people
const PACE = 2;
const TURNS = 8; // a code looks otherwise in each round: what a camera cannot read once, it reads later

/** @typedef {{ batch: string, code: string, says: string[] }} Short */
/** @typedef {{ fault?: string, frames: string[], long: boolean, batches: { id: string, state: string, lines: number }[], lines: number, short: Short[], text: string }} Reply */

export class Giving {
  /** @type {string[]} */
  frames = [];
  /** @type {Map<string, string>} */
  drawn = new Map(); // by place and turn
  at = 0;
  round = 1;
  pace = PACE;
  timer = 0;
  key = {};
  show = 0; // another showing, another number

  /**
   * @param {HTMLElement} section
   * @param {import("../book.mjs").Book} book
   * @param {{ batch: string, say: (text: string) => void }} page
   */
  constructor(section, book, { batch, say }) {
    this.section = section;
    this.book = book;
    this.batch = batch;
    this.say = say;
    this.choice = found(section, "#give-what", HTMLSelectElement);
    this.screen = part(section, "[data-codes=screen]");
    this.place = part(section, "[data-codes=place]");
    this.choice.addEventListener("change", () => this.stop());
  }

  close() {
    clearTimeout(this.timer);
    engine.forget(this.key);
    this.show += 1;
  }

  draw() {
    const names = [...new Set(this.book.lines.map((line) => line.batch).reverse())].slice(0, MOST_BATCHES);
    if (this.batch && !names.includes(this.batch)) names.unshift(this.batch);
    const chosen = this.choice.options.length ? this.choice.value : this.batch;
    const all = element("option", "All batches at work", { value: "" });
    this.choice.replaceChildren(all, ...names.map((name) => element("option", `Batch ${name}`, { value: name })));
    this.choice.value = chosen;
  }

  /** @returns {Promise<Reply | null>} */
  async asked() {
    const batch = this.choice.value;
    const entries = batch ? this.book.lines.filter((line) => line.batch === batch) : ofLate(this.book.lines);
    if (!entries.length) {
      this.say("There is nothing in this book to give.");
      return null;
    }
    try {
      this.say("The codes are being made …");
      /** @type {Reply} */
      const reply = await askOnce("codes-give", this.book, { batch, entries, short: !(await heldBack) });
      this.say(reply.fault ?? "");
      return reply.fault ? null : reply;
    } catch (fault) {
      this.say(saidBy(fault));
      return null;
    }
  }

  async start() {
    this.stop();
    const mine = this.show;
    const reply = await this.asked();
    if (!reply || mine !== this.show) return;
    if (reply.long) return this.say(`${reply.lines} lines are too many for codes. Save them as a file, and take the file on the other device.`);
    const words = reply.batches.map(({ id, state, lines }) => `${id} (${state}, ${lines === 1 ? "1 line" : `${lines} lines`})`);
    part(this.section, "[data-codes=goes]").textContent = `Goes out: ${words.join("; ")}.`;
    this.frames = reply.frames;
    this.drawn.clear();
    this.at = 0;
    this.round = 1;
    part(this.section, "[data-codes=showing]").hidden = false;
    await this.draws(0);
    if (matchMedia("(prefers-reduced-motion: reduce)").matches) this.pause("They stand still, since this device asks for less motion: tap “Next code” when the other device has read one, or “Go on”.");
    else this.goOn();
    this.screen.scrollIntoView({ block: "nearest" });
  }

  /** @param {number} at */
  async draws(at) {
    const mine = this.show;
    const turn = this.round % TURNS;
    const svg = this.drawn.get(`${at} ${turn}`) ?? (await this.svgOf(this.frames[at], turn));
    if (mine !== this.show) return false;
    this.drawn.set(`${at} ${turn}`, svg);
    this.at = at;
    this.screen.innerHTML = svg;
    this.fit();
    this.screen.dataset.number = String(at + 1);
    this.place.textContent = `Code ${at + 1} of ${this.frames.length}, round ${this.round}.`;
    return true;
  }

  // Each module as many whole dots of the screen as there is room for: uneven ones are read badly.
  fit() {
    const svg = this.screen.querySelector("svg");
    const modules = svg?.viewBox.baseVal.width ?? 0;
    if (!svg || !modules) return;
    const dots = Math.max(1, Math.floor((this.screen.clientWidth * devicePixelRatio) / modules));
    svg.style.width = `${(dots * modules) / devicePixelRatio}px`;
  }

  /**
   * @param {string} text
   * @param {number} turn
   * @returns {Promise<string>}
   */
  svgOf(text, turn) {
    return new Promise((done, fail) => {
      engine.ask(this.key, { needs: ["qrcodegen"], body: () => ({ code: text, frame: turn || TURNS }), onReply: (reply) => done(reply.code), onTrouble: (_kind, why) => fail(new Error(why)) });
    });
  }

  async next() {
    const at = (this.at + 1) % this.frames.length;
    if (!at) this.round += 1;
    try {
      return await this.draws(at);
    } catch (fault) {
      this.say(saidBy(fault));
      return false;
    }
  }

  goOn() {
    part(this.section, "[data-action=pause-codes]").textContent = "Stand still";
    clearTimeout(this.timer);
    const step = async () => {
      const mine = this.timer;
      if (await this.next() && mine === this.timer) this.timer = setTimeout(step, PACES[this.pace]);
    };
    this.timer = setTimeout(step, PACES[this.pace]);
    this.says(`A new code every ${PACES[this.pace] / 1000} s, over and over.`);
  }

  /** @param {string} words */
  pause(words) {
    clearTimeout(this.timer);
    this.timer = 0;
    part(this.section, "[data-action=pause-codes]").textContent = "Go on";
    this.says(words);
  }

  /** @param {string} words */
  says(words) {
    part(this.section, "[data-codes=pace]").textContent = words;
  }

  stop() {
    this.close();
    this.timer = 0;
    part(this.section, "[data-codes=showing]").hidden = true;
    this.screen.replaceChildren();
    this.frames = [];
  }

  /** @param {number} by */
  quicker(by) {
    this.pace = Math.min(PACES.length - 1, Math.max(0, this.pace + by));
    this.goOn();
  }

  async save() {
    const reply = await this.asked();
    if (!reply) return;
    const what = this.choice.value ? `batch-${this.choice.value.replace(/[^0-9A-Za-z-]+/g, "-")}` : "hand-over";
    giveFile([reply.text], `${this.book.which === "demo" ? "invented-" : ""}${what}-${localMinute().replaceAll(":", "")}.json`, "application/json");
    this.say("Saved as a file. Bring it to the other device, open this page there, and press “Take a file”.");
  }

  async shortCodes() {
    const reply = await this.asked();
    const place = part(this.section, "[data-codes=short]");
    place.replaceChildren();
    for (const { batch, code, says } of reply?.short ?? []) {
      const groups = element("p", code, { class: "short-code", "data-short": batch });
      place.append(element("h3", batch), groups, ...says.map((words) => element("p", words)));
    }
    if (reply && !reply.short.length) this.say("Only a batch at work has a short code.");
  }

  /** @returns {Record<string, () => unknown>} */
  actions() {
    return {
      "show-codes": () => this.start(),
      "pause-codes": () => (this.timer ? this.pause("They stand still.") : this.goOn()),
      "next-code": () => {
        this.pause("They stand still.");
        return this.next();
      },
      "slower-codes": () => this.quicker(-1),
      "quicker-codes": () => this.quicker(1),
      "stop-codes": () => this.stop(),
      "save-codes": () => this.save(),
      "short-codes": () => this.shortCodes(),
    };
  }
}

