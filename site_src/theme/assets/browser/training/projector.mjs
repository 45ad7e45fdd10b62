// The projector view: the same page in large type, one step a screen. Arrow keys, Page Up and Page Down (as a
// presenter's remote sends them), Home, End; Escape closes it.

import { button, element } from "../shared/element.mjs";

/** @typedef {{ head: string, nodes: Element[], step?: string }} Screen */

const SKIPPED = ".headerlink, .sheet, .exercises, .cases, .sources, .projector-offer, .sign-off, .for-trainer, .listen-for, .hand-out, script, style";
const FEW_CHARACTERS = 260; // so few can stand larger still
const ALONE = "h2, h3"; // each begins a screen

/**
 * @template {Element} Kind
 * @param {Kind} node
 */
function copy(node) {
  const made = /** @type {Kind} */ (node.cloneNode(true));
  for (const one of [made, ...made.querySelectorAll("[id]")]) one.removeAttribute("id"); // the page has that name already
  made.querySelectorAll(SKIPPED).forEach((one) => one.remove());
  made.querySelectorAll("a").forEach((link) => link.replaceWith(...link.childNodes)); // a stray press must not leave the page
  made.querySelectorAll("details").forEach((one) => { one.open = true; });
  return made;
}

/** @param {Element} node */
const isToWriteOn = (node) => node.matches("p") && Boolean(node.textContent?.includes("______")); // a line for a pen
/** @param {Element} heading */
const words = (heading) => copy(heading).textContent?.trim() ?? "";

/**
 * A list of steps and a plan give one screen a step; the rest one a heading.
 * @param {Element} content
 */
export function screens(content) {
  /** @type {Screen[]} */
  const found = [];
  let head = "";
  /** @type {Screen | null} */
  let now = null;
  const begin = () => {
    const screen = /** @type {Screen} */ ({ head, nodes: [] });
    found.push(screen);
    return screen;
  };
  for (const node of content.children) {
    if (node.matches(SKIPPED) || isToWriteOn(node)) continue;
    if (node.matches("h1")) {
      head = words(node);
      now = begin();
    } else if (node.matches(ALONE)) {
      head = words(node);
      now = null;
    } else if (headOf(node)) {
      head = words(headOf(node) ?? node);
      begin().nodes.push(...[...node.children].filter((child) => !child.matches("h2") && !isToWriteOn(child)));
      now = null;
    } else if (stepsOf(node).length > 1) {
      stepsOf(node).forEach((step, at) => {
        Object.assign(begin(), { nodes: [step], step: `${at + 1} of ${stepsOf(node).length}` });
      });
      now = null;
    } else {
      now ??= begin();
      now.nodes.push(node);
    }
  }
  return found.filter((screen) => screen.nodes.length);
}

/** @param {Element} node */
const headOf = (node) => (node.matches("div") ? node.querySelector(":scope > h2") : null);

/** @param {Element} node */
function stepsOf(node) {
  const list = node.matches("ol") ? node : node.matches(".steps") ? node.querySelector(":scope > ol") : null;
  if (list) return [...list.children];
  const plan = node.matches(".plan") ? node.querySelectorAll("tbody tr") : [];
  return [...plan];
}

/** @param {Element} node */
function shown(node) {
  if (!node.matches("tr, li")) return copy(node);
  const box = element("div");
  const made = copy(node);
  if (!(made instanceof HTMLTableRowElement)) {
    box.append(...made.childNodes);
    return box;
  }
  for (const [at, cell] of [...made.cells].entries()) {
    const line = element("p", "", at ? {} : { class: "projector-minutes" });
    line.append(...cell.childNodes);
    box.append(line);
  }
  return box;
}

class Projector {
  /**
   * @param {Screen[]} list
   * @param {HTMLElement} opener
   */
  constructor(list, opener) {
    this.list = list;
    this.opener = opener;
    this.at = 0;
    this.dialog = element("dialog", "", { class: "projector", "aria-label": "Projector view" });
    this.head = element("h2", "", { tabindex: "-1" });
    this.body = element("div", "", { class: "projector-body md-typeset", role: "region", "aria-live": "polite", "aria-label": "This step" });
    const bar = element("div", "", { class: "projector-bar" });
    this.count = element("span");
    bar.append(this.button("Back", -1), this.count, this.button("Next", 1), this.button("Close", 0));
    this.dialog.append(this.head, this.body, bar);
    this.dialog.addEventListener("keydown", (event) => this.keyed(event));
    this.dialog.addEventListener("close", () => this.closed());
    document.body.append(this.dialog);
    this.dialog.showModal();
    this.show(0);
    this.head.focus();
  }

  /**
   * @param {string} says
   * @param {number} step
   */
  button(says, step) {
    const made = button(says);
    made.addEventListener("click", () => (step ? this.show(this.at + step) : this.dialog.close()));
    return made;
  }

  /** @param {number} at */
  show(at) {
    this.at = Math.max(0, Math.min(at, this.list.length - 1));
    const { head, nodes, step } = this.list[this.at];
    this.head.textContent = step ? `${head} · ${step}` : head;
    this.count.textContent = `${this.at + 1} / ${this.list.length}`;
    this.body.replaceChildren(...nodes.map(shown));
    const few = (this.body.textContent ?? "").length < FEW_CHARACTERS && !this.body.querySelector("svg, table");
    this.body.classList.toggle("few-words", few);
    this.body.tabIndex = this.body.scrollHeight > this.body.clientHeight ? 0 : -1; // the keyboard scrolls it
    this.body.scrollTop = 0;
  }

  /** @param {KeyboardEvent} event */
  keyed(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const onButton = event.target instanceof HTMLButtonElement && event.key === " ";
    /** @type {Record<string, number | undefined>} */
    const places = { ArrowRight: this.at + 1, PageDown: this.at + 1, " ": this.at + 1, ArrowLeft: this.at - 1, PageUp: this.at - 1, Home: 0, End: this.list.length - 1 };
    const to = places[event.key];
    event.stopPropagation(); // the theme has keys of its own
    if (to === undefined || onButton) return;
    event.preventDefault();
    this.show(to);
  }

  closed() {
    this.dialog.remove();
    this.opener.focus();
  }
}

// Offered where there is something to show step by step.
export function offerProjector() {
  document.querySelector("dialog.projector")?.remove();
  const content = document.querySelector(".md-content__inner");
  if (!content || content.querySelector(".projector-offer") || !content.querySelector(".steps, .plan")) return;
  const offer = element("p", "", { class: "projector-offer" });
  const opener = button("Projector view");
  opener.addEventListener("click", () => new Projector(screens(content), opener));
  offer.append(opener);
  content.querySelector("h1")?.after(offer);
}
