// A counter to tap. It counts into the boxes of its form, so that what is counted is what is written; a longer buzz at
// every tenth, and a double one when so many are counted as are wanted, so that nobody has to look up.

import { around, part, parts } from "./element.mjs";

/** @type {WeakMap<HTMLElement, HTMLButtonElement[]>} */
const taps = new WeakMap(); // of each counter, the buttons in the order in which they were tapped

/**
 * The box that a question, or a row of its table, is written in.
 * @param {HTMLElement} form
 * @param {string} target `counted`, or `counts/2` for the third row
 */
function boxOf(form, target) {
  const [name, row] = target.split("/");
  const field = parts(form, `[data-question="${CSS.escape(name)}"]`)[0];
  const place = field && (row === undefined ? field : parts(field, "tbody > tr[data-row]")[Number(row)]);
  const box = place?.querySelector("input");
  return field && box ? { field, box } : null;
}

/**
 * Of a table that is counted into, a class without corns is 0 and not blank.
 * @param {HTMLElement} field
 */
function noneIsZero(field) {
  for (const row of parts(field, "tbody > tr[data-row]")) {
    const box = row.querySelector("input");
    if (box && !box.value.trim()) box.value = "0";
  }
}

/**
 * @param {HTMLElement} form
 * @param {HTMLButtonElement} button
 * @param {1 | -1} by
 * @returns {HTMLElement[]} the fields that have changed
 */
function count(form, button, by) {
  const changed = [];
  for (const target of (button.dataset.adds ?? "").split(" ")) {
    const found = boxOf(form, target);
    if (!found) continue;
    if (target.includes("/")) noneIsZero(found.field);
    found.box.value = String(Math.max(0, (Number.parseInt(found.box.value, 10) || 0) + by));
    changed.push(found.field);
  }
  // a class that counts alone shows a 0 of the other's, such as no chits at all
  for (const other of parts(button.parentElement ?? form, "button")) {
    for (const target of (other.dataset.adds ?? "").split(" ")) {
      const box = boxOf(form, target)?.box;
      if (box && !box.value.trim()) box.value = "0";
    }
  }
  return changed;
}

/** @param {HTMLElement} tally */
function draw(tally) {
  const own = taps.get(tally) ?? [];
  for (const button of parts(tally, "button[data-adds]")) {
    part(button, ".tally-count").textContent = String(own.filter((one) => one === button).length);
  }
  part(tally, ".tally-total").textContent = `${own.length} of ${tally.dataset.wanted}`;
}

/** @param {number} counted @param {number} wanted */
function buzz(counted, wanted) {
  navigator.vibrate?.(counted === wanted ? [120, 80, 120] : counted % 10 ? 15 : 60);
}

/** Begins every counter of a form anew. @param {HTMLElement} form */
export function begin(form) {
  for (const tally of parts(form, "[data-tally]")) {
    taps.delete(tally);
    draw(tally);
  }
}

/**
 * What a button of a counter does; whether it is one.
 * @param {HTMLElement} button
 * @param {(field: HTMLElement) => void} changed
 */
export function pressed(button, changed) {
  const tally = around(button, "[data-tally]");
  const form = around(button, "form");
  if (!tally || !form || !(button instanceof HTMLButtonElement)) return false;
  const own = taps.get(tally) ?? [];
  if (button.dataset.adds) {
    own.push(button);
    taps.set(tally, own);
    count(form, button, 1).forEach(changed);
    buzz(own.length, Number(tally.dataset.wanted));
  } else if (button.dataset.action === "tally-back") {
    const last = own.pop();
    if (last) count(form, last, -1).forEach(changed);
  } else return false;
  draw(tally);
  return true;
}
