// The store of a book on this device, as the page and what reads a file beside it see it. One transaction is whole on
// the disk or does not happen.

/** @typedef {{ id: string, seq?: number }} Entry as far as it matters here */

const VERSION = 1;
const AT_A_TIME = 250; // lines: more at once would stop the page of a slow tablet
export const LINES = "entries";

/**
 * @template Result
 * @param {IDBRequest<Result>} request
 * @returns {Promise<Result>}
 */
export const settled = (request) =>
  new Promise((done, fail) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(request.error);
  });

/** @param {string} name */
export function connect(name) {
  const request = indexedDB.open(name, VERSION);
  request.onupgradeneeded = () =>
    request.result.createObjectStore(LINES, { keyPath: "seq", autoIncrement: true }).createIndex("id", "id", { unique: true });
  return settled(request);
}

/**
 * @param {IDBDatabase} db
 * @param {(store: IDBObjectStore) => void} work
 */
export function change(db, work) {
  return new Promise((done, fail) => {
    const transaction = db.transaction(LINES, "readwrite", { durability: "strict" });
    transaction.oncomplete = done;
    transaction.onabort = () => fail(transaction.error);
    work(transaction.objectStore(LINES));
  });
}

/**
 * All of `entries` or, when it fails, none. One that is in the book already, by its id, is left out. Tells where the last
 * one that was written stands.
 * @param {IDBDatabase} db
 * @param {Entry[]} entries
 * @param {(done: number) => void} progress
 */
export async function addAll(db, entries, progress) {
  let same = 0;
  let seq = 0;
  await change(db, (store) => {
    const put = (/** @type {number} */ from) => {
      const some = entries.slice(from, from + AT_A_TIME);
      progress(from);
      const next = () => from + AT_A_TIME < entries.length && put(from + AT_A_TIME);
      some.forEach(({ seq: _, ...entry }, at) => {
        const request = store.add(entry);
        const last = at === some.length - 1;
        if (last) {
          request.onsuccess = () => {
            seq = Number(request.result);
            next();
          };
        }
        request.onerror = (event) => {
          if (request.error?.name !== "ConstraintError") return; // then all of it is undone
          event.preventDefault();
          event.stopPropagation();
          same += 1;
          if (last) next();
        };
      });
    };
    put(0);
  });
  return { written: entries.length - same, same, seq };
}
