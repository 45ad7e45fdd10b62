// Runs what a test has drawn: devices that write lines and take their turns at one folder, which fails them as told.
// Reads a file of JSON: { runs: [{ steps: [...], devices }] }; writes the books in which each run ends.

import { readFileSync } from "node:fs";
import process from "node:process";
import { pathToFileURL } from "node:url";

const { runs, scripts } = JSON.parse(readFileSync(process.argv[2], "utf8"));
const from = (name) => import(pathToFileURL(`${scripts}/daybook/share/${name}.mjs`).href);
const { turn } = await from("turn");
const { Hindered } = await from("folder");
const { namesIn } = await from("names");

const wait = (ms) => new Promise((done) => setTimeout(done, ms));

/** The disk of a server. Every verb may fail, and lasts a while, so that turns of several devices meet. */
class Disk {
  files = new Map();
  refusals = 0;
  async list(fault) {
    await wait(0);
    if (fault === "password") throw new Hindered("password", 401);
    if (fault === "offline") throw new Hindered("network");
    return namesIn([...this.files.keys()].join("\n"));
  }
  async get(name, fault) {
    await wait(0);
    if (fault === "lost") throw new Hindered("network");
    return this.files.get(name) ?? null;
  }
  async put(name, bytes, fault) {
    await wait(0);
    if (fault === "full") throw new Hindered("full", 507);
    if (fault === "closed") throw new Hindered("closed", 403);
    if (this.files.has(name)) throw new Error(`written over: ${name}`);
    if (fault === "cut") {
      this.files.set(name, bytes.slice(0, Math.floor(bytes.length / 2)));
      throw new Hindered("network");
    }
    this.files.set(name, bytes);
    if (fault === "no answer") throw new Hindered("network"); // written, and the device never hears of it
  }
}

class Device {
  constructor(number) {
    this.book = [];
    this.known = { device: `device${"abcdefgh"[number]}0`, number: 0, read: {} };
  }
  shelf(fault) {
    return {
      lines: async () => [...this.book],
      asText: async (some) => JSON.stringify({ entries: some }),
      take: async (_, text) => {
        if (fault === "no calculator") throw new Error("no calculator");
        const known = new Set(this.book.map(({ id }) => id));
        const came = JSON.parse(text).entries.filter(({ id }) => !known.has(id));
        this.book.push(...came);
        return came;
      },
    };
  }
  turn(disk, fault = "") {
    const place = { list: () => disk.list(fault), get: (name) => disk.get(name, fault), put: (name, bytes) => disk.put(name, bytes, fault) };
    return turn(place, this.shelf(fault), this.known);
  }
}

async function run({ steps, devices }) {
  const disk = new Disk();
  const all = Array.from({ length: devices }, (_, number) => new Device(number));
  const going = [];
  const told = [];
  for (const { device, what, line, fault } of steps) {
    const one = all[device];
    if (what === "write") one.book.push(line);
    if (what === "forget") one.known = { ...one.known, number: 0, read: {} };
    if (what === "clear") disk.files.clear();
    if (what === "turn") {
      await one.turning; // one at a time on a device, as the page's lock has it
      one.turning = one.turn(disk, fault).then((outcome) => told.push({ device, fault: outcome.fault?.kind ?? String(outcome.fault ?? ""), waiting: outcome.waiting }));
      going.push(one.turning);
      if (line === "alone") await one.turning;
    }
  }
  await Promise.all(going);
  const before = all.map(({ book }) => [...book]);
  const last = [];
  for (let round = 0; round < 2; round += 1) for (const one of all) last.push(await one.turn(disk));
  return { books: all.map(({ book }) => book), before, told, waiting: last.slice(-devices).map(({ waiting, fault, halves }) => ({ waiting, fault: String(fault ?? ""), halves: halves.length })), files: disk.files.size };
}

const ends = [];
for (const one of runs) ends.push(await run(one));
process.stdout.write(JSON.stringify(ends));
