// The record of one person: the sheets of all jobs filled with what was written, lines taken back, files, paper.

import { giveFile } from "../../shared/file.mjs";
import { around, button, element, found, part, parts } from "../../shared/element.mjs";
import { localMinute, saidDay, shortDay } from "../../shared/moment.mjs";
import { printAs } from "../../shared/printing.mjs";
import { counted, readChosen, recordFile } from "./learner-file.mjs";
import * as signed from "./signed.mjs";
import { STAGE_WORDS } from "./signing-form.mjs";
import { newTo } from "./signed-line.mjs";
import { dueState, inOrder, jobStanding } from "./standing.mjs";

/** @typedef {import("./signed-line.mjs").Line} Line */
/** @typedef {import("./signed-line.mjs").Person} Person */
/** @typedef {import("./standing.mjs").Job} Job */

/** @type {Record<string, number>} */
const ON_PAPER = { shown: 110, helped: 110, alone: 130, "not-yet": 200 }; // signs in one box: a job has to end on its page
const PEN = "______________________";

/**
 * A name as it is told from others of the same name.
 * @param {Person} person
 * @param {Person[]} all
 */
export function calledOf(person, all) {
  const same = all.filter((one) => one.name === person.name);
  return same.length > 1 ? `${person.name} (${same.indexOf(person) + 1})` : person.name;
}

/** @param {Line} line */
const seenWords = (line) => [shortDay(line.on), line.batches, `seen by ${line.by}`].filter(Boolean).join(", ") + (line.why ? `: ${line.why.replace(/[.]$/, "")}.` : "");

/**
 * How many of the first lines stay off the paper, so that the last ones have room; the last one always has.
 * @param {Line[]} lines
 * @param {number} room
 */
function offPaper(lines, room) {
  let left = room;
  let at = lines.length - 1;
  while (at > 0 && (left -= seenWords(lines[at]).length) >= seenWords(lines[at - 1]).length) at -= 1;
  return Math.max(at, 0);
}

export class SignedSheets {
  /** @type {string[]} */
  needs = [];
  now = ""; // the person

  /**
   * @param {HTMLElement} section
   * @param {Record<string, Job>} jobs
   * @param {(job: string, person: string) => void} onWrite
   */
  constructor(section, jobs, onWrite) {
    this.section = section;
    this.jobs = jobs;
    this.onWrite = onWrite;
    this.who = found(section, "[name=who]", HTMLSelectElement);
    this.name = found(section, "[name=renamed]", HTMLInputElement);
    this.file = found(section, "input[type=file]", HTMLInputElement);
    this.sheets = parts(document, "article.sign-off");
    this.blank = new Map(parts(document, "article.sign-off .sign-off-blank").map((one) => [one, one.textContent ?? ""]));
    part(section, "form").hidden = false;
    part(section, "form").addEventListener("submit", (event) => event.preventDefault());
    part(section, "[data-sign=tools]").hidden = false;
    this.who.addEventListener("change", () => this.show(this.who.value));
    this.file.addEventListener("change", () => this.bringBack());
    section.addEventListener("click", (event) => this.pressed(around(event.target, "button[data-action]")));
    for (const sheet of this.sheets) {
      part(sheet, "[data-sign=tools]").hidden = false;
      sheet.addEventListener("click", (event) => this.pressedOn(sheet, around(event.target, "button")));
    }
    this.leave = signed.subscribe(() => this.draw());
    this.draw();
  }

  close() {
    this.leave();
  }

  /** @param {string} text */
  say(text) {
    part(this.section, "[data-sign=said]").textContent = text;
  }

  /** @param {string} id */
  show(id) {
    this.now = id;
    this.say("");
    this.draw();
  }

  draw() {
    const all = signed.people();
    const person = all.find((one) => one.id === this.now) ?? null;
    this.now = person?.id ?? "";
    this.who.replaceChildren(element("option", all.length ? "Nobody: the sheets are blank" : "Nobody is kept on this device", { value: "" }), ...all.map((one) => element("option", calledOf(one, all), { value: one.id })));
    this.who.value = this.now;
    this.name.value = person?.name ?? "";
    part(this.section, "[data-field=renamed]").hidden = !person;
    for (const one of parts(this.section, "[data-action=rename], [data-action=save-one], [data-action=remove]")) one.hidden = !person;
    part(this.section, "[data-action=save-all]").hidden = !all.length;
    part(this.section, "[data-sign=trouble]").textContent = signed.said();
    for (const sheet of this.sheets) this.fill(sheet, person);
  }

