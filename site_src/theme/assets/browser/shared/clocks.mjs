// When this device’s clock is put forward or back.

const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;
const AROUND = 400; // days: what is said lies in the last year or the next
const WEEK = 7 * DAY;
const offset = (/** @type {Date} */ moment) => -moment.getTimezoneOffset();

/** @param {number} from @param {number} to the first minute of another zone between two moments */
function changed(from, to) {
  let [before, after] = [from, to];
  while (after - before > MINUTE) {
    const middle = before + Math.floor((after - before) / MINUTE / 2) * MINUTE;
    if (offset(new Date(middle)) === offset(new Date(from))) before = middle;
    else after = middle;
  }
  return after;
}

/**
 * Moments (UTC) of the changes in the last year and the next, with the minutes east of UTC from then on; the first blank.
 * @param {Date} [now]
 * @returns {[string, number][]}
 */
export function clocksAround(now = new Date()) {
  const first = Math.floor((now.getTime() - AROUND * DAY) / MINUTE) * MINUTE;
  /** @type {[string, number][]} */
  const clocks = [["", offset(new Date(first))]];
  for (let at = first; at < now.getTime() + AROUND * DAY; at += WEEK) {
    const zone = offset(new Date(at + WEEK));
    if (zone !== clocks[clocks.length - 1][1]) clocks.push([new Date(changed(at, at + WEEK)).toISOString().slice(0, 16), zone]);
  }
  return clocks;
}
