// The menu by the keyboard. The theme opens it, and each list in it, by the label of a box that is not drawn: a finger
// presses the label, and Tab passes it by. Here each label is a button that says whether its list is open, the focus goes
// in with what opens, and comes back with what is shut.

import { around, found, part, parts } from "../shared/element.mjs";

const MENU = ".md-sidebar--primary";
const OPENER = ".md-header label[for=__drawer]";
const LISTS = ".md-nav__link[for]";
const BACK = ".md-nav .md-nav .md-nav__title[for]";
const narrow = matchMedia("(max-width: 76.234375em)"); // as the theme has it: there the menu lies over the page

const drawer = () => found(document, "#__drawer", HTMLInputElement);
const menu = () => part(document, MENU);

/** @param {HTMLElement} label */
const boxOf = (label) => (label instanceof HTMLLabelElement && label.control instanceof HTMLInputElement ? label.control : null);

/** @param {HTMLElement} label @param {string} [name] where its own words are none, or not enough */
function asButton(label, name) {
  label.tabIndex = 0;
  label.setAttribute("role", "button");
  if (name) label.setAttribute("aria-label", name);
}

/** @param {HTMLElement} one */
const words = (one) => one.textContent?.trim() ?? "";

/** With each page: its menu is a new one. */
export function menuByKeys() {
  if (!document.querySelector(MENU)) return;
  asButton(part(document, OPENER), "Open the menu");
  for (const label of parts(menu(), LISTS)) {
    const beside = label.previousElementSibling;
    asButton(label, beside instanceof HTMLAnchorElement ? `Pages of ${words(beside)}` : "");
  }
  for (const label of parts(menu(), BACK)) {
    const list = around(label, "nav");
    if (list?.getAttribute("aria-labelledby") === label.id) list.setAttribute("aria-label", words(label));
    list?.removeAttribute("aria-labelledby");
    asButton(label, `Back from ${words(label)}`);
  }
  tell();
}

/** Says of each button whether what it opens is open. */
function tell() {
  for (const label of [part(document, OPENER), ...parts(menu(), LISTS)]) label.setAttribute("aria-expanded", String(boxOf(label)?.checked ?? false));
}

/** @param {HTMLElement} list */
function goInto(list) {
  const stops = parts(list, "a[href], label[role=button]");
  const seen = (/** @type {HTMLElement} */ one) => one.getClientRects().length > 0 && getComputedStyle(one).visibility === "visible";
  stops.find(seen)?.focus({ preventScroll: true });
}

function drawerTurned() {
  if (drawer().checked) return goInto(menu());
  const now = document.activeElement;
  if (now === document.body || menu().contains(now)) part(document, OPENER).focus({ preventScroll: true });
}

/** @param {HTMLInputElement} box of a list in the menu */
function listTurned(box) {
  if (!narrow.matches || !drawer().checked) return;
  const list = box.parentElement?.querySelector(":scope > nav");
  const opener = parts(menu(), LISTS).find((label) => boxOf(label) === box);
  if (box.checked && list instanceof HTMLElement) goInto(list);
  else opener?.focus({ preventScroll: true });
}

document.addEventListener("change", ({ target }) => {
  if (!(target instanceof HTMLInputElement) || !target.matches(".md-toggle") || !document.querySelector(MENU)) return;
  tell();
  if (target.id === "__drawer") drawerTurned();
  else if (around(target, MENU)) listTurned(target);
});

// The theme presses a label by Enter too, once it is there: the key goes no further, or the label would be pressed twice.
document.addEventListener("keydown", (event) => {
  if (event.key === "Escape" && drawer().checked) return drawer().click();
  const label = event.key === "Enter" || event.key === " " ? around(event.target, "label[role=button]") : null;
  if (!label) return;
  event.preventDefault();
  event.stopPropagation();
  if (!event.repeat) label.click();
});

// Who goes on past its end has left it.
document.addEventListener("focusin", ({ target }) => {
  if (drawer().checked && !around(target, `${MENU}, ${OPENER}`)) drawer().click();
});
