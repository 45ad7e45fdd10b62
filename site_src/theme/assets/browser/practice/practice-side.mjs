// Learners' runs on one number side by side: how far they went together, and what each did then.

import { askPractice } from "./practice-ask.mjs";
import { element, parts } from "../shared/element.mjs";

/** @typedef {import("./practice-kept.mjs").Run} Run */

/** A guess is no part of what was done. @param {string} move */
const done = (move) => move.split("~")[0];

/** @param {Run} run */
const movesOf = (run) => run.moves.split("-").filter(Boolean);

/** How many moves all have in common at the beginning. @param {string[][]} lists */
export function together(lists) {
  const least = Math.min(...lists.map((list) => list.length));
  for (let at = 0; at < least; at += 1) if (new Set(lists.map((list) => done(list[at]))).size > 1) return at;
  return least;
}

/**
 * The words of a move, from the buttons of the scene in which it was taken.
 * @param {HTMLElement} scene
 * @param {string | undefined} move
 */
function wordsOf(scene, move) {
  if (!move) return "nothing more";
  const code = move.slice(0, 2);
  const words = parts(scene, `button[data-move="${code}"]`)[0]?.textContent ?? move;
  const number = done(move).slice(2);
  return number && !number.startsWith("_") ? `${words}: ${number}` : words;
}

/**
 * @param {HTMLElement} place
 * @param {{ name: string, run: Run }[]} all of one barley
 */
export async function drawSide(place, all) {
  const { number, level, faults, setting } = all[0].run;
  const lists = all.map(({ run }) => movesOf(run));
  const common = together(lists);
  const there = await askPractice({}, { number, level, faults, setting, moves: lists[0].slice(0, common).join("-") });
  const scene = element("div");
  scene.innerHTML = there.places.scene;
  const table = element("table");
  const head = element("tr");
  for (const words of ["Run", "Did then", "Moves", "Where it is now"]) head.append(element("th", words, { scope: "col" }));
  const top = element("thead");
  top.append(head);
  const body = element("tbody");
  table.append(top, body);
  let debrief = "";
  for (const [at, { name, run }] of all.entries()) {
    const reply = await askPractice({}, { number, level, faults, setting, moves: run.moves, debrief: at === 0, other: at === 0 ? all[1].run.moves : "" });
    if (!at) debrief = reply.places.debrief;
    const row = element("tr");
    for (const words of [name, wordsOf(scene, lists[at][common]), String(lists[at].length), reply.say]) row.append(element("td", words));
    body.append(row);
  }
  const chart = element("div", "", { class: "practice-debrief-place" });
  chart.innerHTML = debrief;
  for (const one of parts(chart, "button[data-moves]")) one.remove(); // nothing is played on here
  const where = common ? `All did the same for ${common} moves. Then they parted, at: ${there.say}` : `They parted at once: ${there.say}`;
  place.replaceChildren(element("p", where, { class: "practice-see" }), table, element("p", `The first two, ${all[0].name} and ${all[1].name}, on one chart:`), chart);
}
