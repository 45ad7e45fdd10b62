// Sums of batches, kept beside their lines: a long book is not worked out anew for each look at it. Lines are only ever
// added, so the sums of a batch hold as long as its number of lines, the last of them and the calculators are the same.

import { askOnce } from "./ask.mjs";
import { breath } from "./pieces.mjs";
import { quiet } from "./quiet.mjs";
import { calculators } from "../edition/edition.mjs";

/** @typedef {import("./book.mjs").Line} Line */
/** @typedef {{ id: string, lines: number, last: string, begun: string | null, finished: boolean, texts: { lot: string }, deep: object | null, mark?: string, [more: string]: any }} Sum as Python made it */

const PORTION_LINES = 600; // of batches summed at a time
const DEEP_BATCHES = 2; // what takes long is asked for in small portions, so that other questions come between
const CALM_MS = 2000; // nobody waits for sums that are made beforehand
const AT_WORK = 30;
const SHELF = 30; // batches whose lines go along for the shelf,
const SHELF_LINES = 1500; // as long as they are no more than these: handing over many stops the page
const BEFORE = 24; // and those of earlier batches for one
const OF_LOT = 8;
const LOOKED_AT = 60;
const GROUPED_LINES = 10_000; // put to their batches in one breath
const WHOLE = "whole"; // how far the book went when there were sums of all of it
const FORETOLD = 12; // finished batches whose forecast is tried again

/**
 * The lines of each batch, in the order of its last line, the newest last.
 * @param {Line[]} lines
 * @param {Map<string, Line[]>} [groups] that they are added to
 */
export function byBatch(lines, groups = new Map()) {
  /** @type {Line[]} */
  let own = [];
  for (const line of lines) {
    if (own[0]?.batch !== line.batch) {
      own = groups.get(line.batch) ?? [];
      groups.delete(line.batch);
      groups.set(line.batch, own);
    }
    own.push(line);
  }
  return groups;
}

export class Sums {
  /** @type {Map<string, Sum>} */
  kept = new Map();
  /** @type {Promise<void> | null} */
  loading = null;
  /** @type {Map<string, Line[]>} */
  groups = new Map();
  grouped = { upTo: 0, last: "" };
  summing = false;
  noted = 0;

  /** @param {import("./book.mjs").Book} book */
  constructor(book) {
    this.book = book;
  }

  load() {
    this.loading ??= this.book.beside.all("sums").then((sums) => {
      for (const sum of sums) if (sum.mark === calculators()) this.kept.set(sum.id, sum);
    });
    return this.loading;
  }

  /**
   * Whether there are sums of all batches as they stand on the device, so that no line has to be read for them.
   */
  async areWhole() {
    return (await this.sinceWhole())?.length === 0;
  }

  // The lines written since there were sums of all; null where that cannot be said.
  async sinceWhole() {
    await this.load();
    const whole = await this.book.beside.get("kept", WHOLE);
    return whole?.mark === calculators() && whole.last ? this.book.since(whole.last) : null;
  }

  /**
   * The lines of the batches that may be at work, and no others read for them; null where the sums do not say which these
   * are, or too much was written since.
   * @returns {Promise<Line[] | null>}
   */
  async atWork() {
    const fresh = await this.sinceWhole();
    if (!fresh) return null;
    const names = new Set(fresh.map((line) => line.batch));
    for (const sum of this.kept.values()) if (!sum.finished) names.add(sum.id);
    /** @type {Line[]} */
    const lines = [];
    for (const name of names) {
      const span = this.kept.get(name)?.span;
      if (span) lines.push(...(await this.book.within(span)).filter((line) => line.batch === name));
    }
    const there = new Set(lines.map((line) => line.seq));
    return [...lines, ...fresh.filter((line) => !there.has(line.seq))].sort((one, other) => one.seq - other.seq);
  }

  // The lines of each batch; of a book that has grown only the new ones are looked at.
  batches() {
    this.group(Infinity);
    return this.groups;
  }

  /**
   * The same of a long book, with pauses; null when there is nothing to wait for.
   * @returns {Promise<void> | null}
   */
  gather() {
    if (!this.group(GROUPED_LINES)) return null;
    return breath().then(() => this.gather() ?? undefined);
  }

  /**
   * Groups so many more lines, and tells whether some are left.
   * @param {number} most
   */
  group(most) {
    const { lines } = this.book;
    const { upTo, last } = this.grouped;
    const grown = upTo <= lines.length && (!upTo || lines[upTo - 1].id === last);
    if (!grown) this.groups.clear();
    const from = grown ? upTo : 0;
    const to = Math.min(from + most, lines.length);
    byBatch(lines.slice(from, to), this.groups);
    this.grouped = { upTo: to, last: lines[to - 1]?.id ?? "" };
    return to < lines.length;
  }

  /**
   * The sums of a batch as it stands, if they are kept.
   * @param {string} name
   */
  of(name) {
    const lines = this.batches().get(name);
    const sum = this.kept.get(name);
    return sum && lines && sum.lines === lines.length && sum.last === lines.at(-1)?.id ? sum : null;
  }

  /**
   * @param {string[]} names
   * @param {boolean} [deep]
   */
  missing(names, deep = false) {
    return names.filter((name) => {
      const sum = this.of(name);
      return !sum || (deep && !sum.deep);
    });
  }

  /** @param {Iterable<string>} names */
  linesOf(names) {
    const groups = this.batches();
    return [...names].flatMap((name) => groups.get(name) ?? []);
  }

  /** @param {Iterable<string>} names @returns {Sum[]} */
  sumsOf(names) {
    return [...names].flatMap((name) => this.of(name) ?? []);
  }

