// Learners side by side: who is the same person is decided by the mark that a record was given, never by a name. What
// comes from a file goes into nothing that is kept here.

import { newTo, together } from "./signed-line.mjs";

/** @typedef {import("../result.mjs").Result} Result */
/** @typedef {import("./signed-line.mjs").Line} Line */
/** @typedef {import("./signed-line.mjs").Person} Person */
/** @typedef {import("./learner-file.mjs").Held} Held */
/** @typedef {{ name: string, held: Held }} Read a file */
/** @typedef {{ key: string, name: string, from: string[], lines: Line[], results: Map<string, Result> }} Learner */

export const DEVICE = "this device";

/**
 * Of two results for one question the later one stands.
 * @param {Map<string, Result>} own
 * @param {Map<string, Result>} coming
 */
function laterOf(own, coming) {
  const all = new Map(own);
  for (const [id, one] of coming) if ((all.get(id)?.at ?? "") < one.at) all.set(id, one);
  return all;
}

/**
 * @param {Person[]} here the records of this device
 * @param {Read[]} files
 * @param {Map<string, string>} joined by a trainer: the key of one onto the key of another
 */
export function learners(here, files, joined) {
  /** @type {Map<string, Learner>} */
  const all = new Map();
  /** @type {string[]} */
  const said = [];
  const put = (/** @type {Person} */ person, /** @type {string} */ from, /** @type {Map<string, Result>} */ results) => {
    const own = person.id || `file ${from}`;
    const key = joined.get(own) ?? own;
    const there = all.get(key);
    if (!there) {
      all.set(key, { key, name: person.name, from: [from], lines: person.lines, results });
      return;
    }
    if (from !== DEVICE && there.from.some((one) => one !== DEVICE) && own === key) {
      const more = newTo(person.lines, there.lines);
      said.push(`${there.name} stands in ${[...there.from, from].filter((one) => one !== DEVICE).join(" and ")}. They are read as one person: each line once (${more} more in ${from}), and of each question the later result.`);
    }
    all.set(key, { ...there, from: [...there.from, from], lines: together(there.lines, person.lines), results: laterOf(there.results, results) });
  };
  for (const person of here) put(person, DEVICE, new Map());
  for (const { name, held } of files) for (const person of held.people) put(person, name, held.results);
  return { all: [...all.values()].sort((a, b) => a.name.localeCompare(b.name) || a.key.localeCompare(b.key)), said };
}

/** Those who are called the same and may be one person or two. @param {Learner[]} all */
export function namesakes(all) {
  /** @type {Map<string, Learner[]>} */
  const named = new Map();
  for (const one of all) named.set(one.name.toLowerCase(), [...(named.get(one.name.toLowerCase()) ?? []), one]);
  return [...named.values()].filter((some) => some.length > 1);
}

/**
 * What was missed, the most often first: by whom, and by which slip.
 * @param {Learner[]} all
 */
export function missedBy(all) {
  /** @type {Map<string, { tried: number, who: string[], slips: string[] }>} */
  const found = new Map();
  for (const one of all) {
    for (const [id, result] of one.results) {
      const row = found.get(id) ?? { tried: 0, who: [], slips: [] };
      row.tried += 1;
      if (result.mark === "missed") row.who.push(one.name);
      if (result.mark === "missed" && result.slip) row.slips.push(result.slip);
      found.set(id, row);
    }
  }
  return [...found].filter(([, row]) => row.who.length).sort(([a, x], [b, y]) => y.who.length - x.who.length || x.tried - y.tried || a.localeCompare(b));
}
