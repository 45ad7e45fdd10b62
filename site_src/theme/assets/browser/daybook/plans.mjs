// The plan of a house's week, taken into the book: a line for each of its batches that the book knows.

import * as clock from "./clock.mjs";
import * as form from "../sheet/form.mjs";
import { askOnce } from "./ask.mjs";
import { bookOf, newEntry } from "./book.mjs";
import { recall } from "./draft.mjs";
import { button, part } from "../shared/element.mjs";
import { saidBy } from "../shared/fault.mjs";

/** @typedef {import("../sheet/sheet.mjs").Sheet} Sheet */
/** @typedef {import("./address.mjs").Where} Where */
/** @typedef {{ lines: { batch: string, load_at: string, remark: string }[], strange: string[] }} Plans */

const KIND = "plan"; // what such a line is called in the book's file

/**
 * @param {Sheet} sheet
 * @param {Where} where
 * @param {HTMLButtonElement} pressed
 */
async function take({ results, section, status }, where, pressed) {
  const own = results.standing === "answered" && !results.box.hasAttribute("data-with-example") && !results.box.hasAttribute("data-waiting");
  if (!own) return status.say("There is no plan of your own to take so far.");
  const doubt = clock.doubt();
  if (doubt && pressed.dataset.sure !== "yes") {
    pressed.dataset.sure = "yes";
    return status.say(`${doubt} If it is right, press again.`);
  }
  clock.accept();
  pressed.dataset.sure = "";
  pressed.disabled = true;
  const book = bookOf(where.which);
  try {
    /** @type {Plans} */
    const { lines, strange } = await askOnce("week-plans", book, { questions: form.read(section) });
    const who = recall("who");
    const entries = lines.map(({ batch, load_at, remark }) => newEntry({ batch, kind: KIND, values: { load_at }, remark, who: typeof who === "string" ? who : "" }));
    if (entries.length) await book.append(entries);
    const many = `${entries.length} ${entries.length === 1 ? "batch" : "batches"}`;
    const rest = strange.length ? ` Not in the book so far, so begin ${strange.length > 1 ? "them" : "it"} there first: ${strange.join(", ")}.` : "";
    status.say(`The plan of ${many} stands in the day-book.${rest}`);
  } catch (fault) {
    status.say(saidBy(fault));
  } finally {
    pressed.disabled = false;
  }
}

/**
 * @param {Sheet} sheet
 * @param {Where} where
 */
export function offerPlans(sheet, where) {
  sheet.section.querySelector("[data-action=take-plans]")?.remove();
  clock.watch();
  const takes = button("Take the plan into the day-book", { "data-action": "take-plans" });
  takes.addEventListener("click", () => take(sheet, where, takes));
  part(sheet.section, ".sheet-buttons").prepend(takes);
}
