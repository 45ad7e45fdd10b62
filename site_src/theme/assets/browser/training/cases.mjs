// Questions of judgement work with scripts off: each choice opens to its reason. Here answering and looking are two
// things: a choice is taken and given as the answer, which is kept; or the reasons are looked at, which keeps nothing.
// The order of the choices is drawn from the paper's number.

import * as marks from "./marks.mjs";
import { button, element, found, part, parts } from "../shared/element.mjs";
import { printAs } from "../shared/printing.mjs";
import { orderOf } from "./order.mjs";

const freshPaper = () => String((crypto.getRandomValues(new Uint32Array(1))[0] % 9000) + 1000);
const PAPER = /^\d{1,6}$/;

// One question: a case, or one step of a chain.
class Question {
  answered = false;
  looked = false;
  said = element("p", "", { class: "exercise-kept", role: "status" });

  /**
   * @param {HTMLElement} list its choices
   * @param {string} name
   * @param {(worth: string, isLast: boolean) => void} onAnswer
   */
  constructor(list, name, onAnswer) {
    this.list = list;
    this.name = name;
    this.onAnswer = onAnswer;
    this.items = /** @type {HTMLLIElement[]} */ ([...list.children]); // as they were written
    this.box = element("fieldset", "", { class: "case-answer" });
    this.list.before(this.box);
  }

  /** @param {number} at */
  choice(at) {
    return found(this.items[at], ":scope > details", HTMLDetailsElement);
  }

  /** @param {string} paper */
  order(paper) {
    const places = orderOf(paper, this.name, this.items.length);
    this.list.append(...places.map((at) => this.items[at]));
    if (!this.answered && !this.looked) this.ask(places);
  }

  /** @param {number[]} places */
  ask(places) {
    this.list.hidden = true;
    this.box.replaceChildren(element("legend", "Your answer"));
    for (const at of places) {
      const label = element("label");
      label.append(element("input", "", { type: "radio", name: `answer ${this.name}`, value: String(at) }), element("span", part(this.choice(at), "summary").textContent ?? ""));
      this.box.append(label);
    }
    const answer = button("This is my answer", { class: "main-button" });
    answer.addEventListener("click", () => this.give());
    const look = button("Only look");
    look.addEventListener("click", () => this.look());
    const buttons = element("div", "", { class: "sheet-buttons" });
    buttons.append(answer, look);
    this.box.append(buttons, this.said);
  }

  give() {
    const taken = this.box.querySelector("input:checked");
    if (!(taken instanceof HTMLInputElement)) {
      this.said.textContent = "Take one of the choices first.";
      return;
    }
    this.answered = true;
    const choice = this.choice(Number(taken.value));
    this.show();
    choice.open = true;
    choice.dataset.chosen = "";
    part(choice, "summary").focus();
    this.onAnswer(choice.dataset.worth ?? "no", !choice.querySelector(".case-step"));
  }

  look() {
    this.looked = true;
    this.show();
    this.list.before(element("p", "Looked at. It does not count as an answer.", { class: "exercise-kept", role: "status" }));
    part(this.choice(0).parentElement ?? this.list, "summary").focus();
  }

  show() {
    this.list.hidden = false;
    this.box.remove();
  }
}

// What the answers to one case come to: missed when one of them was wrong, safe when one was no more than that.
class Answers {
  worst = "right";
  kept = false;

  /**
   * @param {HTMLElement} one the case
   * @param {string} chapter
   */
  constructor(one, chapter) {
    this.one = one;
    this.chapter = chapter;
  }

  /**
   * A chain is answered when its end is reached, or when it was missed.
   * @param {string} worth
   * @param {boolean} isLast
   */
  take(worth, isLast) {
    if (this.kept) return;
    if (worth === "no") this.worst = "missed";
    else if (worth === "safe") this.worst = "safe";
    if (this.worst !== "missed" && !isLast) return;
    this.kept = true;
    marks.note(this.one.dataset.case ?? "", { chapter: this.chapter, kind: "question", mark: this.worst });
    const trouble = marks.said();
    if (trouble) this.one.append(element("p", trouble, { class: "exercise-kept", role: "status" }));
  }
}

export class Cases {
  /** @type {Question[]} */
  questions = [];
  count = element("p", "", { class: "exercise-count", role: "status" });

  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    this.chapter = section.dataset.chapter ?? "";
    for (const one of parts(section, "[data-case]")) {
      const answers = new Answers(one, this.chapter);
      for (const [at, list] of parts(one, ".case-choices").entries()) {
        this.questions.push(new Question(list, `${one.dataset.case} ${at}`, (worth, isLast) => answers.take(worth, isLast)));
      }
    }
    const linked = new URLSearchParams(location.search).get("paper") ?? "";
    this.tools();
    this.take(PAPER.test(linked) ? linked : freshPaper());
    this.offer();
  }

  close() {}

  /** @param {string} paper */
  take(paper) {
    for (const one of this.questions) one.order(paper);
    this.count.textContent = `Paper ${paper}: the choices stand in its order on every device.`;
  }

  offer() {
    const due = marks.due((id, one) => one.kind === "question" && Boolean(document.getElementById(`case-${id}`)));
    if (!due.length) return;
    const line = element("p", "Due again today: ", { class: "exercise-offer" });
    for (const id of due) line.append(element("a", part(document, `#case-${id} h3`).textContent ?? "", { href: `#case-${id}` }), " ");
    this.section.prepend(line);
  }

  tools() {
    const form = element("form", "", { class: "exercise-choose", novalidate: "", autocomplete: "off" });
    const field = element("div", "", { class: "field" });
    const name = `cases-${this.chapter}-paper`;
    field.append(element("label", "Paper number", { for: name }));
    const box = element("div", "", { class: "box" });
    const typed = element("input", "", { type: "text", inputmode: "decimal", id: name, maxlength: "6" });
    box.append(typed);
    field.append(box);
    form.append(field, element("button", "Take this paper", { type: "submit" }));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const paper = typed.value.trim();
      if (PAPER.test(paper)) this.take(paper);
      else this.count.textContent = "Type a paper number from 0 to 999999.";
    });
    const buttons = element("div", "", { class: "sheet-buttons" });
    for (const reasons of [false, true]) {
      const one = button(reasons ? "Print the reasons too" : "Print the questions");
      one.addEventListener("click", () => this.print(reasons));
      buttons.append(one);
    }
    this.section.prepend(this.count, form, buttons);
  }

  /** @param {boolean} reasons */
  print(reasons) {
    const all = [...this.section.querySelectorAll("details")];
    const open = all.map((one) => one.open);
    const lists = parts(this.section, ".case-choices");
    const hidden = lists.map((one) => one.hidden);
    for (const one of all) one.open = reasons;
    for (const one of lists) one.hidden = false;
    printAs("prints-cases", () => {
      all.forEach((one, at) => { one.open = open[at]; });
      lists.forEach((one, at) => { one.hidden = hidden[at]; });
    });
  }
}
