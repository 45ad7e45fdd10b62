// Reads what was typed, as it was typed, and puts values and errors in. It judges nothing: Python does.

import * as table from "./table.mjs";

export const fields = (section) => [...section.querySelectorAll(".sheet-form [data-question]")];
export const fieldOf = (section, question) => fields(section).find((field) => field.dataset.question === question);

const radios = (field) => [...field.querySelectorAll("input[type=radio]")];
const control = (field) => field.querySelector("select, textarea, input:not([type=radio])");
const MOST_CHARACTERS = 400; // of one value that comes from a link or the device

function readField(field) {
  if (field.dataset.kind === "table") return table.read(field);
  const choices = radios(field);
  if (choices.length) return choices.find((choice) => choice.checked)?.value ?? "";
  return control(field)?.value ?? "";
}

function defaultOf(field) {
  if (field.dataset.kind === "table") return table.readDefaults(field);
  const choices = radios(field);
  if (choices.length) return choices.find((choice) => choice.defaultChecked)?.value ?? "";
  const box = control(field);
  if (box instanceof HTMLSelectElement) {
    return ([...box.options].find((option) => option.defaultSelected) ?? box.options[0])?.value ?? "";
  }
  return box?.defaultValue ?? "";
}

function writeField(field, value) {
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

const collect = (section, reader) =>
  Object.fromEntries(fields(section).map((field) => [field.dataset.question, reader(field)]));

export const read = (section) => collect(section, readField);

// What is about a person goes to the working and nowhere else: not kept, not put back, not in a link and not from one.
export const isPrivate = (field) => field.dataset.private === "yes";
export function carried(section) {
  const values = read(section);
  for (const field of fields(section)) if (isPrivate(field)) delete values[field.dataset.question];
  return values;
}
export const defaults = (section) => collect(section, defaultOf);

// What is not named in `values` gets its default.
export function write(section, values, { example = [] } = {}) {
  for (const field of fields(section)) {
    const name = field.dataset.question;
    const given = Object.hasOwn(values, name);
    writeField(field, given ? values[name] : defaultOf(field));
    field.toggleAttribute("data-from-example", given && example.includes(name));
  }
  openIfUsed(section);
}

export const fromExample = (section) =>
  fields(section).filter((field) => field.hasAttribute("data-from-example")).map((field) => field.dataset.question);

const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);
const labelOf = (field) => field.querySelector("label, legend")?.firstChild?.textContent.trim() ?? "";
const asText = (value) => (Array.isArray(value) ? value.map((row) => row.join(" ").trim()).filter(Boolean).join("; ") : value);

// What is typed, with the label of its question, by question.
export const inWords = (section) =>
  Object.fromEntries(
    fields(section)
      .filter((field) => !same(readField(field), defaultOf(field)))
      .map((field) => [field.dataset.question, `${labelOf(field)} ${asText(readField(field))}`]),
  );

// Writes what was typed into a form of another edition; gives back in words what it has no place for. What is typed here
// already was typed later, before this script came.
export function takeOver(section, { values, example = [], words = {} }) {
  const later = Object.keys(inWords(section));
  const typed = Object.fromEntries(Object.entries(read(section)).filter(([name]) => later.includes(name)));
  write(section, { ...values, ...typed }, { example: example.filter((name) => !later.includes(name)) });
  const now = read(section);
  const left = Object.keys(words).filter((name) => !later.includes(name) && !same(now[name], values[name]));
  return left.map((name) => words[name]);
}
export const untouched = (section) => same(read(section), defaults(section));

// Whether the page's worked case was filled in and stands there whole, and nothing else does.
export function holdsExample(section) {
  const values = JSON.parse(section.dataset.example);
  const stands = (field) =>
    Object.hasOwn(values, field.dataset.question) ? field.hasAttribute("data-from-example") : same(readField(field), defaultOf(field));
  return fields(section).every(stands);
}

// Questions out of sight must not hold a value or an error that nobody sees.
function openIfUsed(section) {
  for (const more of section.querySelectorAll(".sheet-form details")) {
    const inside = fields(section).filter((field) => more.contains(field));
    if (inside.some((field) => !same(readField(field), defaultOf(field)))) more.open = true;
  }
}

const errorPlace = (field) => field.querySelector("[data-error]");

export function clearErrors(scope) {
  const places = scope.matches?.("[data-error]") ? [scope] : [...scope.querySelectorAll("[data-error]")];
  for (const place of places) {
    place.hidden = true;
    place.textContent = "";
  }
  for (const box of scope.querySelectorAll("[aria-invalid]")) box.removeAttribute("aria-invalid");
  for (const field of [scope, ...scope.querySelectorAll(".field")]) field.classList?.remove("field-wrong");
}

function wrongBoxes(field, error) {
  if (field.dataset.kind !== "table") {
    const choices = radios(field);
    return choices.length ? choices : [control(field)].filter(Boolean);
  }
  if (error.row === undefined || error.row === null) return [];
  const boxes = table.cells(table.rows(field)[error.row - 1] ?? document.createElement("tr"));
  if (error.column === undefined || error.column === null) return boxes;
  return boxes.filter((box) => box.dataset.column === error.column);
}

// Shows each error beside its field; gives back the texts that were not to be read there before.
export function showErrors(section, errors) {
  const before = new Set([...section.querySelectorAll("[data-error]:not([hidden]) span")].map((part) => part.textContent));
  clearErrors(section.querySelector(".sheet-form"));
  for (const error of errors) {
    const field = fieldOf(section, error.question);
    const place = field && errorPlace(field);
    if (!place) continue;
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

export function focusFirstError(section) {
  const box = section.querySelector("[aria-invalid=true]") ?? section.querySelector(".field-wrong input");
  box?.focus();
}
