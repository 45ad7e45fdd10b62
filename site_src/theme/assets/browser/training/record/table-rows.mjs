// The rows of the trainer's table, as elements and as text for a file: people and jobs by their names, never by ids.

import { element } from "../../shared/element.mjs";
import { shortDay } from "../../shared/moment.mjs";
import { RESULT_WORDS } from "../own-results.mjs";
import { missedBy } from "./side-by-side.mjs";
import { STAGE_WORDS } from "./signing-form.mjs";
import { dueState, inOrder, jobStanding } from "./standing.mjs";

/** @typedef {import("./trainers-table.mjs").Row} Row */
/** @typedef {import("./side-by-side.mjs").Learner} Learner */
/** @typedef {import("./standing.mjs").Job} Job */
/** @typedef {import("./standing.mjs").JobStanding} JobStanding */
/** @typedef {Record<string, { said: string, slips: Record<string, string> } | undefined>} Known */

const EARLIER = "a question of an earlier edition";

/**
 * @param {string} head
 * @param {string[]} heads
 * @param {(string | HTMLElement)[][]} rows
 */
function table(head, heads, rows) {
  const box = element("div", "", { class: "competence-table" });
  const made = element("table");
  const top = element("tr");
  top.append(...heads.map((words) => element("th", words, { scope: "col" })));
  const thead = element("thead");
  thead.append(top);
  const body = element("tbody");
  for (const cells of rows) {
    const row = element("tr");
    cells.forEach((cell, at) => {
      const one = element(at ? "td" : "th", "", at ? { "data-label": heads[at] } : { scope: "row" });
      one.append(cell);
      row.append(one);
    });
    body.append(row);
  }
  made.append(thead, body);
  box.append(made);
  return [element("h3", head), box];
}

/**
 * What was seen of a job, in words.
 * @param {JobStanding} standing
 */
export function seenWords({ steps, enough, again }) {
  const all = steps.length;
  const words = [enough === all ? `All ${all} steps seen alone, as often as asked.` : `${enough} of ${all} steps seen alone, as often as asked.`];
  for (const one of steps) if (one.stage === "not-yet") words.push(`Not yet: “${one.step.says}”${one.why ? ` Because: ${one.why}.` : ""}`);
  const part = steps.filter((one) => one.stage === "alone" && !one.enough).length;
  if (part) words.push(`Alone, but not yet as often as asked: ${part}.`);
  for (const [stage, said] of [["helped", "With help"], ["shown", "Shown"], ["", "Not seen"]]) {
    const some = steps.filter((one) => one.stage === stage).length;
    if (some) words.push(`${said}: ${some}.`);
  }
  if (again) words.push(`Look again: the page or the standard has changed since ${shortDay(again)}.`);
  return words.join(" ");
}

/**
 * The same with each step by its standard under a disclosure.
 * @param {JobStanding} standing
 */
function seen(standing) {
  const box = element("div");
  const more = element("details");
  const list = element("ul");
  for (const { step, stage, times } of standing.steps) {
    const often = stage === "alone" && step.times > 1 ? `, ${times} of ${step.times} batches` : "";
    list.append(element("li", `${stage ? STAGE_WORDS[stage] : "not seen"}${often}: ${step.says}`));
  }
  more.append(element("summary", "Step by step"), list);
  box.append(element("span", seenWords(standing)), more);
  return box;
}

/** The day that comes first, of what is due again and of the next try. @param {JobStanding} standing */
const firstDay = ({ due, next }) => [due, next].filter(Boolean).sort()[0] ?? "";

/** Whether something is to be done now or soon. @param {JobStanding} standing @param {string} today */
export const isNear = (standing, today) => ["due", "soon"].includes(dueState(firstDay(standing), today));

/** Both days, apart, and only those that are near where it is asked. @param {JobStanding} standing @param {string} today */
function nearWords(standing, today) {
  const near = (/** @type {string} */ day) => ["due", "soon"].includes(dueState(day, today));
  return [near(standing.due) ? dueWords(standing.due, today) : "", near(standing.next) ? nextWords(standing.next, today) : ""].filter(Boolean).join("; ");
}

/** @param {string} next @param {string} today */
const nextWords = (next, today) => `next try ${dueState(next, today) === "due" ? "due since " : ""}${shortDay(next)}`;

/** @param {JobStanding} standing @param {string} today */
const bothWords = ({ due, next }, today) => [due || !next ? dueWords(due, today) : "", next && nextWords(next, today)].filter(Boolean).join("; ");

/**
 * @param {string} due
 * @param {string} today
 */
const dueWords = (due, today) => (due ? `${dueState(due, today) === "due" ? "due since " : ""}${shortDay(due)}` : "no day written");

/**
 * @param {Row[]} rows
 * @param {string} today
 */
