// Questions of judgement work with scripts off: each choice opens to its reason. Here the first choice opened
// counts as the answer, and the ones missed last are offered on return.

import * as marks from "./marks.mjs";
import { button, element, part } from "../shared/element.mjs";
import { printAs } from "../shared/printing.mjs";

export class Cases {
  /** @type {Set<string>} */
  answered = new Set();
  printing = false;

  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    this.chapter = section.dataset.chapter ?? "";
    section.addEventListener("toggle", (event) => this.opened(event.target), true);
    this.offer();
    this.printButtons();
  }

  close() {}

  /** @param {EventTarget | null} choice */
  opened(choice) {
    if (!(choice instanceof HTMLDetailsElement) || !choice.open || this.printing || !choice.dataset.right) return;
    const one = choice.closest("[data-case]");
    if (!(one instanceof HTMLElement) || this.answered.has(one.id)) return;
    this.answered.add(one.id);
    const mark = choice.dataset.right === "yes" ? "right" : "missed";
    marks.note(one.dataset.case ?? "", { chapter: this.chapter, kind: "question", mark });
    const trouble = marks.said();
    if (trouble) one.append(element("p", trouble, { class: "exercise-kept", role: "status" }));
  }

  offer() {
    const missed = marks.missed("question", this.chapter).filter((id) => document.getElementById(`case-${id}`));
    if (!missed.length) return;
    const line = element("p", "Missed last time: ", { class: "exercise-offer" });
    for (const id of missed) line.append(element("a", part(document, `#case-${id} h3`).textContent ?? "", { href: `#case-${id}` }), " ");
    this.section.prepend(line);
  }

  printButtons() {
    const buttons = element("div", "", { class: "sheet-buttons" });
    for (const reasons of [false, true]) {
      const one = button(reasons ? "Print the reasons too" : "Print the questions");
      one.addEventListener("click", () => this.print(reasons));
      buttons.append(one);
    }
    this.section.prepend(buttons);
  }

  /** @param {boolean} reasons */
  print(reasons) {
    const all = [...this.section.querySelectorAll("details")];
    const open = all.map((one) => one.open);
    this.printing = true;
    for (const one of all) one.open = reasons;
    printAs("", () => {
      all.forEach((one, at) => { one.open = open[at]; });
      setTimeout(() => { this.printing = false; }, 100); // "toggle" comes a moment later
    });
  }
}
