// What a learner has tried, kept on this device only. What cannot be kept is held for this visit, so that an
// export still works. A write is one call that either happens whole or not at all.

import { localMinute } from "../shared/moment.mjs";
import { isObject, valid } from "./result.mjs";
import { dueOf, next } from "./schedule.mjs";
import { siteRoot } from "../shared/root.mjs";

/** @typedef {import("./result.mjs").Result} Result */
/** @typedef {"" | "blocked" | "full" | "unreadable"} Trouble */

const KEY = `${siteRoot.pathname}training`;
const SCHEMA = 1;
const MOST_CHARACTERS = 500_000;

/** @type {Map<string, Result>} */
const held = new Map(); // of this visit, where the device keeps nothing
/** @type {Set<() => void>} */
const listeners = new Set();
/** @type {Trouble} */
let trouble = "";

/** @type {Record<Trouble, string>} */
const TROUBLE = {
  "": "",
  blocked: "This browser keeps nothing for this site. Results last until you leave; save them as a file before that.",
  full: "The device has no room left for this site. What was kept before is whole. Save your results as a file, then remove what you do not need.",
  unreadable: "What this device had kept could not be read, so it counts as empty. Bring back a file that you saved.",
};

/** @returns {Map<string, Result>} */
function stored() {
  let text;
  try {
    text = localStorage.getItem(KEY);
  } catch {
    trouble = "blocked";
    return new Map();
  }
  if (text === null) return new Map();
  try {
    const kept = JSON.parse(text);
    if (kept.schema === SCHEMA && isObject(kept.results)) return valid(kept.results);
  } catch {
    // said below
  }
  trouble = "unreadable";
  return new Map();
}

// Always read afresh: another tab may have written.
export function results() {
  return new Map([...stored(), ...held]);
}

export const said = () => TROUBLE[trouble];

/** @param {Map<string, Result>} all */
const asText = (all) => JSON.stringify({ schema: SCHEMA, results: Object.fromEntries(all) });

/** @param {Map<string, Result>} all */
function keep(all) {
  try {
    localStorage.setItem(KEY, asText(all));
    held.clear();
    trouble = "";
  } catch (fault) {
    const name = fault instanceof DOMException ? fault.name : "";
    trouble = name === "QuotaExceededError" || name === "NS_ERROR_DOM_QUOTA_REACHED" ? "full" : "blocked";
    for (const [id, one] of all) held.set(id, one);
  }
  tell();
}

/**
 * @param {string} id
 * @param {{ chapter: string, kind: string, mark: string, slip?: string }} result
 */
export function note(id, { chapter, kind, mark, slip = "" }) {
  const all = results();
  const at = localMinute();
  keep(all.set(id, { chapter, kind, mark, at, slip, ...next(all.get(id), mark === "right", at.slice(0, 10)) }));
}

/**
 * The ones whose day has come, no more than three, among those that are wanted.
 * @param {(id: string, one: Result) => boolean} wanted
 */
export function due(wanted) {
  return dueOf([...results()].filter(([id, one]) => wanted(id, one)), localMinute().slice(0, 10));
}

export function remove() {
  held.clear();
  try {
    localStorage.removeItem(KEY);
    trouble = "";
  } catch {
    trouble = "blocked";
  }
  tell();
}

export const exported = () => `${JSON.stringify({ schema: SCHEMA, saved: localMinute(), results: Object.fromEntries(results()) }, null, 1)}\n`;

/**
 * Takes in what a file says, as data: {added, left} or {fault}. Of two results the later one stands.
 * @param {string} text
 * @param {Record<string, { chapter: string } | undefined>} known by id
 */
export function take(text, known) {
  if (text.length > MOST_CHARACTERS) return { fault: "That file is too long to be one saved here. Nothing was changed." };
  let file;
  try {
    file = JSON.parse(text);
  } catch {
    return { fault: "That file is not one saved here: it cannot be read. Nothing was changed." };
  }
  if (!isObject(file) || file.schema !== SCHEMA || !isObject(file.results)) return { fault: "That file is not one saved here, or it was saved by another version. Nothing was changed." };
  const coming = [...valid(file.results)].flatMap(([id, one]) => {
    const chapter = known[id]?.chapter; // where it stands in this edition
    return chapter ? [/** @type {const} */ ([id, { ...one, chapter }])] : [];
  });
  const left = Object.keys(file.results).length - coming.length;
  const all = results();
  let added = 0;
  for (const [id, one] of coming) {
    const own = all.get(id);
    if (own && own.at >= one.at) continue;
    all.set(id, one);
    added += 1;
  }
  if (added) keep(all);
  return { added, left };
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
  if (event.key === KEY || event.key === null) tell(); // null: everything was cleared
});
