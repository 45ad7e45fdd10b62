// What a page of the practice batch has: a learner's frame or a trainer's.

import { PracticeRun } from "./practice-run.mjs";
import { PracticeTrainer } from "./practice-trainer.mjs";
import { parts } from "../shared/element.mjs";

export function openPractice() {
  return parts(document, "section.practice").map((section) => (section.dataset.practice === "trainer" ? new PracticeTrainer(section) : new PracticeRun(section)));
}
