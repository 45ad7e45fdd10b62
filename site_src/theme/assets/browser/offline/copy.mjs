// What is kept for use without a network: one cache a version of the site, whole or not at all. The page fills it
// and the service worker answers from it, so both carry this file; the build puts it into the worker.

import { digest } from "../shared/digest.mjs";

/**
 * What the build says of an edition: every file with its SHA-256 and size.
 * @typedef {object} List
 * @property {string} version
 * @property {number} bytes
 * @property {Record<string, [string, number]>} files by address
 * @property {Record<string, string>} headers
 * @property {Record<string, Record<string, string>>} [apart] those of files that have their own
 * @property {Record<string, string>} types by the ending of a name
 * @property {string[]} [corrections] ids of those that it has in it
 */

/** @typedef {List & { at: number, cache: Cache }} Copy what is kept whole */

/**
 * A correction that concerns safety.
 * @typedef {{ id: string, day: string, word: string, where: string[], wrong: string, now: string, pages: string[], sheets: string[], marks: string[], dayBook?: boolean }} Correction
 */

/** @typedef {(done: number, all: number) => void} Progress bytes */

const LANES = 4; // fetches at a time
const MARK = "kept-whole"; // the entry that says a cache is whole; no file of the site has this name

// A file that is not the one that was published.
export class Refused extends Error {}

/** @param {string} scope */
const prefixOf = (scope) => `${new URL(scope).pathname} handbook `; // caches belong to the whole origin
/**
 * @param {string} scope
 * @param {string} version
 */
const nameOf = (scope, version) => prefixOf(scope) + version;
/** @param {string} scope */
const namesIn = async (scope) => (await caches.keys()).filter((name) => name.startsWith(prefixOf(scope)));

// Corrections that concern safety and were heard of from the site. Those that a copy does not have in it overrule it.
const HEARD = "corrections";
/** @param {string} scope */
const heardIn = (scope) => `${new URL(scope).pathname} ${HEARD}`;

/**
 * @param {string} scope
 * @returns {Promise<Correction[]>}
 */
export async function heard(scope) {
  const held = await caches.match(new URL(HEARD, scope), { cacheName: heardIn(scope) }).catch(() => null);
  return (await held?.json().catch(() => null)) ?? [];
}

/**
 * @param {string} scope
 * @param {{ corrections?: string[] }} copy
 */
export async function overruling(scope, { corrections = [] }) {
  return (await heard(scope)).filter(({ id }) => !corrections.includes(id));
}

/**
 * @param {string} scope
 * @param {Correction[]} corrections
 */
export async function hear(scope, corrections) {
  const cache = await caches.open(heardIn(scope));
  await cache.put(new URL(HEARD, scope), new Response(JSON.stringify(corrections)));
}

/**
 * The newest whole copy of the site on this device, or null.
 * @param {string} scope
 * @returns {Promise<Copy | null>}
 */
export async function wholeCopy(scope) {
  /** @type {Copy | null} */
  let newest = null;
  for (const name of await namesIn(scope)) {
    const cache = await caches.open(name);
    const mark = await cache.match(new URL(MARK, scope));
    const list = await mark?.json().catch(() => null);
    if (list && !(newest && newest.at >= list.at)) newest = { ...list, cache };
  }
  return newest;
}

/**
 * The bytes of one kept file as a response, or null when it is missing or is not what was stored.
 * @param {{ files: List["files"], cache: Cache }} copy
 * @param {string} scope
 * @param {string} path
 */
export async function intact(copy, scope, path) {
  const held = await copy.cache.match(new URL(path, scope)).catch(() => null);
  const bytes = await held?.arrayBuffer().catch(() => null);
  if (!held || !bytes || (await digest(bytes)) !== copy.files[path][0]) return null;
  return new Response(bytes, { headers: held.headers });
}

/**
 * @param {List} list
 * @param {string} path
 */
function typeOf(list, path) {
  const ending = /\.\w+$/.exec(path)?.[0] ?? ".html";
  return list.types[ending] ?? "application/octet-stream";
}

