// A printed card of one sheet: everything else on the page stays off the paper. With numbers typed in, it carries
// a code that brings them back. Not on sheets about gas, vessels and lifting, where nothing old is brought back.

import { drawCode } from "./code.mjs";
import * as form from "../sheet/form.mjs";
import { element, part } from "../shared/element.mjs";
import { printAs } from "../shared/printing.mjs";
import * as link from "../sheet/link.mjs";

const LINE = 125; // characters across the paper

/**
 * About how many lines a plan takes on its paper: the longer it is, the smaller it is set.
 * @param {HTMLElement} section
 */
function linesOf(section) {
  const rows = [...section.querySelectorAll(".table-box:not(.off-card) tr, .results .hazard")];
  return rows.reduce((sum, row) => sum + 1 + Math.floor((row.textContent ?? "").length / LINE), 0);
}

/** @param {HTMLElement} section */
export async function printCard(section) {
  const working = section.querySelector("details.working");
  const wasOpen = working instanceof HTMLDetailsElement && working.open;
  const code = element("div", "", { class: "card-code" });
  if (section.dataset.guarded !== "yes" && !form.untouched(section)) await drawCode(code, link.write(section));
  if (!section.isConnected) return;
  part(section, "[data-results]").append(code);
  section.classList.add("card-to-print");
  section.style.setProperty("--wall-lines", String(linesOf(section)));
  section.style.setProperty("--wall-boxes", String(section.querySelectorAll(".results .hazard").length));
  working?.toggleAttribute("open", true);
  printAs("prints-card", () => {
    working?.toggleAttribute("open", wasOpen);
    code.remove();
    section.classList.remove("card-to-print");
  });
}
