// Tables too wide for the screen scroll inside their own box; the keyboard must get at that box.

const BOXES = ".md-typeset__scrollwrap, .grid-box, .table-box, .wide";

export function reachWideTables() {
  for (const box of document.querySelectorAll(BOXES)) {
    if (box.scrollWidth <= box.clientWidth || box.closest("[tabindex]")) continue;
    box.tabIndex = 0;
    box.setAttribute("role", "region");
    if (!box.hasAttribute("aria-label")) box.setAttribute("aria-label", nameOf(box));
  }
}

function nameOf(box) {
  const caption = box.querySelector("caption, legend")?.textContent;
  const heads = [...box.querySelectorAll("thead th")].map((head) => head.textContent.trim()).filter(Boolean);
  return `Table: ${caption || heads.join(", ")}`;
}
