// One engine in a worker of its own: started, asked one thing at a time, ended. Which of the two it is, it does not know.

/** @typedef {"off" | "starting" | "ready" | "failed"} Phase */
/** @typedef {{ id?: number, kind: string, [more: string]: any }} Message from the worker */
/** @typedef {import("./engine.mjs").Request} Request */
/** @typedef {{ id: number, kind: "ask", key: import("./engine.mjs").Key, request: Request }} Asked */
/** @typedef {Asked | { id: number, kind: "load", needs: string[] }} Flight */

/**
 * Who hears of it.
 * @typedef {object} Owner
 * @property {() => void} changed
 * @property {(message: Message) => void} ready
 * @property {(message: Message, flight: Flight) => void} landed
 * @property {(asked: Asked) => void} hung
 * @property {(text: string, asked: Asked | null) => void} died
 */

const BLANK = { text: "", done: 0, wait: "" };

/**
 * JSON in which every text can be written as UTF-8: half a sign, as some keyboards leave one behind, becomes U+FFFD.
 * @param {object} message
 */
const asText = (message) => JSON.stringify(message, (_key, value) => (typeof value === "string" ? (value.toWellFormed?.() ?? value) : value));

export class Runner {
  /** @type {Worker | null} */
  worker = null;
  /** @type {Phase} */
  phase = "off";
  step = BLANK; // of a start or of a long answer, in words
  failure = "";
  /** @type {Flight | null} */
  flight = null;
  /** @type {Set<string>} */
  needed = new Set();
  /** @type {Set<string>} */
  loaded = new Set();
  lastId = 0;
  seconds = 0; // without an answer or a word, until it hangs
  limit = 0;

  /**
   * @param {() => Worker} make
   * @param {Owner} owner
   * @param {number} [startSeconds] without a word, until a start has failed
   */
  constructor(make, owner, startSeconds = 0) {
    this.make = make;
    this.owner = owner;
    this.startSeconds = startSeconds;
  }

  /** What is under way is a question. @returns {Asked | null} */
  get asked() {
    return this.flight?.kind === "ask" ? this.flight : null;
  }

  get isUp() {
    return this.phase === "starting" || this.phase === "ready";
  }

  spawn() {
    this.end();
    this.loaded.clear();
    this.phase = "starting";
    this.step = { text: "Fetching the calculator", done: 0, wait: "" };
    const fresh = this.make();
    fresh.addEventListener("message", (event) => fresh === this.worker && this.hear(event.data));
    fresh.addEventListener("error", (event) => {
      event.preventDefault();
      if (fresh === this.worker) this.owner.died(event.message || "the worker could not be started", this.asked);
    });
    this.worker = fresh;
    if (this.needed.size) this.send({ kind: "load", needs: [...this.needed] });
    this.within(this.startSeconds);
    this.owner.changed();
  }

  end() {
    clearTimeout(this.limit);
    this.worker?.terminate();
    this.worker = null;
    this.flight = null;
    this.phase = "off";
  }

  /** @param {string} text */
  fail(text) {
    this.end();
    this.phase = "failed";
    this.failure = text;
    this.owner.changed();
  }

  /** @param {object} message */
  send(message) {
    this.worker?.postMessage(asText(message));
  }

  /** @param {string} text */
  hear(text) {
    /** @type {Message} */
    let message;
    try {
      message = JSON.parse(text);
    } catch {
      return this.owner.died("what it said cannot be read", this.asked);
    }
    this.receive(message);
  }

  /** @param {Message} message */
  receive(message) {
    if (message.kind === "progress") {
      this.step = { text: message.step, done: message.done, wait: message.wait ?? "" };
      if (this.asked || this.phase === "starting") this.within(this.seconds); // it goes on: no hang
      this.owner.changed();
    } else if (message.kind === "ready") {
      clearTimeout(this.limit);
      this.phase = "ready";
      message.packages?.forEach((/** @type {string} */ name) => this.loaded.add(name));
      this.owner.ready(message);
    } else if (message.kind === "failed" && message.id === undefined) {
      this.owner.died(message.text, this.asked);
    } else if (this.flight && message.id === this.flight.id) {
      this.land(message, this.flight);
    }
  }

  /**
   * @param {Message} message
   * @param {Flight} flight
   */
  land(message, flight) {
    clearTimeout(this.limit);
    this.flight = null;
    if (flight.kind === "load") flight.needs.forEach((name) => (message.kind === "loaded" ? this.loaded.add(name) : this.needed.delete(name)));
    this.owner.landed(message, flight);
  }

  /**
   * The limit begins anew.
   * @param {number} seconds
   */
  within(seconds) {
    clearTimeout(this.limit);
    this.seconds = seconds;
    if (seconds) this.limit = setTimeout(() => this.late(), seconds * 1000);
  }

  late() {
    if (this.asked) this.owner.hung(this.asked);
    else this.owner.died(`nothing was heard of it for ${this.seconds} seconds`, null);
  }

  /** @param {Iterable<string>} names of packages */
  notLoaded(names) {
    return [...names].filter((name) => !this.loaded.has(name));
  }

  /** @param {Iterable<string>} names of packages; while it starts they come along */
  want(names) {
    const fresh = [...names].filter((name) => !this.needed.has(name));
    for (const name of fresh) this.needed.add(name);
    if (fresh.length && this.phase === "starting") this.send({ kind: "load", needs: fresh });
  }

  /** @param {string[]} needs whether it could answer now */
  isFree(needs) {
    return this.phase === "ready" && !this.flight && !this.notLoaded(needs).length;
  }

  /**
   * @param {import("./engine.mjs").Key} key
   * @param {Request} request
   * @param {number} seconds
   */
  ask(key, request, seconds) {
    const id = ++this.lastId;
    this.flight = { id, kind: "ask", key, request };
    this.step = BLANK;
    this.send({ id, kind: "ask", request: request.body() });
    this.within(seconds);
    this.owner.changed();
  }

  /** What is wanted and not loaded yet. */
  load() {
    const needs = this.phase === "ready" && !this.flight ? this.notLoaded(this.needed) : [];
    if (!needs.length) return;
    const id = ++this.lastId;
    this.flight = { id, kind: "load", needs };
    this.send({ id, kind: "load", needs });
  }
}
