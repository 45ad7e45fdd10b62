// Where somebody stands with a job, by the lines that were written: data for the sheets, the table and the file.

import { later } from "../schedule.mjs";

/** @typedef {import("./signed-line.mjs").Line} Line */
/** @typedef {{ id: string, says: string, times: number, hazard: boolean }} Step */
/** @typedef {{ title: string, where: string, often: string, months: number, due: string, mark: string, number: string, assesses: string, steps: Step[] }} Job */
/**
 * `stage` is the furthest since the last “not yet”; `times` on how many batches it was seen alone since then; `due` is when
 * what was seen is due again, `next` the day of the next try of what was not reached.
 * @typedef {{ step: Step, lines: Line[], stage: string, times: number, enough: boolean, due: string, next: string, why: string, again: boolean }} StepStanding
 * @typedef {{ steps: StepStanding[], enough: number, due: string, next: string, batches: string[], by: string[], again: string, lines: Line[] }} JobStanding
 */

const FURTHER = ["shown", "helped", "alone"];
export const SOON_DAYS = 30;

/** By the day it happened, then by when it was written. @param {Line} a @param {Line} b */
export const inOrder = (a, b) => a.on.localeCompare(b.on) || a.at.localeCompare(b.at);

/** The batches of a line; a day counts where none was written. @param {Line} line */
export function batchesOf(line) {
  const named = line.batches.split(/[,;]/).map((one) => one.trim()).filter(Boolean);
  return named.length ? named : [line.on];
}

/**
 * @param {Step} step
 * @param {Line[]} lines all of the person's on the job
 * @param {string} mark of the job's page and standard as they are now
 * @returns {StepStanding}
 */
export function standingOf(step, lines, mark) {
  const mine = lines.filter((line) => line.step === step.id && !line.back).sort(inOrder);
  const missed = mine.map((line) => line.stage).lastIndexOf("not-yet");
  const since = mine.slice(missed + 1);
  const stage = FURTHER.filter((one) => since.some((line) => line.stage === one)).at(-1) ?? (mine.length ? "not-yet" : "");
  const alone = since.filter((line) => line.stage === "alone");
  const times = new Set(alone.flatMap(batchesOf).map((one) => one.toLowerCase())).size;
  const last = mine.at(-1);
  const dated = since.filter((line) => line.due);
  return {
    step,
    lines: mine,
    stage,
    times,
    enough: stage === "alone" && times >= step.times,
    due: dated.at(-1)?.due ?? "",
    next: stage === "not-yet" ? (last?.due ?? "") : "",
    why: stage === "not-yet" ? (last?.why ?? "") : "",
    again: last !== undefined && last.mark !== mark,
  };
}

/**
 * @param {Job} job
 * @param {Line[]} all of a person's
 * @param {string} id of the job
 * @returns {JobStanding}
 */
export function jobStanding(job, all, id) {
  const lines = all.filter((line) => line.job === id);
  const steps = job.steps.map((step) => standingOf(step, lines, job.mark));
  const counted = lines.filter((line) => !line.back).sort(inOrder);
  const first = (/** @type {"due" | "next"} */ which) => steps.map((one) => one[which]).filter(Boolean).sort()[0] ?? "";
  const changed = steps.filter((one) => one.again).map((one) => one.lines.at(-1)?.on ?? "").sort();
  const named = (/** @type {(line: Line) => string[]} */ take) => [...new Set(counted.flatMap(take).filter(Boolean))];
  return {
    steps,
    enough: steps.filter((one) => one.enough).length,
    due: first("due"),
    next: first("next"),
    batches: named((line) => line.batches.split(/[,;]/).map((one) => one.trim())),
    by: named((line) => [line.by]),
    again: changed[0] ?? "",
    lines: counted,
  };
}

/**
 * Whether a day has come, comes within thirty days, or is further off.
 * @param {string} due
 * @param {string} today
 * @returns {"" | "due" | "soon" | "later"}
 */
export function dueState(due, today) {
  if (!due) return "";
  if (due <= today) return "due";
  return due <= later(today, SOON_DAYS) ? "soon" : "later";
}

/**
 * The day so many months later; the last of the month where it has no such day.
 * @param {string} day as 2026-08-31
 * @param {number} months
 */
export function monthsLater(day, months) {
  const [year, month, date] = day.split("-").map(Number);
  const last = new Date(Date.UTC(year, month + months, 0));
  const at = new Date(Date.UTC(last.getUTCFullYear(), last.getUTCMonth(), Math.min(date, last.getUTCDate())));
  return at.toISOString().slice(0, 10);
}
