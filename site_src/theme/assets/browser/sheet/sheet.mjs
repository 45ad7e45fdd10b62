// One sheet of a page: what is typed goes to the engine, what comes back goes to its place.

import * as engine from "../engine/engine.mjs";
import * as form from "./form.mjs";
import * as lent from "./lent.mjs";
import * as link from "./link.mjs";
import * as memory from "./memory.mjs";
import * as table from "./table.mjs";
import * as tally from "../shared/tally.mjs";
import { afterPress } from "../shared/press.mjs";
import { around, button, found, part, parts } from "../shared/element.mjs";
import { clocksAround } from "../shared/clocks.mjs";
import { localMinute, typedMinute } from "../shared/moment.mjs";
import { mayCome } from "../shared/theme.mjs";
import { printCard } from "../paper/card.mjs";
import { Filling } from "./filling.mjs";
import { handOut } from "./hand-out.mjs";
import { Lending } from "./lending.mjs";
import { offerMore } from "../engine/more.mjs";
import { Results } from "./results.mjs";
import { relativeRoot } from "../shared/root.mjs";
import { Status } from "./status.mjs";

const TYPING_MS = 60; // from the last key to the request
const PAUSE_MS = 600; // from the last key to a message that something is wrong
const PATIENCE_MS = 300; // without a reply for this long, the answer in view is an earlier one
const STOP_MS = 400; // of work, before the way to stop it is shown

/**
 * What Python says to the questions of a sheet.
 * @typedef {object} Reply
 * @property {"answered" | "refused" | "incomplete" | "wrong"} state
 * @property {import("./form.mjs").Fault[]} errors
 * @property {Record<string, string>} places HTML, by place
 * @property {string} status
 * @property {Record<string, string>} [gives] to other sheets, by question
 */

