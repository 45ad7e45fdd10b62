// The small engine: the sheets from the same source as Python's, in a program of a twentieth of its size. It speaks to the
// page as the worker of Python does; what it loads by name are the sheets.

import { checkedBytes, nameOf } from "./bytes.mjs";
import { Telling } from "./telling.mjs";
import { startSmall } from "./small/small.mjs";

/**
 * What the build says of its files: addresses from this file, and what their SHA-256 begin with.
 * @typedef {object} Files
 * @property {string} loader
 * @property {string} program
 * @property {string} core what all sheets need
 * @property {Record<string, string>} sheets
 * @property {Record<string, string>} marks by address
 * @property {string} calculators the mark of the source
 * @property {Record<string, import("./coming.mjs").Sizes>} bytes by name
 */

/** @type {Files} */
const FILES = /** @type {any} */ ("%%FILES%%");

const scope = /** @type {DedicatedWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const here = (/** @type {string} */ address) => new URL(address, import.meta.url).href;
const post = (/** @type {object} */ message) => scope.postMessage(JSON.stringify(message));
const telling = new Telling(FILES.bytes, post);

/** @typedef {{ id?: number, kind: string, request?: object, needs?: string[] }} Message */

/** @type {Map<string, Promise<Uint8Array>>} */
const packs = new Map(); // of sheets that are wanted
/** @type {Message[]} */
const queue = []; // what was asked before it was up
/** @type {Awaited<ReturnType<typeof startSmall>> | null} */
let engine = null;

/** @param {string} address */
function checked(address) {
  telling.coming.expect(nameOf(address));
  return checkedBytes(here(address), FILES.marks[address], telling.coming);
}

/** @param {string} sheet */
function packOf(sheet) {
  const pack = packs.get(sheet) ?? checked(FILES.sheets[sheet]);
  packs.set(sheet, pack);
  pack.catch(() => {}); // reported where it is used
  return pack;
}

const program = checked(FILES.program);
const core = checked(FILES.core);
telling.coming.expect(nameOf(FILES.loader));
const loader = import(here(FILES.loader)).finally(() => telling.coming.arrived(nameOf(FILES.loader)));
for (const part of [program, core, loader]) part.catch(() => {}); // reported where it is used

/** What has come over the line, and how long that took; of what the browser held nothing is known. */
function line() {
  const came = performance.getEntriesByType("resource").filter((one) => one instanceof PerformanceResourceTiming && one.transferSize > 0);
  const timed = /** @type {PerformanceResourceTiming[]} */ (came);
  const [from, to] = [Math.min(...timed.map((one) => one.requestStart)), Math.max(...timed.map((one) => one.responseEnd))];
  return { bytes: timed.reduce((sum, one) => sum + one.transferSize, 0), ms: timed.length ? to - from : 0 };
}

async function start() {
  const began = performance.now();
  telling.tell();
  const [wasm, imported, common] = await Promise.all([program, loader, core]);
  const sheets = [...packs.keys()];
  const own = await Promise.all(packs.values());
  const came = performance.now();
  telling.progress("Starting the calculator", 65);
  const started = await startSmall({ loader: imported, wasm, packs: [common, ...own], told: (step, done) => telling.works(step, done) });
  engine = started;
  telling.up = true;
  const ready = performance.now();
  post({ kind: "ready", packages: sheets, again: false, line: line(), ms: { fetch: came - began, start: ready - came, all: ready - began } });
  for (let next = queue.shift(); next; next = queue.shift()) await handle(next);
}

/** @param {Message} message */
async function load({ id, needs = [] }) {
  if (!engine) return needs.forEach((sheet) => packOf(sheet));
  telling.afresh();
  telling.progress("Fetching the calculator", 50);
  for (const pack of await telling.during(Promise.all(needs.map(packOf)))) engine.add(pack);
  post({ id, kind: "loaded", needs });
}

/** @param {Message} message */
function ask({ id, request }) {
  const began = performance.now();
  const text = engine?.respond(JSON.stringify(request));
  const ms = performance.now() - began;
  scope.postMessage(`{"id":${Number(id)},"kind":"reply","calculators":"${FILES.calculators}","ms":${ms},"memory":${engine?.memory()},"reply":${text}}`);
}

/** @param {Message} message */
async function handle(message) {
  try {
    if (message.kind === "load") await load(message);
    else if (!engine) queue.push(message);
    else if (message.kind === "ask") ask(message);
  } catch (fault) {
    report(fault, message.id);
  }
}

/**
 * Whatever it is, the page ends this worker.
 * @param {unknown} fault
 * @param {number} [id]
 */
function report(fault, id) {
  const text = fault instanceof Error ? fault.message : String(fault);
  post({ id, kind: "failed", text: text.trim().split("\n").at(-1) });
}

scope.addEventListener("message", (event) => handle(JSON.parse(event.data)));
telling.during(start()).catch(report);
