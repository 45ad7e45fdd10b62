// The clock as people here read it, in one style everywhere: “Sun 29 Nov 14:10” to read, 2026-11-29 14:10 to type.

const DAYS = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];
const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
const month = (/** @type {Date} */ at) => `${at.getDate()} ${MONTHS[at.getMonth()]}`;

/**
 * Date and minute of the local clock, such as 2026-01-12T06:00.
 * @param {Date} [moment]
 */
export function localMinute(moment = new Date()) {
  return new Date(moment.getTime() - moment.getTimezoneOffset() * 60000).toISOString().slice(0, 16);
}

/**
 * A local minute as it is typed into a question, such as 2026-01-12 06:00.
 * @param {Date} [moment]
 */
export const typedMinute = (moment) => localMinute(moment).replace("T", " ");

/**
 * A moment, or a local minute as text, as it is said: “Sun 29 Nov 14:10”. What is no time stays as it is.
 * @param {Date | string} moment
 */
export function saidTime(moment) {
  const at = typeof moment === "string" ? new Date(moment) : moment;
  if (Number.isNaN(at.getTime())) return String(moment);
  const two = (/** @type {number} */ number) => String(number).padStart(2, "0");
  return `${DAYS[at.getDay()]} ${month(at)} ${two(at.getHours())}:${two(at.getMinutes())}`;
}

/**
 * A day over a page of the book: “Sun 29 Nov 2026”.
 * @param {string} day as 2026-11-29
 */
export function saidDay(day) {
  const at = new Date(`${day}T00:00`);
  return Number.isNaN(at.getTime()) ? day : `${DAYS[at.getDay()]} ${month(at)} ${at.getFullYear()}`;
}

/**
 * A day in a table: “29 Nov 2026”.
 * @param {string} day as 2026-11-29
 */
export function shortDay(day) {
  const at = new Date(`${day}T00:00`);
  return Number.isNaN(at.getTime()) ? day : `${month(at)} ${at.getFullYear()}`;
}
