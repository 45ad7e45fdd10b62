// Light or dark. The page takes its colours before it is drawn (partials/javascripts/palette.html); here they are changed.

import { parts } from "../shared/element.mjs";

const SHOWN = "[data-colours-to]";
const asked = matchMedia("(prefers-color-scheme: dark)");

/** All at once: the theme has a rule for it, by which nothing fades over. @param {string} scheme */
function show(scheme) {
  document.body.dataset.mdColorSwitching = "";
  requestAnimationFrame(() => requestAnimationFrame(() => delete document.body.dataset.mdColorSwitching));
  document.body.dataset.mdColorScheme = scheme;
  document.documentElement.style.colorScheme = scheme === "slate" ? "dark" : "light";
}

/** Who chooses is not asked again on this device. @param {HTMLElement} button */
function choose(button) {
  const scheme = button.dataset.coloursTo ?? "default";
  show(scheme);
  const buttons = parts(document, SHOWN);
  const index = buttons.findIndex((one) => one.dataset.coloursFrom === scheme);
  window.__md_set?.("__palette", { index, color: { scheme } }); // as an earlier edition reads it, should one be put back
  buttons[index]?.focus();
}

export function offerColours() {
  for (const button of parts(document, SHOWN)) button.addEventListener("click", () => choose(button));
  asked.addEventListener("change", () => {
    if (!window.__md_get?.("__palette")) show(asked.matches ? "slate" : "default");
  });
}