  /**
   * @param {HTMLElement} sheet
   * @param {Person | null} person
   */
  fill(sheet, person) {
    const id = sheet.dataset.job ?? "";
    const job = this.jobs[id];
    const own = signed.ofHouse(id);
    const lines = person?.lines.filter((line) => line.job === id) ?? [];
    const standing = jobStanding(job, lines, id);
    sheet.classList.toggle("sign-off-filled", lines.length > 0);
    /** @type {Record<string, string>} */
    const said = { name: person?.name ?? "", assesses: job.assesses || own.assesses, number: job.number || own.number, by: standing.by.join("; "), due: standing.due ? shortDay(standing.due) : "" };
    for (const [name, text] of Object.entries(said)) {
      const place = part(sheet, `[data-sign=${name}]`);
      place.textContent = text || (this.blank.get(place) ?? PEN);
      place.classList.toggle("sign-off-typed", Boolean(text));
    }
    for (const box of parts(sheet, "td[data-stage]")) {
      const step = box.closest("tr")?.dataset.step;
      const mine = lines.filter((line) => line.step === step && line.stage === box.dataset.stage).sort(inOrder);
      const earlier = offPaper(mine, ON_PAPER[box.dataset.stage ?? ""]);
      box.replaceChildren(...mine.map((line, at) => this.entry(line, at < earlier)));
      if (earlier) box.append(element("p", `and ${earlier} earlier, on the device`, { class: "sign-off-more" }));
    }
    const again = part(sheet, "[data-sign=again]");
    again.textContent = this.againWords(job, lines, standing).join(" ");
    again.hidden = !again.textContent;
  }

  /**
   * @param {Job} job
   * @param {Line[]} lines
   * @param {import("./standing.mjs").JobStanding} standing
   */
  againWords(job, lines, standing) {
    const words = [];
    if (standing.again) words.push(`Look again: what the page or the standard says has changed since ${saidDay(standing.again)}. Read the page, and see those steps once more.`);
    if (dueState(standing.due, localMinute().slice(0, 10)) === "due") words.push(`Due since ${saidDay(standing.due)}.`);
    if (dueState(standing.next, localMinute().slice(0, 10)) === "due") words.push(`The next try is due since ${saidDay(standing.next)}.`);
    const known = new Set(job.steps.map((step) => step.id));
    const strange = lines.filter((line) => !known.has(line.step)).map((line) => `“${line.says}” ${STAGE_WORDS[line.stage]}, ${shortDay(line.on)}`);
    if (strange.length) words.push(`Written of steps that this edition does not have: ${[...new Set(strange)].join("; ")}.`);
    return words;
  }

  /**
   * @param {Line} line
   * @param {boolean} isEarlier
   */
  entry(line, isEarlier) {
    const box = element("div", "", { class: `sign-off-entry${line.back ? " sign-off-back" : ""}${isEarlier ? " off-paper" : ""}` });
    box.append(element(line.back ? "s" : "span", seenWords(line)));
    if (line.due && line.stage === "not-yet") box.append(element("span", ` Next try: ${shortDay(line.due)}.`));
    if (line.back) {
      box.append(element("span", ` Taken back ${line.back.replace("T", " ")}${line.backWhy ? `: ${line.backWhy}` : ""}`));
      return box;
    }
    box.append(button("Take back", { "data-line": line.id, class: "off-paper", "aria-label": `Take back the line of ${line.on}, ${line.stage}, ${line.says}` }));
    return box;
  }

  /**
   * @param {HTMLElement} sheet
   * @param {HTMLElement | null} pressed
   */
  pressedOn(sheet, pressed) {
    if (!pressed) return;
    if (pressed.dataset.line) this.askWhy(pressed, pressed.dataset.line);
    else if (pressed.dataset.action === "write") this.onWrite(sheet.dataset.job ?? "", this.now);
    else if (pressed.dataset.action === "print") {
      sheet.classList.add("sheet-to-print");
      printAs("prints-sign-off", () => sheet.classList.remove("sheet-to-print"));
    }
  }

