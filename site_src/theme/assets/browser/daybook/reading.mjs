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
   * @returns {Promise<any>}
   */
  said(message) {
    return new Promise((done, fail) => {
      this.worker.onmessage = ({ data }) => ("fault" in data ? fail(new Error(data.fault)) : done(data));
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

  /** @returns {Promise<Part | null>} null behind the last one */
  async next() {
    return (await this.said({ next: true })).part;
  }

  close() {
    this.worker.terminate();
  }
}
