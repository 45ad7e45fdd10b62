// Use without a network: what the reader is offered, what is going on, and what stands on the device.

import * as corrections from "../edition/corrections.mjs";
import * as edition from "../edition/edition.mjs";
import * as engine from "../engine/engine.mjs";
import * as started from "../engine/started.mjs";
import { keepAll, mendAll, overruling, removeAll, wholeCopy } from "./copy.mjs";
import { draw } from "./view.mjs";
import { siteRoot } from "../shared/root.mjs";

const scope = siteRoot.href;
const declined = `${siteRoot.pathname}offline-declined`;

const DRAW_MS = 100;
const AGAIN_MS = 600_000; // of a long visit, from one contact with the site to the next
const BACK_MS = 60_000; // the same, for a page that the reader comes back to
/** @type {import("./view.mjs").Now} */
const now = { able: ableHere(), copy: null, offer: null, newer: null, work: null, said: "", declined: false, answered: false, lost: 0 };

// Service workers and hashes exist only where the address is https, or is this device itself.
function ableHere() {
  if (!isSecureContext) return "address";
  return "serviceWorker" in navigator && "caches" in self && crypto.subtle ? "yes" : "browser";
}

const tell = () => draw(now, scope, actions);

async function look() {
  const registration = await navigator.serviceWorker.getRegistration(scope);
  const copy = registration?.scope === scope ? await wholeCopy(scope) : null;
  const held = new Set(((await copy?.cache.keys()) ?? []).map((request) => request.url));
  now.lost = Object.keys(copy?.files ?? {}).filter((path) => !held.has(new URL(path, scope).href)).length;
  now.copy = copy;
  compare();
}

// Whichever is known last: an answer may have the site asked before the device has been looked at.
function compare() {
  now.newer = now.copy && now.offer && now.offer.version !== now.copy.version ? now.offer : null;
}

let asked = false;
let contact = Date.now(); // without a copy, the page itself has just come from the site

// What the site has now: its edition, sizes and corrections. Without a network there is nothing to offer.
async function ask() {
  asked = true;
  contact = Date.now();
  try {
    const response = await fetch(new URL("offline.json", scope), { cache: "no-cache" });
    now.offer = response.ok ? await response.json() : null;
  } catch {
    now.offer = null;
  }
  compare();
  await tellCorrections();
}

async function tellCorrections() {
  if (now.offer) await corrections.heed(now.offer.corrections ?? [], Boolean(now.copy), changed);
  else if (now.copy) await corrections.recall();
}

// A copy that was overruled is replaced without asking.
let triedToReplace = false;
async function replaceOverruled() {
  if (!now.newer || !now.copy || now.work || triedToReplace || !(await overruling(scope, now.copy)).length) return;
  triedToReplace = true;
  await work("keep", keep);
}

async function ready() {
  await navigator.serviceWorker.register(new URL("service-worker.js", scope), { scope, updateViaCache: "none" });
  await navigator.serviceWorker.ready;
}

// Waits until the service worker answers from what is on the device now.
async function changed() {
  const worker = (await navigator.serviceWorker.getRegistration(scope))?.active;
  if (!worker) return;
  await new Promise((done) => {
    const line = new MessageChannel();
    line.port1.onmessage = done;
    setTimeout(done, 3000);
    worker.postMessage("changed", [line.port2]);
  });
}

/** @param {number} bytes */
const megabytes = (bytes) => `${Math.max(1, Math.ceil(bytes / 1e6))} MB`;

/**
 * @param {unknown} thrown
 * @param {import("./view.mjs").Offer | null} list
 */
function wordsFor(thrown, list) {
  const fault = thrown instanceof Error || thrown instanceof DOMException ? thrown : new Error(String(thrown));
  if (fault.name === "QuotaExceededError") {
    return `There is not enough room on this device: about ${megabytes(list?.bytes ?? 3e7)} are needed. Make room and try again.`;
  }
  if (fault.name === "AbortError") return "Stopped. What had come is not fetched again next time.";
  if (fault instanceof TypeError) return "The network went away. What had come is not fetched again: try once more when there is a network.";
  return `Refused: ${fault.message}. Try again in a few minutes; if it says the same, tell whoever looks after this site.`;
}

/**
 * One piece of work at a time, over all windows of this site.
 * @param {import("./view.mjs").Work} name
 * @param {(progress: import("./copy.mjs").Progress, signal: AbortSignal) => Promise<string>} doing
 */