export function drawDue(rows, today) {
  const due = rows.filter(({ standing }) => isNear(standing, today)).sort((a, b) => firstDay(a.standing).localeCompare(firstDay(b.standing)));
  const changed = rows.filter(({ standing }) => standing.again);
  const head = element("h3", "Due now or within 30 days");
  const list = element("ul");
  for (const { learner, job, standing } of due) list.append(element("li", `${learner.called}: ${job.title}, ${nearWords(standing, today)}. Assessed by ${standing.by.join("; ")}.`));
  for (const { learner, job, standing } of changed) list.append(element("li", `${learner.called}: ${job.title}, look again: the page or the standard has changed since ${shortDay(standing.again)}.`));
  return list.childElementCount ? [head, list] : [head, element("p", "Nothing.")];
}

/**
 * @param {Row[]} rows
 * @param {Learner[]} people
 * @param {string} today
 * @param {Record<string, Job> | null} jobs to say which of them nothing is written of, or null
 */
export function drawTable(rows, people, today, jobs) {
  const made = rows.map(({ learner, job, standing }) => [learner.called, job.title, seen(standing), standing.batches.join(", ") || "none written", standing.by.join("; "), bothWords(standing, today)]);
  const parts = made.length ? table("Who has what", ["Person", "Job", "What was seen", "Batches", "Assessed by", "Due again"], made) : [element("h3", "Who has what"), element("p", "No line of this choice.")];
  if (!jobs) return parts;
  const list = element("ul");
  /** @type {Map<string, string[]>} */
  const lacking = new Map(); // those who lack the same stand together
  for (const one of people) {
    const none = Object.entries(jobs).filter(([id]) => !one.lines.some((line) => line.job === id && !line.back)).map(([, job]) => job.title);
    const strange = [...new Set(one.lines.filter((line) => !Object.hasOwn(jobs, line.job)).map((line) => line.title))];
    const words = none.length === Object.keys(jobs).length ? "of any job" : none.join(", ");
    if (none.length) lacking.set(words, [...(lacking.get(words) ?? []), one.called]);
    if (strange.length) list.append(element("li", `${one.called}: lines of jobs that this edition does not have: ${strange.join(", ")}.`));
  }
  list.prepend(...[...lacking].map(([words, names]) => element("li", `${names.join(", ")}: ${words}.`)));
  return [...parts, element("h3", "Nothing written yet"), list.childElementCount ? list : element("p", "Everybody has lines of every job.")];
}

/**
 * @param {Learner[]} people
 * @param {string} today
 */
export function drawTried(people, today) {
  const rows = people.filter((one) => one.results.size).map((one) => {
    const all = [...one.results.values()];
    const count = (/** @type {string} */ mark) => String(all.filter((result) => result.mark === mark).length);
    return [one.called, String(all.length), count("right"), count("safe"), count("missed"), String(all.filter((result) => result.due <= today).length)];
  });
  if (!rows.length) return [];
  return table("Exercises and cases tried", ["Person", "Tried", "Right at the first try", "Would do, not the best", "Missed", "Due again"], rows);
}

/**
 * @param {Learner[]} people
 * @param {Known} known
 */
export function drawMissed(people, known) {
  const rows = missedBy(people).map(([id, row]) => {
    const slips = [...new Set(row.slips)].map((slip) => `${row.slips.filter((one) => one === slip).length} × ${known[id]?.slips[slip] ?? "a slip of an earlier edition"}`);
    return [known[id]?.said ?? EARLIER, `${row.who.length} of ${row.tried}`, row.who.join(", "), slips.join(" ") || "no slip was named"];
  });
  return rows.length ? table("Missed, the most often first", ["Exercise or case", "Missed by", "Who", "Slips"], rows) : [];
}

/**
 * @param {Learner[]} people
 * @param {Record<string, Job>} jobs
 * @param {Known} known
 * @param {string} wanted one job, or "" for all and for what was tried
 * @returns {string[][]}
 */
export function csvRows(people, jobs, known, wanted) {
  const rows = [["Person", "From", "Job or kind", "Standard or question", "Seen (gives no leave to work alone or to go in)", "On", "Batches", "Not yet, because; slip", "Assessed by", "Due again", "Next try", "House’s number", "Handbook version", "Look again", "Taken back"]];
  for (const one of people) {
    const from = one.from.join(" and ");
    const again = new Set(Object.entries(jobs).flatMap(([id, job]) => jobStanding(job, one.lines, id).steps.filter((step) => step.again).flatMap((step) => step.lines.at(-1)?.id ?? [])));
    for (const line of [...one.lines].sort(inOrder)) {
      if (wanted && line.job !== wanted) continue;
      rows.push([one.called, from, line.title, line.says, STAGE_WORDS[line.stage], line.on, line.batches, line.why, line.by, ...(line.stage === "not-yet" ? ["", line.due] : [line.due, ""]), line.number, line.version, again.has(line.id) ? "yes" : "", line.back ? `${line.back.replace("T", " ")}: ${line.backWhy}` : ""]);
    }
    for (const [id, result] of wanted ? [] : one.results) {
      rows.push([one.called, from, result.kind === "question" ? "case" : "exercise", known[id]?.said ?? EARLIER, RESULT_WORDS[result.mark], result.at.slice(0, 10), "", (result.slip && known[id]?.slips[result.slip]) || "", "", result.due, "", "", "", "", ""]);
    }
  }
  return rows;
}
