// The answer of a sheet that has a batch at hand can be kept in the batch's book. Never one about gas, vessels or lifting.

import * as clock from "./clock.mjs";
import * as link from "../sheet/link.mjs";
import { bookOf, newEntry } from "./book.mjs";
import { recall } from "./draft.mjs";
import { button, part, parts } from "../shared/element.mjs";
import { saidBy } from "../shared/fault.mjs";
import { siteRoot } from "../shared/root.mjs";

/** @typedef {import("../sheet/sheet.mjs").Sheet} Sheet */
/** @typedef {import("./address.mjs").Where} Where */

const KIND = "answer"; // what such a line is called in the book's file

/** @param {Element} one */
const words = (one) => one.textContent?.replace(/\s+/g, " ").trim() ?? "";

/** @param {HTMLElement} section */
function leadAnswers(section) {
  const lead = parts(section, "[data-place=answers] .answer.lead");
  return lead.map((one) => `${words(part(one, "dt"))}: ${words(part(one, ".figure"))}`).join("; ");
}

/**
 * @param {Sheet} sheet
 * @param {Where} where
 * @param {HTMLButtonElement} pressed
 */
async function keep(sheet, where, pressed) {
  const { results, section, status } = sheet;
  const own = results.standing === "answered" && !results.box.hasAttribute("data-with-example") && !results.box.hasAttribute("data-waiting");
  if (!own) return status.say("There is no answer of your own to keep so far.");
  const address = new URL(link.write(section));
  const values = { sheet: section.dataset.sheet ?? "", link: address.pathname.slice(siteRoot.pathname.length) + address.search, answers: leadAnswers(section) };
  const book = bookOf(where.which);
  const doubt = clock.doubt();
  if (doubt && pressed.dataset.sure !== "yes") {
    pressed.dataset.sure = "yes";
    return status.say(`${doubt} If it is right, press again.`);
  }
  clock.accept();
  pressed.dataset.sure = "";
  pressed.disabled = true;
  try {
    const who = recall("who");
    await book.append([newEntry({ batch: where.batch, kind: KIND, values, who: typeof who === "string" ? who : "" })]);
    status.say(`Kept with batch ${where.batch}.`);
  } catch (fault) {
    status.say(saidBy(fault));
  } finally {
    pressed.disabled = false;
  }
}

/**
 * One button, for the batch that is at hand now.
 * @param {Sheet} sheet
 * @param {Where} where
 */
export function offerKeeping(sheet, where) {
  sheet.section.querySelector("[data-action=keep-answer]")?.remove();
  if (sheet.results.guarded || !where.batch) return;
  clock.watch();
  const keeps = button(`Keep with batch ${where.batch}`, { "data-action": "keep-answer" });
  keeps.addEventListener("click", () => keep(sheet, where, keeps));
  part(sheet.section, ".sheet-buttons").prepend(keeps);
}
