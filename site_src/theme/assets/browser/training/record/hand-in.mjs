// A learner's file for the trainer: what it will hold is shown before there is a file.

import { giveFile } from "../../shared/file.mjs";
import { button, element, found, part, parts } from "../../shared/element.mjs";
import { localMinute, shortDay } from "../../shared/moment.mjs";
import * as marks from "../marks.mjs";
import { RESULT_WORDS } from "../own-results.mjs";
import { counted, learnerFile } from "./learner-file.mjs";
import * as signed from "./signed.mjs";
import { inOrder } from "./standing.mjs";
import { calledOf } from "./signed-sheets.mjs";
import { STAGE_WORDS } from "./signing-form.mjs";

/** @typedef {import("./signed-line.mjs").Line} Line */

/** @param {string} words @param {string[]} all */
function listed(words, all) {
  const box = element("details");
  const list = element("ul");
  list.append(...all.map((one) => element("li", one)));
  box.append(element("summary", words), list);
  return box;
}

/** @param {Line} line */
const lineWords = (line) => `${line.title}: “${line.says}” ${STAGE_WORDS[line.stage]}, ${shortDay(line.on)}${line.batches ? `, ${line.batches}` : ""}, assessed by ${line.by}${line.why ? `; because: ${line.why}` : ""}${line.back ? `; taken back: ${line.backWhy}` : ""}`;

export class HandIn {
  /** @type {string[]} */
  needs = [];

  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    this.form = found(section, "form", HTMLFormElement);
    this.name = found(section, "[name=own]", HTMLInputElement);
    this.record = found(section, "[name=record]", HTMLSelectElement);
    /** @type {Record<string, { said: string } | undefined>} */
    this.known = JSON.parse(parts(document, "section.results-kept")[0]?.dataset.known ?? "{}");
    this.form.hidden = false;
    this.name.value = signed.own().name;
    const people = signed.people();
    this.record.append(element("option", people.length ? "None: only what I tried" : "None is kept on this device", { value: "" }), ...people.map((one) => element("option", calledOf(one, people), { value: one.id })));
    this.form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.show();
    });
    part(this.form, "[data-action=forget]").addEventListener("click", () => {
      signed.own("");
      this.name.value = "";
      this.holds().replaceChildren(element("p", "Your name is no longer kept here. Your results are: remove them above.", { class: "competence-said" }));
    });
    this.form.addEventListener("input", () => this.holds().replaceChildren()); // what was shown is no longer what it holds
    this.record.addEventListener("change", () => {
      const person = signed.find(this.record.value);
      this.name.readOnly = Boolean(person); // a record goes under its own name
      if (person) this.name.value = person.name;
    });
  }

  close() {}

  holds() {
    return part(this.section, "[data-sign=holds]");
  }

  show() {
    const own = signed.own(this.name.value);
    part(this.form, "[data-error=own]").textContent = own.name ? "" : "Your name: type it, so that the trainer knows whose file it is.";
    if (!own.name) {
      this.holds().replaceChildren();
      this.name.focus();
      return;
    }
    const record = signed.find(this.record.value);
    const person = { id: record?.id ?? own.id, name: own.name, lines: [...(record?.lines ?? [])].sort(inOrder) };
    const results = marks.results();
    const tried = [...results].map(([id, one]) => `${this.known[id]?.said ?? "A question of an earlier edition"}: ${RESULT_WORDS[one.mark]}, ${shortDay(one.at.slice(0, 10))}`);
    const text = learnerFile(person, results, localMinute(), this.section.dataset.version ?? "");
    const save = button("Save this file", { class: "main-button" });
    const leave = button("Not now");
    const buttons = element("div", "", { class: "sheet-buttons" });
    const done = element("p", "", { class: "competence-said" });
    buttons.append(save, leave);
    save.addEventListener("click", () => {
      giveFile([text], `learner-${localMinute().slice(0, 10)}.json`, "application/json");
      done.textContent = "Saved as a file. Whoever gets it can read all that stands above.";
    });
    leave.addEventListener("click", () => this.holds().replaceChildren());
    this.holds().replaceChildren(
      element("p", `The file will hold your name, ${own.name}, the day and the version of the handbook, and:`),
      listed(`${tried.length === 1 ? "1 exercise or case" : `${tried.length} exercises and cases`}: how it went at the first try, when, and which slip it was`, tried),
      listed(`${counted(person.lines.length, "line")} of the sign-off record`, person.lines.map(lineWords)),
      element("p", "It does not hold what you typed as an answer, the batch record, runs of the practice batch or anything else of this device. It is a text file that anybody who has it can read."),
      buttons,
      done,
    );
  }
}
