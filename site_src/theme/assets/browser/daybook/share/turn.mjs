// One turn of sharing: look what is in the folder, add what is not there so far, read it back, take in what others added.
// Only what was read back from the folder, whole, counts as arrived; so whatever goes wrong, a line waits and goes later.
// No clock and no order decides anything: lines are told apart by their ids.

import { digest } from "../../shared/digest.mjs";
import { Hindered } from "./folder.mjs";
import { nameFor } from "./names.mjs";

/** @typedef {import("../book.mjs").Entry} Entry */
/** @typedef {import("./names.mjs").Named} Named */

/**
 * What a device remembers of a folder. All of it can be found again by reading the folder.
 * @typedef {object} Known
 * @property {string} device
 * @property {number} number of the last file that this device added
 * @property {Record<string, string[]>} read the ids of the lines in each file that was read whole
 */

/**
 * @typedef {object} Shelf the book on this device
 * @property {() => Promise<readonly Entry[]>} lines
 * @property {(name: string, text: string) => Promise<Entry[] | null>} take the lines that were new, or null when nothing could be read
 * @property {(lines: readonly Entry[]) => Promise<string>} asText
 */

/**
 * @typedef {object} Outcome
 * @property {number} waiting lines of this book that are not in the folder
 * @property {number} arrived lines of this book that are
 * @property {Entry[]} came lines that others wrote, new on this device
 * @property {number} others devices beside this one
 * @property {string[]} halves files that are not whole
 * @property {string[]} odd whole files that could not be read here
 * @property {unknown} fault what hindered the rest, or null
 */

const MOST_LINES = 400; // in one file
const MOST_CHARACTERS = 400_000; // below what a server takes without being told: 1 MB

/** @typedef {{ list: () => Promise<Named[]>, get: (name: string) => Promise<Uint8Array<ArrayBuffer> | null>, put: (name: string, bytes: Uint8Array<ArrayBuffer>) => Promise<unknown> }} Place */

/** @param {string} text */
function idsIn(text) {
  try {
    const { entries } = JSON.parse(text);
    return Array.isArray(entries) ? entries.map((entry) => String(entry?.id)) : null;
  } catch {
    return null;
  }
}

/** @param {readonly Entry[]} lines */
function* portions(lines) {
  /** @type {Entry[]} */
  let some = [];
  let long = 0;
  for (const line of lines) {
    const more = JSON.stringify(line).length;
    if (some.length && (some.length === MOST_LINES || long + more > MOST_CHARACTERS)) {
      yield some;
      some = [];
      long = 0;
    }
    some.push(line);
    long += more;
  }
  if (some.length) yield some;
}

class Turn {
  /** @type {Outcome} */
  outcome = { waiting: 0, arrived: 0, came: [], others: 0, halves: [], odd: [], fault: null };
  /** @type {Set<string>} */
  added = new Set();
  /** @type {Map<string, { text: string, ids: string[] }>} */
  fetched = new Map(); // whole files that are not in the book so far

  /**
   * @param {Place} place
   * @param {Shelf} shelf
   * @param {Known} known changed as the turn goes on
   */
  constructor(place, shelf, known) {
    this.place = place;
    this.shelf = shelf;
    this.known = known;
  }

  async look() {
    const { known, outcome, fetched } = this;
    const files = await this.place.list();
    const there = new Set(files.map(({ name }) => name));
    for (const name of Object.keys(known.read)) if (!there.has(name)) delete known.read[name]; // taken away: its lines go out anew
    outcome.others = new Set(files.map(({ device }) => device).filter((device) => device !== known.device)).size;
    outcome.halves = [];
    outcome.odd = [];
    for (const { device, number } of files) if (device === known.device) known.number = Math.max(known.number, number);
    for (const file of files) if (!known.read[file.name] && !fetched.has(file.name)) await this.fetchOne(file);
    return there;
  }

  /** @param {Named} file */
  async fetchOne({ name, digest: sum }) {
    const { outcome, known } = this;
    const bytes = await this.place.get(name);
    if (!bytes) return void outcome.odd.push(name);
    if ((await digest(bytes)) !== sum) return void outcome.halves.push(name);
    const text = new TextDecoder().decode(bytes);
    const ids = idsIn(text);
    if (!ids) outcome.odd.push(name);
    else if (this.added.has(name)) known.read[name] = ids;
    else this.fetched.set(name, { text, ids });
  }

  // What others wrote goes into the book last: it needs Python, and what goes out needs to wait for nothing.
  async takeIn() {
    const { known, outcome, shelf } = this;
    for (const [name, { text, ids }] of this.fetched) {
      const came = await shelf.take(name, text);
      if (!came) {
        outcome.odd.push(name);
        continue;
      }
      outcome.came.push(...came);
      known.read[name] = ids;
    }
  }

  async waiting() {
    const there = new Set([...Object.values(this.known.read).flat(), ...[...this.fetched.values()].flatMap(({ ids }) => ids)]);
    const lines = await this.shelf.lines();
    const waiting = lines.filter(({ id }) => !there.has(id));
    this.outcome.waiting = waiting.length;
    this.outcome.arrived = lines.length - waiting.length;
    return waiting;
  }

  async add() {
    const { known } = this;
    for (const some of portions(await this.waiting())) {
      const bytes = new TextEncoder().encode(await this.shelf.asText(some));
      const name = await nameFor(known.device, known.number + 1, bytes);
      known.number += 1;
      this.added.add(name);
      await this.place.put(name, bytes);
    }
  }

  async exchange() {
    await this.look();
    await this.add();
    if (!this.added.size) return;
    const there = await this.look();
    if ([...this.added].some((name) => !there.has(name))) throw new Hindered("unlisted");
  }

  async go() {
    for (const part of [() => this.exchange(), () => this.takeIn(), () => this.waiting()]) {
      try {
        await part();
      } catch (fault) {
        this.outcome.fault ??= fault;
      }
    }
    return this.outcome;
  }
}

/**
 * @param {Place} place
 * @param {Shelf} shelf
 * @param {Known} known
 */
export const turn = (place, shelf, known) => new Turn(place, shelf, known).go();
