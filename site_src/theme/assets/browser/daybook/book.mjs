// The bound book on this device: lines are added, never changed, never taken out but all together. Each line is one
// transaction; it counts as written when the browser has it on the disk. The order of writing is the key that the
// browser gives, whatever the clock says.

import { Beside } from "./beside.mjs";
import { hold } from "../edition/edition.mjs";
import { isBlank } from "../shared/blank.mjs";
import { localMinute } from "../shared/moment.mjs";
import { siteRoot } from "../shared/root.mjs";
import { quiet } from "./quiet.mjs";
import { SCHEMA } from "./schema.mjs";
import { LINES, addAll, change, connect, settled } from "./store.mjs";
import { NAMES } from "./there.mjs";
import { zoneOf } from "./zone.mjs";

/** @typedef {"own" | "demo"} Which invented batches have a book of their own */

/**
 * One line, as a file holds it.
 * @typedef {object} Entry
 * @property {number} schema
 * @property {string} id
 * @property {string} batch
 * @property {string} kind
 * @property {string} at
 * @property {string} written
 * @property {number} zone
 * @property {import("../sheet/form.mjs").Values} values
 * @property {string} who
 * @property {string} remark
 * @property {string | null} replaces
 */

/** @typedef {Entry & { seq: number }} Line as the device holds it */

const PORTION = 250; // lines at a time: reading ten thousand at once would stop the page for seconds
const TAIL = 400; // of the newest lines, shown while a long book is still being read
const PATIENCE_MS = 5000;
const WORDS = {
  full: "There is no room left on this device, so this is not written.",
  blocked: "This browser keeps nothing for this site, so this is not written. A private window may be why.",
  slow: "The book on this device has not opened for 5 seconds, so this is not written. Another tab of this handbook may hold it up: close the others, or start the browser again. It is still being tried.",
  newer: "The book on this device was written by a newer version of this handbook. Load this page again.",
};

export class NotWritten extends Error {
  /** @param {unknown} fault */
  constructor(fault) {
    const name = fault instanceof DOMException ? fault.name : "";
    const kinds = /** @type {Record<string, keyof typeof WORDS>} */ ({ QuotaExceededError: "full", VersionError: "newer", TimeoutError: "slow" });
    const kind = kinds[name] ?? "blocked";
    super(WORDS[kind]);
    this.kind = kind;
  }
}

/**
 * A text without half signs, as Python reads it: no address and no file can hold them.
 * @template Text
 * @param {Text} text
 */
const whole = (text) => (typeof text === "string" && !text.isWellFormed() ? text.toWellFormed() : text);

/**
 * @param {Line} line
 * @returns {Line}
 */
function readable(line) {
  const [batch, id] = [whole(line.batch), whole(line.id)];
  return batch === line.batch && id === line.id ? line : { ...line, batch, id }; // a copy of each line of a long book costs
}

/**
 * The newest lines up to a place, or up to the end.
 * @param {IDBDatabase} db
 * @param {[number, number] | null} near
 */
async function readTail(db, near) {
  const last = await settled(db.transaction(LINES).objectStore(LINES).openKeyCursor(null, "prev"));
  if (!last) return [];
  const end = near?.[1] ?? Number(last.key);
  const range = IDBKeyRange.bound(Math.max(end - TAIL, near?.[0] ?? 0), end);
  return /** @type {Line[]} */ (await settled(db.transaction(LINES).objectStore(LINES).getAll(range))).map(readable);
}

/**
 * The lines with those written after them.
 * @param {IDBDatabase} db
 * @param {Line[]} lines
 */
async function readBeyond(db, lines) {
  const all = [];
  for (let last = lines.at(-1)?.seq; ;) {
    const range = last === undefined ? null : IDBKeyRange.lowerBound(last, true);
    const some = /** @type {Line[]} */ (await settled(db.transaction(LINES).objectStore(LINES).getAll(range, PORTION)));
    for (const line of some) all.push(readable(line));
    last = some.at(-1)?.seq;
    if (some.length < PORTION) return all.length ? [...lines, ...all] : lines;
  }
}

