// A sheet that was opened from a batch: its answer can be kept in the batch's book. Never one about gas, vessels or lifting.

import * as link from "../sheet/link.mjs";
import { bookOf, newEntry } from "./book.mjs";
import { dayBookPage, named } from "./address.mjs";
import { recall } from "./draft.mjs";
import { siteRoot } from "../shared/root.mjs";

const words = (element) => element?.textContent.replace(/\s+/g, " ").trim() ?? "";

function leadAnswers(section) {
  const lead = [...section.querySelectorAll("[data-place=answers] .answer.lead")];
  return lead.map((one) => `${words(one.querySelector("dt"))}: ${words(one.querySelector(".figure"))}`).join("; ");
}

function offer(sheet, where) {
  const { section } = sheet;
  const back = document.createElement("p");
  back.className = "batch-line";
  const page = document.createElement("a");
  page.href = dayBookPage(where);
  page.textContent = `Back to batch ${where.batch}`;
  back.append(page);
  section.querySelector(".sheet-title").after(back);
  if (where.which === "demo") back.append(" An invented batch of the example maltings.");
  if (sheet.results.guarded) return;
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = `Keep with batch ${where.batch}`;
  button.addEventListener("click", () => keep(sheet, where, button));
  section.querySelector(".sheet-buttons").prepend(button);
}

async function keep(sheet, where, button) {
  const { results, section, status } = sheet;
  const own = results.standing === "answered" && !results.box.hasAttribute("data-with-example") && !results.box.hasAttribute("data-waiting");
  if (!own) return status.say("There is no answer of your own to keep so far.");
  const address = new URL(link.write(section));
  const values = { sheet: section.dataset.sheet, link: address.pathname.slice(siteRoot.pathname.length) + address.search, answers: leadAnswers(section) };
  button.disabled = true;
  try {
    const who = recall("who");
    await bookOf(where.which).append([newEntry({ batch: where.batch, kind: "answer", values, who: typeof who === "string" ? who : "" })]);
    status.say(`Kept with batch ${where.batch}.`);
  } catch (fault) {
    status.say(fault.message);
  } finally {
    button.disabled = false;
  }
}

// Of several sheets on a page, the one that the address names.
export function offerKeeping(sheets) {
  const where = named();
  if (!where.batch) return;
  const wanted = new URLSearchParams(location.search).get("sheet");
  const sheet = sheets.find((one) => one.section.id === wanted) ?? sheets[0];
  if (sheet?.section.isConnected) offer(sheet, where);
}
