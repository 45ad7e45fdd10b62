// For the trainer: a run made up, its link, code and papers; learners' files read side by side.

import * as edition from "../edition/edition.mjs";
import * as engine from "../engine/engine.mjs";
import { fromFile, linkOf } from "./practice-address.mjs";
import { askPractice, needs } from "./practice-ask.mjs";
import * as kept from "./practice-kept.mjs";
import { drawSide } from "./practice-side.mjs";
import { drawCode } from "../paper/code.mjs";
import { around, element, found, part } from "../shared/element.mjs";
import { saidBy } from "../shared/fault.mjs";
import { printAs } from "../shared/printing.mjs";

/** @typedef {import("./practice-kept.mjs").Run} Run */

const MOST_FILES = 12;

export class PracticeTrainer {
  needs = needs();
  carriedAs = "practice trainer";
  /** @type {Run | null} */
  run = null;

  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    this.set = found(section, "form[data-place=set]", HTMLFormElement);
    this.set.addEventListener("submit", (event) => this.make(event));
    this.set.addEventListener("change", () => this.choosing());
    section.addEventListener("click", (event) => this.pressed(around(event.target, "button[data-action]")?.dataset.action ?? ""));
    const files = found(section, "#practice-read", HTMLInputElement);
    files.addEventListener("change", () => this.read(files));
    this.takeUp();
    this.choosing();
  }

  close() {
    engine.forget(this);
  }

  /** @returns {edition.Typed | null} */
  typed() {
    const number = found(this.set, "[name=number]", HTMLInputElement).value.trim();
    return number ? { words: { number } } : null;
  }

  takeUp() {
    const carried = /** @type {edition.Typed | null} */ (edition.carriedFor(this.carriedAs));
    if (!carried) return;
    found(this.set, "[name=number]", HTMLInputElement).value = /** @type {Record<string, string>} */ (carried.words)?.number ?? "";
    edition.placed(this.carriedAs);
  }

  /** @param {string} name */
  place(name) {
    return part(this.section, `[data-place="${name}"]`);
  }

  // August water is one of the faults, so it is chosen with them.
  choosing() {
    const given = new FormData(this.set);
    const wrong = found(this.set, "[name=wrong]", HTMLSelectElement);
    if (given.get("season") && wrong.value !== "chosen") wrong.value = "chosen";
    this.place("chosen").hidden = wrong.value !== "chosen";
  }

  /** @param {Event} event */
  async make(event) {
    event.preventDefault();
    const given = new FormData(this.set);
    const number = String(given.get("number") ?? "").trim() || kept.freshNumber();
    if (!/^\d{1,6}$/.test(number) || Number(number) < 1) return this.say("Number of the barley: type a whole number from 1 to 999999, or leave it blank.");
    const level = String(given.get("level"));
    const wrong = given.get("wrong");
    const names = [...given.getAll("fault"), given.get("season")].filter(Boolean);
    this.say("Working it out…");
    try {
      const reply = await askPractice(this, { number, level, names: wrong === "chosen" ? names : [], debrief: true });
      const faults = wrong === "drawn" ? "" : (reply.code ?? "");
      this.run = kept.runFrom({ number, level, faults });
      if (!this.run) return;
      const key = await askPractice(this, { number, level, faults, debrief: true });
      this.show(this.run, key);
    } catch (fault) {
      this.say(`That did not work: ${saidBy(fault)}`);
    }
  }

  /**
   * @param {Run} run
   * @param {import("./practice-ask.mjs").Reply} key
   */
  show(run, key) {
    const link = linkOf(run);
    this.say("");
    this.place("made").hidden = false;
    this.place("set-words").textContent = `${key.title}. Number ${run.number}, ${run.faults ? `code ${run.faults}` : "no code"}.`;
    this.place("link").replaceChildren(element("a", link, { href: link }));
    this.place("key").innerHTML = key.places.debrief || key.places.scene;
    drawCode(this.place("code"), link);
  }

  /** @param {string} words */
  say(words) {
    this.place("note").textContent = words;
  }

  /** @param {string} action */
  pressed(action) {
    if (action === "open" && this.run) location.assign(linkOf(this.run));
    else if (action === "papers") printAs("prints-practice-papers");
    else if (action === "print-key") {
      found(this.section, ".practice-key", HTMLDetailsElement).open = true;
      printAs("prints-practice-key");
    }
  }

  /** @param {HTMLInputElement} box */
  async read(box) {
    const note = this.place("files-note");
    const files = [...(box.files ?? [])].slice(0, MOST_FILES);
    const read = [];
    const left = [];
    for (const file of files) {
      const run = file.size > 8192 ? "too long to be a run" : fromFile(await file.text());
      if (typeof run === "string") left.push(`${file.name}: ${run}`);
      else read.push({ name: file.name.replace(/\.json$/, ""), run });
    }
    const [first] = read;
    const same = read.filter(({ run }) => run.number === first.run.number && run.level === first.run.level && run.faults === first.run.faults);
    for (const one of read) if (!same.includes(one)) left.push(`${one.name}: another barley (number ${one.run.number}, level ${one.run.level})`);
    const words = left.length ? `Left out: ${left.join("; ")}.` : "";
    this.place("side").replaceChildren();
    if (same.length < 2) {
      note.textContent = `Two files of one number are needed. ${words}`;
      return;
    }
    note.textContent = "Playing them…";
    try {
      await drawSide(this.place("side"), same);
      note.textContent = words;
    } catch (fault) {
      note.textContent = `That did not work: ${saidBy(fault)} ${words}`;
    }
  }
}
