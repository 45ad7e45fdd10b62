// The menus beside a page. The list of its headings moves along with what is read; and the menus of a page that was left
// are let go, for the theme holds on to them, and they would hold all of that page: after forty pages, forty pages.

import { parts } from "../shared/element.mjs";

const EDGE = 48; // px: the heading of the list lies over its upper end
const SETTLED_MS = 100; // the theme moves and measures the menu after the page was scrolled

/** @type {HTMLElement[]} */
let beside = [];
let asked = 0;
const follower = new MutationObserver(() => {
  clearTimeout(asked);
  asked = setTimeout(follow, SETTLED_MS);
});

export function besideThePage() {
  for (const menu of beside) {
    if (menu.isConnected) continue;
    menu.remove();
    menu.replaceChildren();
  }
  beside = parts(document, ".md-sidebar");
  follower.disconnect();
  for (const list of parts(document, ".md-sidebar--secondary .md-nav")) follower.observe(list, { subtree: true, attributeFilter: ["class"] });
}

function follow() {
  const [box] = parts(document, ".md-sidebar--secondary .md-sidebar__scrollwrap");
  const read = box && parts(box, ".md-nav__link--active").at(-1);
  if (!read) return;
  const [frame, own] = [box.getBoundingClientRect(), read.getBoundingClientRect()];
  if (own.top < frame.top + EDGE || own.bottom > frame.bottom - EDGE) box.scrollTop += own.top - (frame.top + frame.bottom) / 2;
}
