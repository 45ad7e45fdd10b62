// What a page of training has, beside sheets. Only exercises need the engine; those are returned.

import { Cases } from "./cases.mjs";
import { ComingBack } from "./coming-back.mjs";
import { Exercises } from "./exercises.mjs";
import { offerHandOut } from "./hand-out-paper.mjs";
import { offerProjector } from "./projector.mjs";
import { parts } from "../shared/element.mjs";
import { ResultsKept } from "./own-results.mjs";

/** @type {{ close: () => void }[]} */
let open = [];

export function openTraining() {
  for (const one of open) one.close();
  open = [
    ...parts(document, "section.cases").map((section) => new Cases(section)),
    ...parts(document, "section.coming-back").map((section) => new ComingBack(section)),
    ...parts(document, "section.results-kept").map((section) => new ResultsKept(section)),
  ];
  offerProjector();
  offerHandOut();
  return parts(document, "section.exercises").map((section) => new Exercises(section));
}
