// What the page asks and what comes back: two engines, each in a worker kept across the pages. One request is in flight;
// of each sheet only the newest waits. Whatever the small engine does not answer is asked of Python, and nobody is told.

import * as edition from "../edition/edition.mjs";
import * as line from "./line.mjs";
import * as which from "./which.mjs";
import { Runner } from "./runner.mjs";

export const LIMIT_SECONDS = 10; // without an answer, or word of how far it is; the page names it when it is passed
const SMALL_SECONDS = 5; // the same of the small engine: then Python is asked
const SMALL_START_SECONDS = 8; // without a word of its start
const HEAVY_MS = 300; // an answer that takes the small engine longer than this is one for Python
const AHEAD_MS = 1500; // after an answer, before more is fetched

/** @typedef {import("./runner.mjs").Phase} Phase */
/** @typedef {import("./runner.mjs").Message} Message */
/** @typedef {import("./runner.mjs").Asked} Asked */
/** @typedef {"hang" | "stopped" | "fault" | "deaths"} Trouble */
/** @typedef {object} Key what asks: of each, only the newest request waits */

/**
 * @typedef {object} Request
 * @property {() => object} body
 * @property {string[]} needs packages
 * @property {string} [sheet] which asks, if it is one
 * @property {(reply: any) => void} onReply what comes back depends on what was asked
 * @property {(kind: Trouble, text: string) => void} onTrouble
 * @property {boolean} [quiet] who asks offers the reader by himself what has to be fetched for it
 * @property {number} [seconds] a large book may take more than one answer
 */

/**
 * @typedef {object} State
 * @property {Phase} phase
 * @property {string} step of a start or of a long answer, in words
 * @property {number} done of it, of a hundred
 * @property {string} wait on a slow line: how much of it has come, and how long the rest takes
 * @property {string} failure
 * @property {Key | null} working on whose request
 * @property {line.More | null} more what is fetched only when the reader says so
 */

let deaths = 0; // of Python since the last answer, with nothing asked
/** @type {WeakSet<Request>} */
const ended = new WeakSet(); // requests that a worker died of once
/** @type {WeakSet<Request>} */
const left = new WeakSet(); // nobody waits for their answer any more
/** @type {Map<Key, Request>} */
const waiting = new Map();
/** @type {Map<string | undefined, Set<string>>} */
const begun = new Map(); // what the page in view wants started: the packages of each sheet
/** @type {Map<(state: State) => void, string | undefined>} */
const listeners = new Map();

const python = new Runner(() => new Worker(new URL("./worker.mjs", import.meta.url), { type: "module", name: "calculators" }), {
  changed: tell,
  ready: (message) => ready(python, message),
  landed: (message, flight) => (flight.kind === "ask" ? landed(message, flight) : gotPackages(message, flight.needs)),
  hung,
  died,
});

const small = new Runner(
  () => new Worker(new URL("./small-worker.mjs", import.meta.url), { type: "module", name: "sheets" }),
  {
    changed: tell,
    ready: (message) => ready(small, message),
    landed: (message, flight) => {
      const asked = flight.kind === "ask" ? flight : null;
      if (message.kind === "failed") fallBack(message.text, asked);
      else if (asked) landed(message, asked);
      else pump();
    },
    hung: (asked) => fallBack(`no answer within ${SMALL_SECONDS} seconds`, asked),
    died: fallBack,
  },
  SMALL_START_SECONDS,
);
const both = { python, small };

const asked = () => python.asked ?? small.asked;

/**
 * @param {(state: State) => void} listener
 * @param {string} [sheet] for which it listens
 */
export function subscribe(listener, sheet) {
  listeners.set(listener, sheet);
  listener(state(sheet));
  return () => void listeners.delete(listener);
}

/**
 * How the engine stands that answers this sheet, or whatever is no sheet.
 * @param {string} [sheet]
 * @returns {State}
 */
export function state(sheet) {
  const needs = [...(begun.get(sheet) ?? [])];
  const now = asked();
  const busy = now?.request.sheet === sheet ? Object.values(both).find((one) => one.asked) : null;
  const { phase, step, failure } = busy ?? which.engineFor(both, { sheet, needs });
  return { phase, step: step.text, done: step.done, wait: step.wait, failure, working: now?.key ?? null, more: moreFor(sheet, needs) };
}

/**
 * @param {string | undefined} sheet
 * @param {string[]} needs
 */
function moreFor(sheet, needs) {
  if (!begun.has(sheet) || which.engineFor(both, { sheet, needs }) !== python) return null;
  const comes = python.phase === "starting" || (python.phase === "ready" && !python.notLoaded(needs).length);
  return comes ? null : line.toBeAsked(needs);
}

function tell() {
  for (const [listener, sheet] of [...listeners]) listener(state(sheet));
}

/**
 * Start when there is something to start for; asking twice does nothing.
 * @param {string[]} [needs] packages
 * @param {string} [sheet] for which
 */
export function start(needs = [], sheet = undefined) {
  begin(sheet, needs);
  pump();
}

/**
 * @param {string | undefined} sheet
 * @param {Iterable<string>} needs
 */
function begin(sheet, needs) {
  const all = new Set([...(begun.get(sheet) ?? []), ...needs]);
  begun.set(sheet, all);
  const engine = which.engineFor(both, { sheet, needs: [...all] });
  if (engine === python && line.toBeAsked(all)) return tell();
  engine.want(engine === small && sheet ? [sheet] : all);
  if (engine.phase === "off") spawn(engine);
}

/** @param {Runner} engine */
function spawn(engine) {
  if (engine === python) line.begins();
  engine.spawn();
}

