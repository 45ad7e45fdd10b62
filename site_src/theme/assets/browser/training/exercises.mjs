// Exercises: a question, an answer that is marked, fresh numbers, a paper to print.

import * as edition from "../edition/edition.mjs";
import * as engine from "../engine/engine.mjs";
import { tellStep } from "../engine/told.mjs";
import * as marks from "./marks.mjs";
import { around, button, element, found, part } from "../shared/element.mjs";
import { printAs } from "../shared/printing.mjs";
import { relativeRoot } from "../shared/root.mjs";

const freshSeed = () => String((crypto.getRandomValues(new Uint32Array(1))[0] % 9000) + 1000);
/**
 * @param {number} number
 * @param {string} one
 * @param {string} more
 */
const counted = (number, one, more) => `${number} ${number === 1 ? one : more}`;

/**
 * What is carried over a reload: where the reader was, and what stood in the box.
 * @typedef {{ seed: string, number: number, id: string, drawSeed: string, again: string[], tried: boolean, own?: boolean, answer: string, words: { answer: string } }} Carried
 */

export class Exercises {
  /** @type {string[]} */
  needs = [];
  number = 0; // of the question, on its paper
  tried = false;
  asked = false; // something of Python
  /** @type {string[]} */
  again = []; // the ones that are due again, which come first
  /** @type {(() => void) | null} */
  later = null; // what waits for the engine

  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    this.chapter = section.dataset.chapter ?? "";
    this.ids = new Set((section.dataset.ids ?? "").split(" "));
    this.carriedAs = `exercises ${this.chapter}`;
    this.form = found(section, ".exercise-form", HTMLFormElement);
    this.answer = found(this.form, "[name=answer]", HTMLInputElement);
    this.working = found(section, "[data-exercise-working]", HTMLDetailsElement);
    const own = section.querySelector("input[name=own]");
    this.own = own instanceof HTMLInputElement ? own : null; // there where the house has numbers of its own
    this.working.hidden = true; // the working comes after trying
    this.seed = section.dataset.paper ?? "";
    this.id = section.dataset.first ?? "";
    this.drawSeed = section.dataset.firstSeed ?? "";
    this.listen();
    this.leaveEngine = engine.subscribe((state) => this.follow(state));
    this.leaveMarks = marks.subscribe(() => this.tell());
    this.tell();
    this.begin();
  }

  listen() {
    this.form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.check();
    });
    this.form.addEventListener("focusin", () => engine.start());
    part(this.section, ".exercise-choose").addEventListener("submit", (event) => {
      event.preventDefault();
      const seed = found(this.section, ".exercise-choose [name=paper]", HTMLInputElement).value.trim();
      if (/^\d{1,6}$/.test(seed)) this.take(seed);
      else this.say("Type a paper number from 0 to 999999.");
    });
    this.own?.addEventListener("change", () => this.take(this.seed));
    this.section.addEventListener("click", (event) => this.pressed(around(event.target, "button[data-action]")?.dataset.action));
  }

  close() {
    this.leaveEngine();
    this.leaveMarks();
    engine.forget(this);
  }

  // A link with ?paper=7 brings that paper; on return those that are due are offered; else fresh numbers, unless
  // this is the first time here.
  begin() {
    const carried = edition.carriedFor(this.carriedAs);
    if (carried) return this.takeUp(carried);
    const asked = new URLSearchParams(location.search);
    const linked = asked.get("paper");
    if (this.own && asked.get("own") === "yes") this.own.checked = true;
    if (linked && /^\d{1,6}$/.test(linked)) return void (this.later = () => this.take(linked));
    const offer = marks.due((id) => this.ids.has(id));
    const mine = [...marks.results().keys()].some((id) => this.ids.has(id));
    if (offer.length) this.offer(offer);
    else if (mine) this.later = () => this.take(freshSeed());
  }

  // What is carried over when the page is loaded again for a new edition.
  typed() {
    const answer = this.answer.value;
    if (!answer.trim()) return null;
    const { seed, number, id, drawSeed, again, tried } = this;
    const own = this.own?.checked ?? false;
    return { seed, number, id, drawSeed, again, tried, own, answer, words: { answer: `Your answer ${answer}` } };
  }

  /** @param {Carried} carried */
  takeUp(carried) {
    Object.assign(this, { seed: carried.seed, number: carried.number, again: carried.again });
    if (this.own) this.own.checked = Boolean(carried.own);
    edition.placed(this.carriedAs);
    if (this.isAt(carried)) return this.putBack(carried);
    this.draw(() => this.putBack(carried));
    this.say(`The question you were at is being fetched. ${carried.words.answer}.`);
  }

  /** @param {Carried} carried */
  isAt({ id, drawSeed }) {
    return id === this.id && drawSeed === this.drawSeed;
  }

  /**
   * The answer goes back under its own question only.
   * @param {Carried} carried
   */
  putBack(carried) {
    if (!this.isAt(carried)) return this.say(`This edition asks another question here. ${carried.words.answer}.`);
    this.tried = carried.tried;
    this.answer.value = carried.answer;
  }

  /** @param {string[]} due */
  offer(due) {
    const line = element("p", "", { class: "exercise-offer" });
    const take = button(due.length === 1 ? "Try the one that is due again" : `Try the ${due.length} that are due again`);
    take.addEventListener("click", () => {
      this.again = due;
      this.take(freshSeed());
      line.remove();
    });
    line.append(take);
    this.section.prepend(line);
  }

  /**
   * What waits for the engine goes as soon as it is there, so that nothing starts it before the page is idle.
   * @param {engine.State} state
   */
  follow(state) {
    if (state.phase === "starting" && this.asked) tellStep(this.place("verdict"), state);
    if (state.phase === "failed") {
      this.say("The calculator could not start here. The question and its working stand below.");
      this.working.hidden = false;
    }
    if (state.phase !== "ready" || !this.later) return;
    const later = this.later;
    this.later = null;
    if (!this.answer.value && !this.form.contains(document.activeElement)) setTimeout(later);
  }

  /** @param {string} name */
  place(name) {
    return part(this.section, `[data-exercise="${name}"]`);
  }

  /**
   * @param {object} body
   * @param {(reply: any) => void} onReply
   */
  ask(body, onReply) {
    this.asked = true;
    engine.ask(this, {
      needs: this.needs,
      body: () => ({ chapter: this.chapter, seed: this.seed, own: this.own?.checked ?? false, root: relativeRoot(), ...body }),
      onReply: (reply) => {
        const more = (reply.needs ?? []).filter((/** @type {string} */ name) => !this.needs.includes(name));
        if (more.length) {
          this.needs = [...this.needs, ...more];
          return this.ask(body, onReply);
        }
        this.asked = false;
        if (this.section.isConnected) onReply(reply);
      },
      onTrouble: (kind, text) => this.say(kind === "fault" || kind === "deaths" ? `The calculator met a fault (${text}). Try again.` : "Stopped: there was no answer in time. Try again."),
    });
    this.follow(engine.state());
  }

  /** @param {string} text */
  say(text, mark = "") {
    const verdict = this.place("verdict");
    verdict.textContent = text;
    verdict.dataset.mark = mark;
  }

  /** @param {string} seed */
  take(seed) {
    this.seed = seed;
    this.number = 0;
    this.draw();
  }

  draw(then = () => {}) {
    this.ask({ exercise: "next", number: this.number, again: this.again }, (reply) => {
      this.id = reply.id;
      this.drawSeed = reply.draw_seed;
      this.tried = false;
      this.place("count").textContent = reply.count;
      this.place("question").textContent = reply.question;
      this.place("unit").textContent = reply.unit;
      this.place("working").innerHTML = reply.working;
      this.working.open = false;
      this.working.hidden = true;
      this.place("example").replaceChildren();
      this.answer.value = "";
      this.say("");
      then();
    });
  }

  /** @param {boolean} gaps */
  example(gaps) {
    this.ask({ exercise: "example", id: this.id, draw_seed: this.drawSeed, gaps }, (reply) => {
      this.place("example").innerHTML = reply.example;
      this.say("");
    });
  }

  check() {
    const typed = this.answer.value;
    if (!typed.trim()) return this.say("Type your answer first.");
    this.ask({ exercise: "mark", id: this.id, draw_seed: this.drawSeed, typed }, (reply) => {
      this.say(reply.text, reply.mark);
      if (reply.mark === "unread") return; // a slip of the keyboard is no try
      this.working.hidden = false;
      const right = reply.mark === "right";
      if (!this.tried) marks.note(this.id, { chapter: this.chapter, kind: "exercise", mark: right ? "right" : "missed", slip: reply.slip });
      this.tried = true;
    });
  }

  tell() {
    const mine = [...marks.results()].filter(([id]) => this.ids.has(id)).map(([, one]) => one);
    const right = mine.filter((one) => one.mark === "right").length;
    const kept = mine.length ? `On this device: ${counted(mine.length, "kind of question", "kinds of question")} tried, ${right} right at the first try.` : "Your results stay on this device.";
    this.place("kept").textContent = marks.said() || kept;
  }

  /** @param {string} [action] */
  pressed(action) {
    if (action === "next") {
      this.number += 1;
      this.draw();
    } else if (action === "fresh") {
      this.again = [];
      this.take(freshSeed());
    } else if (action === "shown" || action === "gaps") {
      this.example(action === "gaps");
    } else if (action === "paper") {
      this.print();
    }
  }

  print() {
    this.ask({ exercise: "paper", count: 10 }, (reply) => {
      const paper = this.place("paper");
      paper.innerHTML = reply.paper;
      printAs("prints-paper", () => paper.replaceChildren());
    });
  }
}
