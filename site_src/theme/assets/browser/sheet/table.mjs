// A question that is a table: rows of boxes, added and taken away, numbered, filled from a paste.

import { around, found, part, parts } from "../shared/element.mjs";

/** @typedef {HTMLInputElement | HTMLSelectElement} Cell */

/** @param {HTMLElement} field */
const body = (field) => part(field, "table.grid tbody");
/** @param {HTMLElement} field */
export const rows = (field) => parts(body(field), ":scope > tr[data-row]");
/** @param {HTMLElement} field */
export const rowsMost = (field) => Number(field.dataset.maxRows) || 100;
/** @param {HTMLElement} field */
const least = (field) => Number(field.dataset.minRows) || 1;

/**
 * The boxes of a row.
 * @param {ParentNode} row
 * @returns {Cell[]}
 */
export const cells = (row) =>
  [...row.querySelectorAll("[data-column]")].filter((cell) => cell instanceof HTMLInputElement || cell instanceof HTMLSelectElement);

/** @param {HTMLElement} field */
function pattern(field) {
  const row = found(field, "template[data-row-template]", HTMLTemplateElement).content.firstElementChild;
  if (!(row instanceof HTMLElement)) throw new Error("a table's template has no row");
  return row;
}

/**
 * @param {HTMLElement} field
 * @returns {string[][]}
 */
export const read = (field) => rows(field).map((row) => cells(row).map((cell) => cell.value));

/** @param {HTMLElement} field */
export function readDefaults(field) {
  const first = rows(field).map((row) => cells(row).map((cell) => ("defaultValue" in cell ? cell.defaultValue : "")));
  return first.length ? first : [[]];
}

/**
 * Puts rows of text in, with as many rows as there are values, but never fewer than the least.
 * @param {HTMLElement} field
 * @param {string[][]} values
 */
export function write(field, values) {
  const wantedRows = Math.min(Math.max(values.length, least(field), 1), rowsMost(field));
  while (rows(field).length > wantedRows) rows(field).at(-1)?.remove();
  while (rows(field).length < wantedRows) append(field);
  rows(field).forEach((row, at) => {
    cells(row).forEach((cell, column) => {
      cell.value = String(values[at]?.[column] ?? "");
    });
  });
  renumber(field);
}

/** @param {HTMLElement} field */
function append(field) {
  const made = /** @type {HTMLElement} */ (pattern(field).cloneNode(true));
  body(field).append(made);
  return made;
}

/**
 * What is written in front of a row: its number, with names by turns where the question gives them, or its own name where
 * rows are fixed.
 * @param {HTMLElement} field
 * @param {number} number
 */
function nameOf(field, number) {
  const names = (field.dataset.rowNames || "").split("|").filter(Boolean);
  if (names.length && names.length === least(field) && least(field) === rowsMost(field)) return names[number - 1];
  return names.length ? `${number} ${names[(number - 1) % names.length]}` : String(number);
}

/**
 * Names and headings of a row carry its number; the template says where.
 * @param {HTMLElement} field
 */
function renumber(field) {
  const drawn = [...pattern(field).querySelectorAll("*")];
  rows(field).forEach((row, at) => {
    const fill = (/** @type {string} */ text) => text.replaceAll("{row}", String(at + 1)).replaceAll("{name}", nameOf(field, at + 1));
    const own = [...row.querySelectorAll("*")];
    drawn.forEach((one, index) => {
      for (const { name, value } of one.attributes) {
        if (value.includes("{")) own[index]?.setAttribute(name, fill(value));
      }
      if (!one.children.length && one.textContent?.includes("{")) own[index].textContent = fill(one.textContent);
    });
  });
  const count = rows(field).length;
  part(field, "[data-action=add-row]").hidden = count >= rowsMost(field);
  for (const button of parts(field, "[data-action=remove-row]")) button.hidden = count <= least(field);
}

