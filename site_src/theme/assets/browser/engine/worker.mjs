// The engine: Python in a module worker. Requests and answers are JSON text; nothing else crosses.

import * as started from "./started.mjs";
import { bytesOf, countPackages, endsPython, fetchRuntime, filesOf, memoryOf, nameOf, startPython } from "./runtime.mjs";
import { Coming } from "./coming.mjs";
import { Wait } from "./wait.mjs";
import { digest } from "../shared/digest.mjs";

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
const TELL_MS = 500;
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
const seconds = () => performance.now() / 1000;

const FETCHING = "Fetching the calculator";
const FETCHED = 60; // points of the bar
const step = { text: FETCHING, done: 0 };
let shown = 0; // points: the bar never goes back
let coming = new Coming(FILES.bytes);
let wait = new Wait(seconds());

function tell() {
  const { had, of } = coming.sum();
  const words = wait.told(had, of, seconds());
  shown = Math.max(shown, had < of ? (FETCHED * had) / of : step.done);
  post({ kind: "progress", step: words && !python ? FETCHING : step.text, done: Math.round(shown), wait: words });
}

/**
 * @param {string} text
 * @param {number} done of a hundred
 */
function progress(text, done) {
  if (done < step.done) shown = 0; // of something else
  step.text = text;
  step.done = done;
  tell();
}

/**
 * Says again and again how far it is, until something is done.
 * @template T
 * @param {Promise<T>} done
 */
async function telling(done) {
  const timer = setInterval(tell, TELL_MS);
  return done.finally(() => clearInterval(timer));
}

countPackages(() => coming);
const fetched = fetchRuntime(here(FILES.indexURL), FILES.lockFile, coming);

// The mark is that of the bytes that came, where they can be digested here. What the browser holds may be damaged: then past it.
async function calculatorsArchive() {
  for (const cache of /** @type {const} */ (["default", "reload"])) {
    const archive = await bytesOf(here(FILES.app), coming, { cache });
    if (!started.able()) return archive;
    calculators = (await digest(archive)).slice(0, FILES.calculators.length);
    if (calculators === FILES.calculators) return archive;
  }
  throw new Error("the calculators are not those that were published");
}

async function start() {
  const began = performance.now();
  coming.expect(nameOf(FILES.app));
  tell();
  const app = calculatorsArchive();
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

/** @param {string[]} names of packages; one that does not come is told of where it is loaded */
const expect = (names) => filesOf(fetched, names).then((files) => coming.expect(...files), () => {});

/** @param {Message} message */
async function load({ id, needs = [] }) {
  if (!python) {
    needs.forEach((name) => wanted.add(name));
    return expect(needs);
  }
  coming = new Coming(FILES.bytes);
  wait = new Wait(seconds());
  progress(`Loading ${needs.join(" and ")}`, 50);
  await expect(needs);
  await telling(python.loadPackage(needs));
  post({ id, kind: "loaded", needs });
}

/**
 * How far an answer is: nothing comes over the line for it.
 * @param {string} text
 * @param {number} done of a hundred
 */
const works = (text, done) => post({ kind: "progress", step: text, done: Math.round(done) });

/** @param {Message} message */
function ask({ id, request }) {
  const began = performance.now();
  const text = respond?.(JSON.stringify(request), works);
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
telling(start()).catch(async (fault) => {
  await started.forget().catch(() => {}); // the next start goes the long way
  report(fault);
});
