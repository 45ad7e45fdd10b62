// The engine: Python in a module worker. Requests and answers are JSON text; nothing else crosses.

import * as started from "./started.mjs";
import { bytesOf, endsPython, fetchRuntime, memoryOf, startPython } from "./runtime.mjs";
import { digest } from "../shared/digest.mjs";

/**
 * What the build says of the files that the engine needs.
 * @typedef {object} Files
 * @property {string} indexURL the runtime's folder, from this file
 * @property {string} lockFile
 * @property {string} app the calculators, from this file
 * @property {string} calculators their mark
 * @property {Record<string, number>} bytes sizes by name
 */

/** @type {Files} */
const FILES = /** @type {any} */ ("%%FILES%%");

const scope = /** @type {DedicatedWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const here = (/** @type {string} */ address) => new URL(address, import.meta.url).href;
const APP_PATH = "/calculators.zip";
const VERSION = [FILES.indexURL, FILES.app].join(" ").replace(/[^\w.]+/g, "-");
const KEEP_AFTER_MS = 1500; // once somebody has an answer
let calculators = FILES.calculators; // the mark of what answers; goes with every reply

/** @typedef {{ id?: number, kind: string, request?: object, needs?: string[] }} Message */

/** @type {Set<string>} */
const wanted = new Set(); // packages that sheets of this page need
/** @type {Message[]} */
const queue = []; // what was asked before Python was up
/** @type {import("./runtime.mjs").Python | null} */
let python = null;
/** @type {Uint8Array | null} */
let untouched = null; // the memory before anything was asked, until it is kept
/** @type {((request: string, told: (step: string, done: number) => void) => string) | null} */
let respond = null; // the one Python function kept, for the life of the worker

const post = (/** @type {object} */ message) => scope.postMessage(JSON.stringify(message));
const progress = (/** @type {string} */ step, /** @type {number} */ done) => post({ kind: "progress", step, done: Math.round(done) });

const fetched = fetchRuntime(here(FILES.indexURL), FILES.lockFile);

// The mark is that of the bytes that came, where they can be digested here. What the browser holds may be damaged: then past it.
async function calculatorsArchive() {
  for (const cache of /** @type {const} */ (["default", "reload"])) {
    const archive = await bytesOf(here(FILES.app), { cache });
    if (!started.able()) return archive;
    calculators = (await digest(archive)).slice(0, FILES.calculators.length);
    if (calculators === FILES.calculators) return archive;
  }
  throw new Error("the calculators are not those that were published");
}

/**
 * Of the wait, fetching is given 60 points of the bar, shared among the files by size.
 * @param {[Promise<unknown>, string, number][]} parts each with its name, and its size where the build does not say it
 */
function fetchingBar(parts) {
  const sizes = parts.map(([, name, guess]) => FILES.bytes?.[name] ?? guess);
  const total = sizes.reduce((sum, size) => sum + size, 0);
  let done = 0;
  parts.forEach(([part], at) => {
    part.then(() => {
      done += sizes[at];
      if (!python) progress("Fetching the engine", (60 * done) / total);
    }, () => {});
  });
}

async function start() {
  const began = performance.now();
  progress("Fetching the engine", 0);
  const app = calculatorsArchive();
  fetchingBar([
    [fetched.program, "pyodide.asm.wasm", 9.6e6],
    [fetched.library, "python_stdlib.zip", 4.5e6],
    [fetched.core, "pyodide.asm.mjs", 1.2e6],
    [app, FILES.app.split("/").at(-1) ?? "", 1e5],
  ]);
  const [archive, memory] = await Promise.all([app, started.recall(VERSION), fetched.loader, fetched.core]);
  const came = performance.now();
  progress("Starting Python", 65);
  const loaded = await startPython(fetched, { files: { [APP_PATH]: archive }, path: APP_PATH, memory });
  const running = performance.now();
  progress("Loading the calculators", 85);
  const page = loaded.pyimport("calculators.page");
  respond = page.respond.copy(); // a plain attribute would go when its module's proxy goes
  page.destroy();
  if (!memory && started.able()) untouched = memoryOf(loaded);
  if (wanted.size) await loaded.loadPackage([...wanted]); // not before: a memory holds no programs of packages
  python = loaded;
  const ready = performance.now();
  post({
    kind: "ready",
    packages: [...wanted],
    again: Boolean(memory),
    ms: { fetch: came - began, start: running - came, import: ready - running, all: ready - began },
  });
  for (let next = queue.shift(); next; next = queue.shift()) await handle(next);
}

/** @param {Message} message */
async function load({ id, needs = [] }) {
  if (!python) {
    needs.forEach((name) => wanted.add(name));
    return;
  }
  progress(`Loading ${needs.join(" and ")}`, 50);
  await python.loadPackage(needs);
  post({ id, kind: "loaded", needs });
}

/** @param {Message} message */
function ask({ id, request }) {
  const began = performance.now();
  const text = respond?.(JSON.stringify(request), progress);
  const ms = performance.now() - began;
  scope.postMessage(`{"id":${Number(id)},"kind":"reply","calculators":"${calculators}","ms":${ms},"reply":${text}}`);
  if (!untouched) return;
  const memory = untouched;
  untouched = null;
  setTimeout(() => started.keep(VERSION, memory), KEEP_AFTER_MS);
}

/**
 * A fault of one request leaves Python running; a fault of Python itself ends the worker.
 * @param {unknown} fault
 * @param {number} [id]
 */
function report(fault, id) {
  console.error(fault);
  const fatal = !python || endsPython(fault);
  const text = fault instanceof Error ? fault.message : String(fault);
  post({ ...(fatal ? {} : { id }), kind: "failed", text: text.trim().split("\n").at(-1) });
}

/** @param {Message} message */
async function handle(message) {
  try {
    if (message.kind === "load") await load(message);
    else if (!python) queue.push(message);
    else if (message.kind === "ask") ask(message);
  } catch (fault) {
    report(fault, message.id);
  }
}

scope.addEventListener("message", (event) => handle(JSON.parse(event.data)));
start().catch(async (fault) => {
  await started.forget().catch(() => {}); // the next start goes the long way
  report(fault);
});
