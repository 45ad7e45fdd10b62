// Links within a page. On the page that begins a visit the theme takes the first one for a way to another page: it fetches the
// page again, and what was typed into it is gone. Until it has gone to another page, the browser follows them by itself.

import { around } from "../shared/element.mjs";

/** @param {() => boolean} began whether the page that began the visit is still there */
export function followWithin(began) {
  const begun = location.pathname + location.search;
  const ours = () => began() && location.pathname + location.search === begun && !document.querySelector("[data-day-book]"); // whose pages turn by addresses of their own

  document.addEventListener("click", (event) => {
    const link = around(event.target, "a[href]");
    if (!(link instanceof HTMLAnchorElement) || !link.hash || link.origin !== location.origin) return;
    if (ours() && link.pathname + link.search === begun) link.target = "_self"; // which the theme leaves alone
  }, { capture: true });

  addEventListener("popstate", (event) => {
    if (ours()) event.stopImmediatePropagation();
  }, { capture: true });
}
