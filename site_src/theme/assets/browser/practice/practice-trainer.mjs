// For the trainer: a run made up, its link, code and papers; learners' files read side by side.

import * as edition from "../edition/edition.mjs";
import * as engine from "../engine/engine.mjs";
import { fromFile, linkOf } from "./practice-address.mjs";
import { askPractice, needs } from "./practice-ask.mjs";
import * as kept from "./practice-kept.mjs";
import { titleOf } from "./practice-others.mjs";
import { drawSide } from "./practice-side.mjs";
import { drawCode } from "../paper/code.mjs";
import { around, element, found, part, parts } from "../shared/element.mjs";
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
    if (files.files?.length) this.read(files); // chosen before this came
  }

  close() {
    engine.forget(this);
  }

  /** @returns {edition.Typed | null} */
  typed() {
    const words = parts(this.set, "input[type=text]").flatMap((one) => (one instanceof HTMLInputElement && one.value.trim() ? [[one.name, one.value]] : []));
    return words.length ? { words: Object.fromEntries(words) } : null;
  }

  takeUp() {
    const carried = /** @type {edition.Typed | null} */ (edition.carriedFor(this.carriedAs));
    if (!carried) return;
    for (const [name, words] of Object.entries(/** @type {Record<string, string>} */ (carried.words))) found(this.set, `[name="${CSS.escape(name)}"]`, HTMLInputElement).value = words;
    edition.placed(this.carriedAs);
  }

  /** @param {string} name */
  place(name) {
    return part(this.section, `[data-place="${name}"]`);
  }

  choosing() {
    this.place("chosen").hidden = found(this.set, "[name=wrong]", HTMLSelectElement).value !== "chosen";
  }

  // Season, vessel and limits as one text, or what to type instead.
  /** @param {FormData} given @returns {{ setting: string } | { wrong: string, box: HTMLInputElement }} */
  setting(given) {
    const said = [given.get("season"), given.get("vessel")].filter(Boolean);
    for (const box of /** @type {HTMLInputElement[]} */ (parts(this.set, "input[name^=limit-]"))) {
      box.removeAttribute("aria-invalid");
      const typed = box.value.trim().replace(",", ".").replace(/\s*(%|K|°C)$/, "");
      if (!typed) continue;
      const { low, high } = box.dataset;
      const value = Number(typed);
      if (!/^\d+(\.\d+)?$/.test(typed) || value < Number(low) || value > Number(high)) return { wrong: `${box.labels?.[0]?.textContent}: type a number from ${low} to ${high}, or leave it blank.`, box };
      said.push(`${box.name.slice(-1)}${Math.round(10 * value) / 10}`);
    }
    return { setting: said.join("_") };
  }

  /** @param {Event} event */
  async make(event) {
    event.preventDefault();
    const given = new FormData(this.set);
    const number = String(given.get("number") ?? "").trim() || kept.freshNumber();
    if (!kept.isNumber(number)) return this.say(kept.WRONG_NUMBER);
    const level = String(given.get("level"));
    const wrong = given.get("wrong");
    const names = given.getAll("fault");
    const set = this.setting(given);
    if ("wrong" in set) {
      set.box.setAttribute("aria-invalid", "true");
      set.box.focus();
      return this.say(set.wrong);
    }
    this.say("Working it out…");
    try {
      const reply = await askPractice(this, { number, level, setting: set.setting, names: wrong === "chosen" ? names : [] });
      const faults = wrong === "drawn" ? "" : (reply.code ?? "");
      this.run = kept.runFrom({ number, level, faults, setting: reply.setting });
      if (!this.run) return;
      const key = await askPractice(this, { number, level, faults, setting: reply.setting, key: true });
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
    const code = run.setting ? `${run.faults}.${run.setting}` : run.faults;
    this.say("");
    this.place("made").hidden = false;
    this.place("set-words").textContent = `${key.title}. Number ${run.number}, ${code ? `code ${code}` : "no code"}.`;
    this.place("link").replaceChildren(element("a", link, { href: link }));
    this.place("key").innerHTML = key.places.key ?? "";
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
    const same = read.filter(({ run }) => ["number", "level", "faults", "setting"].every((name) => run[/** @type {keyof Run} */ (name)] === first.run[/** @type {keyof Run} */ (name)]));
    for (const one of read) if (!same.includes(one)) left.push(`${one.name}: another barley or another part (${titleOf(one.run.level)}, number ${one.run.number})`);
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
