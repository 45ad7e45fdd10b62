// A sheet that was opened from a batch: its answer can be kept in the batch's book. Never one about gas, vessels or lifting.

import * as clock from "./clock.mjs";
import * as link from "../sheet/link.mjs";
import { bookOf, newEntry } from "./book.mjs";
import { dayBookPage, named } from "./address.mjs";
import { recall } from "./draft.mjs";
import { button, element, part, parts } from "../shared/element.mjs";
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
 */
function offer(sheet, where) {
  const { section } = sheet;
  const back = element("p", "", { class: "batch-line" });
  back.append(element("a", `Back to batch ${where.batch}`, { href: dayBookPage(where) }));
  part(section, ".sheet-title").after(back);
  if (where.which === "demo") back.append(" An invented batch of the example maltings.");
  if (sheet.results.guarded) return;
  const keeps = button(`Keep with batch ${where.batch}`);
  keeps.addEventListener("click", () => keep(sheet, where, keeps));
  part(section, ".sheet-buttons").prepend(keeps);
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
 * Of several sheets on a page, the one that the address names.
 * @param {Sheet[]} sheets
 */
export function offerKeeping(sheets) {
  const where = named();
  if (!where.batch) return;
  const wanted = new URLSearchParams(location.search).get("sheet");
  const sheet = sheets.find((one) => one.section.id === wanted) ?? sheets[0];
  if (sheet?.section.isConnected) offer(sheet, where);
}
