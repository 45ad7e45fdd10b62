import { loadPyodide } from "./runtime/pyodide.mjs";

const python = await loadPyodide({ indexURL: new URL("runtime/", import.meta.url).href });
python.runPython("1 + 1");
self.postMessage("core");
await python.loadPackage("numpy");
python.runPython("import numpy");
self.postMessage("numpy");
