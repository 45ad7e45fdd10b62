// Lines as they were typed, for the moments before Python has drawn them, or where it cannot.

import { labelOf } from "../sheet/form.mjs";
import { button, element, parts } from "../shared/element.mjs";
import { saidDay, saidTime } from "../shared/moment.mjs";

/** @typedef {import("./book.mjs").Entry} Entry */
/** @typedef {import("./kinds.mjs").Kinds} Kinds */

const MOST = 60; // of the newest

/** @param {Element | null | undefined} place */
const wordsOf = (place) => place?.textContent?.trim() ?? "";

/**
 * "Basket and grain 168 g", "Drained", with the words of the form.
 * @param {HTMLElement | undefined} form
 * @param {string} question
 * @param {import("../shared/blank.mjs").Typed} value
 */
function said(form, question, value) {
  const field = form && parts(form, `[data-question="${CSS.escape(question)}"]`)[0];
  const label = (field && labelOf(field)) || question;
  if (Array.isArray(value)) return `${label}: ${value.map((cells) => cells.join(" ").trim()).filter(Boolean).join("; ")}`;
  const choice = field?.querySelector(`input[value="${CSS.escape(value)}"]`)?.closest("label") ?? field?.querySelector(`option[value="${CSS.escape(value)}"]`);
  const unit = wordsOf(field?.querySelector(".unit"));
  const bare = unit && !/[^\d\s.,+−-]\s*$/.test(value); // a unit that was typed stands for itself
  return choice ? wordsOf(choice) : `${label} ${value}${bare ? ` ${unit}` : ""}`;
}

/**
 * @param {Kinds} kinds
 * @param {Entry} entry
 */
export function inWords(kinds, entry) {
  const form = kinds.forms.get(entry.kind);
  const words = Object.entries(entry.values ?? {}).map(([question, value]) => said(form, question, value));
  if (entry.replaces) words.push(kinds.is(entry.kind, "strikes") ? "strikes out an earlier line" : "in place of an earlier line");
  return words.join(", ");
}

/** @param {string} day */
function dayRow(day) {
  const made = element("tr", "", { class: "book-date" });
  made.append(element("th", saidDay(day), { colspan: "6", scope: "rowgroup" }));
  return made;
}

/**
 * @param {Kinds} kinds
 * @param {Entry} entry
 */
function row(kinds, entry) {
  const made = element("tr", "", { "data-entry": entry.id });
  const label = kinds.labelOf(entry.kind);
  const when = saidTime(String(entry.at ?? ""));
  made.append(element("th", when.slice(-5), { class: "time", scope: "row" }));
  const cells = { what: label, values: inWords(kinds, entry), who: entry.who, remark: entry.remark };
  for (const [style, text] of Object.entries(cells)) made.append(element("td", text ?? "", { class: style }));
  const tools = element("td", "", { class: "row-tools" });
  if (!kinds.is(entry.kind, "strikes")) tools.append(button("Correct", { "data-action": "correct", "aria-label": `Correct: ${label}, ${when}` }));
  made.append(tools);
  return made;
}

/**
 * The newest last, as in a bound book.
 * @param {HTMLElement} place
 * @param {Kinds} kinds
 * @param {Entry[]} entries
 */
export function drawLines(place, kinds, entries) {
  place.hidden = !entries.length;
  if (!entries.length) return place.replaceChildren();
  const table = kinds.table();
  table.prepend(element("caption", "As written; the calculator has not looked at these lines so far."));
  const body = table.createTBody();
  let day = "";
  for (const entry of entries.slice(-MOST)) {
    const own = String(entry.at ?? "").slice(0, 10);
    if (own !== day) body.append(dayRow(own));
    day = own;
    body.append(row(kinds, entry));
  }
  const box = element("div", "", { class: "table-box" });
  box.append(table);
  place.replaceChildren(box);
  if (entries.length > MOST) place.prepend(element("p", `The last ${MOST} of ${entries.length} lines. The calculator will show all of them.`));
}

/**
 * Batches by their last line, the newest first.
 * @param {HTMLElement} place
 * @param {Map<string, Entry[]>} groups the newest last
 * @param {(batch: string) => string} address
 */
export function drawBatches(place, groups, address) {
  const list = element("ul");
  for (const [batch, lines] of [...groups].reverse().slice(0, MOST)) {
    const item = element("li");
    item.append(element("a", batch, { href: address(batch), "data-batch": batch }), ` ${saidTime(String(lines.at(-1)?.at ?? ""))}`);
    list.append(item);
  }
  place.replaceChildren(list);
}
