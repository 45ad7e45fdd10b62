// A printed card of one sheet: everything else on the page stays off the paper. With numbers typed in, it carries
// a code that brings them back. Not on sheets about gas, vessels and lifting, where nothing old is brought back.

import { drawCode } from "./code.mjs";
import * as form from "../sheet/form.mjs";
import * as link from "../sheet/link.mjs";

export async function printCard(section) {
  const working = section.querySelector("details.working");
  const wasOpen = working?.open;
  const code = document.createElement("div");
  code.className = "card-code";
  const done = () => {
    if (working) working.open = wasOpen;
    code.remove();
    document.body.classList.remove("prints-card");
    section.classList.remove("card-to-print");
    removeEventListener("afterprint", done);
  };
  if (section.dataset.guarded !== "yes" && !form.untouched(section)) await drawCode(code, link.write(section));
  if (!section.isConnected) return;
  section.querySelector("[data-results]").append(code);
  document.body.classList.add("prints-card");
  section.classList.add("card-to-print");
  if (working) working.open = true;
  addEventListener("afterprint", done);
  print();
}
