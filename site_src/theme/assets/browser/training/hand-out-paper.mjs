// The hand-out of a session alone on paper, one each: without the plan, and without the key.

import { button, element, parts } from "../shared/element.mjs";
import { printAs } from "../shared/printing.mjs";

function offer() {
  const line = element("p", "", { class: "hand-out-offer" });
  const print = button("Print the hand-out");
  print.addEventListener("click", () => printAs("prints-hand-out"));
  line.append(print);
  return line;
}

/** At the top, where a trainer makes ready, and at the hand-out itself. */
export function offerHandOut() {
  const [sheet] = parts(document, ".md-content__inner > .hand-out");
  if (!sheet || document.querySelector(".hand-out-offer")) return;
  sheet.prepend(offer());
  const [above] = parts(document, ".md-content__inner > :is(.notes-offer, .projector-offer, h1)").reverse();
  above?.after(offer());
}
