// Reads what was typed, as it was typed, and puts values and errors in. It judges nothing: Python does.

import * as table from "./table.mjs";
import { part, parts } from "../shared/element.mjs";

/** @typedef {import("../shared/blank.mjs").Typed} Typed */
/** @typedef {Record<string, Typed>} Values what stands in the fields, by question */
/** @typedef {{ question: string, text: string, row?: number | null, column?: string | null }} Fault */

const MOST_CHARACTERS = 400; // of one value that comes from a link or the device

/** @param {ParentNode} section */
export const fields = (section) => parts(section, ".sheet-form [data-question]");

/** @param {HTMLElement} field */
export const nameOf = (field) => field.dataset.question ?? "";

/**
 * @param {ParentNode} section
 * @param {string} question
 */
export const fieldOf = (section, question) => fields(section).find((field) => nameOf(field) === question);

/**
 * @param {HTMLElement} field
 * @returns {HTMLInputElement[]}
 */
const radios = (field) => [...field.querySelectorAll("input")].filter((box) => box.type === "radio");

/** @param {HTMLElement} field */
function control(field) {
  const box = field.querySelector("select, textarea, input:not([type=radio])");
  if (box instanceof HTMLInputElement || box instanceof HTMLSelectElement || box instanceof HTMLTextAreaElement) return box;
  return null;
}

/**
 * @param {HTMLElement} field
 * @returns {Typed}
 */
export function readOne(field) {
  if (field.dataset.kind === "table") return table.read(field);
  const choices = radios(field);
  if (choices.length) return choices.find((choice) => choice.checked)?.value ?? "";
  return control(field)?.value ?? "";
}

/**
 * @param {HTMLElement} field
 * @returns {Typed}
 */
export function defaultOf(field) {
  if (field.dataset.kind === "table") return table.readDefaults(field);
  const choices = radios(field);
  if (choices.length) return choices.find((choice) => choice.defaultChecked)?.value ?? "";
  const box = control(field);
  if (box instanceof HTMLSelectElement) {
    return ([...box.options].find((option) => option.defaultSelected) ?? box.options[0])?.value ?? "";
  }
  return box?.defaultValue ?? "";
}

/**
 * @param {HTMLElement} field
 * @param {unknown} value text or rows, as they came from a link or the device
 */
export function writeOne(field, value) {
  if (field.dataset.kind === "table") {
    table.write(field, Array.isArray(value) ? value.map((row) => (Array.isArray(row) ? row : [row])) : []);
    return;
  }
  const text = String(value ?? "").slice(0, MOST_CHARACTERS);
  const choices = radios(field);
  if (choices.length) {
    for (const choice of choices) choice.checked = choice.value === text;
    return;
  }
  const box = control(field);
  if (!box) return;
  const known = !(box instanceof HTMLSelectElement) || [...box.options].some((option) => option.value === text);
  if (known) box.value = text;
}

/**
 * @param {ParentNode} section
 * @param {(field: HTMLElement) => Typed} reader
 * @returns {Values}
 */
const collect = (section, reader) => Object.fromEntries(fields(section).map((field) => [nameOf(field), reader(field)]));

/** @param {ParentNode} section */
export const read = (section) => collect(section, readOne);

/**
 * What is about a person goes to the working and nowhere else: not kept, not put back, not in a link and not from one.
 * @param {HTMLElement} field
 */
export const isPrivate = (field) => field.dataset.private === "yes";

/** @param {ParentNode} section */
export function carried(section) {
  const values = read(section);
  for (const field of fields(section)) if (isPrivate(field)) delete values[nameOf(field)];
  return values;
}

/** @param {ParentNode} section */
const defaults = (section) => collect(section, defaultOf);

/**
 * What is not named in `values` gets its default.
 * @param {ParentNode} section
 * @param {Values} values
 * @param {{ example?: string[] }} [those] the questions whose values are the worked case's
 */
export function write(section, values, { example = [] } = {}) {
  for (const field of fields(section)) {
    const name = nameOf(field);
    const given = Object.hasOwn(values, name);
    writeOne(field, given ? values[name] : defaultOf(field));
    field.toggleAttribute("data-from-example", given && example.includes(name));
  }
  openIfUsed(section);
}

/** @param {ParentNode} section */
export const fromExample = (section) => fields(section).filter((field) => field.hasAttribute("data-from-example")).map(nameOf);

/**
 * @param {unknown} one
 * @param {unknown} other
 */
const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);

/** @param {HTMLElement} field */
export const isTyped = (field, value = readOne(field)) => !same(value, defaultOf(field));

