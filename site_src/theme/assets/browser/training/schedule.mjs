// When what was answered is asked again. Right or wrong, it comes back: after 1, 3, 7, 21 and 60 days.

export const DAYS = [1, 3, 7, 21, 60]; // a convention of this handbook; the training page says what it rests on
export const AT_ONCE = 3;

/**
 * The day so many days later, such as 2026-03-02.
 * @param {string} day as 2026-03-01
 * @param {number} days
 */
export function later(day, days) {
  const at = new Date(`${day}T12:00Z`); // noon of no place, so that no change of the clock moves it
  at.setUTCDate(at.getUTCDate() + days);
  return at.toISOString().slice(0, 10);
}

/**
 * The next turn and its day. What is missed begins again. What is right moves on when its day has come; answered
 * before that it keeps its day, so that an hour of practice puts nothing off.
 * @param {{ turn: number, due: string } | undefined} before
 * @param {boolean} right
 * @param {string} today
 */
export function next(before, right, today) {
  if (!before || !right) return { turn: 0, due: later(today, DAYS[0]) };
  if (today < before.due) return { turn: before.turn, due: before.due };
  const turn = Math.min(before.turn + 1, DAYS.length - 1);
  return { turn, due: later(today, DAYS[turn]) };
}

/**
 * The ones whose day has come, the longest overdue first, no more than three.
 * @template {{ due: string, mark: string }} One
 * @param {Iterable<[string, One]>} all
 * @param {string} today
 */
export function dueOf(all, today) {
  return [...all]
    .filter(([, one]) => one.due <= today)
    .sort(([a, x], [b, y]) => x.due.localeCompare(y.due) || x.mark.localeCompare(y.mark) || a.localeCompare(b))
    .slice(0, AT_ONCE)
    .map(([id]) => id);
}
