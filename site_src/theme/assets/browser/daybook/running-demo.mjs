// The invented batches that are at work whenever somebody looks: their lines come with minutes before now.

import { localMinute } from "../shared/moment.mjs";

/** @typedef {import("./book.mjs").Entry} Entry */
/** @typedef {Omit<Entry, "at" | "written" | "zone"> & { before: number }} Before a line written so many minutes before now */

export const LIVE_MS = 24 * 3_600_000; // after a day they are old work, and others come beside them

/**
 * The lines with the clock put in, to be added to the invented book; none where those that are there still run.
 * @param {Before[]} lines
 * @param {Entry[]} there what the invented book holds
 */
export function withClock(lines, there) {
  const now = Date.now();
  const names = [...new Set(lines.map((line) => line.batch))];
  const number = (/** @type {string} */ name) => Number(/(\d+)$/.exec(name)?.[1] ?? 0);
  const last = Math.max(0, ...there.filter((line) => /^example-\d+$/.test(line.batch)).map((line) => number(line.batch)));
  const ours = there.filter((line) => number(line.batch) >= number(names[0]));
  if (ours.some((line) => now - Date.parse(line.written) < LIVE_MS)) return [];
  const shift = Math.max(0, last + 1 - number(names[0]));
  const mark = now.toString(36);
  /** @param {string | null} id */
  const own = (id) => (id ? `${id}-${mark}` : null);
  return lines.map(({ before, ...line }) => {
    const moment = new Date(now - before * 60_000);
    const batch = `example-${String(number(line.batch) + shift).padStart(2, "0")}`;
    return { ...line, batch, id: own(line.id) ?? "", replaces: own(line.replaces), at: localMinute(moment), written: moment.toISOString(), zone: -moment.getTimezoneOffset() };
  });
}