/** @param {HTMLElement} field */
function addRow(field) {
  if (rows(field).length >= rowsMost(field)) return;
  const made = append(field);
  renumber(field);
  cells(made)[0].focus();
}

/**
 * The focus goes to the row that takes the place of the one removed, or to the last.
 * @param {HTMLElement} field
 * @param {HTMLElement} row
 */
function removeRow(field, row) {
  const at = rows(field).indexOf(row);
  if (at < 0 || rows(field).length <= least(field)) return;
  row.remove();
  renumber(field);
  const left = rows(field);
  const next = left[Math.min(at, left.length - 1)];
  const button = next && parts(next, "[data-action=remove-row]:not([hidden])")[0];
  (button ?? (next && cells(next)[0]) ?? part(field, "[data-action=add-row]")).focus();
}

/**
 * What a button of a table does. `changed` is called when a row was taken away. Whether it is such a button.
 * @param {HTMLElement} button
 * @param {(field: HTMLElement) => void} changed
 */
export function pressed(button, changed) {
  const field = around(button, "[data-question]");
  const row = around(button, "[data-row]");
  if (field && button.dataset.action === "add-row") addRow(field);
  else if (field && row && button.dataset.action === "remove-row") {
    removeRow(field, row);
    changed(field);
  } else return false;
  return true;
}

/**
 * Enter goes down a row, as in a spreadsheet, and from the last row on makes a new one.
 * @param {HTMLElement} field
 * @param {Element} cell
 */
export function rowBelow(field, cell) {
  const all = rows(field);
  const at = all.findIndex((row) => row.contains(cell));
  if (at + 1 >= all.length) addRow(field);
  else cells(all[at + 1])[cells(all[at]).findIndex((one) => one === cell)]?.focus();
}

/** @param {string} text */
const looksLikeNumber = (text) => /^[-+]?\d[\d.,]*$/.test(text);

/** @param {string} line */
function splitLine(line) {
  if (line.includes("\t")) return line.split("\t");
  const words = line.trim().split(/[\s;]+/);
  return words.length > 1 && words.every(looksLikeNumber) ? words : [line];
}

/**
 * Text copied from a spreadsheet: lines are rows, tabs are columns. Null when it is one value, for the browser to paste.
 * @param {string} text
 */
export function split(text) {
  const lines = text.replace(/\r\n?/g, "\n").replace(/\n+$/, "").split("\n");
  const values = lines.map((line) => splitLine(line).map((cell) => cell.trim()));
  return values.length === 1 && values[0].length === 1 ? null : values;
}

/**
 * Takes a pasted table into the rows; `said` tells what found no room. Null when it is no table.
 * @param {ClipboardEvent} event
 */
export function takePaste(event) {
  const cell = around(event.target, "[data-column]");
  const field = around(event.target, "[data-question]");
  const text = event.clipboardData?.getData("text/plain");
  const values = cell && text ? split(text) : null;
  if (!cell || !field || !values) return null;
  event.preventDefault();
  const over = paste(field, cell, values);
  const said = over > 0 ? `The last ${over} pasted rows were left out: there is room for ${field.dataset.maxRows}.` : "";
  return { cell, said };
}

/**
 * Fills from `cell` on, right and down, adding rows; returns how many lines did not fit.
 * @param {HTMLElement} field
 * @param {HTMLElement} cell
 * @param {string[][]} values
 */
function paste(field, cell, values) {
  const first = rows(field).findIndex((row) => row.contains(cell));
  const left = cells(rows(field)[first]).findIndex((box) => box === cell);
  const fitting = values.slice(0, rowsMost(field) - first);
  while (rows(field).length < first + fitting.length) append(field);
  renumber(field);
  fitting.forEach((line, down) => {
    const boxes = cells(rows(field)[first + down]).slice(left);
    boxes.forEach((box, right) => {
      if (right < line.length) box.value = line[right];
    });
  });
  return values.length - fitting.length;
}