export class Sheet {
  /** @type {Reply | null} */
  pending = null; // errors that wait for a pause in the typing
  /** @type {string[]} */
  asExample = []; // what of the case in hand is the worked case's
  lastKey = 0;
  showNow = false; // what is wrong is said without waiting for a pause
  jump = false; // and the focus goes there
  toldWait = false;
  askTimer = 0;
  pauseTimer = 0;
  patienceTimer = 0;
  stopTimer = 0;

  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    this.carriedAs = `sheet ${section.id}`;
    this.form = found(section, ".sheet-form", HTMLFormElement);
    this.sheet = section.dataset.sheet;
    this.needs = (section.dataset.needs || "").split(/[\s,]+/).filter(Boolean);
    this.results = new Results(section);
    this.status = new Status(section);
    this.lending = new Lending(this);
    this.filling = new Filling(this);
    this.listen();
    this.leaveEngine = engine.subscribe((state) => this.follow(state), this.sheet);
    this.filling.atFirst();
  }

  listen() {
    this.form.addEventListener("input", (event) => this.edited(event.target));
    this.form.addEventListener("focusin", () => engine.start(this.needs, this.sheet));
    this.form.addEventListener("focusout", (event) => this.left(event));
    this.form.addEventListener("submit", (event) => this.submitted(event));
    this.form.addEventListener("paste", (event) => this.pasted(event));
    this.form.addEventListener("keydown", (event) => this.keyed(event));
    this.section.addEventListener("click", (event) => this.pressed(around(event.target, "button[data-action]")));
    for (const paper of parts(this.section, "a[data-action=paper]")) {
      if (!(paper instanceof HTMLAnchorElement)) continue;
      const carry = () => (paper.href = link.toPaper(this.section, paper.pathname));
      for (const name of ["pointerdown", "click"]) paper.addEventListener(name, carry);
    }
  }

  close() {
    this.lending.commit();
    this.leaveEngine();
    this.status.foot.leave();
    engine.forget(this);
    clearTimeout(this.askTimer);
    clearTimeout(this.pauseTimer);
    clearTimeout(this.patienceTimer);
  }

  typed() {
    return this.filling.typed();
  }

  /** @param {EventTarget | null} target */
  edited(target) {
    const field = around(target, "[data-question]");
    field?.removeAttribute("data-from-example");
    this.lending.edited(field);
    const row = around(target, "[data-row]");
    form.clearErrors(field ?? this.form);
    if (row) row.querySelectorAll("[aria-invalid]").forEach((box) => box.removeAttribute("aria-invalid"));
    this.status.remark("");
    link.leave();
    this.changed();
  }

  changed() {
    this.lastKey = performance.now();
    this.pending = null;
    this.showNow = false;
    this.jump = false;
    this.waits(true);
    clearTimeout(this.askTimer);
    this.askTimer = setTimeout(() => this.ask(), TYPING_MS);
    clearTimeout(this.patienceTimer);
    this.patienceTimer = setTimeout(() => this.results.lapse(), TYPING_MS + PATIENCE_MS);
    if (form.untouched(this.section)) memory.forget(this.section);
    else this.filling.remember();
  }

  ask() {
    clearTimeout(this.askTimer);
    this.askTimer = 0;
    this.waits(true);
    this.offerAgain(false);
    engine.ask(this, {
      needs: this.needs,
      sheet: this.sheet,
      body: () => ({
        sheet: this.sheet,
        prefix: this.section.id,
        root: relativeRoot(),
        questions: form.read(this.section),
        from_example: (this.asExample = form.fromExample(this.section)),
        unchanged: form.holdsExample(this.section),
        lent: lent.sources(this.section),
        date: localMinute(),
        clocks: clocksAround(),
      }),
      onReply: (/** @type {Reply} */ reply) => this.replied(reply),
      onTrouble: (kind, text) => this.troubled(kind, text),
    });
  }

  /**
   * Whether what stands in the form still waits for its reply.
   * @param {boolean} yes
   */
  waits(yes) {
    this.results.box.toggleAttribute("data-waiting", yes);
    if (!yes) mayCome();
  }

  /** @param {Reply} reply */
  replied(reply) {
    if (!this.section.isConnected || this.askTimer) return; // the numbers have changed again
    clearTimeout(this.patienceTimer);
    this.waits(false);
    this.lending.replied(reply);
    if (reply.state === "answered" || reply.state === "refused") this.answered(reply);
    else this.notAnswered(reply);
  }

  /** @param {Reply} reply */
  answered(reply) {
    form.clearErrors(this.form);
    this.pending = null;
    this.showNow = false;
    this.jump = false;
    this.results.answer(reply.state, reply.places, this.asExample.length > 0);
    const said = reply.status || this.results.headline();
    this.status.say(said, { answer: true });
    performance.clearMarks("sheet-answered"); // only the last one is kept, however long one types
    performance.mark("sheet-answered");
  }

  /**
   * Nothing is called wrong or old in the middle of a number: only after a pause, or on leaving the field.
   * @param {Reply} reply
   */
  notAnswered(reply) {
    this.pending = reply;
    if (this.results.guarded) this.results.lapse();
    clearTimeout(this.pauseTimer);
    const rest = this.lastKey + PAUSE_MS - performance.now();
    if (this.showNow || rest <= 0) this.showPending();
    else this.pauseTimer = setTimeout(() => this.showPending(), rest);
  }

  showPending() {
    clearTimeout(this.pauseTimer);
    const reply = this.pending;
    if (!reply) return;
    this.pending = null;
    this.showNow = false;
    this.results.lapse();
    const fresh = form.showErrors(this.section, reply.errors);
    const wrong = reply.errors.length;
    const line = reply.status || (wrong ? `${wrong === 1 ? "One thing" : `${wrong} things`} to put right above.` : "");
    this.status.say(line, { aloud: [...fresh, line].join(" ") });
    if (this.jump) form.focusFirstError(this.section);
    this.jump = false;
  }

  /**
   * @param {import("../engine/engine.mjs").Trouble} kind
   * @param {string} text
   */
  troubled(kind, text) {
    if (!this.section.isConnected) return;
    this.waits(false);
    this.results.lapse();
    const limit = engine.LIMIT_SECONDS;
    const words = {
      hang: `Stopped: there was no answer within ${limit} seconds, which is the limit. What you typed is kept. The calculator starts again; change a number to try once more.`,
      stopped: "Stopped. What you typed is kept.",
      fault: `The calculator met a fault and gave no answer (${text}). What you typed is kept.`,
      deaths: `The calculator stopped twice on these numbers (${text}), so they are not tried again. A fresh one starts. ${this.results.standing === "example" ? "The example stands." : "What you typed is kept."} Change a number to work it out.`,
    };
    this.status.say(words[kind]);
    this.offerAgain(kind === "stopped");
  }

  /** @param {boolean} offer */
  offerAgain(offer) {
    const place = part(this.section, ".sheet-now");
    place.querySelector("[data-action=work-out]")?.remove();
    if (offer) place.append(button("Work it out again", { "data-action": "work-out" }));
  }

  /** @param {FocusEvent} event */
  left({ target, relatedTarget }) {
    const next = around(relatedTarget, "[data-question]");
    if (next && this.form.contains(next) && next === around(target, "[data-question]")) return;
    afterPress(() => {
      if (!this.section.isConnected) return;
      this.lending.commit(around(document.activeElement, "[data-question]"));
      if (this.pending) this.showPending();
      else if (this.results.box.hasAttribute("data-waiting")) {
        this.showNow = true;
        this.ask();
      }
    });
  }

  /** @param {Event} event */
  submitted(event) {
    event.preventDefault();
    this.workOut();
  }

  workOut() {
    this.showNow = true;
    this.jump = true;
    this.ask();
  }

  /** @param {ClipboardEvent} event */
  pasted(event) {
    const taken = table.takePaste(event);
    if (!taken) return;
    this.edited(taken.cell);
    if (taken.said) this.status.remark(taken.said);
  }

  /** @param {KeyboardEvent} event */
  keyed(event) {
    const box = event.target;
    if (event.key !== "Enter" || event.isComposing || !(box instanceof HTMLInputElement)) return;
    const field = around(box, "[data-question]");
    if (field && box.matches("[data-column]")) {
      event.preventDefault();
      table.rowBelow(field, box);
    } else {
      this.submitted(event);
      if (matchMedia("(pointer: coarse)").matches) box.blur(); // takes the keyboard away from the answer
    }
  }

  /** @param {HTMLElement | null} pressed */
  pressed(pressed) {
    if (!pressed || !this.section.contains(pressed) || table.pressed(pressed, (field) => this.edited(field))) return;
    if (tally.pressed(pressed, (field) => this.edited(field))) return;
    /** @type {Record<string, () => unknown>} */
    const actions = {
      example: () => this.filling.example(pressed),
      house: () => this.filling.house(pressed),
      "go-on": () => this.filling.goOn(pressed),
      clear: () => this.filling.clear(pressed),
      "put-back": () => this.filling.putBack(),
      print: () => printCard(this.section),
      link: async () => this.status.say(await handOut(this.section, pressed)),
      stop: () => engine.stop(),
      "work-out": () => this.workOut(),
      now: () => this.sayNow(pressed),
      "take-out": () => this.turn(pressed, lent.takeOut),
      "put-in": () => this.turn(pressed, lent.putIn),
      "try-again": () => engine.tryAgain(),
    };
    actions[pressed.dataset.action ?? ""]?.();
  }

  /** The clock's own time, with its date. @param {HTMLElement} pressed */
  sayNow(pressed) {
    const field = around(pressed, "[data-question]");
    if (!field) return;
    form.writeOne(field, typedMinute());
    this.edited(field);
  }

  /**
   * A lent value goes out of its box, or in again.
   * @param {HTMLElement} pressed
   * @param {(field: HTMLElement) => void} how
   */
  turn(pressed, how) {
    const field = around(pressed, "[data-question]");
    if (!field) return;
    how(field);
    form.clearErrors(field);
    this.changed();
  }

  // The form is blank again: the page's worked case stands.
  startAfresh() {
    clearTimeout(this.askTimer);
    clearTimeout(this.patienceTimer);
    this.askTimer = 0;
    this.pending = null;
    this.status.remark("");
    engine.forget(this);
    this.waits(false);
    form.clearErrors(this.form);
    this.results.showExample();
  }

  /** @param {import("../engine/engine.mjs").State} state */
  follow({ phase, step, done, wait, failure, working, more }) {
    const waits = engine.isWaiting(this);
    if (phase === "starting" && waits && !this.toldWait) this.status.announce("The calculator is starting. Your numbers are kept.");
    this.toldWait = phase === "starting" && waits;
    const told = wait ? `${step}: ${wait}.` : `${step} …`;
    const kept = wait ? `${told} Your numbers are kept.` : `${step}. Your numbers are kept and answered then.`;
    if (phase === "starting" || (wait && waits)) this.status.starting(waits ? kept : told, done); // a package comes by itself
    else if (working === this && step) this.status.starting(`${step} …`, done);
    else this.status.starting("", 0);
    this.status.waiting(wait, waits);
    if (phase === "failed") this.status.say(`The calculator stopped twice and is not started again by itself (${failure}). ${this.results.standing === "example" ? "The example stands." : "What you typed is kept."}`);
    offerMore(part(this.section, ".sheet-now"), more, { asked: waits });
    this.offerTryAgain(phase === "failed");
    this.offerStop(working === this);
  }

  /**
   * What takes long can be stopped; how far it is comes more often than that.
   * @param {boolean} works
   */
  offerStop(works) {
    const stop = part(this.section, "[data-action=stop]");
    if (works) {
      this.stopTimer ||= setTimeout(() => (stop.hidden = false), STOP_MS);
      return;
    }
    clearTimeout(this.stopTimer);
    this.stopTimer = 0;
    stop.hidden = true;
  }

  /** @param {boolean} offer */
  offerTryAgain(offer) {
    const there = this.section.querySelector("[data-action=try-again]");
    if (there && !offer) there.remove();
    if (there || !offer) return;
    part(this.section, ".sheet-buttons").append(button("Try again", { "data-action": "try-again" }));
  }
}
