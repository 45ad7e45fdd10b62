// A question that is a table: rows of boxes, added and taken away, numbered, filled from a paste.

const body = (field) => field.querySelector("table.grid tbody");
export const rows = (field) => [...body(field).querySelectorAll(":scope > tr[data-row]")];
export const cells = (row) => [...row.querySelectorAll("[data-column]")];
const most = (field) => Number(field.dataset.maxRows) || 100;
const least = (field) => Number(field.dataset.minRows) || 1;
const template = (field) => field.querySelector("template[data-row-template]");

export const read = (field) => rows(field).map((row) => cells(row).map((cell) => cell.value));

export function readDefaults(field) {
  const first = rows(field).map((row) => cells(row).map((cell) => cell.defaultValue ?? ""));
  return first.length ? first : [[]];
}

// Puts rows of text in, with as many rows as there are values, but never fewer than the least.
export function write(field, values) {
  const wantedRows = Math.min(Math.max(values.length, least(field), 1), most(field));
  while (rows(field).length > wantedRows) rows(field).at(-1).remove();
  while (rows(field).length < wantedRows) append(field);
  rows(field).forEach((row, at) => {
    cells(row).forEach((cell, column) => {
      cell.value = String(values[at]?.[column] ?? "");
    });
  });
  renumber(field);
}

function append(field) {
  const made = template(field).content.firstElementChild.cloneNode(true);
  body(field).append(made);
  return made;
}

// What is written in front of a row: its number, with names by turns where the question gives them, or its own name where rows are fixed.
function nameOf(field, number) {
  const names = (field.dataset.rowNames || "").split("|").filter(Boolean);
  if (names.length && names.length === least(field) && least(field) === most(field)) return names[number - 1];
  return names.length ? `${number} ${names[(number - 1) % names.length]}` : String(number);
}

// Names and headings of a row carry its number; the template says where.
function renumber(field) {
  const pattern = template(field).content.firstElementChild;
  const parts = [...pattern.querySelectorAll("*")];
  rows(field).forEach((row, at) => {
    const fill = (text) => text.replaceAll("{row}", at + 1).replaceAll("{name}", nameOf(field, at + 1));
    const own = [...row.querySelectorAll("*")];
    parts.forEach((part, index) => {
      for (const { name, value } of part.attributes) {
        if (value.includes("{")) own[index]?.setAttribute(name, fill(value));
      }
      if (!part.children.length && part.textContent.includes("{")) own[index].textContent = fill(part.textContent);
    });
  });
  const count = rows(field).length;
  field.querySelector("[data-action=add-row]").hidden = count >= most(field);
  for (const button of field.querySelectorAll("[data-action=remove-row]")) button.hidden = count <= least(field);
}

export function addRow(field) {
  if (rows(field).length >= most(field)) return;
  const made = append(field);
  renumber(field);
  cells(made)[0].focus();
}

// The focus goes to the row that takes the place of the one removed, or to the last.
export function removeRow(field, row) {
  const at = rows(field).indexOf(row);
  if (at < 0 || rows(field).length <= least(field)) return;
  row.remove();
  renumber(field);
  const left = rows(field);
  const next = left[Math.min(at, left.length - 1)];
  const button = next?.querySelector("[data-action=remove-row]:not([hidden])");
  (button ?? (next && cells(next)[0]) ?? field.querySelector("[data-action=add-row]")).focus();
}

// Enter goes down a row, as in a spreadsheet, and from the last row on makes a new one.
export function rowBelow(field, cell) {
  const all = rows(field);
  const at = all.indexOf(cell.closest("tr[data-row]"));
  if (at + 1 >= all.length) addRow(field);
  else cells(all[at + 1])[cells(all[at]).indexOf(cell)]?.focus();
}

const looksLikeNumber = (text) => /^[-+]?\d[\d.,]*$/.test(text);

function splitLine(line) {
  if (line.includes("\t")) return line.split("\t");
  const parts = line.trim().split(/[\s;]+/);
  return parts.length > 1 && parts.every(looksLikeNumber) ? parts : [line];
}

// Text copied from a spreadsheet: lines are rows, tabs are columns. Returns null when it is one value, for the browser to paste.
export function split(text) {
  const lines = text.replace(/\r\n?/g, "\n").replace(/\n+$/, "").split("\n");
  const values = lines.map((line) => splitLine(line).map((part) => part.trim()));
  return values.length === 1 && values[0].length === 1 ? null : values;
}

// Takes a pasted table into the rows: {cell, said}, where `said` tells what found no room. Null when it is no table.
export function takePaste(event) {
  const cell = event.target.closest?.("[data-column]");
  const text = event.clipboardData?.getData("text/plain");
  const values = cell && text ? split(text) : null;
  if (!values) return null;
  event.preventDefault();
  const field = cell.closest("[data-question]");
  const over = paste(field, cell, values);
  const said = over > 0 ? `The last ${over} pasted rows were left out: there is room for ${field.dataset.maxRows}.` : "";
  return { cell, said };
}

// Fills from `cell` on, right and down, adding rows; returns how many lines did not fit.
function paste(field, cell, values) {
  const first = rows(field).indexOf(cell.closest("tr[data-row]"));
  const left = cells(rows(field)[first]).indexOf(cell);
  const fitting = values.slice(0, most(field) - first);
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
