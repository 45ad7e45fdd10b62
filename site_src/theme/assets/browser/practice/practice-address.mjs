// A run in a link and in a file: the list of moves is the whole of it.

import { NUMBERS, runFrom } from "./practice-kept.mjs";
import { siteRoot } from "../shared/root.mjs";

/** @typedef {import("./practice-kept.mjs").Run} Run */

const NAMES = ["number", "level", "faults", "moves", "setting"];
export const MOST_BYTES = 4096; // of a link or a file
const KIND = "practice run";

/** @param {{ number: string, level: string, faults: string, moves: string, setting: string }} run */
export function linkOf(run) {
  const address = new URL("training/practice-batch/", siteRoot);
  const query = new URLSearchParams({ number: run.number, level: run.level });
  if (run.faults) query.set("faults", run.faults);
  if (run.setting) query.set("setting", run.setting);
  if (run.moves) query.set("moves", run.moves);
  address.search = query.toString().replaceAll("%7E", "~").replaceAll("%2C", ",");
  return address.href;
}

/** What the address asks for: a run, null, or a message when it can't be one. @returns {Run | string | null} */
export function inAddress() {
  const query = new URLSearchParams(location.search);
  if (!NAMES.some((name) => query.has(name))) return null;
  const run = runFrom({ number: query.get("number") ?? "", level: query.get("level") ?? "3", faults: query.get("faults") ?? "", moves: query.get("moves") ?? "", setting: query.get("setting") ?? "" });
  return run ?? `The link holds no run that can be played: its number is ${NUMBERS}, its level 0 to 5. Your own runs are untouched. Begin one below, or ask for the link again.`;
}

// Once it is taken up the address says no more what goes on.
export function leaveAddress() {
  const address = new URL(location.href);
  for (const name of NAMES) address.searchParams.delete(name);
  history.replaceState(history.state, "", address.href);
}

/** @param {Run} run */
export const fileOf = ({ number, level, faults, moves, setting, at }) => `${JSON.stringify({ kind: KIND, number, level, faults, moves, setting, at })}\n`;

/** @param {string} text @returns {Run | string} */
export function fromFile(text) {
  if (text.length > MOST_BYTES + 400) return "too long to be a run";
  try {
    const given = JSON.parse(text);
    if (given?.kind !== KIND && given?.results) return "a file of training results, and no run";
    return (given?.kind === KIND && runFrom(given)) || "no run of the practice batch";
  } catch {
    return "no run of the practice batch";
  }
}