/**
 * One file from the site's own server, checked. The service worker lets these requests through: see `passes`.
 * @param {List} list
 * @param {string} scope
 * @param {string} path
 * @param {AbortSignal} [signal]
 */
export async function fetchChecked(list, scope, path, signal) {
  for (const cache of /** @type {const} */ (["no-cache", "reload"])) { // what the browser holds may itself be damaged: then past it
    const response = await fetch(new URL(path, scope), { cache, mode: "same-origin", signal });
    if (!response.ok || response.redirected) throw new Refused(`${path || "the home page"} came with status ${response.status}`);
    const bytes = await response.arrayBuffer();
    if ((await digest(bytes)) === list.files[path][0]) {
      return new Response(bytes, { headers: { ...list.headers, ...list.apart?.[path], "Content-Type": typeOf(list, path) } });
    }
  }
  throw new Refused(`${path || "the home page"} is not the file that was published: its SHA-256 differs`);
}

/** @param {globalThis.Request} request */
export const passes = (request) => request.mode !== "navigate" && ["no-cache", "reload", "no-store"].includes(request.cache);

/**
 * @template Item
 * @param {Item[]} items
 * @param {(item: Item) => Promise<void>} work
 */
async function inLanes(items, work) {
  const waiting = items[Symbol.iterator]();
  const lane = async () => {
    for (const item of waiting) await work(item);
  };
  await Promise.all(Array.from({ length: LANES }, lane));
}

/**
 * Stores every file of `list`; only then the mark; only then the former copy goes.
 * What came before a failure stays, unmarked, and is not fetched again; it answers nothing.
 * @param {List} list
 * @param {string} scope
 * @param {{ tell?: Progress, signal?: AbortSignal }} [to]
 */
export async function keepAll(list, scope, { tell = () => {}, signal } = {}) {
  const former = await wholeCopy(scope);
  const name = nameOf(scope, list.version);
  for (const other of await namesIn(scope)) {
    if (other !== name && other !== (former && nameOf(scope, former.version))) await caches.delete(other);
  }
  const stop = new AbortController();
  signal?.addEventListener("abort", () => stop.abort(signal.reason));
  try {
    const begun = { ...list, cache: await caches.open(name) };
    let done = 0;
    await inLanes(Object.entries(list.files), async ([path, [sha, size]]) => {
      stop.signal.throwIfAborted();
      if (!(await intact(begun, scope, path))) {
        const same = former && former.files[path]?.[0] === sha ? await intact(former, scope, path) : null;
        await begun.cache.put(new URL(path, scope), same ?? (await fetchChecked(list, scope, path, stop.signal)));
      }
      done += size;
      tell(done, list.bytes);
    });
    await begun.cache.put(new URL(MARK, scope), new Response(JSON.stringify({ ...list, at: Date.now() })));
  } catch (fault) {
    stop.abort(fault);
    if (fault instanceof DOMException && fault.name === "QuotaExceededError" && name !== (former && nameOf(scope, former.version))) await caches.delete(name);
    throw fault;
  }
  for (const other of await namesIn(scope)) if (other !== name) await caches.delete(other);
}

/**
 * Reads every kept file, fetches anew what is damaged, and gives back how many were, and which still are.
 * @param {Copy} copy
 * @param {string} scope
 * @param {{ tell?: Progress }} [to]
 */
export async function mendAll(copy, scope, { tell = () => {} } = {}) {
  let done = 0;
  let mended = 0;
  /** @type {string[]} */
  const lost = [];
  await inLanes(Object.entries(copy.files), async ([path, [, size]]) => {
    if (!(await intact(copy, scope, path))) {
      try {
        await copy.cache.put(new URL(path, scope), await fetchChecked(copy, scope, path));
        mended += 1;
      } catch {
        lost.push(path || "the home page");
      }
    }
    done += size;
    tell(done, copy.bytes);
  });
  return { mended, lost };
}

/** @param {string} scope */
export async function removeAll(scope) {
  await caches.delete(heardIn(scope));
  for (const name of await namesIn(scope)) await caches.delete(name);
}
