// The clock as people here read it.

/**
 * Date and minute of the local clock, such as 2026-01-12T06:00.
 * @param {Date} [moment]
 */
export function localMinute(moment = new Date()) {
  return new Date(moment.getTime() - moment.getTimezoneOffset() * 60000).toISOString().slice(0, 16);
}
