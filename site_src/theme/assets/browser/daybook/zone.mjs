// Minutes east of UTC in which a clock time of a line is written. It goes by the hour of the work, not by that of the
// writing: between the two the clocks may have been changed.

import { localMinute } from "../shared/moment.mjs";

const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;

const offset = (/** @type {Date} */ moment) => -moment.getTimezoneOffset();
const asUtc = (/** @type {string} */ minute) => Date.parse(`${minute}Z`);

/**
 * The zones in which this device’s clock shows a minute, the earlier moment first: two where an hour comes twice. An hour
 * that is left out in spring is read by a clock that nobody has put forward.
 * @param {string} minute such as 2026-10-25T02:30
 */
function zonesOf(minute) {
  const utc = asUtc(minute);
  const first = new Date(minute).getTime();
  const later = utc - offset(new Date(first + DAY)) * MINUTE;
  const zones = [(utc - first) / MINUTE];
  if (later > first && localMinute(new Date(later)) === minute) zones.push((utc - later) / MINUTE);
  return zones;
}

/**
 * Of an hour that comes twice, the later one that has passed. A correction stays in the zone of its line where that can be, and
 * where the line was written by another clock than this device’s.
 * @param {string} minute such as 2026-10-25T02:30
 * @param {{ at: string, zone: number, written: string }} [was] the line that is corrected
 * @param {Date} [now]
 */
export function zoneOf(minute, was, now = new Date()) {
  if (Number.isNaN(asUtc(minute))) return offset(now);
  const zones = zonesOf(minute);
  if (was && (zones.includes(was.zone) || isOfAnotherClock(was))) return was.zone;
  return zones.findLast((zone) => asUtc(minute) - zone * MINUTE <= now.getTime()) ?? zones[0];
}

// Earlier editions gave a line the zone of its writing: that is no other clock.
/** @param {{ at: string, zone: number, written: string }} was */
const isOfAnotherClock = ({ at, zone, written }) => !zonesOf(at).includes(zone) && offset(new Date(written)) !== zone;

/**
 * The moment of a minute on the wall: of two the later one that has passed; NaN where it is none.
 * @param {string} minute
 */
export const momentOf = (minute) => asUtc(minute) - zoneOf(minute) * MINUTE;
