// The lines that may belong to a batch at work: not the whole book has to travel to Python for these. Python says which run.

const DAYS = 9; // longer than Python waits for the next line of a batch

/**
 * @param {import("./book.mjs").Line[]} lines
 * @param {string} [batch] which goes in any case
 */
export function ofLate(lines, batch = "") {
  const oldest = new Date(Date.now() - DAYS * 86_400_000).toISOString();
  const names = new Set(lines.filter((line) => line.written >= oldest).map((line) => line.batch));
  return lines.filter((line) => names.has(line.batch) || line.batch === batch);
}
