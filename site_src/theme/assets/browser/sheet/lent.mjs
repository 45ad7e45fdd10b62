// Values in a form that were not typed there: they stand in their boxes, marked, and go out again in one tap.

import { button, element, part } from "../shared/element.mjs";
import * as form from "./form.mjs";

/** @typedef {import("../shared/blank.mjs").Typed} Typed */
/** @typedef {"book" | "sheet" | "house"} Lender */
/** @typedef {{ value: Typed, source: string, by: Lender, before: Typed }} Lent `before` stood there and comes back */

/** @type {WeakMap<HTMLElement, Lent>} */
const lent = new WeakMap();

/** @param {ParentNode} section */
const fieldsLent = (section) => form.fields(section).filter((field) => field.hasAttribute("data-lent"));

/**
 * Where each value comes from that was not typed here, by question.
 * @param {ParentNode} section
 * @returns {Record<string, string>}
 */
export const sources = (section) => Object.fromEntries(fieldsLent(section).map((field) => [form.nameOf(field), field.dataset.lent ?? ""]));

/**
 * All that is needed to mark the values again after they were away.
 * @param {ParentNode} section
 * @returns {Record<string, Lent>}
 */
export const all = (section) => Object.fromEntries(fieldsLent(section).map((field) => [form.nameOf(field), /** @type {Lent} */ (lent.get(field))]));

/**
 * @param {ParentNode} section
 * @param {Lender} by
 */
export const has = (section, by) => fieldsLent(section).some((field) => lent.get(field)?.by === by);

/**
 * What the book knows, also where the reader has changed it for this answer.
 * @param {ParentNode} section
 */
export const ofBook = (section) => form.fields(section).filter((field) => lent.get(field)?.by === "book").map(form.nameOf);

/** @param {HTMLElement} field */
const markOf = (field) => field.querySelector(":scope > .lent-mark");

/**
 * @param {HTMLElement} field
 * @param {string} words
 * @param {string} action
 * @param {string} label of its button
 */
function mark(field, words, action, label) {
  markOf(field)?.remove();
  const line = element("p", words, { class: "lent-mark" });
  line.append(" ", button(label, { "data-action": action, "aria-label": `${label}: ${form.labelOf(field)}` }));
  part(field, "[data-error]").before(line);
}

/** @param {Typed} value */
const asWords = (value) => (Array.isArray(value) ? value.map((row) => row.join(" ").trim()).filter(Boolean).join("; ") : value);

/**
 * @param {HTMLElement} field
 * @param {Omit<Lent, "before">} one
 * @param {Typed} [before] what comes back when it is taken out
 */
export function put(field, one, before = form.readOne(field)) {
  form.writeOne(field, one.value);
  lent.set(field, { ...one, value: form.readOne(field), before });
  field.removeAttribute("data-from-example");
  field.dataset.lent = one.source;
  const instead = asWords(before) && form.isTyped(field, before) ? ` In place of ${asWords(before)}.` : "";
  mark(field, `${one.by === "book" ? "The book’s: " : "From "}${one.source}.${instead}`, "take-out", "Take it out");
}

/**
 * The reader has changed the value: it is his own now. What the book has can be put back.
 * @param {HTMLElement} field
 */
export function changed(field) {
  const one = lent.get(field);
  if (!field.hasAttribute("data-lent") || !one) return;
  field.removeAttribute("data-lent");
  if (one.by === "book") mark(field, `Changed for this answer only. The book has ${asWords(one.value)}.`, "put-in", "Put it back");
  else markOf(field)?.remove();
}

/** @param {HTMLElement} field */
export function takeOut(field) {
  const one = lent.get(field);
  if (!one) return;
  form.writeOne(field, one.before);
  field.removeAttribute("data-lent");
  if (one.by === "book") mark(field, `Taken out for this answer. The book has ${asWords(one.value)}.`, "put-in", "Put it back");
  else markOf(field)?.remove();
}

/** @param {HTMLElement} field */
export function putIn(field) {
  const one = lent.get(field);
  if (one) put(field, one, one.before);
}

/**
 * @param {ParentNode} section
 * @param {Lender} [by] only what that one lent
 */
export function takeOutAll(section, by) {
  const out = fieldsLent(section).filter((field) => !by || lent.get(field)?.by === by);
  for (const field of out) {
    takeOut(field);
    markOf(field)?.remove();
  }
  return out.length > 0;
}

/**
 * Marks again what was marked before; a value that has changed since stays unmarked.
 * @param {HTMLElement} section
 * @param {Record<string, Lent>} marks
 */
export function again(section, marks) {
  for (const [name, one] of Object.entries(marks)) {
    const field = form.fieldOf(section, name);
    if (field && JSON.stringify(form.readOne(field)) === JSON.stringify(one.value)) put(field, one, one.before);
  }
}

/** The marks go; what stands in the boxes is somebody else's affair. @param {ParentNode} section */
export function unmark(section) {
  for (const field of form.fields(section)) {
    field.removeAttribute("data-lent");
    markOf(field)?.remove();
    lent.delete(field);
  }
}

/**
 * @param {HTMLElement} field
 * @param {(field: HTMLElement) => boolean} givesWay
 */
const isOwn = (field, givesWay) => form.isTyped(field) && !field.hasAttribute("data-lent") && !givesWay(field);

/**
 * What the book has stands beside what was typed, to be put in.
 * @param {HTMLElement} field
 * @param {Lent} one
 */
function offer(field, one) {
  lent.set(field, one);
  mark(field, `Typed here. The book has ${asWords(one.value)}.`, "put-in", "Put that in");
}

/**
 * Puts values in where nothing stands, or where what stands there gives way. Of alternatives only a whole one, and none
 * beside another that is begun.
 * @param {HTMLElement} section
 * @param {Record<string, { value: Typed, source: string }>} values by question
 * @param {Lender} by
 * @param {(field: HTMLElement) => boolean} givesWay
 * @param {boolean} [beside] whether it is offered beside what was typed
 */
export function lend(section, values, by, givesWay, beside = false) {
  let done = false;
  for (const field of form.fields(section)) {
    const one = values[form.nameOf(field)];
    if (!one || form.isPrivate(field) || !fits(field, values)) continue;
    const stands = form.readOne(field);
    const same = JSON.stringify(stands) === JSON.stringify(one.value);
    if (same && field.dataset.lent === one.source) continue;
    if (isOwn(field, givesWay) && !(same && by === "book")) {
      if (beside && !same) offer(field, { ...one, by, before: stands });
      continue;
    }
    const before = lent.get(field);
    put(field, { ...one, by }, field.hasAttribute("data-lent") && before ? before.before : same ? form.defaultOf(field) : stands);
    done = true;
  }
  form.openIfUsed(section);
  return done;
}

/**
 * @param {HTMLElement} field
 * @param {Record<string, unknown>} values
 */
function fits(field, values) {
  const own = field.closest(".either-part");
  if (!(own instanceof HTMLElement)) return true;
  const others = [...(own.parentElement?.children ?? [])].filter((one) => one !== own && one instanceof HTMLElement);
  const begun = others.some((one) => form.fields(/** @type {HTMLElement} */ (one)).some((each) => form.isTyped(each)));
  return !begun && form.fields(own).every((each) => form.nameOf(each) in values || form.isTyped(each));
}

/**
 * What the reader types into one of two alternatives takes the lent values of the other out.
 * @param {HTMLElement} field
 */
export function clearOthers(field) {
  const own = field.closest(".either-part");
  for (const other of own?.parentElement?.children ?? []) {
    if (other !== own && other instanceof HTMLElement) takeOutAll(other);
  }
}
