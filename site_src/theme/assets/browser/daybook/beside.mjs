// What is kept beside the lines of a book: drafts, rows set aside, sums, the file of the backup. None of it is the book:
// where it cannot be kept, the book goes on without it.

/** @typedef {"drafts" | "aside" | "sums" | "kept"} Store */

const STORES = /** @type {const} */ (["drafts", "aside", "sums", "kept"]);
const VERSION = 1;

export class Beside {
  /** @type {Promise<IDBDatabase> | null} */
  db = null;

  /** @param {string} name */
  constructor(name) {
    this.name = `${name}-beside`;
  }

  open() {
    this.db ??= this.connect().catch((fault) => {
      this.db = null;
      throw fault;
    });
    return this.db;
  }

  /** @returns {Promise<IDBDatabase>} */
  connect() {
    return new Promise((done, fail) => {
      const request = indexedDB.open(this.name, VERSION);
      request.onupgradeneeded = () => STORES.forEach((store) => request.result.createObjectStore(store));
      request.onerror = () => fail(request.error);
      request.onsuccess = () => {
        const db = request.result;
        const gone = () => (this.db = null);
        db.onclose = gone;
        db.onversionchange = () => {
          db.close();
          gone();
        };
        done(db);
      };
    });
  }

  /**
   * What the work asked for, once it is done; null where nothing can be kept.
   * @template Result
   * @param {Store} store
   * @param {IDBTransactionMode} mode
   * @param {(store: IDBObjectStore) => IDBRequest<Result> | void} work
   * @returns {Promise<Result | null>}
   */
  async do(store, mode, work) {
    try {
      const db = await this.open();
      return await new Promise((done, fail) => {
        const transaction = db.transaction(store, mode);
        const request = work(transaction.objectStore(store));
        transaction.oncomplete = () => done(request ? request.result : null);
        transaction.onabort = () => fail(transaction.error);
      });
    } catch (fault) {
      console.warn(fault);
      return null;
    }
  }

  /**
   * @param {Store} store
   * @param {string} key
   * @returns {Promise<any>}
   */
  get(store, key) {
    return this.do(store, "readonly", (place) => place.get(key));
  }

  /**
   * @param {Store} store
   * @param {string} first
   * @param {string} last
   * @returns {Promise<any[]>}
   */
  async within(store, first, last) {
    return (await this.do(store, "readonly", (place) => place.getAll(IDBKeyRange.bound(first, last)))) ?? [];
  }

  /**
   * @param {Store} store
   * @returns {Promise<any[]>}
   */
  async all(store) {
    return (await this.do(store, "readonly", (place) => place.getAll())) ?? [];
  }

  /**
   * @param {Store} store
   * @param {[string, any][]} pairs keys and values; undefined takes one away
   */
  put(store, pairs) {
    return this.do(store, "readwrite", (place) => {
      for (const [key, value] of pairs) value === undefined ? place.delete(key) : place.put(value, key);
    });
  }

  /** @param {Store} store */
  clear(store) {
    return this.do(store, "readwrite", (place) => void place.clear());
  }

  clearAll() {
    return Promise.all(STORES.map((store) => this.clear(store)));
  }
}
