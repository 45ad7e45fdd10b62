// The projector view: what the class sees, in large type, one thing a screen, and nothing that has to be scrolled.
// Arrow keys, Page Up and Page Down (as a presenter's remote sends them), Home, End; Escape closes it. The trainer's notes
// stay in the page, by the numbers of the screens, on the device in the hand or on paper.

import { button, element } from "../shared/element.mjs";
import { isDrawn } from "./copies.mjs";
import { divided, enlarge, scale } from "./fit.mjs";
import { offerNotes } from "./notes.mjs";
import { deckOf } from "./screens.mjs";
import { unfold } from "./unfold.mjs";

const TYPED_INTO = "input, select, textarea, summary";
const STILL_MS = 800;
const WORTH_IT = 1.1;
const TURNS_ANYWHERE = ["PageDown", "PageUp"]; // no box needs them

class Projector {
  /** @type {Element[][]} */
  parts = [];
  part = 0;
  growTimer = 0;
  /** @type {(() => void) | null} */
  giveBack = null; // the sheet, to its place in the page
  resized = () => this.show(this.at);

  /**
   * @param {import("./screens.mjs").Screen[]} list
   * @param {HTMLElement} opener
   */
  constructor(list, opener) {
    this.list = list;
    this.opener = opener;
    this.at = 0;
    this.dialog = element("dialog", "", { class: "projector", "aria-label": "Projector view" });
    this.head = element("h2", "", { tabindex: "-1" });
    this.body = element("div", "", { class: "projector-body md-typeset", role: "region", "aria-live": "polite", "aria-label": "This screen" });
    const bar = element("div", "", { class: "projector-bar" });
    this.count = element("span");
    bar.append(this.button("Back", -1), this.count, this.button("Next", 1), this.button("Close", 0));
    this.dialog.append(this.head, this.body, bar);
    this.dialog.addEventListener("keydown", (event) => this.keyed(event));
    this.dialog.addEventListener("close", () => this.closed());
    this.grown = new ResizeObserver(() => this.fitSheet());
    document.body.append(this.dialog);
    this.dialog.showModal();
    addEventListener("resize", this.resized);
    this.show(0);
    this.head.focus();
  }

  /**
   * @param {string} says
   * @param {number} step
   */
  button(says, step) {
    const made = button(says);
    made.addEventListener("click", () => (step ? this.turn(step) : this.dialog.close()));
    return made;
  }

  /** @param {number} step */
  turn(step) {
    const part = this.part + step;
    if (part >= 0 && part < this.parts.length) this.showPart(part);
    else if (this.list[this.at + step]) this.show(this.at + step, step < 0);
  }

  /**
   * @param {number} at
   * @param {boolean} [fromItsEnd]
   */
  show(at, fromItsEnd = false) {
    this.takeBack();
    this.at = Math.max(0, Math.min(at, this.list.length - 1));
    const { head, step, nodes, sheet } = this.list[this.at];
    this.head.textContent = step ? `${head} · ${step}` : head;
    this.dialog.dataset.screen = String(this.at + 1);
    this.body.classList.toggle("has-drawing", nodes.some(isDrawn));
    this.body.classList.toggle("has-sheet", Boolean(sheet));
    this.parts = sheet ? [[]] : divided(this.body, nodes);
    this.showPart(fromItsEnd ? this.parts.length - 1 : 0);
    if (sheet) this.borrow(sheet);
  }

  /** @param {number} part */
  showPart(part) {
    this.part = part;
    const of = this.parts.length > 1 ? `, part ${part + 1} of ${this.parts.length}` : "";
    this.count.textContent = `${this.at + 1} / ${this.list.length}${of}`;
    this.body.replaceChildren(...this.parts[part]);
    if (innerWidth > innerHeight) this.body.querySelectorAll("svg[data-fold]").forEach((plate) => plate instanceof SVGElement && unfold(plate));
    enlarge(this.body);
    this.body.tabIndex = this.body.scrollHeight > this.body.clientHeight + 1 ? 0 : -1; // the keyboard scrolls it, should it have to
    this.body.scrollTop = 0;
  }

  /**
   * The page's own sheet, with what is typed in it: it goes on answering.
   * @param {HTMLElement} sheet
   */
  borrow(sheet) {
    const place = document.createComment("a sheet on the projector");
    sheet.replaceWith(place);
    this.body.replaceChildren(sheet);
    this.giveBack = () => {
      sheet.style.removeProperty("zoom");
      place.replaceWith(sheet);
    };
    scale(this.body, sheet);
    this.grown.observe(sheet);
  }

  // Made smaller at once when its answers need more room; larger only when it has been still, and by a step worth it.
  fitSheet() {
    const sheet = this.body.firstElementChild;
    if (!this.giveBack || !(sheet instanceof HTMLElement)) return;
    clearTimeout(this.growTimer);
    if (this.body.scrollHeight > this.body.clientHeight + 1) scale(this.body, sheet);
    else this.growTimer = setTimeout(() => this.giveBack && scale(this.body, sheet, WORTH_IT), STILL_MS);
  }

  takeBack() {
    if (this.body.contains(document.activeElement)) this.head.focus(); // the next key would go to the page behind
    this.grown.disconnect();
    clearTimeout(this.growTimer);
    this.giveBack?.();
    this.giveBack = null;
  }

  /** @param {KeyboardEvent} event */
  keyed(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    event.stopPropagation(); // the theme has keys of its own
    const target = event.target instanceof Element ? event.target : null;
    if (target?.closest(TYPED_INTO) && !TURNS_ANYWHERE.includes(event.key)) return;
    if (target instanceof HTMLButtonElement && event.key === " ") return;
    /** @type {Record<string, (() => void) | undefined>} */
    const does = {
      ArrowRight: () => this.turn(1), PageDown: () => this.turn(1), " ": () => this.turn(1),
      ArrowLeft: () => this.turn(-1), PageUp: () => this.turn(-1),
      Home: () => this.show(0), End: () => this.show(this.list.length - 1, true),
    };
    const act = does[event.key];
    if (!act) return;
    event.preventDefault();
    act();
  }

  closed() {
    removeEventListener("resize", this.resized);
    this.takeBack();
    this.dialog.remove();
    this.opener.focus();
  }
}

/** @type {Projector | null} */
let open = null;

// Offered where there is something to show step by step.
export function offerProjector() {
  open?.dialog.isConnected && open.dialog.close();
  document.querySelector("dialog.projector")?.remove();
  const content = document.querySelector(".md-content__inner");
  if (!content || content.querySelector(".projector-offer") || !content.querySelector(".steps, .plan, section.cases")) return;
  const offer = element("p", "", { class: "projector-offer" });
  const opener = button("Projector view");
  opener.addEventListener("click", () => {
    const { screens } = deckOf(content);
    if (screens.length) open = new Projector(screens, opener);
  });
  offer.append(opener);
  content.querySelector("h1")?.after(offer);
  content.setAttribute("data-offers-screens", "");
  if (content.querySelector(".plan td:nth-child(3)")) offerNotes(content, offer);
}
