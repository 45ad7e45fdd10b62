// A file read beside the page, a part at a time.

/**
 * @typedef {object} Part rows of the file
 * @property {string} text as a file of its own
 * @property {number} first so many rows stand before them
 * @property {number} rows how many
 * @property {string[]} ids as far as they can be told here
 * @property {{ row: number, text: string }[]} deep rows that are left out: no Python lives through them
 */

/**
 * A file with its rows counted.
 * @typedef {object} Found
 * @property {number} rows
 * @property {string} letters how its letters are written; nothing when that is certain
 * @property {string[]} lines the first ones
 */

export class Reading {
  worker = new Worker(new URL("./reader.mjs", import.meta.url), { type: "module", name: "reader" });

  /**
   * @param {object} message
   * @param {(done: number) => void} [progress]
   * @returns {Promise<any>}
   */
  said(message, progress = () => {}) {
    return new Promise((done, fail) => {
      this.worker.onmessage = ({ data }) => {
        if ("at" in data) progress(data.at);
        else if ("fault" in data) fail(data.name ? new DOMException(data.fault, data.name) : new Error(data.fault));
        else done(data);
      };
      this.worker.onerror = (event) => {
        event.preventDefault();
        fail(new Error(event.message || "the file could not be read"));
      };
      this.worker.postMessage(message);
    });
  }

  /**
   * @param {Blob} file
   * @returns {Promise<Found>}
   */
  async open(file) {
    return (await this.said({ file })).found;
  }

  /**
   * @param {string} checked what is to be written of the part before, as the text of a list
   * @returns {Promise<Part | null>} null behind the last one
   */
  async next(checked) {
    return (await this.said({ checked })).part;
  }

  /**
   * @param {string[]} ids of entries that are to be written
   * @returns {Promise<any[]>} as they were handed over
   */
  async recall(ids) {
    return (await this.said({ ids })).entries;
  }

  /**
   * All that was checked, at once.
   * @param {string} name of the book's store
   * @param {(done: number) => void} progress
   * @returns {Promise<{ written: number, same: number }>}
   */
  async write(name, progress) {
    return (await this.said({ write: name }, progress)).done;
  }

  close() {
    this.worker.terminate();
  }
}
