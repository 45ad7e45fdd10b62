// The book as the text of a file, a piece at a time: a long book is not written out without a pause.

import { SCHEMA } from "./schema.mjs";
import { localMinute } from "../shared/moment.mjs";

const PORTION = 300; // lines

export const breath = () => new Promise((done) => setTimeout(done));

/**
 * The same as Python's own export; here so that a book can be saved when the calculator cannot start.
 * @param {import("./book.mjs").Entry[]} entries
 * @param {string} version
 * @returns {AsyncGenerator<string, void>}
 */
export async function* asJson(entries, version) {
  const cover = JSON.stringify({ schema: SCHEMA, kind: "steep-to-kiln day-book", version, saved: localMinute(), entries: [] }, null, 1);
  const open = cover.slice(0, cover.lastIndexOf("]"));
  if (!entries.length) yield `${cover}\n`;
  for (let from = 0; from < entries.length; from += PORTION) {
    const some = entries.slice(from, from + PORTION).map((entry) => `  ${JSON.stringify({ ...entry, seq: undefined }, null, 1).replaceAll("\n", "\n  ")}`);
    yield `${from ? ",\n" : `${open}\n`}${some.join(",\n")}`;
    await breath();
  }
  if (entries.length) yield "\n ]\n}\n";
}
