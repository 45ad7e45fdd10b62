// Learners side by side. One person is one mark, given when a record was begun, and one name; a mark with another name or
// a name with another mark stands apart until a trainer joins them. What comes from a file goes into nothing kept here.

import { newTo, together } from "./signed-line.mjs";

/** @typedef {import("../result.mjs").Result} Result */
/** @typedef {import("./signed-line.mjs").Line} Line */
/** @typedef {import("./signed-line.mjs").Person} Person */
/** @typedef {import("./learner-file.mjs").Held} Held */
/** @typedef {{ name: string, held: Held }} Read a file */
/** @typedef {{ key: string, name: string, called: string, from: string[], lines: Line[], results: Map<string, Result> }} Learner */

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
    const own = person.id ? `${person.id} ${person.name.toLowerCase()}` : `file ${from}`;
    const key = joined.get(own) ?? own;
    const there = all.get(key);
    if (!there) {
      all.set(key, { key, name: person.name, called: person.name, from: [from], lines: person.lines, results });
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
  const found = [...all.values()].sort((a, b) => a.name.toLowerCase().localeCompare(b.name.toLowerCase())); // those of one name in the order in which they came, this device first
  for (const one of found) {
    if (found.some((other) => other !== one && other.name.toLowerCase() === one.name.toLowerCase())) one.called = `${one.name} (${one.from.join(", ")})`;
  }
  return { all: found, said };
}

/**
 * Those who may be one person or two, with the reason: one name and two marks, or one mark and two names.
 * @param {Learner[]} all
 */
export function doubtful(all) {
  const groups = (/** @type {(one: Learner) => string} */ by) => {
    /** @type {Map<string, Learner[]>} */
    const found = new Map();
    for (const one of all) if (by(one)) found.set(by(one), [...(found.get(by(one)) ?? []), one]);
    return [...found.values()].filter((some) => some.length > 1);
  };
  const places = (/** @type {Learner[]} */ some) => some.map((one) => `${one.name} in ${one.from.join(" and ")}`).join("; ");
  return [
    ...groups((one) => one.name.toLowerCase()).map((some) => ({ some, said: `${some.length} are called ${some[0].name}: ${some.map((one) => one.from.join(" and ")).join("; ")}. They stand apart, since a name does not say who it is.` })),
    ...groups((one) => (one.key.startsWith("file ") ? "" : one.key.split(" ")[0])).map((some) => ({ some, said: `One record under two names: ${places(some)}. They stand apart, since the names differ.` })),
  ];
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
      if (result.mark === "missed") row.who.push(one.called);
      if (result.mark === "missed" && result.slip) row.slips.push(result.slip);
      found.set(id, row);
    }
  }
  return [...found].filter(([, row]) => row.who.length).sort(([a, x], [b, y]) => y.who.length - x.who.length || x.tried - y.tried || a.localeCompare(b));
}