  /**
   * What goes along with a question about the shelf: lines of the newest batches and of those at work, sums of others.
   * @param {number} most
   */
  forShelf(most) {
    const names = [...this.batches().keys()].reverse();
    const atWork = names.filter((name) => this.of(name)?.finished === false).slice(0, AT_WORK);
    const whole = new Set([...this.few(names.slice(0, SHELF)), ...atWork]);
    const rest = names.filter((name) => !whole.has(name)).slice(0, Math.max(most - whole.size, 0));
    const shown = this.sumsOf(rest);
    const known = this.sumsOf(whole).filter((sum) => sum.deep);
    return { entries: this.linesOf(whole), sums: [...shown.map(({ id, shelf }) => ({ id, shelf })), ...known], more: names.length - whole.size - shown.length };
  }

  /**
   * The first of these batches, at least one, with no more lines than a page hands over without a halt.
   * @param {string[]} names
   */
  few(names) {
    const groups = this.batches();
    let count = 0;
    return names.filter((name, at) => (count += groups.get(name)?.length ?? 0) <= SHELF_LINES || !at);
  }

  /**
   * What goes along with a question about one batch: its lines, and those of the batches that say something of it.
   * @param {string} batch
   */
  forBatch(batch) {
    const groups = this.batches();
    const began = (/** @type {string} */ name) => this.of(name)?.begun ?? groups.get(name)?.[0].at ?? "";
    const own = groups.has(batch) ? began(batch) : "";
    const lotOf = (/** @type {string} */ name) => String(groups.get(name)?.find((line) => line.values?.lot)?.values.lot ?? "");
    const before = [...groups.keys()].filter((name) => name !== batch && (!own || began(name) <= own));
    before.sort((one, other) => (began(one) < began(other) ? 1 : -1));
    const lot = lotOf(batch);
    const same = before.slice(BEFORE, LOOKED_AT).filter((name) => lot && lotOf(name) === lot);
    const others = [...before.slice(0, BEFORE), ...same.slice(0, OF_LOT)];
    return { entries: this.linesOf([batch, ...others]), sums: this.sumsOf(others).filter((sum) => sum.deep) };
  }

  // The lines of the last finished batches, and of those that nothing is known of.
  forHeld() {
    const finished = this.sumsOf(this.batches().keys()).filter((sum) => sum.finished);
    const last = finished.sort((one, other) => ((one.begun ?? "") < (other.begun ?? "") ? -1 : 1)).slice(-FORETOLD);
    return this.linesOf([...last.map((sum) => sum.id), ...this.missing([...this.batches().keys()])]);
  }

  /**
   * Works out what is missing, a portion at a time, and keeps it; false when it was broken off.
   * @param {string[]} names
   * @param {{ deep?: boolean, calm?: number, still?: () => boolean, progress?: (done: number) => void }} [how] `calm` waits
   *   before each portion until the reader has paused for so many milliseconds
   */
  async make(names, { deep = false, calm = 0, still = () => true, progress = () => {} } = {}) {
    const groups = this.batches();
    for (let at = 0; at < names.length; ) {
      if (calm) await quiet(calm);
      if (!still()) return false;
      /** @type {string[]} */
      const some = [];
      for (let lines = 0; at < names.length && (!some.length || (lines < PORTION_LINES && !(deep && some.length >= DEEP_BATCHES))); at += 1) {
        some.push(names[at]);
        lines += groups.get(names[at])?.length ?? 0;
      }
      const { sums } = await askOnce("sums", this.book, { entries: this.linesOf(some), deep });
      await this.keep(sums);
      progress(at);
    }
    return true;
  }

  /**
   * Works out what the shelf and looking back will need, while nobody waits for anything. True when the shelf is now told
   * by sums that were missing.
   * @param {number} most batches of the shelf
   * @param {() => boolean} still
   */
  async sumUp(most, still) {
    const names = [...this.batches().keys()].reverse();
    const missing = this.missing(names);
    if (!missing.length) await this.noteWhole();
    if (this.summing || !still() || !missing.length || names.length <= SHELF) return false;
    this.summing = true;
    try {
      const short = names.slice(0, most).some((name) => missing.includes(name));
      return (await this.make(missing, { calm: CALM_MS, still })) && short;
    } catch (fault) {
      console.warn(fault); // looking back tries again
      return false;
    } finally {
      this.summing = false;
    }
  }

  /** @param {Sum[]} sums */
  async keep(sums) {
    const groups = this.batches();
    const span = (/** @type {Line[]} */ lines) => [lines[0]?.seq, lines.at(-1)?.seq];
    const marked = sums.map((sum) => ({ ...sum, mark: calculators(), span: span(groups.get(sum.id) ?? []) }));
    for (const sum of marked) this.kept.set(sum.id, sum);
    await this.book.beside.put("sums", marked.map((sum) => [sum.id, sum]));
    if (!this.missing([...this.batches().keys()]).length) await this.noteWhole();
  }

  // There are sums of all lines.
  async noteWhole() {
    const { lines } = this.book;
    const { seq } = this.book.last();
    if (!lines.length || this.noted === seq) return;
    this.noted = seq;
    await this.book.beside.put("kept", [[WHOLE, { mark: calculators(), extent: `${lines.length} ${seq}`, last: this.book.last() }]]);
  }
}

/** @type {WeakMap<import("./book.mjs").Book, Sums>} */
const all = new WeakMap();

/** @param {import("./book.mjs").Book} book */
export function sumsOf(book) {
  const sums = all.get(book) ?? new Sums(book);
  all.set(book, sums);
  return sums;
}
