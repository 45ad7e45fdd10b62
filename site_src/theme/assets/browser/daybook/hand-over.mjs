// The hand-over: the batches at work as they stand, a look at each, and the lines that say it was taken over.

import * as engine from "../engine/engine.mjs";
import { tellStep, tellsStep } from "../engine/told.mjs";
import { around, found, part, parts } from "../shared/element.mjs";
import { saidBy } from "../shared/fault.mjs";
import { printAs } from "../shared/printing.mjs";
import { codesPage, dayBookPage, named } from "./address.mjs";
import { ask, forget, heldBack } from "./ask.mjs";
import { bookOf, newEntry } from "./book.mjs";
import * as draft from "./draft.mjs";
import { ofLate } from "./of-late.mjs";

const AGAIN_MS = 60_000;

/** @typedef {{ places: Record<string, string>, batches: string[], unseen: string[] }} Reply */

export class HandOver {
  /** @type {string[]} */
  needs = [];
  /** @type {string[]} */
  batches = [];
  /** @type {string[]} */
  unseen = [];
  busy = false;

  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    this.book = bookOf(named().which);
    const demo = this.book.which === "demo";
    part(section, "[data-daybook=whole]").hidden = false;
    this.part("by-codes").setAttribute("href", codesPage({ batch: "", which: this.book.which }));
    for (const one of parts(section, "[data-demo-only]")) one.hidden = !demo;
    for (const one of parts(section, "[data-own-only]")) one.hidden = demo;
    this.leaveEngine = engine.subscribe((state) => this.follow(state));
    this.leaveBook = this.book.subscribe(() => this.ask());
    this.timer = setInterval(() => document.hidden || this.ask(), AGAIN_MS);
    section.addEventListener("click", (event) => void this.pressed(around(event.target, "button[data-action]")));
    this.field("handed-by").value = draft.recall("who") ?? "";
    this.read();
  }

  close() {
    clearInterval(this.timer);
    this.leaveEngine();
    this.leaveBook();
    forget();
  }

  /** @param {string} name */
  part(name) {
    return part(this.section, `[data-daybook="${name}"]`);
  }

  /** @param {string} id */
  field(id) {
    return found(this.section, `#${id}`, HTMLInputElement);
  }

  /** @param {string} text */
  say(text) {
    this.part("state").textContent = text;
  }

  async read() {
    const why = await heldBack;
    if (why) return this.say(why);
    try {
      await this.book.read();
    } catch (fault) {
      this.say(saidBy(fault));
      return;
    }
    engine.start();
    this.ask();
  }

  ask() {
    if (!this.section.isConnected) return;
    const still = () => this.section.isConnected;
    const entries = ofLate(this.book.lines);
    ask("hand-over", this.book, { entries, page: dayBookPage({ batch: "", which: this.book.which }).split("?")[0] }, (reply) => still() && this.put(reply), (text) => still() && this.say(text));
  }

  /** @param {Reply} reply */
  put(reply) {
    for (const [name, html] of Object.entries(reply.places)) {
      const place = part(this.section, `[data-place="${name}"]`);
      if (place.innerHTML !== html) place.innerHTML = html;
    }
    this.batches = reply.batches;
    this.unseen = reply.unseen;
    this.part("signing").hidden = !reply.batches.length;
    this.part("unseen").textContent = this.unseen.length ? `Not looked at so far: ${this.unseen.join(", ")}.` : "Each batch was looked at.";
  }

  /** @param {HTMLElement | null} pressed */
  async pressed(pressed) {
    if (!pressed || this.busy) return;
    const batch = around(pressed, "[data-handed]")?.dataset.handed ?? "";
    /** @type {Record<string, () => unknown>} */
    const actions = {
      "as-written": () => this.looked(batch, "yes"),
      otherwise: async () => {
        if (await this.looked(batch, "no")) location.assign(`${dayBookPage({ batch, which: this.book.which })}#what-now`);
      },
      "hand-over": () => this.handOver(),
      "print-hand-over": () => printAs("prints-hand-over"),
    };
    this.busy = true;
    try {
      await actions[pressed.dataset.action ?? ""]?.();
    } finally {
      this.busy = false;
    }
  }

  /**
   * @param {import("./book.mjs").Entry[]} entries
   * @param {string} words
   */
  async write(entries, words) {
    try {
      await this.book.append(entries);
      this.say(words);
      return true;
    } catch (fault) {
      this.say(saidBy(fault));
      return false;
    }
  }

  /**
   * @param {string} batch
   * @param {"yes" | "no"} how
   */
  looked(batch, how) {
    const who = this.field("taken-by").value;
    return this.write([newEntry({ batch, kind: "looked", values: { as_written: how }, who })], `Written: ${batch} was looked at.`);
  }

  async handOver() {
    if (this.unseen.length) return this.say(`Look at each batch first. Not looked at so far: ${this.unseen.join(", ")}.`);
    const [by, to, remark] = ["handed-by", "taken-by", "handed-remark"].map((id) => this.field(id).value.trim());
    if (!by || !to) {
      this.say("Write who hands over and who takes over first.");
      return this.field(by ? "taken-by" : "handed-by").focus();
    }
    const lines = this.batches.map((batch) => newEntry({ batch, kind: "handed-over", values: { to_whom: to, said_back: "yes" }, who: by, remark }));
    if (!(await this.write(lines, `Written: handed over to ${to}, said back.`))) return;
    draft.keep("who", to);
    this.field("handed-remark").value = "";
  }

  /** @param {engine.State} state */
  follow(state) {
    const { phase, failure } = state;
    if (phase === "starting") tellStep(this.part("state"), state);
    if (phase === "ready" && tellsStep(this.part("state"))) this.say("");
    if (phase === "failed") this.say(`The calculator could not start (${failure}), so the hand-over cannot be made here. The order in which it is said stands on the page of the procedure.`);
  }
}

export const openHandOver = () => parts(document, "section[data-day-book=hand-over]").map((section) => new HandOver(section));
