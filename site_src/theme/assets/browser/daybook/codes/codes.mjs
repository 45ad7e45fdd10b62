// From one device to another by codes on the screen, a file, or a few typed signs: the page for both sides.

import * as edition from "../../edition/edition.mjs";
import * as engine from "../../engine/engine.mjs";
import { tellStep, tellsStep } from "../../engine/told.mjs";
import { around, part, parts } from "../../shared/element.mjs";
import { saidBy } from "../../shared/fault.mjs";
import { named } from "../address.mjs";
import { forget } from "../ask.mjs";
import { bookOf } from "../book.mjs";
import { Giving } from "./code-give.mjs";
import { CodeTaking } from "./code-take.mjs";
import { CodeTyped } from "./code-typed.mjs";

export class Codes {
  carriedAs = "codes";
  needs = ["qrcodegen"];

  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    const { batch, which } = named();
    this.book = bookOf(which);
    const say = (/** @type {string} */ text) => this.say(text);
    part(section, "[data-daybook=whole]").hidden = false;
    for (const one of parts(section, "[data-demo-only]")) one.hidden = which !== "demo";
    this.giving = new Giving(section, this.book, { batch, say });
    this.taking = new CodeTaking(section, say);
    this.short = new CodeTyped(section, this.book, say);
    section.addEventListener("click", (event) => this.pressed(around(event.target, "button[data-action]")));
    this.leaveBook = this.book.subscribe(() => this.giving.draw());
    this.leaveEngine = engine.subscribe((state) => this.follow(state));
    this.takeUp();
    this.giving.draw();
    this.read();
  }

  async read() {
    try {
      await this.book.read();
      this.giving.draw();
      engine.start(this.needs); // whoever opens this page means to show or to read
    } catch (fault) {
      this.say(saidBy(fault));
    }
  }

  close() {
    this.leaveBook();
    this.leaveEngine();
    this.giving.close();
    this.taking.close();
    forget();
  }

  typed() {
    const code = this.short.box.value;
    return code.trim() ? { words: { code } } : null;
  }

  takeUp() {
    const carried = edition.carriedFor(this.carriedAs);
    if (!carried?.words?.code) return;
    this.short.box.value = carried.words.code;
    edition.placed(this.carriedAs);
  }

  /** @param {string} text */
  say(text) {
    part(this.section, "[data-daybook=state]").textContent = text;
  }

  /** @param {HTMLElement | null} pressed */
  pressed(pressed) {
    if (!pressed) return;
    /** @type {Record<string, () => unknown>} */
    const actions = { ...this.giving.actions(), ...this.taking.actions(), ...this.short.actions() };
    actions[pressed.dataset.action ?? ""]?.();
  }

  /** @param {engine.State} state */
  follow(state) {
    const { phase, failure, wait } = state;
    const place = part(this.section, "[data-daybook=state]");
    if (phase === "starting" && (wait || tellsStep(place))) tellStep(place, state);
    if (phase === "ready" && tellsStep(place)) this.say("");
    if (phase === "failed") this.say(`The calculator could not start (${failure}), so no codes can be made or read here. Save the batch as a file in the day-book.`);
  }
}

export const openCodes = () => parts(document, "section[data-day-book=codes]").map((section) => new Codes(section));
