// Asks the small engine under Node. A job arrives as JSON on standard input; replies leave in the file that it names.
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

const job = JSON.parse(readFileSync(0, "utf8"));
const { startSmall } = await import(pathToFileURL(job.small).href);
const loader = await import(pathToFileURL(`${job.folder}/micropython.mjs`).href);
const wasm = readFileSync(`${job.folder}/micropython.wasm`);
const pack = (name) => new Uint8Array(readFileSync(`${job.folder}/${name}.pack`));

const start = () => startSmall({ loader, wasm, packs: [pack("core")], told: (text, done) => told.push([text, done]) });
let told = [];
let engine = await start();
let added = new Set();
const replies = [];
for (const [sheet, request] of job.asked) {
  told = [];
  const began = process.cpuUsage();
  let [text, fault] = ["", ""];
  try {
    if (sheet && !added.has(sheet)) engine.add(pack(sheet));
    added.add(sheet);
    text = engine.respond(request);
  } catch (thrown) {
    fault = String(thrown.message ?? thrown).trim().split("\n").slice(-2).join(" ");
    if (thrown instanceof WebAssembly.RuntimeError || thrown instanceof RangeError) {
      engine = await start();
      added = new Set();
    }
  }
  const { user, system } = process.cpuUsage(began);
  replies.push({ text, fault, ms: (user + system) / 1000, memory: engine.memory(), told });
}
writeFileSync(job.result, JSON.stringify(replies));
process.exit(0);