export class Book {
  /** @type {Line[]} */
  lines = []; // what this tab has read, in the order of writing
  /** @type {Line[]} */
  tail = []; // some of them, the newest ones or those of one batch, until all are read
  /** @type {[number, number] | null} */
  near = null; // where the lines of the batch stand that is looked at
  /** @type {Line[]} */
  lost = []; // what this tab has read and the device does not hold any more
  /** @type {IDBDatabase | null} */
  readFrom = null;
  removals = 0;
  /** @type {Set<() => void>} */
  listeners = new Set();
  /** @type {Promise<unknown>} */
  reading = Promise.resolve();
  /** @type {Promise<IDBDatabase> | null} */
  db = null;

  /** @param {Which} which */
  constructor(which) {
    this.which = which;
    this.name = siteRoot.pathname + NAMES[which];
    this.channel = "BroadcastChannel" in self ? new BroadcastChannel(this.name) : null;
    this.beside = new Beside(this.name);
    this.channel?.addEventListener("message", (event) => this.told(event.data));
  }

  open() {
    this.db ??= this.connect().catch((fault) => {
      this.db = null; // the next try may do better
      throw new NotWritten(fault);
    });
    return this.db;
  }

  /** @returns {Promise<IDBDatabase>} */
  async connect() {
    const db = await connect(this.name);
    const gone = () => (this.db = null);
    db.onclose = gone;
    db.onversionchange = () => {
      db.close();
      gone();
    };
    return db;
  }

  // The database, or a fault after some seconds without one. It is told when it opens all the same.
  async opened() {
    const opening = this.open();
    let timer = 0;
    const slow = new Promise((_, fail) => {
      timer = setTimeout(() => {
        fail(new NotWritten(new DOMException("", "TimeoutError")));
        opening.then(() => this.told("written"), () => {});
      }, PATIENCE_MS);
    });
    try {
      return await /** @type {Promise<IDBDatabase>} */ (Promise.race([opening, slow]));
    } finally {
      clearTimeout(timer);
    }
  }

  /**
   * The lines written since the book went up to a line; null where it does not hold that line, or too many came. Lines only
   * go all together, and a place is never given twice: so all before it are there too. They are not counted, which takes
   * a long book a tenth of a second.
   * @param {{ seq: number, id: string }} last
   * @returns {Promise<Line[] | null>}
   */
  async since({ seq, id }) {
    const store = (await this.opened()).transaction(LINES).objectStore(LINES);
    const [there, ...lines] = await settled(store.getAll(IDBKeyRange.lowerBound(seq), TAIL + 2));
    return there?.seq === seq && there.id === id && lines.length <= TAIL ? lines.map(readable) : null;
  }

  /**
   * The lines that stand in a part of the book.
   * @param {[number, number]} span
   * @returns {Promise<Line[]>}
   */
  async within([first, last]) {
    const store = (await this.opened()).transaction(LINES).objectStore(LINES);
    return (await settled(store.getAll(IDBKeyRange.bound(first, last)))).map(readable);
  }

  /** The last line on the device. @returns {Promise<{ seq: number, id: string } | null>} */
  async end() {
    const store = (await this.opened()).transaction(LINES).objectStore(LINES);
    return (await settled(store.openCursor(null, "prev")))?.value ?? null;
  }

  // The last line that this tab has read.
  last() {
    const { seq = 0, id = "" } = this.lines.at(-1) ?? {};
    return { seq, id };
  }

  // Lines not read so far, by this tab or written by another. One reading at a time, or lines would come twice.
  read() {
    this.reading = this.reading.catch(() => {}).then(() => this.readOn());
    return this.reading;
  }

  /** @returns {Promise<void>} */
  async readOn() {
    const db = await this.opened();
    const { removals } = this;
    const known = this.lines;
    const goesOn = db === this.readFrom;
    try {
      let lines = goesOn ? known : [];
      if (!this.readFrom) this.tail = await readTail(db, this.near);
      if (this.tail.length) {
        this.tell();
        await quiet(); // they are seen before the rest is read
      }
      lines = await readBeyond(db, lines);
      if (goesOn && (await settled(db.transaction(LINES).objectStore(LINES).count())) !== lines.length) lines = await readBeyond(db, []); // it is another book by now
      if (removals !== this.removals) return this.readOn();
      if (known.length && lines !== known) this.miss(known, lines);
      this.lines = lines;
      this.tail = [];
      this.readFrom = db;
    } catch (fault) {
      throw fault instanceof NotWritten ? fault : new NotWritten(fault);
    }
  }

