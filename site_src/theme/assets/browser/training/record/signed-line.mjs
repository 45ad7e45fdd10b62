// One line of a record of competence: somebody saw somebody do one step of a job, on a day. A line is never changed and
// never goes; it is taken back, with the reason, and still stands there.

import { isObject } from "../result.mjs";

/**
 * `mark` is that of the page and the standard at the time; `back` is the minute at which it was taken back.
 * @typedef {{ id: string, job: string, step: string, title: string, says: string, stage: string, on: string, batches: string, why: string, by: string, due: string, number: string, version: string, mark: string, at: string, back: string, backWhy: string }} Line
 * @typedef {{ id: string, name: string, lines: Line[] }} Person
 */

export const STAGES = ["shown", "helped", "alone", "not-yet"];
export const MOST_LINES = 4000; // of one person
export const MOST_NAME = 60;

const MINUTE = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/;
const ID = /^[a-z0-9]{4,30}$/;
const NAME = /^[a-z0-9-]{1,60}$/;
// Signs that steer a machine or turn the writing round; a name has none.
const STEERING = /[\p{Cc}\u061c\u200e\u200f\u202a-\u202e\u2028\u2029\u2066-\u2069\ufeff]+/gu;

export const fresh = () => [...crypto.getRandomValues(new Uint32Array(2))].map((one) => one.toString(36).padStart(6, "0")).join("");

/**
 * One line of text of a known length.
 * @param {unknown} value
 * @param {number} most
 */
export const oneLine = (value, most) => (typeof value === "string" ? [...value.slice(0, 4 * most).replace(STEERING, " ").replace(/\s+/g, " ").trim()].slice(0, most).join("") : "");

/**
 * Whether a text is a day of the calendar, such as 2026-11-29.
 * @param {unknown} value
 * @returns {value is string}
 */
export function isDay(value) {
  if (typeof value !== "string" || !/^\d{4}-\d{2}-\d{2}$/.test(value)) return false;
  const at = new Date(`${value}T12:00Z`);
  return !Number.isNaN(at.getTime()) && at.toISOString().slice(0, 10) === value && value >= "1990-01-01" && value < "2200-01-01";
}

/** @param {unknown} value */
const name = (value) => (typeof value === "string" && NAME.test(value) ? value : "");
/** @param {unknown} value */
const minute = (value) => (typeof value === "string" && MINUTE.test(value) ? value : "");

/**
 * A line as it stands in a record or in a file; null when it is not whole.
 * @param {unknown} one
 * @returns {Line | null}
 */
export function lineFrom(one) {
  if (!isObject(one) || typeof one.id !== "string" || !ID.test(one.id)) return null;
  const line = {
    id: one.id,
    job: name(one.job),
    step: name(one.step),
    title: oneLine(one.title, 80),
    says: oneLine(one.says, 300),
    stage: STAGES.includes(one.stage) ? one.stage : "",
    on: isDay(one.on) ? one.on : "",
    batches: oneLine(one.batches, 120),
    why: oneLine(one.why, 300),
    by: oneLine(one.by, MOST_NAME),
    due: isDay(one.due) ? one.due : "",
    number: oneLine(one.number, 40),
    version: oneLine(one.version, 20),
    mark: name(one.mark),
    at: minute(one.at),
    back: minute(one.back),
    backWhy: oneLine(one.backWhy, 200),
  };
  return line.job && line.step && line.stage && line.on && line.by && line.at ? line : null;
}

/**
 * A person as a record or a file has one, and how many lines of it were not whole; null when it is none.
 * @param {unknown} one
 * @returns {{ person: Person, left: number } | null}
 */
export function personFrom(one) {
  if (!isObject(one) || typeof one.id !== "string" || !ID.test(one.id)) return null;
  const called = oneLine(one.name, MOST_NAME);
  if (!called) return null;
  const given = Array.isArray(one.lines) ? one.lines : [];
  const lines = given.slice(0, MOST_LINES).flatMap((line) => lineFrom(line) ?? []);
  return { person: { id: one.id, name: called, lines }, left: given.length - lines.length };
}

/** What was written, without whether it was taken back. @param {Line} line */
const written = ({ back: _back, backWhy: _why, ...rest }) => JSON.stringify(rest);

/**
 * All lines of both, each once. What was taken back in one of them is taken back; two that share an id and say
 * different things both stay.
 * @param {Line[]} own
 * @param {Line[]} coming
 */
export function together(own, coming) {
  const all = new Map(own.map((line) => [written(line), line]));
  for (const line of coming) {
    const there = all.get(written(line));
    if (!there || (line.back && !there.back)) all.set(written(line), line);
  }
  return [...all.values()];
}

/**
 * How many of some lines others do not have, or have not as taken back.
 * @param {Line[]} coming
 * @param {Line[]} own
 */
export function newTo(coming, own) {
  const there = new Map(own.map((line) => [written(line), line]));
  return coming.filter((line) => {
    const same = there.get(written(line));
    return !same || (line.back && !same.back);
  }).length;
}
