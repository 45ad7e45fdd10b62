// The engine: Python in a module worker. Requests and answers are JSON text; nothing else crosses.

import * as started from "./started.mjs";

const FILES = "%%FILES%%";

const here = (address, base = import.meta.url) => new URL(address, base).href;
const runtime = here(FILES.indexURL);
const lockFile = here(FILES.lockFile, runtime);
const appFile = here(FILES.app);
const stdlibFile = here("python_stdlib.zip", runtime);
const wasmFile = here("pyodide.asm.wasm", runtime);
const APP_PATH = "/calculators.zip";
const VERSION = [FILES.indexURL, FILES.app].join(" ").replace(/[^\w.]+/g, "-");
let calculators = FILES.calculators; // the mark of what answers; goes with every reply
const KEEP_AFTER_MS = 1500; // once somebody has an answer

const wanted = new Set(); // packages that sheets of this page need
const queue = []; // what was asked before Python was up
let python = null;
let untouched = null; // the memory before anything was asked, until it is kept
let respond = null; // the one Python function kept, for the life of the worker

const post = (message) => self.postMessage(JSON.stringify(message));
const progress = (step, done) => post({ kind: "progress", step, done: Math.round(done) });

// Everything is asked for, read and compiled at once; when the runtime comes to fetch one of these files it gets what is
// already under way.
const plainFetch = self.fetch.bind(self);
const whole = (response) => (response.ok ? response.arrayBuffer().then((bytes) => new Response(bytes)) : response);
const underWay = new Map([
  [stdlibFile, plainFetch(stdlibFile).then(whole)],
  [lockFile, plainFetch(lockFile)],
]);
for (const response of underWay.values()) response.catch(() => {}); // reported where it is used
self.fetch = (input, options) => {
  const address = new URL(input instanceof Request ? input.url : input, import.meta.url).href;
  const response = underWay.get(address);
  if (!response) return plainFetch(input, options);
  underWay.delete(address);
  return response;
};

// When the runtime's program does not come, or is damaged, the runtime only warns, and then waits for ever: so it is
// compiled here, and a failure ends the start.
const program = WebAssembly.compileStreaming(plainFetch(wasmFile));
underWay.set(wasmFile, Promise.resolve(new Response())); // the runtime hands it on to the next function
WebAssembly.instantiateStreaming = async (_, imports) => {
  const module = await program;
  return { module, instance: await WebAssembly.instantiate(module, imports) };
};
const programFails = new Promise((_, fail) => program.catch(fail));
programFails.catch(() => {}); // after the start, whoever asked deals with it

async function bytesOf(address, options) {
  const response = await fetch(address, options);
  if (!response.ok) throw new Error(`${address} could not be fetched (${response.status})`);
  return new Uint8Array(await response.arrayBuffer());
}

// The mark is that of the bytes that came, where they can be digested here. What the browser holds may be damaged: then past it.
async function calculatorsArchive() {
  for (const cache of ["default", "reload"]) {
    const archive = await bytesOf(appFile, { cache });
    if (!started.able()) return archive;
    calculators = (await started.digest(archive)).slice(0, FILES.calculators.length);
    if (calculators === FILES.calculators) return archive;
  }
  throw new Error("the calculators are not those that were published");
}

// Of the wait, fetching is given 60 points of the bar, shared among the files by size.
function fetchingBar(parts) {
  const total = parts.reduce((sum, part) => sum + part.size, 0);
  let done = 0;
  for (const part of parts) {
    part.file.then(() => {
      done += part.size;
      if (!python) progress("Fetching the engine", (60 * done) / total);
    }, () => {});
  }
}

async function start() {
  const began = performance.now();
  progress("Fetching the engine", 0);
  const app = calculatorsArchive();
  const loader = import(here("pyodide.mjs", runtime));
  const core = import(here("pyodide.asm.mjs", runtime));
  const size = (name, guess) => FILES.bytes?.[name] ?? guess;
  fetchingBar([
    { file: program, size: size("pyodide.asm.wasm", 9.6e6) },
    { file: underWay.get(stdlibFile), size: size("python_stdlib.zip", 4.5e6) },
    { file: core, size: size("pyodide.asm.mjs", 1.2e6) },
    { file: app, size: size(FILES.app.split("/").at(-1), 1e5) },
  ]);
  const [{ loadPyodide }, { default: createPyodideModule }, archive, memory] = await Promise.all([
    loader,
    core,
    app,
    started.recall(VERSION),
  ]);
  const fetched = performance.now();
  progress("Starting Python", 65);
  const starting = loadPyodide({
    ...(memory ? { _loadSnapshot: memory } : { _makeSnapshot: true }),
    indexURL: runtime,
    lockFileURL: lockFile,
    createPyodideModule,
    // On the path from the start, so that no Python has to be run to put it there.
    env: { HOME: "/home/pyodide", PYTHONPATH: APP_PATH },
    fsInit: async (fs) => fs.writeFile(APP_PATH, archive),
  });
  const loaded = await Promise.race([starting, programFails]);
  const running = performance.now();
  progress("Loading the calculators", 85);
  const page = loaded.pyimport("calculators.page");
  respond = page.respond.copy(); // a plain attribute would go when its module's proxy goes
  page.destroy();
  if (!memory && started.able()) untouched = loaded.makeMemorySnapshot();
  if (wanted.size) await loaded.loadPackage([...wanted]); // not before: a memory holds no programs of packages
  python = loaded;
  const ready = performance.now();
  post({
    kind: "ready",
    packages: [...wanted],
    again: Boolean(memory),
    ms: { fetch: fetched - began, start: running - fetched, import: ready - running, all: ready - began },
  });
  while (queue.length) await handle(queue.shift());
}

async function load(message) {
  const needs = message.needs ?? [];
  if (!python) {
    needs.forEach((name) => wanted.add(name));
    return;
  }
  progress(`Loading ${needs.join(" and ")}`, 50);
  await python.loadPackage(needs);
  post({ id: message.id, kind: "loaded", needs });
}

function ask(message) {
  const began = performance.now();
  const text = respond(JSON.stringify(message.request));
  const ms = performance.now() - began;
  self.postMessage(`{"id":${Number(message.id)},"kind":"reply","calculators":"${calculators}","ms":${ms},"reply":${text}}`);
  if (!untouched) return;
  const memory = untouched;
  untouched = null;
  setTimeout(() => started.keep(VERSION, memory), KEEP_AFTER_MS);
}

// A fault of one request leaves Python running; a fault of Python itself ends the worker.
function report(fault, id) {
  console.error(fault);
  const fatal = !python || fault?.pyodide_fatal_error === true;
  post({ ...(fatal ? {} : { id }), kind: "failed", text: String(fault?.message ?? fault).trim().split("\n").at(-1) });
}

async function handle(message) {
  try {
    if (message.kind === "load") await load(message);
    else if (!python) queue.push(message);
    else if (message.kind === "ask") ask(message);
  } catch (fault) {
    report(fault, message.id);
  }
}

self.addEventListener("message", (event) => handle(JSON.parse(event.data)));
start().catch(async (fault) => {
  await started.forget().catch(() => {}); // the next start goes the long way
  report(fault);
});
