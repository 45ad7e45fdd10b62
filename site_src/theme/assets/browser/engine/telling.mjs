// What a worker tells its page of a start: the step it is at, the bar, and on a slow line how long the rest takes.

import { Coming } from "./coming.mjs";
import { Wait } from "./wait.mjs";

const FETCHING = "Fetching the calculator";
const FETCHED = 60; // points of the bar
const TELL_MS = 500;

const seconds = () => performance.now() / 1000;

export class Telling {
  up = false; // the engine is: what comes now is more for it
  step = { text: FETCHING, done: 0 };
  shown = 0; // points: the bar never goes back

  /**
   * @param {Record<string, import("./coming.mjs").Sizes>} sizes of all files, by name
   * @param {(message: object) => void} post
   */
  constructor(sizes, post) {
    this.sizes = sizes;
    this.post = post;
    this.coming = new Coming(sizes);
    this.wait = new Wait(seconds());
  }

  /** Something else is going to come. */
  afresh() {
    this.coming = new Coming(this.sizes);
    this.wait = new Wait(seconds());
  }

  tell() {
    const { had, of } = this.coming.sum();
    const words = this.wait.told(had, of, seconds());
    this.shown = Math.max(this.shown, had < of ? (FETCHED * had) / of : this.step.done);
    this.post({ kind: "progress", step: words && !this.up ? FETCHING : this.step.text, done: Math.round(this.shown), wait: words });
  }

  /**
   * @param {string} text
   * @param {number} done of a hundred
   */
  progress(text, done) {
    if (done < this.step.done) this.shown = 0; // of something else
    this.step = { text, done };
    this.tell();
  }

  /**
   * Says again and again how far it is, until something is done.
   * @template T
   * @param {Promise<T>} done
   */
  async during(done) {
    const timer = setInterval(() => this.tell(), TELL_MS);
    return done.finally(() => clearInterval(timer));
  }

  /**
   * How far an answer is: nothing comes over the line for it.
   * @param {string} text
   * @param {number} done of a hundred
   */
  works(text, done) {
    this.post({ kind: "progress", step: text, done: Math.round(done) });
  }
}