  /**
   * A book that another tab, or the browser, has deleted: what this tab still holds of it can be put back.
   * @param {Line[]} known
   * @param {Line[]} lines
   */
  miss(known, lines) {
    if (lines.length > known.length && lines[known.length - 1].id === known[known.length - 1].id) return;
    const there = new Set(lines.map((line) => line.id));
    this.lost = [...this.lost, ...known].filter((line) => !there.has(line.id));
  }

  /**
   * All of `entries` or, when it fails, none. One that is in the book already, by its id, is left out.
   * @param {(Entry & { seq?: number })[]} entries
   */
  append(entries) {
    return this.grow(async () => {
      const db = await this.opened();
      const done = await addAll(db, entries, () => {});
      if (entries.length === 1 && done.written) this.show(db, { ...entries[0], seq: done.seq });
      return done;
    });
  }

  /**
   * A line that is on the disk shows before anything else is read, where it is the very next one.
   * @param {IDBDatabase} db
   * @param {Line} line
   */
  show(db, line) {
    if (db !== this.readFrom || line.seq !== (this.lines.at(-1)?.seq ?? 0) + 1) return;
    this.lines = [...this.lines, readable(line)];
    this.tell();
  }

  /**
   * Lines that `write` puts into the book's store, wherever it does so.
   * @param {(name: string) => Promise<{ written: number, same: number }>} write
   * @param {() => void} [written] once they are there, before this tab has read them
   */
  grow(write, written = () => {}) {
    return hold(this.grown(write, written));
  }

  /**
   * @param {(name: string) => Promise<{ written: number, same: number }>} write
   * @param {() => void} written
   */
  async grown(write, written) {
    await this.opened();
    const done = await write(this.name).catch((fault) => {
      throw fault instanceof NotWritten ? fault : new NotWritten(fault);
    });
    written();
    navigator.storage?.persist?.().catch(() => {}); // asks; what the browser says to it the page tells
    await this.read();
    await new Promise((go) => setTimeout(go)); // a long book is not drawn in the same breath
    if (this.lost.length) {
      const there = new Set(this.lines.map((line) => line.id));
      this.lost = this.lost.filter((line) => !there.has(line.id));
    }
    this.channel?.postMessage("written");
    this.tell();
    return done;
  }

  async removeAll() {
    const db = await this.opened();
    await change(db, (store) => store.clear()).catch((fault) => {
      throw new NotWritten(fault);
    });
    this.emptied();
    await this.beside.clearAll();
    this.channel?.postMessage("removed");
    this.tell();
  }

  emptied() {
    this.removals += 1;
    this.lines = [];
    this.lost = [];
  }

  /** @param {unknown} what */
  async told(what) {
    if (what === "removed") this.emptied();
    await this.read().catch(() => {});
    this.tell();
  }

  tell() {
    for (const listener of [...this.listeners]) listener();
  }

  /** @param {() => void} listener */
  subscribe(listener) {
    this.listeners.add(listener);
    return () => void this.listeners.delete(listener);
  }
}

/** @type {Map<Which, Book>} */
const books = new Map();

/** @param {Which} which */
export function bookOf(which) {
  const book = books.get(which) ?? new Book(which);
  books.set(which, book);
  return book;
}

const LETTERS = "0123456789abcdefghijklmnopqrstuvwxyz";

function freshId() {
  const numbers = crypto.getRandomValues(new Uint32Array(16)); // so long that 36 divides the range well enough
  const text = [...numbers].map((number) => LETTERS[number % 36]).join("");
  return `${text.slice(0, 8)}-${text.slice(8)}`;
}

/**
 * @param {import("../sheet/form.mjs").Values} values
 * @returns {import("../sheet/form.mjs").Values}
 */
export const filled = (values) => Object.fromEntries(Object.entries(values).filter(([, value]) => !isBlank(value)));

/**
 * @param {{ batch: string, kind: string, at?: string, values?: import("../sheet/form.mjs").Values, who?: string, remark?: string, replaces?: string | null, was?: Entry }} entry
 *   `was` is the line that it corrects, where it is known
 * @returns {Entry}
 */
export function newEntry({ batch, kind, at, values = {}, who = "", remark = "", replaces = null, was }) {
  const now = new Date();
  return {
    schema: SCHEMA,
    id: freshId(),
    batch,
    kind,
    at: at || localMinute(now),
    written: now.toISOString(),
    zone: at ? zoneOf(at, was, now) : -now.getTimezoneOffset(),
    values: filled(values),
    who: who.trim(),
    remark: remark.trim(),
    replaces,
  };
}
