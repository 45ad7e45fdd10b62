// The trainer's table: records of this device and learners' files side by side; who has what, who assessed it, what is
// due, what is missed. Files are forgotten when the page is left.

import * as engine from "../../engine/engine.mjs";
import { giveFile } from "../../shared/file.mjs";
import { around, button, element, found, part, parts } from "../../shared/element.mjs";
import { localMinute, saidTime, shortDay } from "../../shared/moment.mjs";
import { printAs } from "../../shared/printing.mjs";
import { counted, readChosen } from "./learner-file.mjs";
import { DEVICE, doubtful, learners } from "./side-by-side.mjs";
import * as signed from "./signed.mjs";
import { jobStanding } from "./standing.mjs";
import { csvRows, drawMissed, drawTable, drawTried, drawDue, isNear } from "./table-rows.mjs";

/** @typedef {import("./side-by-side.mjs").Read} Read */
/** @typedef {import("./side-by-side.mjs").Learner} Learner */
/** @typedef {import("./standing.mjs").Job} Job */
/** @typedef {import("./standing.mjs").JobStanding} JobStanding */
/** @typedef {{ learner: Learner, id: string, job: Job, standing: JobStanding }} Row one person and one job */

const MOST_FILES = 100;

export class TrainersTable {
  /** @type {string[]} */
  needs = [];
  /** @type {Read[]} */
  files = [];
  /** @type {string[]} */
  left = []; // what is said of the files that were chosen last
  /** @type {Map<string, string>} */
  joined = new Map();

  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    /** @type {Record<string, Job>} */
    this.jobs = JSON.parse(section.dataset.jobs ?? "{}");
    /** @type {Record<string, { said: string, slips: Record<string, string> } | undefined>} */
    this.known = JSON.parse(section.dataset.known ?? "{}");
    this.file = found(section, "input[type=file]", HTMLInputElement);
    this.file.addEventListener("change", () => this.read());
    for (const one of parts(section, "[data-sign=tools], [data-sign=choose]")) one.hidden = false;
    this.fillChoices();
    part(section, "[data-sign=choose]").addEventListener("submit", (event) => event.preventDefault());
    part(section, "[data-sign=choose]").addEventListener("change", () => this.draw());
    section.addEventListener("click", (event) => this.pressed(around(event.target, "button")));
    this.leave = signed.subscribe(() => this.draw());
    this.draw();
  }

  close() {
    this.leave();
    engine.forget(this);
  }

  /** @param {string} name */
  choice(name) {
    return found(this.section, `[name=${name}]`, HTMLSelectElement);
  }

  fillChoices() {
    this.choice("job").append(element("option", "All jobs", { value: "" }), ...Object.entries(this.jobs).map(([id, job]) => element("option", job.title, { value: id })));
    for (const [value, words] of [["", "Everything"], ["due", "What is due, now or within 30 days"], ["not-yet", "What is not yet reached"]]) this.choice("only").append(element("option", words, { value }));
  }

  async read() {
    const chosen = [...(this.file.files ?? [])];
    this.file.value = "";
    this.left = [];
    for (const file of chosen.slice(0, MOST_FILES)) {
      const held = await readChosen(file);
      if (typeof held === "string") {
        this.left.push(`${file.name} is left out: ${held}.`);
        continue;
      }
      const name = this.ownName(file.name);
      this.files.push({ name, held });
      const lines = held.people.reduce((sum, one) => sum + one.lines.length, 0);
      const extra = held.said.length ? ` Of it: ${held.said.join("; ")}.` : "";
      this.left.push(`${name} is read: ${held.people.map((one) => one.name).join(", ")}${held.saved ? `, saved ${saidTime(held.saved)} (${held.saved.slice(0, 4)})` : ""}; ${counted(held.results.size, "result")}, ${counted(lines, "signed line")}.${extra}`);
    }
    if (chosen.length > MOST_FILES) this.left.push(`Only the first ${MOST_FILES} files were read.`);
    if (chosen.length) this.draw();
  }

  /** A second file of one name is told from the first. @param {string} name */
  ownName(name) {
    const same = this.files.filter((one) => one.name === name || one.name.startsWith(`${name} (`)).length;
    return same ? `${name} (${same + 1})` : name;
  }

  shown() {
    const { all, said } = learners(signed.people(), this.files, this.joined);
    return { all, said };
  }

  /** The rows that are wanted. @param {Learner[]} all @returns {Row[]} */
  rows(all) {
    const [person, wanted, only] = ["person", "job", "only"].map((name) => this.choice(name).value);
    const today = localMinute().slice(0, 10);
    return all.filter((one) => !person || one.key === person).flatMap((learner) =>
      Object.entries(this.jobs).flatMap(([id, job]) => {
        const standing = jobStanding(job, learner.lines, id);
        const isIn = (!wanted || wanted === id) && standing.lines.length > 0;
        const isDue = isNear(standing, today);
        const isOpen = standing.enough < standing.steps.length;
        return isIn && (only === "" || (only === "due" ? isDue : isOpen)) ? [{ learner, id, job, standing }] : [];
      }),
    );
  }

  draw() {
    const { all, said } = this.shown();
    this.drawPeople(all);
    const out = part(this.section, "[data-sign=out]");
    part(this.section, "[data-sign=trouble]").textContent = signed.said();
    part(this.section, "[data-sign=said]").replaceChildren(...[...this.left, ...said].map((one) => element("p", one, { class: "competence-said" })), ...this.sameNames(all));
    for (const name of ["forget"]) part(this.section, `[data-action=${name}]`).hidden = !this.files.length;
    for (const name of ["print", "csv"]) part(this.section, `[data-action=${name}]`).hidden = !all.length;
    if (!all.length) {
      out.replaceChildren(element("p", "Nothing to show yet. Write lines on the sign-off page of this device, or read learners’ files."));
      return;
    }
    const today = localMinute().slice(0, 10);
    const rows = this.rows(all);
    const chosen = this.choice("person").value;
    const people = all.filter((one) => !chosen || one.key === chosen);
    out.replaceChildren(
      element("p", `As it stood on ${shortDay(today)}. It says what was seen. It gives nobody leave to work alone or to go in anywhere: that is for the employer, by local law and the site’s permits.`, { class: "competence-foot" }),
      ...drawDue(this.choice("only").value ? [] : rows, today),
      ...drawTable(rows, people, today, this.choice("only").value || this.choice("job").value ? null : this.jobs),
      ...(this.choice("job").value || this.choice("only").value ? [] : [...drawTried(people, today), ...drawMissed(people, this.known)]),
    );
  }

  /** @param {Learner[]} all */
  drawPeople(all) {
    const place = this.choice("person");
    const before = place.value;
    place.replaceChildren(element("option", "Everybody", { value: "" }), ...all.map((one) => element("option", one.called, { value: one.key })));
    place.value = all.some((one) => one.key === before) ? before : "";
  }

  /** @param {Learner[]} all */
  sameNames(all) {
    return doubtful(all).map(({ some, said }) => {
      const line = element("p", `${said} `, { class: "competence-said" });
      const join = button("Show them as one person");
      join.addEventListener("click", () => {
        const first = some.find((one) => one.from.includes(DEVICE)) ?? some[0];
        for (const one of some) if (one !== first) this.joined.set(one.key, first.key);
        this.draw();
      });
      line.append(join);
      return line;
    });
  }

  /** @param {HTMLElement | null} pressed */
  pressed(pressed) {
    const action = pressed?.dataset.action;
    if (action === "read") this.file.click();
    else if (action === "print") printAs("prints-trainers-table");
    else if (action === "csv") this.csv();
    else if (action === "forget") {
      this.files = [];
      this.joined.clear();
      this.left = ["The files are forgotten. What was written on this device stays."];
      this.draw();
    }
  }

  // The one guard against formulas is in Python.
  csv() {
    const { all } = this.shown();
    const chosen = this.choice("person").value;
    const rows = csvRows(all.filter((one) => !chosen || one.key === chosen), this.jobs, this.known, this.choice("job").value);
    const say = (/** @type {string} */ text) => {
      this.left = [text];
      this.draw();
    };
    say("Writing the file…");
    engine.ask(this, {
      needs: [],
      body: () => ({ competence: "csv", rows }),
      onReply: (reply) => {
        giveFile(["\ufeff", reply.csv], `who-has-what-${localMinute().slice(0, 10)}.csv`, "text/csv");
        say(`Saved as CSV: ${counted(rows.length - 1, "line")}.`);
      },
      onTrouble: (_kind, text) => say(`The file could not be written here${text ? ` (${text})` : ""}. Print the table instead.`),
    });
  }
}
