// The theme draws a page anew at the first link within it: late, on a slow line, when somebody may be typing already.
// The keyboard stays where it was.

import { around, parts } from "../shared/element.mjs";

const BOXES = "input, select, textarea";
/** @type {HTMLElement | null} */
let last = null;

document.addEventListener("focusin", ({ target }) => (last = target instanceof HTMLElement ? target : null));
// A place that goes with its page is not one that was left.
document.addEventListener("focusout", ({ target }) => setTimeout(() => {
  if (target === last && last?.isConnected && document.activeElement !== last) last = null;
}));

/** @param {boolean} again whether the page that arrived is the one that was there */
export function keepFocus(again) {
  const was = last;
  if (was?.isConnected) return;
  last = null;
  const twin = again && was && document.activeElement === document.body && twinOf(was);
  if (!twin) return;
  if (twin.tabIndex < 0) twin.tabIndex = -1;
  twin.focus({ preventScroll: true });
  if (isText(was) && isText(twin)) twin.setSelectionRange(was.selectionStart, was.selectionEnd);
}

/** @param {HTMLElement} was @returns {HTMLElement | null | undefined} */
function twinOf(was) {
  if (was.id) return document.getElementById(was.id);
  const before = around(was, "section[id]");
  const now = before && document.getElementById(before.id);
  return now && parts(now, BOXES)[parts(before, BOXES).indexOf(was)];
}

/** @param {HTMLElement} one @returns {one is HTMLInputElement} */
const isText = (one) => one instanceof HTMLInputElement && one.type === "text";
