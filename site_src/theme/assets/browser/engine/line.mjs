// What Python would still carry to this device, and whether the line and the reader are such that it comes unasked.

import { engines } from "./built.mjs";
import { siteRoot } from "../shared/root.mjs";

/** @typedef {{ bytes: number, seconds: number | null, saves: boolean }} More what would be carried, how long that takes, and whether the device asks to save data */
/** @typedef {Navigator & { connection?: { saveData?: boolean, effectiveType?: string } }} WithLine */

const KEY = `${siteRoot.pathname}fetched`;
const PACE = `${siteRoot.pathname}pace`;
const LONG_S = 30; // what takes longer does not come unasked
const LONG_BY_PAGE_S = 60; // the same where only the page's own few files tell: small ones are slow on a good line too
const SLOW = ["slow-2g", "2g", "3g"];
const MEASURED = 50_000; // bytes: of fewer nothing is concluded
const ALL = [engines.python, ...Object.values(engines.packages)].flatMap((files) => Object.keys(files));

let allowed = false; // the reader has pressed the button
let begun = false; // Python is being started: what it needs itself is here or coming
let pace = paceBefore(); // bytes a second, as measured; 0 for not known

const connection = () => /** @type {WithLine} */ (navigator).connection;
const here = (/** @type {string} */ address) => new URL(address, import.meta.url).href;

/** @returns {string[]} */
function fetched() {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? "[]");
    return Array.isArray(kept) ? kept : [];
  } catch {
    return [];
  }
}

/** @param {string[]} addresses that have come to this device, and stay with its browser */
function note(addresses) {
  const had = [...fetched(), ...addresses];
  try {
    localStorage.setItem(KEY, JSON.stringify(ALL.filter((one) => had.includes(one)))); // those of former editions go
  } catch {
    // it is asked for again
  }
}

/**
 * @param {Iterable<string>} needs packages
 * @returns {Record<string, number>}
 */
const filesFor = (needs) => Object.assign({}, engines.python, ...[...needs].map((name) => engines.packages[name] ?? {}));

export function begins() {
  begun = true;
}

/** Python has started, with these packages. @param {Iterable<string>} needs */
export const came = (needs) => note(Object.keys(filesFor(needs)));

/**
 * @param {number} bytes that came over the line
 * @param {number} ms
 */
export function measured(bytes, ms) {
  if (bytes < MEASURED || ms <= 0) return;
  pace = (bytes / ms) * 1000;
  try {
    sessionStorage.setItem(PACE, String(pace));
  } catch {
    // the next page measures for itself
  }
}

// As it was measured on a page before, in this visit.
function paceBefore() {
  try {
    return Number(sessionStorage.getItem(PACE)) || 0;
  } catch {
    return 0;
  }
}

// Of the page and its files, as far as they came over the line: while any of them was coming in. 0 for not known.
function paceOfPage() {
  const entries = /** @type {PerformanceResourceTiming[]} */ ([
    ...performance.getEntriesByType("navigation"),
    ...performance.getEntriesByType("resource"),
  ]).filter((one) => one.transferSize > 0 && one.responseStart > 0 && one.responseEnd > one.responseStart);
  entries.sort((one, other) => one.responseStart - other.responseStart);
  let [bytes, ms, until] = [0, 0, 0];
  for (const { transferSize, responseStart, responseEnd } of entries) {
    bytes += transferSize;
    ms += Math.max(0, responseEnd - Math.max(responseStart, until));
    until = Math.max(until, responseEnd);
  }
  return bytes >= MEASURED && ms > 0 ? (bytes / ms) * 1000 : 0;
}

/** What has not come to this device. With a copy kept for use without a network, nothing. @param {Iterable<string>} needs */
function missing(needs) {
  if (navigator.serviceWorker?.controller) return {};
  const had = fetched();
  return Object.fromEntries(Object.entries(filesFor(needs)).filter(([address]) => !had.includes(address) && !(begun && address in engines.python)));
}

/**
 * What has to be asked before it is fetched, or null.
 * @param {Iterable<string>} needs packages
 * @returns {More | null}
 */
export function toBeAsked(needs = []) {
  const bytes = Object.values(missing(needs)).reduce((sum, one) => sum + one, 0);
  if (allowed || !bytes) return null;
  const known = pace || paceOfPage();
  const seconds = known ? bytes / known : null;
  const saves = connection()?.saveData === true;
  const slow = SLOW.includes(connection()?.effectiveType ?? "") || (seconds ?? 0) > (pace ? LONG_S : LONG_BY_PAGE_S);
  return saves || slow ? { bytes, seconds, saves } : null;
}

export function allow() {
  allowed = true;
}

let ahead = false;
/**
 * Fetches what Python would need, one file after another and behind everything else, so that it is here when something asks
 * for it. Where the line turns out slow, or Python is started meanwhile, the rest is left.
 * @param {() => boolean} isStarted
 */
export async function fetchAhead(isStarted) {
  if (ahead) return;
  ahead = true;
  const files = Object.entries(missing([])).sort(([, one], [, other]) => one - other);
  for (const [address, bytes] of files) {
    if (isStarted() || toBeAsked()) break;
    try {
      const began = performance.now();
      const response = await fetch(here(address), { priority: "low" });
      if (!response.ok) return;
      const reader = response.body?.getReader();
      for (let part = await reader?.read(); part && !part.done; part = await reader?.read());
      measured(bytes, performance.now() - began);
      note([address]);
    } catch {
      return; // it is fetched when it is needed
    }
  }
}
