// The records of competence that were written on this device, and what its house says of each job. Everything stays
// here until somebody saves a file. A write is one call that either happens whole or not at all.

import { localMinute } from "../../shared/moment.mjs";
import { siteRoot } from "../../shared/root.mjs";
import { isObject } from "../result.mjs";
import { fresh, oneLine, personFrom, together } from "./signed-line.mjs";

/** @typedef {import("./signed-line.mjs").Line} Line */
/** @typedef {import("./signed-line.mjs").Person} Person */
/** @typedef {{ number: string, assesses: string }} OfHouse */
/** @typedef {{ people: Person[], house: Record<string, OfHouse>, own: { id: string, name: string } }} Kept */

const KEY = `${siteRoot.pathname}sign-off`;
const ASIDE = `${KEY}-set-aside`;
const SCHEMA = 1;

/** @type {Kept | null} */
let held = null; // of this visit, where the device keeps nothing
let trouble = "";
/** @type {Set<() => void>} */
const listeners = new Set();

/** @returns {Kept} */
const nothing = () => ({ people: [], house: {}, own: { id: "", name: "" } });

/** @param {Record<string, any>} found @returns {Kept} */
function read(found) {
  const people = (Array.isArray(found.people) ? found.people : []).flatMap((one) => personFrom(one)?.person ?? []);
  /** @type {Record<string, OfHouse>} */
  const house = {};
  for (const [job, one] of Object.entries(isObject(found.house) ? found.house : {})) {
    if (/^[a-z0-9-]{1,60}$/.test(job) && isObject(one)) house[job] = { number: oneLine(one.number, 40), assesses: oneLine(one.assesses, 60) };
  }
  const mine = isObject(found.own) ? { id: oneLine(found.own.id, 30), name: oneLine(found.own.name, 60) } : nothing().own;
  return { people, house, own: mine };
}

/** @returns {Kept} always read afresh: another tab may have written */
export function kept() {
  if (held) return held;
  let text = null;
  try {
    text = localStorage.getItem(KEY);
  } catch {
    trouble = "This browser keeps nothing for this site. What is written lasts until you leave; save it as a file before that.";
  }
  if (text === null) return nothing();
  try {
    const found = JSON.parse(text);
    if (isObject(found) && found.schema === SCHEMA) return read(found);
  } catch {
    // said below
  }
  return setAside(text);
}

/** What cannot be read is kept beside, so that the next write takes nothing away. @param {string} text */
function setAside(text) {
  trouble = "The record that this device had kept could not be read. It is set aside, not removed. Bring back a file that you saved.";
  try {
    localStorage.setItem(ASIDE, text);
    localStorage.removeItem(KEY);
  } catch {
    // it stays where it is
  }
  return nothing();
}

export const said = () => trouble;

/**
 * @param {Kept} all
 * @returns {boolean} whether the device keeps it
 */
function keep(all) {
  try {
    localStorage.setItem(KEY, JSON.stringify({ schema: SCHEMA, ...all }));
    held = null;
    trouble = "";
  } catch (fault) {
    const full = fault instanceof DOMException && /quota/i.test(fault.name);
    held = all;
    trouble = full
      ? "The device has no room left for this site. What is written lasts until you leave: save all records as a file now."
      : "This browser keeps nothing for this site. What is written lasts until you leave; save it as a file before that.";
  }
  tell();
  return !held;
}

export const people = () => kept().people;

/** @param {string} id */
export const find = (id) => people().find((one) => one.id === id) ?? null;

/**
 * @param {string} called
 * @returns {Person | string} the new person, or what to type instead
 */
export function add(called) {
  const name = oneLine(called, 60);
  if (!name) return "Type the name first.";
  const all = kept();
  if (all.people.some((one) => one.name.toLowerCase() === name.toLowerCase())) return `${name} is there already. Two people need two names, such as with the shift behind it.`;
  const person = { id: fresh(), name, lines: [] };
  keep({ ...all, people: [...all.people, person] });
  return person;
}

/**
 * @param {string} id
 * @param {(person: Person) => Person} change
 */
function changed(id, change) {
  const all = kept();
  return keep({ ...all, people: all.people.map((one) => (one.id === id ? change(one) : one)) });
}

/**
 * @param {string} id
 * @param {string} called
 * @returns {string} what to type instead, or ""
 */
export function rename(id, called) {
  const name = oneLine(called, 60);
  if (!name) return "Type the name first.";
  if (people().some((one) => one.id !== id && one.name.toLowerCase() === name.toLowerCase())) return `${name} is there already.`;
  changed(id, (person) => ({ ...person, name }));
  return "";
}

/** @param {string} id */
export function remove(id) {
  const all = kept();
  keep({ ...all, people: all.people.filter((one) => one.id !== id) });
}

/**
 * Writes the same lines for several people, all at once.
 * @param {string[]} ids
 * @param {Omit<Line, "id" | "at" | "back" | "backWhy">[]} lines
 */
export function write(ids, lines) {
  const all = kept();
  const at = localMinute();
  const add_ = (/** @type {Person} */ one) => ({ ...one, lines: [...one.lines, ...lines.map((line) => ({ ...line, id: fresh(), at, back: "", backWhy: "" }))] });
  return keep({ ...all, people: all.people.map((one) => (ids.includes(one.id) ? add_(one) : one)) });
}

/**
 * @param {string} id of the person
 * @param {string} line
 * @param {string} why
 */
export function takeBack(id, line, why) {
  const back = { back: localMinute(), backWhy: oneLine(why, 200) };
  return changed(id, (person) => ({ ...person, lines: person.lines.map((one) => (one.id === line && !one.back ? { ...one, ...back } : one)) }));
}

/**
 * What the house says of a job, as it was typed here.
 * @param {string} job
 */
export const ofHouse = (job) => kept().house[job] ?? { number: "", assesses: "" };

/**
 * @param {string} job
 * @param {OfHouse} said_
 */
export function setHouse(job, said_) {
  const all = kept();
  keep({ ...all, house: { ...all.house, [job]: said_ } });
}

/**
 * Who makes a learner's file on this device. Another name is another person, with a mark of their own.
 * @param {string} [called]
 */
export function own(called) {
  const all = kept();
  if (called === undefined) return all.own;
  const name = oneLine(called, 60);
  const isSame = name.toLowerCase() === all.own.name.toLowerCase();
  const mine = { id: (isSame && all.own.id) || fresh(), name };
  keep({ ...all, own: name ? mine : nothing().own });
  return mine;
}

/**
 * Brings records back that were saved here. Of one person both records' lines stand; nothing is taken away.
 * @param {Person[]} coming
 */
export function bringBack(coming) {
  const all = kept();
  const known = new Map(all.people.map((one) => [one.id, one]));
  for (const one of coming) {
    const there = known.get(one.id);
    known.set(one.id, there ? { ...there, lines: together(there.lines, one.lines) } : one);
  }
  return keep({ ...all, people: [...known.values()] });
}

function tell() {
  for (const listener of [...listeners]) listener();
}

/** @param {() => void} listener */
export function subscribe(listener) {
  listeners.add(listener);
  return () => void listeners.delete(listener);
}

addEventListener("storage", (event) => {
  if (event.key === KEY || event.key === null) tell();
});
