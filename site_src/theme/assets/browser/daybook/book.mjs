// The bound book on this device: lines are added, never changed, never taken out but all together. Each line is one
// transaction; it counts as written when the browser has it on the disk. The order of writing is the key that the
// browser gives, whatever the clock says.

import { hold } from "../edition/edition.mjs";
import { isBlank } from "../shared/blank.mjs";
import { localMinute } from "../shared/moment.mjs";
import { siteRoot } from "../shared/root.mjs";
import { NAMES } from "./there.mjs";

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

const VERSION = 1;
const LINES = "entries";
const WORDS = {
  full: "There is no room left on this device, so this is not written.",
  blocked: "This browser keeps nothing for this site, so this is not written. A private window may be why.",
  newer: "The book on this device was written by a newer version of this handbook. Load this page again.",
};

export class NotWritten extends Error {
  /** @param {unknown} fault */
  constructor(fault) {
    const name = fault instanceof DOMException ? fault.name : "";
    const kind = name === "QuotaExceededError" ? "full" : name === "VersionError" ? "newer" : "blocked";
    super(WORDS[kind]);
    this.kind = kind;
  }
}

/**
 * @template Result
 * @param {IDBRequest<Result>} request
 * @returns {Promise<Result>}
 */
const settled = (request) =>
  new Promise((done, fail) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(request.error);
  });

export class Book {
  /** @type {Line[]} */
  lines = []; // what this tab has read, in the order of writing
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
    const request = indexedDB.open(this.name, VERSION);
    request.onupgradeneeded = () =>
      request.result.createObjectStore(LINES, { keyPath: "seq", autoIncrement: true }).createIndex("id", "id", { unique: true });
    const db = await settled(request);
    const gone = () => (this.db = null);
    db.onclose = gone;
    db.onversionchange = () => {
      db.close();
      gone();
    };
    return db;
  }

  // Lines not read so far, by this tab or written by another. One reading at a time, or lines would come twice.
  read() {
    this.reading = this.reading.catch(() => {}).then(async () => {
      const db = await this.open();
      const last = this.lines.at(-1)?.seq;
      const beyond = last === undefined ? null : IDBKeyRange.lowerBound(last, true);
      /** @type {Line[]} */
      const fresh = await settled(db.transaction(LINES).objectStore(LINES).getAll(beyond)).catch((fault) => {
        throw new NotWritten(fault);
      });
      if (fresh.length) this.lines = [...this.lines, ...fresh];
      return this.lines;
    });
    return this.reading;
  }

  /**
   * All of `entries` or, when it fails, none. One that is in the book already, by its id, is left out.
   * @param {(Entry & { seq?: number })[]} entries
   */
  append(entries) {
    return hold(this.add(entries));
  }

  /** @param {(Entry & { seq?: number })[]} entries */
  async add(entries) {
    const db = await this.open();
    let same = 0;
    await this.change(db, (store) => {
      for (const { seq: _, ...entry } of entries) {
        const request = store.add(entry);
        request.onerror = (event) => {
          if (request.error?.name !== "ConstraintError") return; // then all of it is undone
          event.preventDefault();
          event.stopPropagation();
          same += 1;
        };
      }
    });
    navigator.storage?.persist?.().catch(() => {}); // asks once; what the browser says to it is its own affair
    await this.read();
    this.channel?.postMessage("written");
    this.tell();
    return { written: entries.length - same, same };
  }

  async removeAll() {
    const db = await this.open();
    await this.change(db, (store) => store.clear());
    this.lines = [];
    this.channel?.postMessage("removed");
    this.tell();
  }

  /**
   * One transaction, which is whole on the disk or does not happen.
   * @param {IDBDatabase} db
   * @param {(store: IDBObjectStore) => void} work
   */
  change(db, work) {
    return new Promise((done, fail) => {
      const transaction = db.transaction(LINES, "readwrite", { durability: "strict" });
      transaction.oncomplete = done;
      transaction.onabort = () => fail(new NotWritten(transaction.error));
      work(transaction.objectStore(LINES));
    });
  }

  /** @param {unknown} what */
  async told(what) {
    if (what === "removed") this.lines = [];
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
 * @param {{ batch: string, kind: string, at?: string, values?: import("../sheet/form.mjs").Values, who?: string, remark?: string, replaces?: string | null }} entry
 * @returns {Entry}
 */
export function newEntry({ batch, kind, at, values = {}, who = "", remark = "", replaces = null }) {
  const now = new Date();
  return {
    schema: 1,
    id: freshId(),
    batch,
    kind,
    at: at || localMinute(now),
    written: now.toISOString(),
    zone: -now.getTimezoneOffset(),
    values: filled(values),
    who: who.trim(),
    remark: remark.trim(),
    replaces,
  };
}
