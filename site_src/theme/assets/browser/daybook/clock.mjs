// Whether the clock of the device has jumped ahead: a line that is written with a wrong time is never changed.

import { keep, recall } from "./draft.mjs";
import { localMinute } from "../shared/moment.mjs";

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;
const JUMP_MS = 5 * MINUTE; // while the page is in view, the clock and the page count alike
const ASLEEP_MS = 12 * HOUR; // while it is not, the device may have slept, and the page did not count
const QUIET_MS = 30 * DAY; // between two visits
const LAST = "clock"; // when the day-book was open last

const now = () => ({ wall: Date.now(), steady: performance.now() });
let seen = now();
let outOfView = document.hidden;
let quiet = 0;
let watching = false;

// Called where lines can be written: another page only has this script with others.
export function watch() {
  if (watching) return;
  watching = true;
  quiet = Date.now() - (recall(LAST) ?? Date.now());
  if (quiet <= QUIET_MS) keep(LAST, Date.now()); // else not before the reader has said that it is right
}

const ahead = () => Date.now() - seen.wall - (performance.now() - seen.steady);

document.addEventListener("visibilitychange", () => {
  if (document.hidden) outOfView = true;
  else if (ahead() < ASLEEP_MS) {
    seen = now();
    outOfView = false;
  }
});

/** @param {number} ms */
function inWords(ms) {
  if (ms < 2 * HOUR) return `${Math.round(ms / MINUTE)} minutes`;
  return ms < 2 * DAY ? `${Math.round(ms / HOUR)} hours` : `${Math.round(ms / DAY)} days`;
}

// What is to be asked before a line is written, or nothing.
export function doubt() {
  const reads = `The clock of this device reads ${localMinute().replace("T", " ")}.`;
  const put = "If that is wrong, put the device’s clock right first.";
  const jump = ahead();
  if (jump > (outOfView ? ASLEEP_MS : JUMP_MS)) return `${reads} It went ahead by ${inWords(jump)} while this page was open. ${put}`;
  return quiet > QUIET_MS ? `${reads} That is ${inWords(quiet)} after the day-book was open last. ${put}` : "";
}

// The reader says that the clock is right, or there is no reason to doubt it.
export function accept() {
  seen = now();
  quiet = 0;
  outOfView = document.hidden;
  keep(LAST, Date.now());
}
