// The small engine: answers requests about plain sheets from the same Python source as the other one.

import * as bridge from "./bridge.mjs";

/**
 * What of MicroPython is used here.
 * @typedef {object} Python
 * @property {{ mkdir: (path: string) => void, writeFile: (path: string, data: Uint8Array) => void }} FS
 * @property {{ get: (name: string) => any }} globals
 * @property {(name: string, module: object) => void} registerJsModule
 * @property {(code: string) => void} runPython
 */

const HEAP_BYTES = 4 << 20; // to begin with; it grows
const STACK_BYTES = 64 << 10;
const START = `
import sys
sys.path[:] = ["/lib"]
from calculators.page import respond as _answer
import bridge_told
def _told(step, done):
    bridge_told.told(step, float(done))
def _respond(text):
    return _answer(text, _told)
`;

/**
 * Starts the engine with some packs of modules.
 * @param {object} given
 * @param {{ loadMicroPython: (settings: object) => Promise<Python> }} given.loader its module, imported
 * @param {Response | Promise<Response> | BufferSource} given.wasm its program
 * @param {Uint8Array[]} given.packs
 * @param {(text: string, done: number) => void} given.told how far a long working is, and percent done
 */
export async function startSmall({ loader, wasm, packs, told }) {
  const came = await wasm;
  const program = await (came instanceof Response ? WebAssembly.compileStreaming(came) : WebAssembly.compile(came));
  // As changed by engine.toml: the loader takes the program from here.
  /** @type {WebAssembly.Memory | undefined} */
  let memory;
  const module = {
    /**
     * @param {WebAssembly.Imports} imports
     * @param {(instance: WebAssembly.Instance, module: WebAssembly.Module) => void} done
     */
    instantiateWasm(imports, done) {
      WebAssembly.instantiate(program, imports).then((instance) => {
        memory = Object.values(instance.exports).find((one) => one instanceof WebAssembly.Memory);
        done(instance, program);
      });
      return {};
    },
  };
  const python = await loader.loadMicroPython({ url: "engine", heapsize: HEAP_BYTES, pystack: STACK_BYTES, module });
  const folders = new Set();
  const folder = (/** @type {string} */ path) => {
    if (!path || folders.has(path)) return;
    folder(path.slice(0, path.lastIndexOf("/")));
    folders.add(path);
    try {
      python.FS.mkdir(path);
    } catch {
      // it is there
    }
  };
  /** @param {Uint8Array} pack */
  function add(pack) {
    for (const [name, data] of filesOf(pack)) {
      const path = `/lib/${name}`;
      folder(path.slice(0, path.lastIndexOf("/")));
      python.FS.writeFile(path, data);
    }
  }
  packs.forEach(add);
  python.registerJsModule("bridge", { ...bridge });
  python.registerJsModule("bridge_told", { told: (/** @type {string} */ text, /** @type {number} */ done) => told(text, done) });
  python.runPython(START);
  const respond = python.globals.get("_respond");
  return {
    /** @param {string} request */
    respond(request) {
      const reply = respond(request);
      if (typeof reply !== "string") throw new Error("The small engine gave no text");
      return reply;
    },
    add,
    memory: () => memory?.buffer.byteLength ?? 0,
  };
}

/**
 * The files of a pack: a list of names and lengths behind its own length, then the files in a row.
 * @param {Uint8Array} pack
 * @returns {Generator<[string, Uint8Array]>}
 */
function* filesOf(pack) {
  const length = new DataView(pack.buffer, pack.byteOffset, 4).getUint32(0, true);
  let at = 4 + length;
  /** @type {[string, number][]} */
  const listed = JSON.parse(new TextDecoder().decode(pack.subarray(4, at)));
  for (const [name, size] of listed) {
    yield [name, pack.subarray(at, at + size)];
    at += size;
  }
}
