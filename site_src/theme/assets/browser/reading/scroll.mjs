// What is too wide for the screen, a table or lines to type, scrolls inside its own box; the keyboard must get at that box.

import { parts } from "../shared/element.mjs";

const BOXES = ".md-typeset__scrollwrap, .grid-box, .table-box, .wide, pre > code";
let asked = false;

// The theme puts boxes around tables when it likes, answers bring tables of their own, and a folded one has no width yet.
const watcher = new MutationObserver(soon);

export function reachWideTables() {
  watcher.disconnect();
  const article = document.querySelector("article");
  if (article) watcher.observe(article, { childList: true, subtree: true, attributeFilter: ["open", "hidden"] });
  soon();
}

function soon() {
  if (asked) return;
  asked = true;
  setTimeout(look);
}

function look() {
  asked = false;
  for (const box of parts(document, BOXES)) {
    if (box.scrollWidth <= box.clientWidth || box.hasAttribute("tabindex")) continue;
    const outer = box.parentElement?.closest(".table-box[tabindex]"); // the theme has put its own box inside ours
    box.tabIndex = 0;
    box.setAttribute("role", "region");
    if (!box.hasAttribute("aria-label")) box.setAttribute("aria-label", outer?.getAttribute("aria-label") ?? nameOf(box));
    for (const name of ["tabindex", "role", "aria-label"]) outer?.removeAttribute(name);
  }
}

/** @param {Element} box */
function nameOf(box) {
  if (box.matches("code")) return "Lines to type";
  const caption = box.querySelector("caption, legend")?.textContent;
  const heads = [...box.querySelectorAll("thead th")].map((head) => head.textContent?.trim()).filter(Boolean);
  return `Table: ${caption || heads.join(", ")}`;
}

addEventListener("resize", soon);
