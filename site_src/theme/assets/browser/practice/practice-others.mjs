// A run begun, the other runs on this device, and the sentence that comes back after a week.

import * as kept from "./practice-kept.mjs";
import { button, element } from "../shared/element.mjs";

/** @typedef {import("./practice-kept.mjs").Run} Run */

/** @type {Record<string, string>} */
const ENDED = { "": "goes on", kiln: "on the kiln", piece: "over", stopped: "stopped", never: "ended", time: "over" };

/**
 * @param {HTMLElement} place
 * @param {Run | null} now
 * @param {{ take: (run: Run) => void, gone: () => void }} does
 */
export function drawOthers(place, now, does) {
  const others = kept.kept().runs.filter((run) => run.id !== now?.id);
  place.replaceChildren();
  if (!others.length) return;
  const list = element("ul");
  for (const run of others) {
    const line = element("li");
    const go = button(run.ended ? "See it" : "Go on");
    go.addEventListener("click", () => does.take(run));
    const drop = button("Remove", { "aria-label": `Remove the run of number ${run.number}, ${run.at.replace("T", " ")}` });
    drop.addEventListener("click", () => {
      kept.remove(run.id);
      does.gone();
    });
    line.append(element("span", `${run.title || `Level ${run.level}`}, number ${run.number}, ${run.at.replace("T", " ")}: ${ENDED[run.ended] ?? "over"}. `), go, " ", drop);
    list.append(line);
  }
  place.append(element("h3", "Runs on this device"), list);
}

/**
 * A new run as a form asks for it, or what to type instead.
 * @param {HTMLFormElement} form
 * @returns {Run | string}
 */
export function begun(form) {
  const value = (/** @type {string} */ name) => String(new FormData(form).get(name) ?? "").trim().toLowerCase();
  const number = value("number") || kept.freshNumber();
  if (!/^\d{1,6}$/.test(number) || Number(number) < 1) return "Number of the barley: type a whole number from 1 to 999999, or leave it blank.";
  const code = /^([a-z0-9]{3})?(?:\.([a-z0-9._]{1,80}))?$/.exec(value("faults"));
  if (!code) return "Code from the trainer: three letters or figures, such as k7d, with what follows its point if something does, such as k7d.august. Or leave it blank.";
  return kept.runFrom({ number, level: value("level"), faults: code[1] ?? "", setting: code[2] ?? "" }) ?? "Choose what is run.";
}

/** @param {HTMLElement} place */
export function drawReturned(place) {
  const due = kept.dueSentence();
  place.hidden = !due;
  if (!due) return;
  const done = button("I did it: take it off");
  done.addEventListener("click", () => {
    kept.doneWith(due);
    drawReturned(place);
  });
  const again = button("Bring it again in a week");
  again.addEventListener("click", () => {
    kept.doneWith(due);
    kept.putSentence(due.text);
    drawReturned(place);
  });
  const buttons = element("p", "", { class: "sheet-buttons" });
  buttons.append(done, again);
  place.replaceChildren(element("p", `On ${due.at.slice(0, 10)} you wrote what you would do next time:`), element("p", due.text, { class: "practice-see" }), buttons);
}
