// What the pages of the record of competence have; it comes only on those pages.

import { parts } from "../../shared/element.mjs";
import { HandIn } from "./hand-in.mjs";
import { SignedSheets } from "./signed-sheets.mjs";
import { SigningForm } from "./signing-form.mjs";
import { TrainersTable } from "./trainers-table.mjs";

export function openCompetence() {
  const places = (/** @type {string} */ name) => parts(document, `[data-competence=${name}]`);
  const forms = places("write").map((section) => new SigningForm(section));
  const sheets = forms.flatMap((form) => places("person").map((section) => {
    const one = new SignedSheets(section, form.jobs, (job, person) => form.begin(job, person));
    form.onWritten = (id) => one.show(id);
    return one;
  }));
  return [...forms, ...sheets, ...places("hand-in").map((section) => new HandIn(section)), ...places("table").map((section) => new TrainersTable(section))];
}
