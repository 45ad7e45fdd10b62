// A link to hand out: a box that holds it, and the clipboard where the browser gives one.

import * as link from "./link.mjs";
import { element } from "../shared/element.mjs";

/**
 * Gives the link to what stands in a sheet's form; returns what is to be said of it.
 * @param {HTMLElement} section
 * @param {HTMLElement} pressed the button, whose words stand above the box
 */
export async function handOut(section, pressed) {
  const address = link.write(section);
  const box = boxIn(section, pressed);
  box.value = address;
  box.focus();
  box.select();
  const carries = link.isGuarded(section)
    ? "It opens headed EXAMPLE, NOT YOUR VESSEL. Never send it as somebody’s own case."
    : "It carries the numbers in the form.";
  try {
    await navigator.clipboard.writeText(address);
    return `The link is copied. ${carries}`;
  } catch {
    return `Copy the link from the box. ${carries}`;
  }
}

/**
 * @param {HTMLElement} section
 * @param {HTMLElement} pressed
 */
function boxIn(section, pressed) {
  const there = section.querySelector(".sheet-link input");
  if (there instanceof HTMLInputElement) return there;
  const label = element("label", pressed.textContent ?? "", { class: "sheet-link" });
  const box = label.appendChild(element("input", "", { type: "text", readonly: "" }));
  pressed.parentElement?.after(label);
  return box;
}
