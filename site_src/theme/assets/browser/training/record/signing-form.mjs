// Where a trainer writes what was seen: one job, one day, one person or a whole session at once.

import * as edition from "../../edition/edition.mjs";
import { around, element, found, part, parts } from "../../shared/element.mjs";
import { localMinute, saidDay } from "../../shared/moment.mjs";
import { siteRoot } from "../../shared/root.mjs";
import * as signed from "./signed.mjs";
import { isDay, oneLine, STAGES } from "./signed-line.mjs";
import { monthsLater } from "./standing.mjs";

/** @typedef {import("./standing.mjs").Job} Job */
/** @typedef {Record<string, string>} Fields */
/** @typedef {{ fields: Fields, people: string[], stages: Record<string, string>, dueTyped: boolean }} Draft */

const DRAFT = `${siteRoot.pathname}sign-off-draft`;
const TEXTS = ["on", "batches", "new", "why", "next", "by", "assesses", "number", "due"];
const FIRST_DAY = "1990-01-01";
const MOST_MONTHS = 60;
/** @type {Record<string, string>} */
export const STAGE_WORDS = { "": "not today", shown: "shown", helped: "with help", alone: "alone", "not-yet": "not yet" };

/** Whether somebody was in the middle of writing. @param {Draft | null} draft @returns {draft is Draft} */
const isBegun = (draft) => Boolean(draft && (draft.people.length || Object.keys(draft.stages).length || draft.fields.why || draft.fields.new));