async function work(name, doing) {
  if (now.work) return;
  now.said = "";
  await navigator.locks.request(`${scope} offline`, { ifAvailable: true }, async (lock) => {
    if (!lock) {
      now.said = "Another window is busy with this already.";
      return;
    }
    const stop = new AbortController();
    const working = { name, done: 0, all: 0, stop };
    now.work = working;
    let drawn = 0;
    /** @type {import("./copy.mjs").Progress} */
    const progress = (done, all) => {
      Object.assign(working, { done, all });
      if (performance.now() - drawn < DRAW_MS) return;
      drawn = performance.now();
      tell();
    };
    tell();
    try {
      now.said = await doing(progress, stop.signal);
    } catch (fault) {
      now.said = wordsFor(fault, now.offer);
    }
    await changed();
    await look();
    await ask();
    now.work = null;
  });
  tell();
}

/**
 * @param {import("./copy.mjs").Progress} progress
 * @param {AbortSignal} signal
 */
async function keep(progress, signal) {
  const update = Boolean(now.copy);
  await ask();
  if (!now.offer) throw new TypeError("no network");
  navigator.storage?.persist?.().catch(() => {}); // asks the browser to keep it; the answer changes nothing here
  const response = await fetch(new URL(now.offer.list, scope), { cache: "no-cache", signal });
  const list = { ...(await response.json()), bytes: now.offer.bytes };
  await ready();
  await keepAll(list, scope, { tell: progress, signal });
  if (!update) return "";
  await changed();
  if (now.offer.version !== edition.mark) edition.renew(); // the page in view belongs to the former edition
  return "";
}

/** @param {import("./copy.mjs").Progress} progress */
async function mend(progress) {
  const { copy } = now;
  if (!copy) return "";
  const { mended, lost } = await mendAll(copy, scope, { tell: progress });
  if (lost.length) {
    return `${lost.length} of ${Object.keys(copy.files).length} files are damaged and could not be fetched anew: ${lost.slice(0, 3).join(", ")}${lost.length > 3 ? " …" : ""}. Try again when there is a network.`;
  }
  return mended ? `Mended: ${mended} damaged files were fetched anew.` : "Checked: every file is as it was published.";
}

async function remove() {
  await removeAll(scope);
  await started.forget();
  await changed();
  await (await navigator.serviceWorker.getRegistration(scope))?.unregister();
  return "Removed. Nothing of the handbook’s pages is kept on this device any more.";
}

const actions = {
  keep: () => work("keep", keep),
  mend: () => work("mend", mend),
  remove: () => work("remove", remove),
  stop: () => now.work?.stop.abort(),
  decline: () => {
    now.declined = true;
    try {
      localStorage.setItem(declined, "yes");
    } catch {
      // asked again next time
    }
    tell();
  },
};

// An engine that will not start from the kept copy may have a damaged file under it.
let enginePhase = "off";
let mendedOnce = false;
async function mendEngine() {
  if (enginePhase !== "failed" || mendedOnce || !now.copy) return;
  mendedOnce = true;
  await work("mend", mend);
  if (now.said.startsWith("Mended")) engine.tryAgain();
}
engine.subscribe(({ phase }) => {
  enginePhase = phase;
  mendEngine();
});

// The offer comes after an answer to numbers of the reader's own, not before.
new PerformanceObserver(async (seen) => {
  if (now.answered || !seen.getEntriesByName("sheet-answered").length) return;
  now.answered = true;
  if (now.able === "yes" && !now.copy && !now.declined) await ask();
  tell();
}).observe({ type: "mark", buffered: true });

for (const name of ["online", "offline"]) addEventListener(name, tell);
addEventListener("online", () => arrived({ after: 0 }));
document.addEventListener("visibilitychange", () => document.hidden || arrived({ after: BACK_MS }));

export async function arrived({ after = AGAIN_MS } = {}) {
  tell();
  if (now.work) return;
  if (now.able === "yes") await look();
  mendEngine();
  const panel = document.querySelector("[data-offline-panel]");
  const wanted = panel || (now.copy && !asked) || corrections.isToBeTold() || Date.now() - contact > after;
  await (wanted ? ask() : tellCorrections());
  tell();
  await replaceOverruled();
}

try {
  now.declined = localStorage.getItem(declined) === "yes";
} catch {
  // nothing is remembered here
}
