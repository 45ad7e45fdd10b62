// The trainer's notes by the numbers of the screens: for the phone in the hand while the laptop shows the screens, or on paper.

import { button, element } from "../shared/element.mjs";
import { printAs } from "../shared/printing.mjs";
import { copy } from "./copies.mjs";
import { deckOf } from "./screens.mjs";

const GLANCE = 110; // letters of a screen that tell which it is

/** @param {import("./screens.mjs").Screen} screen */
function glance(screen) {
  if (screen.gist) return screen.gist;
  const words = screen.sheet ? screen.sheet.querySelector(".sheet-title")?.textContent ?? "" : screen.nodes.map((node) => node.querySelector("figcaption")?.textContent ?? node.textContent).join(" ");
  const said = words.replace(/\s+/g, " ").trim();
  return said.length > GLANCE ? `${said.slice(0, GLANCE).replace(/\s\S*$/, "")} …` : said;
}

/**
 * @param {import("./screens.mjs").Screen} screen
 * @param {number} number
 */
function noted(screen, number) {
  const item = element("li", "", { value: String(number) });
  const line = element("p");
  line.append(element("strong", [screen.head, screen.step].filter(Boolean).join(" · ")), ` ${screen.sheet ? "The sheet, live: " : ""}${glance(screen)}`);
  item.append(line);
  for (const note of screen.notes) {
    const box = element("div", "", { class: "screen-note" });
    const made = copy(note);
    box.append(...(made.matches("p, ol, ul, .formula") ? [made] : made.childNodes));
    item.append(box);
  }
  return item;
}

/**
 * @param {Element} content
 * @returns {HTMLElement}
 */
function notesOf(content) {
  const { screens, course } = deckOf(content);
  const box = element("section", "", { class: "screen-notes", "aria-label": "Notes by screen" });
  box.append(element("h2", "Notes by screen"), element("p", "The numbers are those at the foot of the projector view. This stays on this device: open the page on the phone in your hand, or print it, while the laptop shows the screens."));
  const print = button("Print these notes");
  print.addEventListener("click", () => printAs("prints-notes"));
  const tools = element("p", "", { class: "off-paper" });
  tools.append(print);
  box.append(tools);
  let told = 0; // screens before the first row: the title
  /**
   * @param {number[]} numbers
   */
  const list = (numbers) => {
    const fresh = numbers.filter((number) => number > told);
    if (fresh.length) {
      const made = element("ol");
      made.append(...fresh.map((number) => noted(screens[number - 1], number)));
      box.append(made);
      told = Math.max(...fresh);
    } else if (numbers.length) box.append(element("p", `Screens ${numbers[0]} to ${numbers[numbers.length - 1]} again.`));
  };
  const first = course.flatMap((row) => row.screens)[0] ?? screens.length + 1;
  list(screens.map((_, at) => at + 1).filter((number) => number < first));
  for (const row of course) {
    box.append(element("h3", `${row.minutes} minutes`));
    const says = element("p");
    says.append(...copy(row.says).childNodes);
    box.append(says);
    list(row.screens);
  }
  return box;
}

/**
 * @param {Element} content
 * @param {HTMLElement} after on a phone the projector is not offered, and the notes are
 */
export function offerNotes(content, after) {
  const offer = element("p", "", { class: "notes-offer" });
  const opener = button("My notes by screen", { "aria-expanded": "false" });
  /** @type {HTMLElement | null} */
  let box = null;
  opener.addEventListener("click", () => {
    if (box) {
      box.remove();
      box = null;
    } else {
      box = notesOf(content);
      offer.after(box);
      box.scrollIntoView({ block: "start" });
    }
    opener.setAttribute("aria-expanded", String(Boolean(box)));
  });
  offer.append(opener);
  after.after(offer);
}
