// What was typed into one sheet and means the same in another, kept on this device for some hours. Which questions are
// shared, and how far, stands in the page as Python declared it; sheets about gas, vessels and lifting have none.

import { siteRoot } from "../shared/root.mjs";
import * as form from "./form.mjs";

/** @typedef {import("../shared/blank.mjs").Typed} Typed */
/** @typedef {{ value: Typed, from: string, at: number, batch: string, visit: string }} Shared */

const KEY = `${siteRoot.pathname}shared-questions`;
const HOUR_MS = 3_600_000;

/** @returns {Record<string, Shared>} */
function recall() {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? "{}");
    return kept && typeof kept === "object" && !Array.isArray(kept) ? kept : {};
  } catch {
    return {};
  }
}

/** @param {Record<string, Shared>} all */
function keep(all) {
  try {
    localStorage.setItem(KEY, JSON.stringify(all));
  } catch {
    // nothing kept
  }
}

/** What was typed for one barley is not offered for another. */
export function forget() {
  try {
    localStorage.removeItem(KEY);
  } catch {
    // nothing kept
  }
}

/** @param {HTMLElement} section */
export const fieldsOf = (section) => (section.dataset.guarded === "yes" ? [] : form.fields(section).filter((field) => field.dataset.shared));

/**
 * What other sheets offer to this one, by question.
 * @param {HTMLElement} section
 * @param {string} batch at which the reader works, or nothing
 */
export function offered(section, batch) {
  const oldest = Date.now() - Number(section.dataset.sharedHours) * HOUR_MS;
  const asked = new Set(fieldsOf(section).map(form.nameOf));
  const found = Object.entries(recall()).filter(([name, { at, batch: of }]) => asked.has(name) && at >= oldest && at <= Date.now() && of === batch);
  return Object.fromEntries(found);
}

/**
 * Keeps what was typed here. Another answer to a question that belongs to the lot begins a new one, and all that was kept
 * for the earlier lot goes; whether it did.
 * @param {Record<string, Typed>} typed by question
 * @param {{ section: HTMLElement, from: string, batch: string, visit: string }} by
 */
export function take(typed, { section, from, batch, visit }) {
  const how = Object.fromEntries(fieldsOf(section).map((field) => [form.nameOf(field), field.dataset.shared]));
  let all = recall();
  const isOther = (/** @type {string} */ name) => all[name] && all[name].visit !== visit && JSON.stringify(all[name].value) !== JSON.stringify(typed[name]);
  const newLot = Object.keys(typed).some((name) => how[name] === "lot" && isOther(name));
  if (newLot) all = Object.fromEntries(Object.entries(all).filter(([, one]) => one.visit === visit));
  for (const [name, value] of Object.entries(typed)) {
    if (JSON.stringify(all[name]?.value) === JSON.stringify(value) && all[name].visit === visit) continue;
    all[name] = { value, from, at: Date.now(), batch, visit };
  }
  keep(all);
  return newLot;
}

/**
 * What answers of a sheet say to questions of others.
 * @param {Record<string, string>} gives by question
 * @param {{ from: string, batch: string, visit: string }} by
 */
export function give(gives, by) {
  const all = recall();
  for (const [name, value] of Object.entries(gives)) {
    if (all[name]?.value !== value || all[name].visit !== by.visit) all[name] = { value, at: Date.now(), ...by };
  }
  keep(all);
}
