// What helps to write a line with wet gloves on: steps from the last reading, the clock, counters, and the beginning of
// a batch as the last one or as the house usually does.

import * as form from "../sheet/form.mjs";
import * as steps from "../shared/steps.mjs";
import * as tally from "../shared/tally.mjs";
import { found, part } from "../shared/element.mjs";
import { localMinute, saidTime } from "../shared/moment.mjs";
import { forget } from "../sheet/shared.mjs";
import { filled } from "./book.mjs";
import { keep, recall } from "./draft.mjs";
import { momentOf } from "./zone.mjs";

/** @typedef {import("./entry.mjs").Writing} Writing */
/** @typedef {import("./book.mjs").Entry} Entry */

const USUAL = "usual"; // what this house usually begins with, kept on this device

export class Aids {
  /** @param {Writing} writing */
  constructor(writing) {
    this.writing = writing;
    const { place, leaving } = writing;
    steps.listen(place, (name) => this.lastOf(name), (field) => writing.edited(field), leaving.signal);
    place.addEventListener("input", () => this.drawTime(), { signal: leaving.signal });
  }

  /**
   * The last reading of a question in this batch, as it was typed.
   * @param {string} name
   */
  lastOf(name) {
    const { batch, does } = this.writing;
    const lines = does.lines().filter((line) => line.batch === batch);
    const value = lines.findLast((line) => typeof line.values?.[name] === "string" && line.values[name])?.values[name];
    return typeof value === "string" ? value : "";
  }

  /** A form has been opened. @param {HTMLElement} own */
  begun(own) {
    tally.begin(own);
    part(this.writing.at.box, "details").removeAttribute("open");
    steps.offer(own, (name) => this.lastOf(name));
    const begins = own.querySelector("[data-begin-from]");
    const { open } = this.writing;
    if (begins instanceof HTMLElement) {
      part(begins, "[data-action=as-last]").hidden = Boolean(open?.replaces) || !this.lastStart();
      part(begins, "[data-action=as-usual]").hidden = Boolean(open?.replaces) || !recall(USUAL);
    }
    this.drawTime();
  }

  /** @returns {Entry | undefined} the line with which the last batch was begun */
  lastStart() {
    const { open, does } = this.writing;
    return does.lines().findLast((line) => line.kind === open?.kind);
  }

  drawTime() {
    const { box, input } = this.writing.at;
    part(box, "[data-said-time]").textContent = input.value ? `${saidTime(input.value)}${this.writing.touched ? "" : ", by the clock"}` : "";
  }

  /**
   * What a button does; whether it is one of these.
   * @param {HTMLElement} pressed
   */
  pressed(pressed) {
    if (tally.pressed(pressed, (field) => this.writing.edited(field))) return true;
    if (pressed.dataset.step) return true; // `steps` listens to these
    /** @type {Record<string, () => unknown>} */
    const actions = {
      "entry-now": () => this.setTime(0),
      earlier: () => this.setTime(5),
      "as-last": () => this.asLast(),
      "as-usual": () => this.fill(recall(USUAL) ?? {}, "As this house usually begins."),
      "keep-usual": () => this.keepUsual(),
    };
    const action = actions[pressed.dataset.action ?? ""];
    action?.();
    return Boolean(action);
  }

  /** @param {number} earlier minutes before what stands there, or 0 for now */
  setTime(earlier) {
    const { at } = this.writing;
    const stands = momentOf(at.input.value);
    const from = earlier && !Number.isNaN(stands) ? stands : Date.now();
    at.input.value = localMinute(new Date(from - earlier * 60_000));
    this.writing.edited(at.input);
    part(at.box, "details").removeAttribute("open");
    this.writing.touched = earlier > 0; // now goes on with the clock
    this.drawTime();
  }

  asLast() {
    const last = this.lastStart();
    if (!last) return;
    const anew = this.namesOf("anew");
    const values = Object.fromEntries(Object.entries(last.values).filter(([name]) => !anew.includes(name)));
    const { input } = this.writing.number;
    if (!input.value) input.value = last.batch.replace(/\d+$/, (digits) => String(Number(digits) + 1).padStart(digits.length, "0"));
    const blank = anew.map((name) => form.fieldOf(this.writing.sheet, name)).filter((field) => field !== undefined);
    this.fill(values, `As batch ${last.batch}, ${saidTime(last.at)}. Measured anew, so left blank: ${blank.map((field) => form.labelOf(field).toLowerCase()).join(", ")}.`);
  }

  /** @param {"usual" | "anew"} which */
  namesOf(which) {
    return (this.writing.open?.form.dataset[which] ?? "").split(" ").filter(Boolean);
  }

  /**
   * Puts values where nothing is typed so far; what is typed stays.
   * @param {form.Values} values
   * @param {string} words
   */
  fill(values, words) {
    const { sheet } = this.writing;
    for (const [name, value] of Object.entries(values)) {
      const field = form.fieldOf(sheet, name);
      if (field && !form.isTyped(field)) form.writeOne(field, value);
    }
    form.openIfUsed(sheet);
    this.writing.say(`${words} Look each of them over.`);
    this.writing.edited(found(sheet, "form", HTMLFormElement));
  }

  keepUsual() {
    const typed = form.read(this.writing.sheet);
    const names = this.namesOf("usual");
    keep(USUAL, filled(Object.fromEntries(Object.entries(typed).filter(([name]) => names.includes(name)))));
    this.writing.say("Kept on this device as what this house usually begins with: plan, basket, barley, target and where it goes.");
  }

  /** A batch was begun: what other sheets were told belongs to an earlier lot. */
  newLot() {
    forget();
  }
}
