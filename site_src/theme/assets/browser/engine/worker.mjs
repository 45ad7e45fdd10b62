// The engine: Python in a module worker. Requests and answers are JSON text; nothing else crosses.

import * as started from "./started.mjs";
import { checkedBytes, nameOf } from "./bytes.mjs";
import { countPackages, endsPython, fetchRuntime, filesOf, memoryOf, startPython } from "./runtime.mjs";
import { Telling } from "./telling.mjs";

/**
 * What the build says of the files that the engine needs.
 * @typedef {object} Files
 * @property {string} indexURL the runtime's folder, from this file
 * @property {string} lockFile
 * @property {string} app the calculators, from this file
 * @property {string} calculators their mark
 * @property {Record<string, import("./coming.mjs").Sizes>} bytes by name
 */

/** @type {Files} */
const FILES = /** @type {any} */ ("%%FILES%%");

const scope = /** @type {DedicatedWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const here = (/** @type {string} */ address) => new URL(address, import.meta.url).href;
const APP_PATH = "/calculators.zip";
const VERSION = [FILES.indexURL, FILES.app].join(" ").replace(/[^\w.]+/g, "-");
const KEEP_AFTER_MS = 1500; // once somebody has an answer

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
const telling = new Telling(FILES.bytes, post);

countPackages(() => telling.coming);
const fetched = fetchRuntime(here(FILES.indexURL), FILES.lockFile, telling.coming);

async function start() {
  const began = performance.now();
  telling.coming.expect(nameOf(FILES.app));
  telling.tell();
  const app = checkedBytes(here(FILES.app), FILES.calculators, telling.coming);
  const [archive, memory] = await Promise.all([app, started.recall(VERSION), fetched.loader, fetched.core]);
  const came = performance.now();
  telling.progress("Starting Python", 65);
  const loaded = await startPython(fetched, { files: { [APP_PATH]: archive }, path: APP_PATH, memory });
  const running = performance.now();
  telling.progress("Loading the calculators", 85);
  const page = loaded.pyimport("calculators.page");
  respond = page.respond.copy(); // a plain attribute would go when its module's proxy goes
  page.destroy();
  if (!memory && started.able()) untouched = memoryOf(loaded);
  // Not before: a memory holds no programs of packages. More may be wanted while they load, and are told of as loaded below.
  for (let had = 0; wanted.size > had; ) {
    had = wanted.size;
    await loaded.loadPackage([...wanted]);
  }
  python = loaded;
  telling.up = true;
  const ready = performance.now();
  post({
    kind: "ready",
    packages: [...wanted],
    again: Boolean(memory),
    ms: { fetch: came - began, start: running - came, import: ready - running, all: ready - began },
  });
  for (let next = queue.shift(); next; next = queue.shift()) await handle(next);
}

/** @param {string[]} names of packages; one that does not come is told of where it is loaded */
const expect = (names) => filesOf(fetched, names).then((files) => telling.coming.expect(...files), () => {});

/** @param {Message} message */
async function load({ id, needs = [] }) {
  if (!python) {
    needs.forEach((name) => wanted.add(name));
    return expect(needs);
  }
  telling.afresh();
  telling.progress(`Loading ${needs.join(" and ")}`, 50);
  await expect(needs);
  await telling.during(python.loadPackage(needs));
  post({ id, kind: "loaded", needs });
}

/** @param {Message} message */
function ask({ id, request }) {
  const began = performance.now();
  const text = respond?.(JSON.stringify(request), (step, done) => telling.works(step, done));
  const ms = performance.now() - began;
  scope.postMessage(`{"id":${Number(id)},"kind":"reply","calculators":"${FILES.calculators}","ms":${ms},"reply":${text}}`);
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
telling.during(start()).catch(async (fault) => {
  await started.forget().catch(() => {}); // the next start goes the long way
  report(fault);
});
