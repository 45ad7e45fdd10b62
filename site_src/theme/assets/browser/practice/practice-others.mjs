// A run begun, the other runs on this device, and the sentence that comes back after a week.

import * as kept from "./practice-kept.mjs";
import { button, element, found } from "../shared/element.mjs";

/** @typedef {import("./practice-kept.mjs").Run} Run */

/** @type {Record<string, string>} */
const ENDED = { "": "goes on", kiln: "on the kiln", piece: "over", stopped: "stopped", never: "ended", time: "over" };

/** What a level is called where it is chosen. @param {string} level */
export const titleOf = (level) => document.querySelector(`#practice-level option[value="${CSS.escape(level)}"]`)?.textContent ?? "A run";

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
    line.append(element("span", `${run.title || titleOf(run.level)}, number ${run.number}, ${run.at.replace("T", " ")}: ${ENDED[run.ended] ?? "over"}. `), go, " ", drop);
    list.append(line);
  }
  place.append(element("h3", "Runs on this device"));
  if (others.length >= kept.MANY_RUNS) place.append(element("p", `${others.length + (now ? 1 : 0)} runs are kept here. None goes by itself: remove those that nobody needs any more.`, { class: "practice-note" }));
  place.append(list);
}

/**
 * What the build says may stand in a code: the letters of its faults, and what stands behind its point.
 * @typedef {{ letters: string, below: number, words: string[], spans: Record<string, [number, number]>, may: string }} Known
 */

/** @param {string} part of a setting @param {Known} known */
function isKnown(part, { words, spans }) {
  const number = /^([a-z])(\d{1,2}(?:\.\d)?)$/.exec(part);
  const span = number ? spans[number[1]] : null;
  return words.includes(part) || Boolean(number && span && Number(number[2]) >= span[0] && Number(number[2]) <= span[1]);
}

/**
 * The trainer's code in its two halves, or what to type instead.
 * @param {string} typed
 * @param {Known} known
 * @returns {{ faults: string, setting: string } | string}
 */
export function codeOf(typed, known) {
  const code = /^([a-z0-9]{3})?(?:\.([a-z0-9._]{1,80}))?$/.exec(typed);
  if (!code) return "Code from the trainer: three letters or figures, such as k7d, with what follows its point if something does, such as k7d.august. Or leave it blank.";
  const [, faults = "", setting = ""] = code;
  const places = [...faults].map((letter) => known.letters.indexOf(letter));
  const value = places.reduce((sum, place, at) => sum + place * known.letters.length ** at, 0);
  if (places.includes(-1) || value >= known.below) return `Code from the trainer: “${faults}” is no code of three signs, such as k7d. Read it again from the paper, or leave it blank.`;
  const wrong = setting.split("_").find((part) => !isKnown(part, known));
  if (setting && wrong !== undefined) return `Code from the trainer: behind the point “${wrong}” means nothing. There may stand, with _ between: ${known.may}. Such as k7d.august_drum.`;
  return { faults, setting };
}

/**
 * A new run as a form asks for it, or what to type instead.
 * @param {HTMLFormElement} form
 * @returns {Run | string}
 */
export function begun(form) {
  const value = (/** @type {string} */ name) => String(new FormData(form).get(name) ?? "").trim().toLowerCase();
  const number = value("number") || kept.freshNumber();
  if (!kept.isNumber(number)) return kept.WRONG_NUMBER;
  const code = codeOf(value("faults"), JSON.parse(found(form, "[name=faults]", HTMLInputElement).dataset.known ?? ""));
  if (typeof code === "string") return code;
  const level = found(form, "[name=level]", HTMLSelectElement);
  const title = level.selectedOptions[0]?.text;
  return kept.runFrom({ number, level: level.value, title, ...code }) ?? "Choose what is run.";
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
