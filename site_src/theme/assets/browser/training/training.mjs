// What a page of training has, beside sheets. Only exercises need the engine; those are returned.

import { Cases } from "./cases.mjs";
import { Exercises } from "./exercises.mjs";
import { offerProjector } from "./projector.mjs";
import { ResultsKept } from "./own-results.mjs";

let open = [];

export function openTraining() {
  for (const one of open) one.close();
  const all = (style, make) => [...document.querySelectorAll(`section.${style}`)].map((section) => new make(section));
  open = [...all("cases", Cases), ...all("results-kept", ResultsKept)];
  offerProjector();
  return all("exercises", Exercises);
}