  /**
   * A line is taken back in two steps, with the reason; until then nothing has changed.
   * @param {HTMLElement} pressed
   * @param {string} line
   */
  askWhy(pressed, line) {
    const form = element("form", "", { class: "sign-off-why off-paper", novalidate: "", autocomplete: "off" });
    const label = element("label", "Why is it taken back?");
    const typed = element("input", "", { type: "text", maxlength: "200" });
    label.append(typed);
    const keepIt = button("Leave it");
    const note = element("p", "", { role: "status", class: "error" });
    form.append(label, element("button", "Take it back", { type: "submit" }), keepIt, note);
    keepIt.addEventListener("click", () => this.draw());
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      if (!typed.value.trim()) {
        note.textContent = "Write why, such as: wrong person. The line and the reason both stay.";
        return;
      }
      signed.takeBack(this.now, line, typed.value);
      this.say("Taken back. The line stays on the sheet, struck through, and no longer counts.");
    });
    pressed.replaceWith(form);
    typed.focus();
  }

  /** @param {HTMLElement | null} pressed */
  pressed(pressed) {
    const action = pressed?.dataset.action;
    const person = signed.find(this.now);
    if (action === "bring") this.file.click();
    else if (action === "save-all") this.save(signed.people(), "all");
    else if (action === "print-all") printAs("prints-sign-off-all");
    else if (action === "save-one" && person) this.save([person], "one");
    else if (action === "rename" && person) this.rename(person);
    else if (pressed && action === "remove" && person) this.remove(pressed, person);
  }

  /**
   * @param {Person[]} people
   * @param {string} which
   */
  save(people, which) {
    const now = localMinute();
    giveFile([recordFile(people, now, this.section.dataset.version ?? "")], `sign-off-${which}-${now.slice(0, 10)}.json`, "application/json");
    const lines = people.reduce((sum, one) => sum + one.lines.length, 0);
    this.say(`Saved as a file. It holds the ${people.length === 1 ? `name ${people[0].name}` : `names of ${people.length} people`} and ${counted(lines, "line")}: job, step, day, batches, who assessed, why not yet. Whoever has the file reads them.`);
  }

  /** @param {Person} person */
  rename(person) {
    const fault = signed.rename(person.id, this.name.value);
    part(this.section, "[data-error=renamed]").textContent = fault;
    if (!fault) this.say("The name is changed. The lines are as they were.");
  }

  /**
   * @param {HTMLElement} pressed
   * @param {Person} person
   */
  remove(pressed, person) {
    if (pressed.dataset.sure !== person.id) {
      pressed.dataset.sure = person.id;
      pressed.textContent = `Remove ${person.name} and ${counted(person.lines.length, "line")}: press again`;
      this.say("Save the record as a file first, if it is still wanted.");
      return;
    }
    pressed.dataset.sure = "";
    pressed.textContent = "Remove this person from the device";
    signed.remove(person.id);
    this.say(`${person.name} is no longer kept on this device.`);
  }

  async bringBack() {
    const file = this.file.files?.[0];
    this.file.value = "";
    if (!file) return;
    const held = await readChosen(file);
    if (typeof held === "string") return this.say(`${file.name}: ${held}. Nothing was changed.`);
    if (held.kind !== "sign-off") return this.say(`${file.name}: it is a learner’s file. It is read on the trainer’s table; nothing of it goes into the records here. Nothing was changed.`);
    const own = signed.people();
    const count = held.people.reduce((sum, one) => sum + newTo(one.lines, own.find((there) => there.id === one.id)?.lines ?? []), 0);
    signed.bringBack(held.people);
    const extra = held.said.length ? ` ${held.said.join("; ")}.` : "";
    this.say(`Brought back: ${held.people.map((one) => one.name).join(", ")}; ${counted(count, "line")} that ${count === 1 ? "was" : "were"} not here. Nothing that was here was taken away.${extra}`);
  }
}
