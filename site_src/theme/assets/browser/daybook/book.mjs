// The bound book on this device: lines are added, never changed, never taken out but all together. Each line is one
// transaction; it counts as written when the browser has it on the disk. The order of writing is the key that the
// browser gives, whatever the clock says.

import { hold } from "../edition/edition.mjs";
import { siteRoot } from "../shared/root.mjs";

const VERSION = 1;
const LINES = "entries";
const NAMES = { own: "day-book", demo: "day-book-demo" }; // invented batches have a book of their own
const WORDS = {
  full: "There is no room left on this device, so this is not written.",
  blocked: "This browser keeps nothing for this site, so this is not written. A private window may be why.",
  newer: "The book on this device was written by a newer version of this handbook. Load this page again.",
};

export class NotWritten extends Error {
  constructor(fault) {
    const kind = fault?.name === "QuotaExceededError" ? "full" : fault?.name === "VersionError" ? "newer" : "blocked";
    super(WORDS[kind]);
    this.kind = kind;
  }
}

const settled = (request) =>
  new Promise((done, fail) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(request.error);
  });

class Book {
  constructor(which) {
    this.which = which;
    this.name = siteRoot.pathname + NAMES[which];
    this.lines = []; // what this tab has read, in the order of writing
    this.listeners = new Set();
    this.reading = Promise.resolve();
    this.db = null;
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
      const fresh = await settled(db.transaction(LINES).objectStore(LINES).getAll(beyond)).catch((fault) => {
        throw new NotWritten(fault);
      });
      if (fresh.length) this.lines = [...this.lines, ...fresh];
      return this.lines;
    });
    return this.reading;
  }

  // All of `entries` or, when it fails, none. One that is in the book already, by its id, is left out.
  append(entries) {
    return hold(this.add(entries));
  }

  async add(entries) {
    const db = await this.open();
    let same = 0;
    await new Promise((done, fail) => {
      const work = db.transaction(LINES, "readwrite", { durability: "strict" });
      const store = work.objectStore(LINES);
      for (const { seq: _, ...entry } of entries) {
        store.add(entry).onerror = (event) => {
          if (event.target.error.name !== "ConstraintError") return; // then all of it is undone
          event.preventDefault();
          event.stopPropagation();
          same += 1;
        };
      }
      work.oncomplete = done;
      work.onabort = () => fail(new NotWritten(work.error));
    });
    navigator.storage?.persist?.().catch(() => {}); // asks once; what the browser says to it is its own affair
    await this.read();
    this.channel?.postMessage("written");
    this.tell();
    return { written: entries.length - same, same };
  }

  async removeAll() {
    const db = await this.open();
    await new Promise((done, fail) => {
      const work = db.transaction(LINES, "readwrite", { durability: "strict" });
      work.objectStore(LINES).clear();
      work.oncomplete = done;
      work.onabort = () => fail(new NotWritten(work.error));
    });
    this.lines = [];
    this.channel?.postMessage("removed");
    this.tell();
  }

  async told(what) {
    if (what === "removed") this.lines = [];
    await this.read().catch(() => {});
    this.tell();
  }

  tell() {
    for (const listener of [...this.listeners]) listener();
  }

  subscribe(listener) {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }
}

const books = new Map();

export function bookOf(which) {
  if (!books.has(which)) books.set(which, new Book(which));
  return books.get(which);
}

const LETTERS = "0123456789abcdefghijklmnopqrstuvwxyz";

function freshId() {
  const numbers = crypto.getRandomValues(new Uint32Array(16)); // so long that 36 divides the range well enough
  const text = [...numbers].map((number) => LETTERS[number % 36]).join("");
  return `${text.slice(0, 8)}-${text.slice(8)}`;
}

export function localMinute(now = new Date()) {
  return new Date(now.getTime() - now.getTimezoneOffset() * 60000).toISOString().slice(0, 16);
}

const isBlank = (value) => (Array.isArray(value) ? value.flat().every((cell) => !cell.trim()) : !String(value).trim());

export const filled = (values) => Object.fromEntries(Object.entries(values).filter(([, value]) => !isBlank(value)));

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
