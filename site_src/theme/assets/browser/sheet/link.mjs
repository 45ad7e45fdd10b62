// A link carries the questions. What comes out of one is data: text for the boxes of this sheet, nothing else.
// On sheets about gas, vessels and lifting only a case that is marked as an example travels.

import * as form from "./form.mjs";
import * as table from "./table.mjs";
import { isBlank } from "../shared/blank.mjs";

/**
 * Rows apart by ";", columns by a space, as on the command line; by tabs where a cell is blank or has a space in it.
 * @param {string[][]} rows
 */
function tableText(rows) {
  const used = rows.filter((row) => row.some((cell) => cell.trim()));
  const plain = used.every((row) => row.every((cell, at) => !/\s/.test(cell.trim()) && (cell.trim() || row.slice(at).join("").trim() === "")));
  const line = (/** @type {string[]} */ row) => row.map((cell) => cell.trim().replaceAll(/[;\t]/g, ",")).join(plain ? " " : "\t").replace(/ +$/, "");
  return used.map(line).join(";");
}

/**
 * @param {string} text
 * @param {number} columns
 * @param {number} mostRows
 */
function tableRows(text, columns, mostRows) {
  const lines = text.split(/[;\n]/);
  const rows = lines.map((line) => (line.includes("\t") ? line.split("\t") : line.trim().split(/\s+/)).map((cell) => cell.trim()));
  const listed = rows.length === 1 && rows[0].length > columns ? rows[0].map((cell) => [cell]) : rows;
  return listed.slice(0, mostRows);
}

/** @param {HTMLElement} section */
export const isGuarded = (section) => section.dataset.guarded === "yes";
const MARK = "example"; // in the address: these numbers are an example, nobody's own

/** @param {HTMLElement} section */
export function write(section) {
  const address = carrying(section, location.href, section.id);
  if (!isGuarded(section)) return address;
  const marked = new URL(address);
  marked.search += `&${MARK}=yes`;
  return marked.href;
}

/**
 * Whether the address has numbers for this sheet that it does not take, since nobody marked them as an example.
 * @param {HTMLElement} section
 */
export function unmarked(section) {
  return isGuarded(section) && carried(section) !== null && !new URLSearchParams(location.search).has(MARK);
}

/**
 * To a record sheet, which is filled with the same case; it says so when some of it is the worked case's.
 * @param {HTMLElement} section
 * @param {string} target
 */
export function toPaper(section, target) {
  const address = new URL(carrying(section, target));
  if (form.untouched(section)) address.search = "";
  else if (form.fromExample(section).length) address.search += "&example=yes";
  return address.href;
}

/**
 * @param {HTMLElement} section
 * @param {string} target
 */
function carrying(section, target, anchor = "") {
  const address = new URL(target, location.href);
  const query = new URLSearchParams({ sheet: anchor || (section.dataset.sheet ?? "") });
  for (const [question, value] of Object.entries(form.carried(section))) {
    if (!isBlank(value)) query.set(question, Array.isArray(value) ? tableText(value) : value.trim());
  }
  // Kept readable where the standard allows it.
  address.search = query.toString().replaceAll("%3B", ";").replaceAll("%2C", ",").replaceAll("%3A", ":");
  address.hash = anchor;
  return address.href;
}

/**
 * The values for this sheet in the page's address, or null.
 * @param {HTMLElement} section
 */
export function read(section) {
  return unmarked(section) ? null : carried(section);
}

/** @param {HTMLElement} section */
function carried(section) {
  const query = new URLSearchParams(location.search);
  const named = query.get("sheet");
  if (!named || (named !== section.id && named !== section.dataset.sheet)) return null;
  if (named !== section.id && document.getElementById(named)?.classList.contains("sheet")) return null;
  /** @type {import("./form.mjs").Values} */
  const values = {};
  for (const field of form.fields(section)) {
    const text = query.get(form.nameOf(field));
    if (text === null || form.isPrivate(field)) continue;
    values[form.nameOf(field)] =
      field.dataset.kind === "table" ? tableRows(text, table.cells(table.rows(field)[0]).length, table.rowsMost(field)) : text;
  }
  return Object.keys(values).length ? values : null;
}

// Once the reader changes a number the address no longer says what stands in the form.
export function leave() {
  const query = new URLSearchParams(location.search);
  if (!query.has("sheet")) return;
  const address = new URL(location.href);
  const batch = [...query].filter(([name]) => name === "batch" || name === "book"); // which batch it belongs to stays
  address.search = String(new URLSearchParams(batch));
  history.replaceState(history.state, "", address.href);
}
