// What is fetched only when the reader says so: how much it is, about how long it takes, and the button.

import * as engine from "./engine.mjs";
import { button, element } from "../shared/element.mjs";
import { putOnTop } from "../edition/edition.mjs";

const BOX = "more-offer";
const KEPT = "Your numbers are kept.";

/**
 * @param {import("./line.mjs").More} more
 * @param {string} what needs it
 */
export function wordsFor({ bytes, seconds, saves }, what) {
  const size = `${what} needs ${(bytes / 1e6).toFixed(1)} MB more`;
  const time = seconds ? `, about ${seconds > 120 ? `${Math.round(seconds / 60)} min` : `${5 * Math.ceil(seconds / 5)} s`} on this line` : "";
  const why = saves ? "This device asks to save data" : "The line is slow";
  return `${size}${time}. ${why}, so it comes when you say so.`;
}

/**
 * The offer in a place, or none.
 * @param {ParentNode | null} place
 * @param {import("./line.mjs").More | null} more
 * @param {{ asked?: boolean, what?: string, put?: (box: HTMLElement) => void }} [how] whether numbers wait for it, what needs it, and
 * where it goes
 */
export function offerMore(place, more, { asked = false, what = "This", put = (box) => place?.append(box) } = {}) {
  const there = place?.querySelector(`:scope > .${BOX}`);
  if (!more) return void there?.remove();
  const words = [wordsFor(more, what), asked ? KEPT : ""].filter(Boolean).join(" ");
  const box = there instanceof HTMLElement ? there : element("div", "", { class: BOX, role: "status" });
  box.toggleAttribute("data-asked", asked);
  if (box.firstChild?.textContent !== words) {
    const pressed = button("Fetch it", { "data-action": "fetch-more" });
    pressed.addEventListener("click", () => engine.fetchMore());
    box.replaceChildren(element("p", words), pressed);
  }
  if (!there) put(box);
}

/** For whatever of a page is no sheet, above the page. */
export function offerOnTop() {
  engine.subscribe(({ more }) => offerMore(document.querySelector(".md-content__inner"), more, { what: "The calculator of this page", put: putOnTop }));
}
