// What a learner has tried, kept on this device only. What cannot be kept is held for this visit, so that an
// export still works. A write is one call that either happens whole or not at all.

import { siteRoot } from "../shared/root.mjs";

const KEY = `${siteRoot.pathname}training`;
const SCHEMA = 1;
const MARKS = ["right", "missed"]; // at the first try, the last time it was asked
const KINDS = ["exercise", "question"];
const MOST_CHARACTERS = 500_000;
const WHEN = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/;

const held = new Map(); // of this visit, where the device keeps nothing
const listeners = new Set();
let trouble = ""; // "", blocked, full, unreadable

export const TROUBLE = {
  "": "",
  blocked: "This browser keeps nothing for this site. Results last until you leave; save them as a file before that.",
  full: "The device has no room left for this site. What was kept before is whole. Save your results as a file, then remove what you do not need.",
  unreadable: "What this device had kept could not be read, so it counts as empty. Bring back a file that you saved.",
};

const isRecord = (one) => one !== null && typeof one === "object" && !Array.isArray(one);

function isResult(one) {
  return isRecord(one) && MARKS.includes(one.mark) && KINDS.includes(one.kind) && typeof one.chapter === "string" && /^[a-z-]{1,40}$/.test(one.chapter) && WHEN.test(one.at);
}

function valid(results) {
  const good = Object.entries(results).filter(([id, one]) => /^[a-z0-9-]{1,80}$/.test(id) && isResult(one));
  return new Map(good.map(([id, { chapter, kind, mark, at }]) => [id, { chapter, kind, mark, at }]));
}

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
    if (kept.schema === SCHEMA && isRecord(kept.results)) return valid(kept.results);
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

const asText = (all) => JSON.stringify({ schema: SCHEMA, results: Object.fromEntries(all) });

function keep(all) {
  try {
    localStorage.setItem(KEY, asText(all));
    held.clear();
    trouble = "";
  } catch (fault) {
    trouble = fault?.name === "QuotaExceededError" || fault?.name === "NS_ERROR_DOM_QUOTA_REACHED" ? "full" : "blocked";
    for (const [id, one] of all) held.set(id, one);
  }
  tell();
}

function thisMinute() {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60000).toISOString().slice(0, 16);
}

export function note(id, { chapter, kind, mark }) {
  keep(results().set(id, { chapter, kind, mark, at: thisMinute() }));
}

// The ones missed last, newest first, no more than three.
export function missed(kind, chapter) {
  return [...results()]
    .filter(([, one]) => one.mark === "missed" && one.kind === kind && (!chapter || one.chapter === chapter))
    .sort(([, a], [, b]) => b.at.localeCompare(a.at))
    .slice(0, 3)
    .map(([id]) => id);
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

export const exported = () => `${JSON.stringify({ schema: SCHEMA, saved: thisMinute(), results: Object.fromEntries(results()) }, null, 1)}\n`;

// Takes in what a file says, as data: {added, left} or {fault}. Of two results the later one stands.
export function take(text, known) {
  if (text.length > MOST_CHARACTERS) return { fault: "That file is too long to be one saved here. Nothing was changed." };
  let file;
  try {
    file = JSON.parse(text);
  } catch {
    return { fault: "That file is not one saved here: it cannot be read. Nothing was changed." };
  }
  if (!isRecord(file) || file.schema !== SCHEMA || !isRecord(file.results)) return { fault: "That file is not one saved here, or it was saved by another version. Nothing was changed." };
  const coming = [...valid(file.results)].filter(([id, one]) => known[id] === one.chapter);
  const left = Object.keys(file.results).length - coming.length;
  const all = results();
  let added = 0;
  for (const [id, one] of coming) {
    if (all.has(id) && all.get(id).at >= one.at) continue;
    all.set(id, one);
    added += 1;
  }
  if (added) keep(all);
  return { added, left };
}

function tell() {
  for (const listener of [...listeners]) listener();
}

export function subscribe(listener) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

addEventListener("storage", (event) => {
  if (event.key === KEY || event.key === null) tell(); // null: everything was cleared
});