/** @param {HTMLElement} field */
export const labelOf = (field) => field.querySelector("label, legend")?.firstChild?.textContent?.trim() ?? "";

/** @param {Typed} value */
const asText = (value) => (Array.isArray(value) ? value.map((row) => row.join(" ").trim()).filter(Boolean).join("; ") : value);

/**
 * What is typed and may be carried, with the label of its question, by question.
 * @param {ParentNode} section
 * @returns {Record<string, string>}
 */
export const inWords = (section) =>
  Object.fromEntries(
    fields(section)
      .filter((field) => !isPrivate(field) && isTyped(field))
      .map((field) => [nameOf(field), `${labelOf(field)} ${asText(readOne(field))}`]),
  );

/**
 * Writes what was typed into a form of another edition; gives back in words what it has no place for. What is typed here
 * already was typed later, before this script came.
 * @param {ParentNode} section
 * @param {{ values: Values, example?: string[], words?: Record<string, string> }} typed
 */
export function takeOver(section, { values, example = [], words = {} }) {
  const later = fields(section).filter((field) => isTyped(field)).map(nameOf);
  const typed = Object.fromEntries(Object.entries(read(section)).filter(([name]) => later.includes(name)));
  write(section, { ...values, ...typed }, { example: example.filter((name) => !later.includes(name)) });
  const now = read(section);
  const left = Object.keys(words).filter((name) => !later.includes(name) && !same(now[name], values[name]));
  return left.map((name) => words[name]);
}

/** @param {ParentNode} section */
export const untouched = (section) => same(read(section), defaults(section));

/**
 * Whether the page's worked case was filled in and stands there whole, and nothing else does.
 * @param {HTMLElement} section
 */
export function holdsExample(section) {
  const values = JSON.parse(section.dataset.example ?? "{}");
  const stands = (/** @type {HTMLElement} */ field) =>
    Object.hasOwn(values, nameOf(field)) ? field.hasAttribute("data-from-example") : !isTyped(field);
  return fields(section).every(stands);
}

/**
 * Questions out of sight must not hold a value or an error that nobody sees.
 * @param {ParentNode} section
 */
export function openIfUsed(section) {
  for (const more of section.querySelectorAll(".sheet-form details")) {
    if (!(more instanceof HTMLDetailsElement)) continue;
    const inside = fields(section).filter((field) => more.contains(field));
    if (inside.some((field) => isTyped(field))) more.open = true;
  }
}

/** @param {HTMLElement} scope */
export function clearErrors(scope) {
  const places = scope.matches("[data-error]") ? [scope] : parts(scope, "[data-error]");
  for (const place of places) {
    place.hidden = true;
    place.textContent = "";
  }
  for (const box of scope.querySelectorAll("[aria-invalid]")) box.removeAttribute("aria-invalid");
  for (const field of [scope, ...scope.querySelectorAll(".field")]) field.classList.remove("field-wrong");
}

/**
 * @param {HTMLElement} field
 * @param {Fault} error
 * @returns {Element[]}
 */
function wrongBoxes(field, error) {
  if (field.dataset.kind !== "table") {
    const choices = radios(field);
    return choices.length ? choices : [control(field)].filter((box) => box !== null);
  }
  if (error.row === undefined || error.row === null) return [];
  const row = table.rows(field)[error.row - 1];
  const boxes = row ? table.cells(row) : [];
  if (error.column === undefined || error.column === null) return boxes;
  return boxes.filter((box) => box.dataset.column === error.column);
}

/**
 * Shows each error beside its field; gives back the texts that were not to be read there before.
 * @param {HTMLElement} section
 * @param {Fault[]} errors
 */
export function showErrors(section, errors) {
  const before = new Set(parts(section, "[data-error]:not([hidden]) span").map((line) => line.textContent));
  clearErrors(part(section, ".sheet-form"));
  for (const error of errors) {
    const field = fieldOf(section, error.question);
    if (!field) continue;
    const place = part(field, "[data-error]");
    const line = document.createElement("span");
    line.textContent = error.text;
    place.append(line);
    place.hidden = false;
    field.classList.add("field-wrong");
    for (const box of wrongBoxes(field, error)) box.setAttribute("aria-invalid", "true");
    const more = field.closest("details");
    if (more) more.open = true;
  }
  return errors.map((error) => error.text).filter((text) => !before.has(text));
}

/** @param {HTMLElement} section */
export function focusFirstError(section) {
  const box = parts(section, "[aria-invalid=true]")[0] ?? parts(section, ".field-wrong input")[0];
  box?.focus();
}
