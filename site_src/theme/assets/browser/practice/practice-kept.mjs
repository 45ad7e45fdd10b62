// Runs of the practice batch kept on this device, in a place of their own: nothing of the day-book stands here, and
// nothing from here goes there.

import { localMinute } from "../shared/moment.mjs";
import { siteRoot } from "../shared/root.mjs";

/**
 * @typedef {{ id: string, number: string, level: string, faults: string, moves: string, setting: string, ended: string, title: string, at: string, partner: string, say: string }} Run
 * @typedef {{ text: string, at: string }} Sentence
 * @typedef {{ now: string, runs: Run[], sentences: Sentence[] }} Kept
 */

const KEY = `${siteRoot.pathname}practice`;
const SCHEMA = 1;
const ASIDE = `${KEY}-set-aside`;
export const MANY_RUNS = 40; // are said to be many; none goes by itself
const MOST_SENTENCES = 20;
const WEEK_MS = 7 * 24 * 60 * 60 * 1000;
export const NUMBERS = "1 to 999999"; // of barleys, as the hints beside their boxes have it
export const WRONG_NUMBER = `Number of the barley: type a whole number from ${NUMBERS}, or leave it blank.`;
// How long the moves of a run may be, in characters. A page that is being left says nothing of it, and shortens none.
const mostMoves = () => Number(document.querySelector("[data-most-moves]")?.getAttribute("data-most-moves")) || Infinity;

/** @type {Kept} */
let held = { now: "", runs: [], sentences: [] }; // of this visit, where the device keeps nothing
let blocked = false;
let locked = false; // there stands what cannot be read and cannot be set aside
let trouble = "";

/** @param {string} typed */
export const isNumber = (typed) => /^\d{1,6}$/.test(typed) && Number(typed) >= 1;

/** @param {unknown} value @param {number} most */
const text = (value, most) => (typeof value === "string" ? value.slice(0, most) : "");

/**
 * What stands in a record, a file or a link is data: text of a known length, nothing else.
 * @param {unknown} one
 * @returns {Run | null}
 */
export function runFrom(one) {
  if (one === null || typeof one !== "object") return null;
  const given = /** @type {Record<string, unknown>} */ (one);
  const number = String(given.number ?? "").trim();
  if (!isNumber(number)) return null;
  const level = text(given.level, 2);
  const faults = text(given.faults, 200);
  const most = mostMoves();
  const moves = text(given.moves, most + 1);
  const setting = text(given.setting, 80);
  if (!/^[0-5][a-g]?$/.test(level) || !/^[a-z0-9,-]*$/.test(faults) || moves.length > most || !/^[a-z0-9.~_-]*$/.test(moves) || !/^[a-z0-9._]*$/.test(setting)) return null;
  return { id: text(given.id, 20) || fresh(), number, level, faults, moves, setting, ended: text(given.ended, 10), title: text(given.title, 80), at: text(given.at, 16) || localMinute(), partner: text(given.partner, 20), say: text(given.say, 600) };
}

export const fresh = () => crypto.getRandomValues(new Uint32Array(1))[0].toString(36);
export const freshNumber = () => String((crypto.getRandomValues(new Uint32Array(1))[0] % 9999) + 1);

/** @returns {Kept} always read afresh: another tab may have written */
export function kept() {
  if (blocked || locked) return held;
  let record = null;
  try {
    record = localStorage.getItem(KEY);
    if (record === null) return held;
    const found = JSON.parse(record);
    if (found?.schema !== SCHEMA || !Array.isArray(found.runs)) return setAside(record);
    const runs = found.runs.map(runFrom).filter((/** @type {Run | null} */ run) => run !== null);
    const sentences = (Array.isArray(found.sentences) ? found.sentences : []).map((/** @type {any} */ one) => ({ text: text(one?.text, 200), at: text(one?.at, 16) }));
    return { now: text(found.now, 20), runs, sentences };
  } catch {
    return record === null ? held : setAside(record);
  }
}

/** What cannot be read is kept beside, so that the next tap takes nothing away. @param {string} record */
function setAside(record) {
  trouble = "The runs that this device had kept could not be read, perhaps because a newer edition of this handbook wrote them. They are set aside, not removed. Bring back a run by its link or its file.";
  try {
    let place = ASIDE;
    for (let more = 2; localStorage.getItem(place) !== null; more += 1) place = `${ASIDE}-${more}`;
    localStorage.setItem(place, record);
    localStorage.removeItem(KEY);
  } catch {
    locked = true; // no room: it stays where it is
  }
  return held;
}

export const said = () => trouble;

/** @param {Kept} all */
function keep(all) {
  held = all;
  if (locked) return;
  try {
    localStorage.setItem(KEY, JSON.stringify({ schema: SCHEMA, ...all }));
    blocked = false;
  } catch {
    blocked = true;
  }
}

export const isKept = () => !blocked && !locked;

/** Keeps a run and makes it the one that goes on. @param {Run} run */
export function put(run) {
  const { runs, sentences } = kept();
  keep({ now: run.id, runs: [run, ...runs.filter((one) => one.id !== run.id)], sentences });
}

/** @param {string} id */
export const find = (id) => kept().runs.find((one) => one.id === id) ?? null;

export function current() {
  const { now, runs } = kept();
  return runs.find((one) => one.id === now) ?? null;
}

/** @param {string} id */
export function remove(id) {
  const { now, runs, sentences } = kept();
  keep({ now: now === id ? "" : now, runs: runs.filter((one) => one.id !== id), sentences });
}

/** @param {string} words */
export function putSentence(words) {
  const { now, runs, sentences } = kept();
  keep({ now, runs, sentences: [{ text: words, at: localMinute() }, ...sentences].slice(0, MOST_SENTENCES) });
}

export const dueSentence = () => kept().sentences.filter((one) => Date.now() - Date.parse(one.at) >= WEEK_MS).at(-1) ?? null;

/** @param {Sentence} done */
export function doneWith(done) {
  const { now, runs, sentences } = kept();
  keep({ now, runs, sentences: sentences.filter((one) => one.text !== done.text || one.at !== done.at) });
}
