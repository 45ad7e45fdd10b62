// Minus and plus beside the box of a number, for gloves: one tap one step, held down one after the other. A blank box
// begins with the last reading.

import { around, part } from "./element.mjs";

const HOLD_MS = 450;
const AGAIN_MS = 110;

/** @param {HTMLElement} button */
const isStep = (button) => button.dataset.action === "less" || button.dataset.action === "more";

/**
 * The number as it stands, with the decimals of a step; null where it is none that can be stepped.
 * @param {string} text
 * @param {string} size of one step
 * @param {1 | -1} way
 */
export function stepped(text, size, way) {
  if (!/^[-+]?\d+(?:[.,]\d+)?$/.test(text.trim())) return null;
  const decimals = Math.max(size.split(".")[1]?.length ?? 0, text.split(/[.,]/)[1]?.length ?? 0);
  return (Number(text.replace(",", ".")) + way * Number(size)).toFixed(decimals);
}

/**
 * @param {HTMLElement} button
 * @param {(name: string) => string} lastOf the last reading of a question, or nothing
 * @param {(field: HTMLElement) => void} changed
 */
function step(button, lastOf, changed) {
  const field = around(button, "[data-question]");
  const box = field?.querySelector("input");
  if (!field || !box) return;
  const last = lastOf(field.dataset.question ?? "");
  const next = box.value.trim() ? stepped(box.value, button.dataset.step ?? "1", button.dataset.action === "more" ? 1 : -1) : last;
  if (next === null || !next) return;
  box.value = next;
  changed(field);
}

/**
 * Listens in a place for the buttons of all its boxes.
 * @param {HTMLElement} place
 * @param {(name: string) => string} lastOf
 * @param {(field: HTMLElement) => void} changed
 * @param {AbortSignal} signal
 */
export function listen(place, lastOf, changed, signal) {
  let timer = 0;
  let held = false;
  const stop = () => clearTimeout(timer);
  place.addEventListener("pointerdown", (event) => {
    const button = around(event.target, "button[data-step]");
    if (!button || !isStep(button)) return;
    held = false;
    const again = () => {
      held = true;
      step(button, lastOf, changed);
      timer = setTimeout(again, AGAIN_MS);
    };
    timer = setTimeout(again, HOLD_MS);
  }, { signal });
  for (const name of ["pointerup", "pointercancel", "pointerleave"]) addEventListener(name, stop, { signal });
  place.addEventListener("click", (event) => {
    const button = around(event.target, "button[data-step]");
    if (button && isStep(button) && !held) step(button, lastOf, changed);
    held = false;
  }, { signal });
  place.addEventListener("contextmenu", (event) => around(event.target, "button[data-step]") && event.preventDefault(), { signal });
}

/** Says what a blank box would begin with. @param {HTMLElement} form @param {(name: string) => string} lastOf */
export function offer(form, lastOf) {
  for (const button of form.querySelectorAll("button[data-step]")) {
    const field = around(button, "[data-question]");
    if (field) part(field, "input").setAttribute("placeholder", lastOf(field.dataset.question ?? ""));
  }
}
