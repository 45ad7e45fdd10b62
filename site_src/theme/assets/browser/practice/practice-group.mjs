// A group at one run: on the projector, votes, two teams, pause, and what a trainer brings in.

import { element, found, part, parts } from "../shared/element.mjs";
import * as kept from "./practice-kept.mjs";
import { counted, letter, moveOf } from "./practice-moves.mjs";

/** @typedef {import("./practice-run.mjs").PracticeRun} PracticeRun */

const SECOND = "-2"; // ends the id of the second team's run

// What comes is chosen by its number on the trainer's key, so that a group that looks on does not know which.
/** @param {PracticeRun} page */
export function bringOne(page) {
  if (!page.run || page.paused) return;
  if (page.busy) return page.early();
  const box = found(page.place("which"), "input", HTMLInputElement);
  if (page.isBehind()) return;
  const typed = box.value.trim();
  if (typed && !/^[1-9]\d?$/.test(typed)) return page.tell("note", "Its number: type a whole number from the trainer’s key, such as 2, or leave it blank.");
  box.value = "";
  page.play([page.run.moves, `bi${typed}`].filter(Boolean).join("-"), true);
}

/** @param {PracticeRun} page */
export function pause(page) {
  page.paused = !page.paused;
  page.stage.classList.toggle("practice-paused", page.paused);
  part(page.place("tools"), "[data-action=pause]").textContent = page.paused ? "Go on" : "Pause";
  page.tell("note", page.paused ? "Paused. No time passes in the batch." : "");
  part(page.place("scene"), ".practice-scene").toggleAttribute("inert", page.paused);
}

// Two teams on one number: each has its own run, and the debrief draws both courses.
/** @param {PracticeRun} page */
export function otherTeam(page) {
  const run = page.run;
  if (!run || page.isBehind()) return;
  const other = run.partner ? kept.find(run.partner) : null;
  if (other && other.partner === run.id) return page.take(other);
  const { number, level, faults, setting, id } = run;
  const second = kept.runFrom({ id: `${id}${SECOND}`, number, level, faults, setting, partner: id });
  if (!second) return;
  run.partner = second.id;
  kept.put(run);
  page.take(second);
}

/** @param {PracticeRun} page */
export function showTeam(page) {
  const other = page.run?.partner ? kept.find(page.run.partner) : null;
  const both = Boolean(other && page.run && other.partner === page.run.id);
  const place = page.place("team");
  place.hidden = !both;
  if (!both || !other || !page.run) return;
  const first = !page.run.id.endsWith(SECOND);
  place.textContent = `Team ${first ? 1 : 2} plays. The other team: ${other.say.split(". ")[0] || "not begun"}.`;
  part(page.place("tools"), "[data-action=teams]").textContent = `Now team ${first ? 2 : 1}`;
}

/** @param {PracticeRun} page */
export function project(page) {
  if (page.projector) return page.projector.close();
  const opener = part(page.place("tools"), "[data-action=projector]");
  const dialog = element("dialog", "", { class: "practice-projector md-typeset", "aria-label": "The practice batch, large" });
  const home = element("span", "", { hidden: "" });
  page.stage.before(home);
  dialog.append(page.stage, page.place("say"), page.place("debrief"));
  document.body.append(dialog);
  page.projector = dialog;
  opener.textContent = "Leave the projector view";
  page.form("votes").hidden = false;
  dialog.addEventListener("click", (event) => page.pressed(event));
  dialog.addEventListener("keydown", (event) => event.stopPropagation()); // the theme has keys of its own
  dialog.addEventListener("close", () => {
    home.replaceWith(page.stage, page.place("say"), page.place("debrief"));
    dialog.remove();
    page.projector = null;
    page.form("votes").hidden = true;
    opener.textContent = "On the projector";
    if (page.run && !page.isBehind()) page.play(page.run.moves);
    opener.focus();
  });
  dialog.showModal();
  if (page.run) page.isBehind() || page.play(page.run.moves);
  else letter(page.place("scene"));
  page.place("scene").focus();
}

/** @param {PracticeRun} page @param {Event} event */
export function voted(page, event) {
  event.preventDefault();
  const lettered = parts(page.place("scene"), "button[data-letter]");
  const box = found(page.form("votes"), "input", HTMLInputElement);
  const vote = counted(box.value, lettered.map((one) => one.dataset.letter ?? ""));
  if (typeof vote === "string") return page.tell("note", vote);
  const chosen = lettered.find((one) => one.dataset.letter === vote.letter);
  if (!chosen) return;
  if (page.busy) return page.early();
  page.tell("note", `${vote.letter} has most.`);
  page.tapped(chosen);
  if (!("wrong" in moveOf(page.place("scene"), chosen))) box.value = "";
}
