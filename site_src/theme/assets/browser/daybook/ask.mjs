// What the day-book asks of Python. The whole book goes along: Python reads, checks and schedules, and keeps nothing.

import * as engine from "../engine/engine.mjs";
import { heardBefore } from "../edition/corrections.mjs";
import { clocksAround } from "../shared/clocks.mjs";
import { localMinute } from "../shared/moment.mjs";
import { relativeRoot } from "../shared/root.mjs";

const SECONDS = 60; // a book of ten thousand lines takes a slow tablet that long
/** @typedef {import("./book.mjs").Book} Book */

/** @type {Record<engine.Trouble, (text: string) => string>} */
const TROUBLES = {
  fault: (text) => `The calculator met a fault (${text}).`,
  deaths: (text) => `The calculator stopped twice over this (${text}), so it is not tried again. A fresh one has been started.`,
  hang: () => `There was no answer within ${SECONDS} seconds.`,
  stopped: () => "Stopped.",
};

/** @type {Map<string, engine.Key>} */
const KEYS = new Map(); // one waiting request of each sort
const OF_A_FILE = ["import", "export", "report", "shared"]; // goes on when the reader turns to another page
const ADVICE = ["batch", "book", "today", "lend", "week-plans", "ways", "hand-over", "look-back", "fits", "held"];
/** @type {Record<string, string[]>} */
const NEEDS = { held: ["numpy", "psychrolib"], "week-plans": ["numpy", "psychrolib"] };
const RECKONED = [...ADVICE, "sums"]; // what reckons a steep: its rests are as warm as humid air lets them get
const HELD = "The day-book’s own advice was corrected after this copy was kept, so it is held back. The corrected edition comes as soon as there is a network.";
// Why nothing is answered, or nothing.
export const heldBack = heardBefore().then((corrections) => (corrections.some(({ dayBook }) => dayBook) ? HELD : ""));
let turn = 0;

/** @param {string} wanted */
function keyOf(wanted) {
  const key = KEYS.get(wanted) ?? { wanted };
  KEYS.set(wanted, key);
  return key;
}

export function forget() {
  turn += 1;
  KEYS.forEach((key, wanted) => OF_A_FILE.includes(wanted) || engine.forget(key));
}

/**
 * @param {string} wanted
 * @param {Book} book
 * @param {object} more
 * @param {(reply: any) => unknown} onReply
 * @param {(text: string) => unknown} [onTrouble]
 */
export async function ask(wanted, book, more, onReply, onTrouble = () => {}) {
  const mine = turn;
  const held = ADVICE.includes(wanted) && (await heldBack);
  if (held || (mine !== turn && !OF_A_FILE.includes(wanted))) return;
  engine.ask(keyOf(wanted), {
    needs: NEEDS[wanted] ?? (RECKONED.includes(wanted) ? ["psychrolib"] : []),
    seconds: SECONDS,
    quiet: wanted === "lend",
    body: () => ({ daybook: wanted, entries: book.lines, root: relativeRoot(), date: localMinute(), zone: -new Date().getTimezoneOffset(), clocks: clocksAround(), demo: book.which === "demo", ...more }),
    onReply,
    onTrouble: (kind, text) => onTrouble(TROUBLES[kind](text)),
  });
}

/**
 * One answer as a promise, for what is asked once by a press.
 * @param {string} wanted
 * @param {Book} book
 * @param {object} more
 * @returns {Promise<any>}
 */
export const askOnce = (wanted, book, more) => new Promise((done, fail) => ask(wanted, book, more, done, (text) => fail(new Error(text))));
