// The screens of one case of a page of cases: what one sees and the choices in the order of the paper, then each choice
// with its reason; of a chain, the same for each step.

import { element, parts } from "../shared/element.mjs";
import { copy, isDrawn, withoutDrawing } from "./copies.mjs";

/**
 * @param {HTMLElement} article
 * @returns {{ head: string, nodes: Element[], notes: Element[] }[]}
 */
export function caseScreens(article) {
  const head = article.querySelector("h3")?.firstChild?.textContent?.trim() ?? "";
  /** @type {{ head: string, nodes: Element[], notes: Element[] }[]} */
  const made = [];
  /** @type {Set<string>} */
  const met = new Set(); // a step to which two choices lead is shown once

  /**
   * @param {HTMLElement} box
   * @param {string} after
   */
  const ask = (box, after) => {
    const list = parts(box, ":scope > .case-choices")[0];
    const text = box.querySelector(":scope > .case-text")?.textContent ?? "";
    if (!list || met.has(text)) return;
    met.add(text);
    const asked = element("div");
    if (after) asked.append(element("p", `They chose: ${after}`, { class: "case-then" }));
    for (const node of box.querySelectorAll(":scope > :is(.case-text, .case-table, figure, .case-ask)")) asked.append(copy(node));
    const choices = element("ol", "", { class: "letters" });
    const reasons = element("ol", "", { class: "letters" });
    /** @type {[HTMLElement, string][]} */
    const further = [];
    for (const choice of parts(list, ":scope > li > details")) {
      const says = choice.querySelector(":scope > summary")?.textContent ?? "";
      choices.append(element("li", says));
      const line = element("li");
      line.append(element("em", says), " ", ...[...copy(choice).children].filter((one) => one.matches("p")).flatMap((one) => [...one.childNodes]));
      reasons.append(line);
      const then = parts(choice, ":scope > .case-step")[0];
      if (then) further.push([then, says]);
    }
    asked.append(choices);
    const notes = [reasons.cloneNode(true)].filter((one) => one instanceof Element);
    if (isDrawn(asked)) {
      const drawn = /** @type {Element} */ (asked.cloneNode(true));
      drawn.querySelectorAll(".letters, .case-ask").forEach((one) => one.remove());
      made.push({ head, nodes: [drawn], notes: [] });
    }
    made.push({ head, nodes: [withoutDrawing(asked)], notes }, { head, nodes: [reasons], notes: [] });
    for (const [step, says] of further) ask(step, says);
  };
  ask(article, "");
  return made;
}
