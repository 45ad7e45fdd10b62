// A printed card of one sheet: everything else on the page stays off the paper. With numbers typed in, it carries
// a code that brings them back. Not on sheets about gas, vessels and lifting, where nothing old is brought back.

import { drawCode } from "./code.mjs";
import * as form from "../sheet/form.mjs";
import { element, part } from "../shared/element.mjs";
import { printAs } from "../shared/printing.mjs";
import * as link from "../sheet/link.mjs";

/** @param {HTMLElement} section */
export async function printCard(section) {
  const working = section.querySelector("details.working");
  const wasOpen = working instanceof HTMLDetailsElement && working.open;
  const code = element("div", "", { class: "card-code" });
  if (section.dataset.guarded !== "yes" && !form.untouched(section)) await drawCode(code, link.write(section));
  if (!section.isConnected) return;
  part(section, "[data-results]").append(code);
  section.classList.add("card-to-print");
  working?.toggleAttribute("open", true);
  printAs("prints-card", () => {
    working?.toggleAttribute("open", wasOpen);
    code.remove();
    section.classList.remove("card-to-print");
  });
}