/**
 * What the reader has to be asked before Python is there, or null.
 * @param {string[]} needs packages
 */
export const asksFirst = (needs) => (python.phase === "off" ? line.toBeAsked(needs) : null);

/** The reader lets the rest be fetched. */
export function fetchMore() {
  line.allow();
  beginAll();
}

function beginAll() {
  for (const [sheet, needs] of [...begun]) begin(sheet, needs);
  pump();
  tell();
}

/** The page in view is another one. */
export const turned = () => begun.clear();

/**
 * @param {Runner} engine
 * @param {Message} message
 */
function ready(engine, message) {
  const { ms, again, packages } = message;
  performance.measure?.("engine-start", { start: performance.now() - ms.all, duration: ms.all, detail: { ...ms, again, small: engine === small } });
  if (engine === python) line.came(packages ?? []);
  else line.measured(message.line?.bytes ?? 0, message.line?.ms ?? 0);
  tell();
  pump();
}

/**
 * @param {Message} message
 * @param {Asked} flight
 */
function landed(message, flight) {
  if (message.kind === "reply") deaths = 0;
  tell();
  if (!answered(message, flight)) return;
  if (python.phase === "off") setTimeout(() => line.fetchAhead(() => python.isUp), AHEAD_MS);
  if (message.ms > HEAVY_MS && !python.isUp && !line.toBeAsked(flight.request.needs)) begin(undefined, flight.request.needs);
  pump();
}

/**
 * Hands on what came back, unless the numbers have changed meanwhile; false when the page is loaded again.
 * @param {Message} message
 * @param {Asked} flight
 */
function answered(message, { key, request }) {
  if (message.kind === "reply" && !edition.ofOurCalculators(message.calculators)) {
    request.onTrouble("fault", "the calculator is not of the same edition as this page");
    edition.renew();
    return false;
  }
  if (waiting.has(key)) return true;
  if (message.kind === "reply") request.onReply(message.reply);
  else request.onTrouble("fault", message.text);
  return true;
}

/**
 * @param {Message} message
 * @param {string[]} needs
 */
function gotPackages(message, needs) {
  if (message.kind === "loaded") line.came(needs);
  else edition.renewIfNew();
  const lost = message.kind === "loaded" ? [] : [...waiting].filter(([, request]) => request.needs.some((name) => needs.includes(name)));
  for (const [key] of lost) waiting.delete(key);
  for (const [, request] of lost) request.onTrouble("fault", message.text);
  tell();
  pump();
}

/**
 * @param {Key} key
 * @param {Request} request
 */
export function ask(key, request) {
  waiting.set(key, request);
  pump();
}

/** @param {Key} key */
export function forget(key) {
  waiting.delete(key);
  const now = asked();
  if (now?.key === key) left.add(now.request);
}

/** @param {Key} key */
export const isWaiting = (key) => waiting.has(key) || asked()?.key === key;

function pump() {
  for (const { sheet, needs, quiet } of [...waiting.values()]) if (!quiet || !asksFirst(needs)) begin(sheet, needs);
  for (const [key, request] of asked() ? [] : [...waiting]) {
    const engine = which.engineFor(both, request);
    if (asked() || !engine.isFree(engine === small && request.sheet ? [request.sheet] : request.needs)) continue;
    waiting.delete(key);
    engine.ask(key, request, engine === small ? SMALL_SECONDS : (request.seconds ?? LIMIT_SECONDS));
  }
  python.load();
  small.load();
  // Two engines hold twice the memory.
  if (python.phase === "ready" && !small.asked && ![...waiting.values()].some((request) => which.engineFor(both, request) === small)) small.end();
}

/** @param {Asked} flight */
function hung({ request }) {
  python.spawn();
  request.onTrouble("hang", `no answer within ${request.seconds ?? LIMIT_SECONDS} seconds`);
}

export function stop() {
  const dropped = [...waiting.values()];
  waiting.clear();
  for (const engine of Object.values(both)) {
    if (!engine.asked) continue;
    dropped.push(engine.asked.request);
    engine.spawn();
  }
  for (const request of dropped) request.onTrouble("stopped", "");
}

/**
 * The small engine gave no answer, whatever the cause: it is ended, and Python is asked the same.
 * @param {string} text
 * @param {Asked | null} flight
 */
function fallBack(text, flight) {
  console.warn(`The small engine is given up for this visit: ${text}`);
  which.giveUpSmall();
  small.end();
  if (!flight) edition.renewIfNew(); // its files may have gone with a former edition
  else if (!left.has(flight.request) && !waiting.has(flight.key)) waiting.set(flight.key, flight.request);
  beginAll();
}

/**
 * Python is started again, with what it was working on. What two workers died of is dropped, and the page says so; a third
 * one answers the rest. One that dies twice without being asked anything is not started again.
 * @param {string} text
 * @param {Asked | null} flight
 */
async function died(text, flight) {
  if (flight) return diedOf(flight, text);
  deaths += 1;
  const neverCame = python.phase === "starting";
  python.end();
  if (neverCame) {
    python.phase = "starting"; // nobody else starts one meanwhile
    if (await edition.renewIfNew()) return; // its files may have gone with a former edition
    if (python.worker) return; // somebody has pressed a button
  }
  if (deaths < 2) python.spawn();
  else python.fail(text);
}

/**
 * @param {Asked} flight
 * @param {string} text
 */
function diedOf({ key, request }, text) {
  const again = !ended.has(request);
  ended.add(request);
  if (again && !waiting.has(key)) waiting.set(key, request);
  python.spawn();
  if (!again && !waiting.has(key)) request.onTrouble("deaths", text);
}

export function tryAgain() {
  deaths = 0;
  python.failure = "";
  python.spawn();
}
