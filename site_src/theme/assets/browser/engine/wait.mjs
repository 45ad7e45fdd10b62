// What is told of a wait on a slow line: how much of how much has come, and about how long the rest takes. On a quick
// line nothing is told. Times are seconds of any one clock.

const SOON_S = 2; // what is here by then needs no word
const WORTH_S = 4; // nor does what is nearly here
const BEGUN = 50_000; // bytes
const SURE_S = 4; // of coming, before a time is named; a long one later, since at first the page itself comes too
const LONG_S = 15;
const LOOK_BACK_S = 15; // the pace is that of the last seconds
const STILL_S = 8; // without a byte
const HOLDS = 0.35; // a time that was named stands, less what has passed, until it is off by this much
const HOLDS_S = 6; // and by this

const megabytes = (/** @type {number} */ bytes) => (bytes / 1e6).toFixed(1);

/** @param {number} seconds */
function about(seconds) {
  if (seconds > 120) return `about ${Math.round(seconds / 60)} min left`;
  return seconds > 5 ? `about ${5 * Math.ceil(seconds / 5)} s left` : "a few seconds left";
}

export class Wait {
  /** @type {[number, number][]} */
  seen = []; // when, and how much was there
  had = 0;
  moved = 0; // when something came last
  since = 0; // when something came first
  /** @type {{ left: number, at: number } | null} */
  named = null;
  telling = false;

  /** @param {number} began */
  constructor(began) {
    this.began = began;
    this.moved = began;
  }

  /**
   * @param {number} had bytes that are here
   * @param {number} of bytes in all
   * @param {number} now
   * @returns {string} the words, or nothing
   */
  told(had, of, now) {
    if (had >= of) return "";
    this.look(had, now);
    if (now - this.began < SOON_S) return "";
    const [[first, before]] = this.seen;
    const left = had > before ? ((of - had) * (now - first)) / (had - before) : Infinity;
    const still = now - this.moved >= STILL_S;
    if (!this.telling && (left < WORTH_S || (had < BEGUN && !still))) return "";
    this.telling = true;
    const so = `${megabytes(had)} of ${megabytes(of)} MB`;
    if (still) {
      this.named = null;
      return `${so}; nothing has come for ${5 * Math.floor((now - this.moved) / 5)} s, and it goes on by itself when the line does`;
    }
    if (left === Infinity || now - this.since < Math.max(SURE_S, Math.min(LONG_S, left / 8))) return so;
    return `${so}, ${about(this.steady(left, now))}`;
  }

  /**
   * @param {number} had
   * @param {number} now
   */
  look(had, now) {
    if (had > this.had) {
      if (!this.had) this.since = now;
      this.had = had;
      this.moved = now;
    }
    this.seen.push([now, had]);
    while (this.seen.length > 2 && this.seen[0][0] < Math.max(now - LOOK_BACK_S, this.since)) this.seen.shift();
  }

  /**
   * @param {number} left as reckoned
   * @param {number} now
   */
  steady(left, now) {
    const running = this.named ? this.named.left - (now - this.named.at) : 0;
    if (this.named && Math.abs(left - running) <= Math.max(HOLDS_S, HOLDS * running)) return running;
    this.named = { left, at: now };
    return left;
  }
}
