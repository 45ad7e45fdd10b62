// Questions of judgement work with scripts off: each choice opens to its reason. Here the first choice opened
// counts as the answer, and the ones missed last are offered on return.

import * as record from "./marks.mjs";

export class Cases {
  constructor(section) {
    this.section = section;
    this.chapter = section.dataset.chapter;
    this.answered = new Set();
    section.addEventListener("toggle", (event) => this.opened(event.target), true);
    this.offer();
    this.printButtons();
  }

  close() {}

  opened(choice) {
    if (!choice.open || this.printing || !choice.matches("[data-right]")) return;
    const one = choice.closest("[data-case]");
    if (this.answered.has(one.id)) return;
    this.answered.add(one.id);
    record.note(one.dataset.case, { chapter: this.chapter, kind: "question", mark: choice.dataset.right === "yes" ? "right" : "missed" });
    const trouble = record.said();
    if (trouble) this.line(one).textContent = trouble;
  }

  line(one) {
    const line = document.createElement("p");
    line.className = "exercise-kept";
    line.setAttribute("role", "status");
    one.append(line);
    return line;
  }

  offer() {
    const missed = record.missed("question", this.chapter).filter((id) => document.getElementById(`case-${id}`));
    if (!missed.length) return;
    const line = document.createElement("p");
    line.className = "exercise-offer";
    line.append("Missed last time: ");
    for (const id of missed) {
      const link = document.createElement("a");
      link.href = `#case-${id}`;
      link.textContent = document.querySelector(`#case-${id} h3`).textContent;
      line.append(link, " ");
    }
    this.section.prepend(line);
  }

  printButtons() {
    const buttons = document.createElement("div");
    buttons.className = "sheet-buttons";
    for (const [words, reasons] of [["Print the questions", false], ["Print the reasons too", true]]) {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = words;
      button.addEventListener("click", () => this.print(reasons));
      buttons.append(button);
    }
    this.section.prepend(buttons);
  }

  print(reasons) {
    const all = [...this.section.querySelectorAll("details")];
    const open = all.map((one) => one.open);
    this.printing = true;
    for (const one of all) one.open = reasons;
    const done = () => {
      all.forEach((one, at) => { one.open = open[at]; });
      setTimeout(() => { this.printing = false; }, 100); // "toggle" comes a moment later
      removeEventListener("afterprint", done);
    };
    addEventListener("afterprint", done);
    print();
  }
}
