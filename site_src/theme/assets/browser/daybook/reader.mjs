// Reads a file beside the page, so that a long one stops nothing: its letters, its rows, and these in parts that
// Python checks one by one; what Python has taken is written from here, all at once. What a row says is Python's to
// judge; here it is only told apart from the next one.

import { addAll, connect } from "./store.mjs";
import { saidBy } from "../shared/fault.mjs";

const scope = /** @type {DedicatedWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const PART_ROWS = 120;
const PART_CHARACTERS = 400_000;
const DEEPEST = 12; // ours stand four deep in one row; Python says so when a whole file is too deep
const A_LOOK = 4000; // characters of a file that cannot be parted: Python says what is wrong with it
const FIRST_LINES = 6;
const LONGEST_LINE = 200;

/** @typedef {import("./reading.mjs").Part} Part */
/** @typedef {import("./store.mjs").Entry} Entry */

/** @type {() => Generator<Part>} */
let parts = function* () {};
/** @type {Generator<Part> | null} */
let going = null;
/** @type {Map<string, Entry>} */
const checked = new Map(); // what is to be written, by its id

/** @param {ArrayBuffer} bytes */
function decoded(bytes) {
  const [one, two] = new Uint8Array(bytes);
  const wide = one === 0xff && two === 0xfe ? "utf-16le" : one === 0xfe && two === 0xff ? "utf-16be" : "";
  if (wide) return { text: new TextDecoder(wide).decode(bytes), letters: "" };
  try {
    return { text: new TextDecoder("utf-8", { fatal: true }).decode(bytes), letters: "" };
  } catch {
    return { text: new TextDecoder("windows-1252").decode(bytes), letters: "Windows-1252" };
  }
}

/**
 * @param {unknown} value
 * @param {number} left
 * @returns {boolean}
 */
const tooDeep = (value, left) => typeof value === "object" && value !== null && (left === 0 || Object.values(value).some((one) => tooDeep(one, left - 1)));

/** @param {unknown} row */
function asText(row) {
  try {
    return JSON.stringify(row);
  } catch (fault) {
    return `It cannot be written out (${saidBy(fault)}). It is in the file.`;
  }
}

/**
 * @param {any} book
 * @param {unknown[]} entries
 */
function* partsOfBook(book, entries) {
  const { schema, kind, version, saved } = book;
  const cover = tooDeep({ schema, kind, version, saved }, 2) ? { kind } : { schema, kind, version, saved };
  for (let first = 0; first === 0 || first < entries.length; first += PART_ROWS) {
    const rows = entries.slice(first, first + PART_ROWS);
    const deep = rows.flatMap((row, at) => (tooDeep(row, DEEPEST) ? [{ row: first + at + 1, text: asText(row) }] : []));
    const left = new Set(deep.map(({ row }) => row - first - 1));
    const kept = rows.map((row, at) => (left.has(at) ? null : row));
    const ids = kept.map((row) => (typeof row === "object" && row !== null && "id" in row ? String(row.id) : ""));
    yield { text: JSON.stringify({ ...cover, entries: kept }), first, rows: rows.length, ids, deep };
  }
}

/** @param {string} text */
function ofJson(text) {
  let book;
  try {
    book = JSON.parse(text.replace(/^[\uFEFF \t\r\n]+/, ""));
  } catch {
    return { rows: 0, made: () => alone(text.slice(0, A_LOOK)) };
  }
  const entries = book && !Array.isArray(book) && typeof book === "object" ? book.entries : null;
  if (!Array.isArray(entries)) return { rows: 0, made: () => alone("[]") };
  return { rows: entries.length, made: () => partsOfBook(book, entries) };
}

/** @param {string} text */
function* alone(text) {
  yield { text, first: 0, rows: 0, ids: [], deep: [] };
}

/**
 * Where the rows of a table end: at a line's end outside of quotes.
 * @param {string} text
 */
function rowEnds(text) {
  const ends = [];
  let quoted = false;
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === 34) quoted = !quoted;
    else if (code === 10 && !quoted) ends.push(at + 1);
  }
  if (ends.at(-1) !== text.length) ends.push(text.length);
  return ends;
}

/** @param {string} text */
function ofTable(text) {
  const ends = rowEnds(text);
  const head = text.slice(0, ends[0]);
  function* made() {
    for (let from = 1; from === 1 || from < ends.length; ) {
      let to = from;
      while (to < ends.length && to - from < PART_ROWS && ends[to] - ends[from - 1] < PART_CHARACTERS) to += 1;
      to = Math.max(to, Math.min(from + 1, ends.length));
      yield { text: head + text.slice(ends[from - 1], ends[to - 1]), first: from - 1, rows: to - from, ids: [], deep: [] };
      from = Math.max(to, from + 1);
    }
  }
  return { rows: ends.length - 1, made };
}

/** @param {Blob} file */
async function read(file) {
  const { text, letters } = decoded(await file.arrayBuffer());
  const first = /[^\uFEFF \t\r\n]/.exec(text)?.[0] ?? "";
  const { rows, made } = first === "{" || first === "[" ? ofJson(text) : first ? ofTable(text.replace(/^\uFEFF/, "")) : { rows: 0, made: () => alone("") };
  parts = made;
  const lines = text.slice(0, FIRST_LINES * LONGEST_LINE * 4).split(/\r?\n/);
  const odd = letters ? text.split(/\r?\n/).filter((line) => /[^\0-\x7f]/.test(line)) : [];
  const shown = [...new Set([...lines.slice(0, 2), ...odd, ...lines.slice(2)])].slice(0, FIRST_LINES);
  return { rows, letters, lines: shown.map((line) => line.slice(0, LONGEST_LINE)) };
}

/** @param {string} name */
async function write(name) {
  const db = await connect(name);
  try {
    return await addAll(db, [...checked.values()], (at) => scope.postMessage({ at }));
  } finally {
    db.close();
  }
}

/** @param {{ file?: Blob, write?: string, ids?: string[], checked?: string }} asked */
async function answer(asked) {
  if (asked.file) {
    going = null;
    return { found: await read(asked.file) };
  }
  if (asked.write) return { done: await write(asked.write) };
  if (asked.ids) return { entries: asked.ids.flatMap((id) => checked.get(id) ?? []) };
  for (const entry of /** @type {Entry[]} */ (JSON.parse(asked.checked ?? "[]"))) checked.set(entry.id, entry);
  going ??= parts();
  return { part: going.next().value ?? null };
}

scope.addEventListener("message", async (/** @type {MessageEvent} */ { data }) => {
  try {
    scope.postMessage(await answer(data));
  } catch (fault) {
    scope.postMessage({ fault: saidBy(fault), ...(fault instanceof DOMException && { name: fault.name }) });
  }
});
