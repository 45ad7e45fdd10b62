// What a result is, wherever it comes from: the device's own record, or a file.

import { DAYS, later } from "./schedule.mjs";

/** @typedef {{ chapter: string, kind: string, mark: string, at: string, turn: number, due: string, slip: string }} Result */

const MARKS = ["right", "safe", "missed"]; // at the first try, the last time it was asked
const KINDS = ["exercise", "question"];
const DAY = /^\d{4}-\d{2}-\d{2}$/;
const WHEN = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/;

/**
 * @param {unknown} one
 * @returns {one is Record<string, any>}
 */
export const isObject = (one) => one !== null && typeof one === "object" && !Array.isArray(one);

/**
 * @param {unknown} one
 * @returns {one is Record<string, any>}
 */
function isResult(one) {
  return isObject(one) && MARKS.includes(one.mark) && KINDS.includes(one.kind) && typeof one.chapter === "string" && /^[a-z-]{1,40}$/.test(one.chapter) && WHEN.test(one.at);
}

/**
 * When it comes back. What was kept before there was such a plan comes back a day after it was answered.
 * @param {Record<string, any>} one
 */
function planned({ turn, due: day, at }) {
  if (Number.isInteger(turn) && turn >= 0 && turn < DAYS.length && DAY.test(day) && day <= later(at.slice(0, 10), DAYS[turn])) return { turn, due: day };
  return { turn: 0, due: later(at.slice(0, 10), DAYS[0]) };
}

/**
 * Those that are whole, with what they say and nothing else.
 * @param {Record<string, unknown>} kept
 * @returns {Map<string, Result>}
 */
export function valid(kept) {
  const good = new Map();
  for (const [id, one] of Object.entries(kept)) {
    if (!/^[a-z0-9-]{1,80}$/.test(id) || !isResult(one)) continue;
    const { chapter, kind, mark, at } = one;
    const slip = typeof one.slip === "string" && /^[a-z0-9_-]{1,60}$/.test(one.slip) ? one.slip : "";
    good.set(id, { chapter, kind, mark, at, slip, ...planned(one) });
  }
  return good;
}
