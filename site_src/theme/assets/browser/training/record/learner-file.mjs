// Files of learners and of records: made here, and read as data. A file is never run, never merged unseen, and what is
// wrong with it is said in words.

import { isObject, valid } from "../result.mjs";
import { personFrom } from "./signed-line.mjs";

/** @typedef {import("../result.mjs").Result} Result */
/** @typedef {import("./signed-line.mjs").Person} Person */
/**
 * What a file holds: of each person the lines, and the results of the one whose file it is.
 * @typedef {{ people: Person[], results: Map<string, Result>, saved: string, kind: "learner" | "sign-off" | "results", said: string[] }} Held
 */

export const SCHEMA = 1;
export const MOST_BYTES = 4_000_000;
const MOST_PEOPLE = 200;
const SAVED = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/;

/**
 * @param {Person} person
 * @param {Map<string, Result>} results
 * @param {string} saved
 * @param {string} version
 */
export const learnerFile = (person, results, saved, version) => `${JSON.stringify({ kind: "learner", schema: SCHEMA, saved, version, person: { id: person.id, name: person.name }, results: Object.fromEntries(results), lines: person.lines }, null, 1)}\n`;

/**
 * @param {Person[]} people
 * @param {string} saved
 * @param {string} version
 */
export const recordFile = (people, saved, version) => `${JSON.stringify({ kind: "sign-off", schema: SCHEMA, saved, version, people }, null, 1)}\n`;

/** @param {string} text */
function parsed(text) {
  try {
    return { file: /** @type {unknown} */ (JSON.parse(text)) };
  } catch {
    const begins = text.trimStart().startsWith("{");
    return { fault: begins ? "it breaks off or is damaged. Have it saved once more" : "it is not a file saved here" };
  }
}

/** A number with its word. @param {number} number @param {string} what */
export const counted = (number, what) => `${number} ${number === 1 ? what : `${what}s`}`;

/** @param {number} left @param {string} what */
const leftOut = (left, what) => (left ? [`${counted(left, what)} in it not whole and left out`] : []);

/**
 * @param {Record<string, any>} file
 * @param {string} name of the file
 * @returns {Held | string}
 */
function held(file, name) {
  const results = isObject(file.results) ? valid(file.results) : new Map();
  const said = isObject(file.results) ? leftOut(Object.keys(file.results).length - results.size, "result") : [];
  const saved = typeof file.saved === "string" && SAVED.test(file.saved) ? file.saved : "";
  if (file.kind === "sign-off" && Array.isArray(file.people)) {
    const read = file.people.slice(0, MOST_PEOPLE).map(personFrom);
    const people = read.flatMap((one) => one?.person ?? []);
    const lines = read.reduce((sum, one) => sum + (one?.left ?? 0), 0);
    if (!people.length) return "there is no record of anybody in it";
    return { people, results: new Map(), saved, kind: "sign-off", said: [...leftOut(file.people.length - people.length, "person"), ...leftOut(lines, "line")] };
  }
  if (file.kind === "learner") {
    const read = personFrom({ ...(isObject(file.person) ? file.person : {}), lines: file.lines });
    return read ? { people: [read.person], results, saved, kind: "learner", said: [...said, ...leftOut(read.left, "line")] } : "there is no name in it";
  }
  if (file.kind === undefined && isObject(file.results)) {
    const person = { id: "", name: name.replace(/\.json$/i, ""), lines: [] };
    return { people: [person], results, saved, kind: "results", said: [...said, "it is of the older kind, without a name and without signed lines, so it stands under the name of the file"] };
  }
  return "moves" in file ? "it is a run of the practice batch, which is read on the page for its trainer" : "it is not a learner’s file and no record of competence";
}

/**
 * What a file holds, or in words why nothing of it is taken.
 * @param {string} text
 * @param {string} name of the file
 * @returns {Held | string}
 */
export function readFile(text, name) {
  const { file, fault } = parsed(text);
  if (fault) return fault;
  if (!isObject(file)) return "it is not a file saved here";
  if (typeof file.schema === "number" && file.schema > SCHEMA) return "it was saved by a newer edition of the handbook. Renew this one first";
  if (file.schema !== SCHEMA) return "it is not a learner’s file and no record of competence";
  return held(file, name);
}

/**
 * The same for a file as it was chosen; one that is too long is not read at all.
 * @param {File} file
 * @returns {Promise<Held | string>}
 */
export async function readChosen(file) {
  if (file.size > MOST_BYTES) return `it has ${Math.ceil(file.size / 1e6)} MB, and a learner’s file has less than ${MOST_BYTES / 1e6}`;
  try {
    return readFile(await file.text(), file.name);
  } catch {
    return "this device could not read it";
  }
}
