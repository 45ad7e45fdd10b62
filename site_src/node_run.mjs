// Runs one piece of Python in the browser's own Python, under Node.
// A job arrives as JSON on standard input; its result leaves as JSON in the file that the job names,
// so that whatever the Python prints cannot be taken for the result.
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const job = JSON.parse(readFileSync(0, "utf8"));
const { loadPyodide } = await import(pathToFileURL(`${job.runtime}/pyodide.mjs`).href);
const toStderr = (line) => process.stderr.write(`${line}\n`);
try {
  const python = await loadPyodide({
    indexURL: job.runtime,
    packages: job.packages,
    env: { HOME: "/home/pyodide", PYTHONHASHSEED: "0" },
    stdout: toStderr,
    stderr: toStderr,
  });
  for (const [inside, outside] of Object.entries(job.folders)) {
    python.mountNodeFS(inside, outside);
  }
  python.globals.set("_job_code", job.code);
  python.globals.set("_job_argument", JSON.stringify(job.argument));
  const result = python.runPython(`
import json as _json
_job_names = {"__name__": "job"}
exec(compile(_job_code, "job", "exec"), _job_names)
_json.dumps(_job_names["main"](_json.loads(_job_argument)), allow_nan=False)
`);
  writeFileSync(job.result, result);
} catch (fault) {
  // Node would print the runtime's whole program before the fault, and cut it off.
  writeFileSync(2, `${fault.message}\n`);
  process.exit(1);
}
process.exit(0);