export class SigningForm {
  /** @type {string[]} */
  needs = [];
  carriedAs = "sign-off";
  dueTyped = false;
  /** @type {(person: string) => void} */
  onWritten = () => {};

  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    /** @type {Record<string, Job>} */
    this.jobs = JSON.parse(section.dataset.jobs ?? "{}");
    this.form = found(section, "form", HTMLFormElement);
    this.job = found(this.form, "[name=job]", HTMLSelectElement);
    for (const [id, job] of Object.entries(this.jobs)) this.job.append(element("option", job.title, { value: id }));
    this.form.hidden = false;
    this.box("on").value = localMinute().slice(0, 10);
    this.form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.write();
    });
    this.form.addEventListener("change", (event) => this.changed(event.target));
    this.form.addEventListener("input", (event) => this.typing(event.target));
    this.form.addEventListener("click", (event) => around(event.target, "[data-action=add]") && this.add());
    this.form.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" || event.target !== this.box("new")) return;
      event.preventDefault(); // the name is added; the lines are not yet written
      this.add();
    });
    this.leave = signed.subscribe(() => this.drawPeople());
    this.drawPeople();
    this.takeUp();
  }

  close() {
    this.leave();
  }

  /** @param {string} name */
  box(name) {
    return found(this.form, `[name="${name}"]`, HTMLInputElement);
  }

  /** @returns {[string, Job]} */
  chosen() {
    return [this.job.value, this.jobs[this.job.value]];
  }

  stages() {
    return Object.fromEntries(parts(this.form, "[data-sign=steps] input:checked").flatMap((one) => (one instanceof HTMLInputElement && one.value ? [[one.name.replace("step ", ""), one.value]] : [])));
  }

  ticked() {
    return parts(this.form, "[data-sign=people] input:checked").flatMap((one) => (one instanceof HTMLInputElement ? [one.value] : []));
  }

  // What stands in the form: for a draft, and over a reload.
  /** @returns {Draft} */
  draft() {
    /** @type {Fields} */
    const fields = Object.fromEntries(TEXTS.map((name) => [name, this.box(name).value]));
    return { fields: { ...fields, job: this.job.value }, people: this.ticked(), stages: this.stages(), dueTyped: this.dueTyped };
  }

  /** @returns {edition.Typed | null} */
  typed() {
    const now = this.draft();
    return isBegun(now) ? { words: { batches: now.fields.batches, why: now.fields.why, "a name": now.fields.new }, draft: now } : null;
  }

  /** What stood here before the page was loaded again, or left. @returns {Draft | null} */
  found() {
    const carried = /** @type {{ draft?: Draft } | null} */ (edition.carriedFor(this.carriedAs));
    if (carried) edition.placed(this.carriedAs);
    try {
      return carried?.draft ?? JSON.parse(sessionStorage.getItem(DRAFT) ?? "null");
    } catch {
      return null;
    }
  }

  takeUp() {
    const draft = this.found();
    const linked = Object.hasOwn(this.jobs, location.hash.slice(1)) ? location.hash.slice(1) : "";
    const begun = isBegun(draft) && Object.hasOwn(this.jobs, draft.fields.job) ? draft : null;
    this.job.value = begun?.fields.job ?? (linked || Object.keys(this.jobs)[0]);
    this.drawJob();
    if (begun) this.putBack(begun);
    else if (draft) for (const name of ["by", "batches"]) this.box(name).value = draft.fields[name] ?? "";
    if (begun && linked && linked !== begun.fields.job) this.say(`Half-written lines of “${this.jobs[begun.fields.job].title}” stand here still. Write them or clear them, then take “${this.jobs[linked].title}” above.`);
  }

  /** @param {Draft} draft */
  putBack({ fields, people, stages, dueTyped }) {
    for (const name of TEXTS) this.box(name).value = fields[name] ?? "";
    for (const one of parts(this.form, "[data-sign=people] input")) if (one instanceof HTMLInputElement) one.checked = people.includes(one.value);
    for (const [step, stage] of Object.entries(stages)) {
      const radio = this.form.querySelector(`[name="step ${CSS.escape(step)}"][value="${CSS.escape(stage)}"]`);
      if (radio instanceof HTMLInputElement) radio.checked = true;
    }
    this.dueTyped = dueTyped;
    this.showNeeded();
  }

  keepDraft() {
    try {
      sessionStorage.setItem(DRAFT, JSON.stringify(this.draft()));
    } catch {
      // it stays in the page
    }
  }

  drawPeople() {
    const all = signed.people();
    part(this.section, "[data-sign=trouble]").textContent = signed.said();
    const place = part(this.form, "[data-sign=people]");
    const ticked = new Set(this.ticked());
    place.replaceChildren(
      ...all.map((one) => {
        const label = element("label", "", { class: "choice" });
        const box = element("input", "", { type: "checkbox", value: one.id });
        box.checked = ticked.has(one.id);
        label.append(box, element("span", one.name));
        return label;
      }),
    );
    if (!place.childElementCount) place.append(element("p", "Nobody yet. Add the first name below.", { class: "hint" }));
  }

  drawJob() {
    const [id, job] = this.chosen();
    const own = signed.ofHouse(id);
    for (const [name, fixed, typed] of [["assesses", job.assesses, own.assesses], ["number", job.number, own.number]]) {
      this.box(name).value = fixed || typed;
      this.box(name).readOnly = Boolean(fixed); // the house’s own file says it
    }
    part(this.form, "[data-sign=steps]").replaceChildren(
      ...job.steps.map((step) => {
        const group = element("fieldset", "", { class: "competence-step" });
        group.append(element("legend", `${step.says} ${step.times > 1 ? `(alone on ${step.times} batches)` : ""}`));
        const choices = element("div", "", { class: "choices" });
        for (const stage of ["", ...STAGES]) {
          const label = element("label", "", { class: "choice" });
          const radio = element("input", "", { type: "radio", name: `step ${step.id}`, value: stage });
          radio.checked = !stage;
          label.append(radio, element("span", STAGE_WORDS[stage]));
          choices.append(label);
        }
        group.append(choices);
        return group;
      }),
    );
    this.dueTyped = false;
    this.showNeeded();
  }

  /** What is asked depends on what was seen. */
  showNeeded() {
    const stages = Object.values(this.stages());
    const [, job] = this.chosen();
    const on = this.box("on").value.trim();
    for (const [name, stage] of [["due", "alone"], ["why", "not-yet"], ["next", "not-yet"]]) part(this.form, `[data-field=${name}]`).hidden = !stages.includes(stage);
    if (!this.dueTyped && isDay(on)) this.box("due").value = monthsLater(on, job.months);
  }

  /** @param {EventTarget | null} target */
  changed(target) {
    if (target === this.job) this.drawJob();
    else this.showNeeded();
    this.keepDraft();
  }

  /** @param {EventTarget | null} target */
  typing(target) {
    if (target === this.box("due")) this.dueTyped = true;
    if (target === this.box("on")) this.showNeeded();
    if (target instanceof HTMLInputElement) this.wrong(target.name, "");
    this.keepDraft();
  }

  add() {
    const person = signed.add(this.box("new").value);
    if (typeof person === "string") {
      this.wrong("new", person);
      this.box("new").focus();
      return;
    }
    this.wrong("new", "");
    this.wrong("people", "");
    this.box("new").value = "";
    for (const one of parts(this.form, "[data-sign=people] input")) if (one instanceof HTMLInputElement && one.value === person.id) one.checked = true;
    this.keepDraft();
    this.box("new").focus();
  }

  /**
   * @param {string} name
   * @param {string} text
   */
  wrong(name, text) {
    const place = this.form.querySelector(`[data-error="${name}"]`);
    if (!place) return;
    place.textContent = text;
    const field = around(place, ".field");
    field?.classList.toggle("field-wrong", Boolean(text));
    field?.querySelector(":scope > .box > input")?.toggleAttribute("aria-invalid", Boolean(text));
    if (text) field?.querySelector(":scope > .box > input")?.setAttribute("aria-invalid", "true");
  }

  /** What is not right yet, by field. @returns {Map<string, string>} */
  faults() {
    const faults = new Map();
    const today = localMinute().slice(0, 10);
    const [, job] = this.chosen();
    const value = (/** @type {string} */ name) => this.box(name).value.trim();
    const stages = this.stages();
    const seen = Object.values(stages);
    const on = value("on");
    if (!isDay(on) || on > today) faults.set("on", `Seen on: type a day from ${FIRST_DAY} to today, ${today}, written like that.`);
    const counted = job.steps.some((step) => stages[step.id] === "alone" && !step.hazard);
    if (counted && !value("batches")) faults.set("batches", "On which batches: type which, such as example-01. How often is counted by them.");
    if (value("new")) faults.set("new", "This name is not added yet. Press “Add this person”, or clear it.");
    if (!this.ticked().length) faults.set("people", "Who was seen: tick at least one person, or add a name.");
    if (!seen.length) faults.set("steps", "What was seen: take a word for at least one step.");
    if (seen.includes("not-yet") && !value("why")) faults.set("why", "Not yet, because: write what was missing, so that it can be tried next time.");
    const assessor = this.wrongAssessor();
    if (assessor) faults.set("by", assessor);
    for (const [name, text] of isDay(on) ? this.wrongDays(on, seen) : []) faults.set(name, text);
    return faults;
  }

  wrongAssessor() {
    const by = oneLine(this.box("by").value, 60);
    const own = signed.people().find((one) => this.ticked().includes(one.id) && one.name.toLowerCase() === by.toLowerCase());
    if (!by) return "Assessed by: type who saw it. A line without it is not written.";
    return own ? `Assessed by: nobody assesses themselves. ${own.name} is ticked above; type who saw it.` : "";
  }

  /**
   * @param {string} on the day it was seen
   * @param {string[]} seen the stages
   * @returns {[string, string][]} by field, what to type instead
   */
  wrongDays(on, seen) {
    const last = monthsLater(on, MOST_MONTHS);
    const inSpan = (/** @type {string} */ day) => isDay(day) && day > on && day <= last;
    /** @type {[string, string][]} */
    const wrong = [];
    const [due, next] = ["due", "next"].map((name) => this.box(name).value.trim());
    if (seen.includes("alone") && !inSpan(due)) wrong.push(["due", `Due again on: type a day after ${on}, up to ${last}, written like that.`]);
    if (seen.includes("not-yet") && next && !inSpan(next)) wrong.push(["next", `Next try on: type a day after ${on}, up to ${last}, or leave it blank.`]);
    return wrong;
  }

  write() {
    const faults = this.faults();
    for (const one of parts(this.form, "[data-error]")) this.wrong(one.dataset.error ?? "", faults.get(one.dataset.error ?? "") ?? "");
    if (faults.size) {
      this.say(`Nothing was written: ${faults.size === 1 ? "one thing is" : `${faults.size} things are`} still to do above.`);
      const first = this.form.querySelector(".field-wrong :is(input, select)");
      if (first instanceof HTMLElement) first.focus();
      return;
    }
    const [id, job] = this.chosen();
    const value = (/** @type {string} */ name) => this.box(name).value.trim();
    const stages = this.stages();
    const lines = job.steps.flatMap((step) => {
      const stage = stages[step.id];
      if (!stage) return [];
      const due = stage === "alone" ? value("due") : stage === "not-yet" ? value("next") : "";
      return [{ job: id, step: step.id, title: job.title, says: step.says, stage, on: value("on"), batches: oneLine(value("batches"), 120), why: stage === "not-yet" ? oneLine(value("why"), 300) : "", by: oneLine(value("by"), 60), due, number: oneLine(value("number"), 40), version: this.section.dataset.version ?? "", mark: job.mark }];
    });
    const people = signed.people().filter((one) => this.ticked().includes(one.id));
    signed.setHouse(id, { number: job.number ? "" : oneLine(value("number"), 40), assesses: job.assesses ? "" : oneLine(value("assesses"), 60) });
    const isKept = signed.write(people.map((one) => one.id), lines);
    this.after(people.map((one) => one.name), lines.length, isKept);
    this.onWritten(people[0].id);
  }

  /**
   * @param {string[]} names
   * @param {number} count of lines for each
   * @param {boolean} isKept
   */
  after(names, count, isKept) {
    const [id, job] = this.chosen();
    const written = `${count === 1 ? "One line" : `${count} lines`}${names.length > 1 ? " each" : ""}`;
    this.say(`${isKept ? "Written" : "Held for this visit only"}: ${written} for ${names.join(", ")}. ${job.title}, seen on ${saidDay(this.box("on").value.trim())}, assessed by ${oneLine(this.box("by").value, 60)}. A wrong line is taken back on the sheet below.`);
    for (const one of parts(this.form, "[data-sign=people] input")) if (one instanceof HTMLInputElement) one.checked = false;
    this.job.value = id;
    for (const name of ["why", "next"]) this.box(name).value = "";
    this.drawJob();
    this.keepDraft();
  }

  /** @param {string} text */
  say(text) {
    part(this.section, "[data-sign=said]").textContent = text;
  }

  /** A sheet asks for a line of its job. @param {string} job @param {string} person */
  begin(job, person) {
    this.job.value = job;
    this.drawJob();
    for (const one of parts(this.form, "[data-sign=people] input")) if (one instanceof HTMLInputElement) one.checked = one.value === person;
    this.keepDraft();
    this.section.scrollIntoView({ block: "start" });
    this.job.focus();
  }
}

