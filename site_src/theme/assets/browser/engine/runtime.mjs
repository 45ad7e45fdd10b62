// Starts the browser's Python. Whatever of it the runtime does not promise to keep is called in this file and nowhere
// else, and tests/site/test_runtime.py names each: whoever raises the runtime's version begins there.

import { bytesOf, nameOf } from "./bytes.mjs";

/** @typedef {import("./coming.mjs").Coming} Coming */

/**
 * The Python of the page, as far as it is used here.
 * @typedef {object} Python
 * @property {(name: string) => any} pyimport
 * @property {(names: string[]) => Promise<unknown>} loadPackage
 * @property {() => Uint8Array<ArrayBuffer>} makeMemorySnapshot
 */

/**
 * What is being fetched for a start, all at once.
 * @typedef {object} Fetched
 * @property {string} runtime address of the folder
 * @property {Promise<WebAssembly.Module>} program
 * @property {Promise<Uint8Array>} library
 * @property {Promise<{ packages: Record<string, { file_name: string }> }>} lock
 * @property {Promise<{ loadPyodide: (settings: object) => Promise<Python> }>} loader
 * @property {Promise<{ default: unknown }>} core
 */

/**
 * Asks for everything at once, and compiles the program while the rest is still coming.
 * @param {string} runtime address of the folder
 * @param {string} lockFile
 * @param {Coming} coming counts it
 * @returns {Fetched}
 */
export function fetchRuntime(runtime, lockFile, coming) {
  const at = (/** @type {string} */ name) => new URL(name, runtime).href;
  const [program, library, core] = ["pyodide.asm.wasm", "python_stdlib.zip", "pyodide.asm.mjs"];
  coming.expect(program, library, core);
  const fetched = {
    runtime,
    program: WebAssembly.compileStreaming(fetch(at(program)).then((response) => coming.counted(program, response))),
    library: bytesOf(at(library), coming),
    lock: fetch(at(lockFile)).then((response) => response.json()),
    loader: import(at("pyodide.mjs")),
    core: import(at(core)),
  };
  fetched.core.then(() => coming.arrived(core), () => {});
  for (const part of [fetched.program, fetched.library, fetched.lock]) part.catch(() => {}); // reported where it is used
  return fetched;
}

/**
 * Starts Python, anew or from the memory of an earlier start.
 * @param {Fetched} fetched
 * @param {{ files: Record<string, Uint8Array>, path: string, memory: Uint8Array | null }} device what Python finds: files by
 *   their path, the path that it looks for modules on, and the memory
 * @returns {Promise<Python>}
 */
export async function startPython({ runtime, program, library, lock, loader, core }, { files, path, memory }) {
  const [{ loadPyodide }, { default: createPyodideModule }] = await Promise.all([loader, core]);
  const starting = loadPyodide({
    ...(memory ? { _loadSnapshot: memory } : { _makeSnapshot: true }),
    indexURL: runtime,
    packageBaseUrl: runtime,
    lockFileContents: lock,
    createPyodideModule,
    // As changed by runtime.toml: the loader takes both from here.
    program,
    stdLibURL: library,
    // On the path from the start, so that no Python has to be run to put it there.
    env: { HOME: "/home/pyodide", PYTHONPATH: path },
    fsInit: async (/** @type {{ writeFile: (path: string, bytes: Uint8Array) => void }} */ disk) => {
      for (const [name, bytes] of Object.entries(files)) disk.writeFile(name, bytes);
    },
  });
  // Of a program or a library that does not come, or is damaged, the loader only warns, and waits for ever.
  const failing = Promise.all([program, library]).then(() => starting);
  return Promise.race([starting, failing]);
}

/**
 * Has the files of packages counted as well, which the loader fetches by itself: as changed by runtime.toml, through this.
 * @param {() => Coming} coming
 */
export function countPackages(coming) {
  const fetchCounted = async (/** @type {URL} */ address, /** @type {RequestInit} */ options) =>
    coming().counted(nameOf(address.pathname), await fetch(address, options));
  Object.assign(globalThis, { fetchCounted });
}

/**
 * @param {Fetched} fetched
 * @param {string[]} names of packages
 * @returns {Promise<string[]>} their files
 */
export async function filesOf({ lock }, names) {
  const { packages } = await lock;
  return names.map((name) => packages[name]?.file_name).filter(Boolean);
}

/**
 * The memory of a Python that has loaded no package with a program of its own.
 * @param {Python} python
 */
export const memoryOf = (python) => python.makeMemorySnapshot();

/**
 * Whether a fault has ended Python itself.
 * @param {unknown} fault
 */
export const endsPython = (fault) => typeof fault === "object" && fault !== null && "pyodide_fatal_error" in fault && fault.pyodide_fatal_error === true;
