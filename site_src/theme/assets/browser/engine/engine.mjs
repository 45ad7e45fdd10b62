// One worker a visit, kept across the pages. One request is in flight; of each sheet only the newest waits.

import * as edition from "../edition/edition.mjs";

export const LIMIT_SECONDS = 10; // without an answer, or word of how far it is; the page names it when it is passed

/** @typedef {"off" | "starting" | "ready" | "failed"} Phase */
/** @typedef {"hang" | "stopped" | "fault" | "deaths"} Trouble */
/** @typedef {object} Key what asks: of each, only the newest request waits */

/**
 * @typedef {object} Request
 * @property {() => object} body
 * @property {string[]} needs packages
 * @property {(reply: any) => void} onReply what comes back depends on what was asked
 * @property {(kind: Trouble, text: string) => void} onTrouble
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
 */

/**
 * @typedef {{ id: number, kind: "ask", key: Key, request: Request } | { id: number, kind: "load", needs: string[] }} Flight
 */

/** @typedef {{ id?: number, kind: string, [more: string]: any }} Message from the worker */

/** @type {Worker | null} */
let worker = null;
/** @type {Phase} */
let phase = "off";
let step = { text: "", done: 0, wait: "" };
let failure = "";
let deaths = 0; // since the last answer, with nothing asked
/** @type {WeakSet<Request>} */
const ended = new WeakSet(); // requests that a worker died of once
let lastId = 0;
/** @type {Flight | null} */
let flight = null;
let limit = 0;
/** @type {Map<Key, Request>} */
const waiting = new Map();
/** @type {Set<string>} */
const needed = new Set();
/** @type {Set<string>} */
const loaded = new Set();
/** @type {Set<(state: State) => void>} */
const listeners = new Set();

/** @param {(state: State) => void} listener */
export function subscribe(listener) {
  listeners.add(listener);
  listener(state());
  return () => void listeners.delete(listener);
}

/** @returns {State} */
export function state() {
  return { phase, step: step.text, done: step.done, wait: step.wait, failure, working: flight?.kind === "ask" ? flight.key : null };
}

function tell() {
  const now = state();
  for (const listener of [...listeners]) listener(now);
}

/**
 * Start when there is something to start for; asking twice does nothing.
 * @param {string[]} [needs] packages
 */
export function start(needs = []) {
  needs.forEach((name) => needed.add(name));
  if (phase === "off") spawn();
  else pump();
}

function spawn() {
  end();
  loaded.clear();
  phase = "starting";
  step = { text: "Fetching the calculator", done: 0, wait: "" };
  const fresh = new Worker(new URL("./worker.mjs", import.meta.url), { type: "module", name: "calculators" });
  fresh.addEventListener("message", (event) => fresh === worker && receive(JSON.parse(event.data)));
  fresh.addEventListener("error", (event) => {
    event.preventDefault();
    if (fresh === worker) died(event.message || "the worker could not be started");
  });
  worker = fresh;
  if (needed.size) send({ kind: "load", needs: [...needed] });
  tell();
}

function end() {
  clearTimeout(limit);
  worker?.terminate();
  worker = null;
  flight = null;
  phase = "off";
}

/** @param {object} message */
const send = (message) => worker?.postMessage(JSON.stringify(message));

/** @param {Message} message */
function receive(message) {
  if (message.kind === "progress") {
    step = { text: message.step, done: message.done, wait: message.wait ?? "" };
    if (flight?.kind === "ask") wait(flight.request); // it goes on: no hang
    tell();
  } else if (message.kind === "ready") {
    phase = "ready";
    message.packages?.forEach((/** @type {string} */ name) => loaded.add(name));
    performance.measure?.("engine-start", { start: performance.now() - message.ms.all, duration: message.ms.all, detail: { ...message.ms, again: message.again } });
    tell();
    pump();
  } else if (message.kind === "failed" && message.id === undefined) {
    died(message.text);
  } else if (flight && message.id === flight.id) {
    landed(message, flight);
  }
}

/**
 * @param {Message} message
 * @param {Flight} landing
 */
function landed(message, landing) {
  clearTimeout(limit);
  flight = null;
  if (landing.kind === "load") gotPackages(message, landing.needs);
  if (message.kind === "reply") deaths = 0;
  tell();
  if (landing.kind === "ask" && !answered(message, landing)) return;
  pump();
}

/**
 * Hands on what came back, unless the numbers have changed meanwhile; false when the page is loaded again.
 * @param {Message} message
 * @param {{ key: Key, request: Request }} landing
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
  if (message.kind === "loaded") {
    needs.forEach((name) => loaded.add(name));
    return;
  }
  edition.renewIfNew();
  needs.forEach((name) => needed.delete(name));
  for (const [key, request] of [...waiting]) {
    if (!request.needs.some((name) => needs.includes(name))) continue;
    waiting.delete(key);
    request.onTrouble("fault", message.text);
  }
}

/** @param {Iterable<string>} names */
const notLoaded = (names) => [...names].filter((name) => !loaded.has(name));

/**
 * @param {Key} key
 * @param {Request} request
 */
export function ask(key, request) {
  waiting.set(key, request);
  request.needs.forEach((name) => needed.add(name));
  if (phase === "off") spawn();
  else pump();
}

/** @param {Key} key */
export function forget(key) {
  waiting.delete(key);
}

/** @param {Key} key */
export const isWaiting = (key) => waiting.has(key) || (flight?.kind === "ask" && flight.key === key);

function pump() {
  if (phase !== "ready" || flight) return;
  const id = ++lastId;
  const plain = [...waiting].find(([, request]) => !notLoaded(request.needs).length);
  if (plain) {
    const [key, request] = plain;
    waiting.delete(key);
    flight = { id, kind: "ask", key, request };
    step = { text: "", done: 0, wait: "" };
    send({ id, kind: "ask", request: request.body() });
    wait(request);
    tell();
    return;
  }
  const needs = notLoaded(needed);
  if (!needs.length) return;
  flight = { id, kind: "load", needs };
  send({ id, kind: "load", needs });
}

/** The limit begins anew. @param {Request} request */
function wait(request) {
  clearTimeout(limit);
  limit = setTimeout(hung, (request.seconds ?? LIMIT_SECONDS) * 1000);
}

function hung() {
  if (flight?.kind !== "ask") return;
  const { request } = flight;
  spawn();
  request.onTrouble("hang", `no answer within ${request.seconds ?? LIMIT_SECONDS} seconds`);
}

export function stop() {
  const dropped = [...waiting.values()];
  if (flight?.kind === "ask") dropped.push(flight.request);
  waiting.clear();
  spawn();
  for (const request of dropped) request.onTrouble("stopped", "");
}

/**
 * It is started again, with what it was working on. What two workers died of is dropped, and the page says so; a third
 * one answers the rest. One that dies twice without being asked anything is not started again.
 * @param {string} text
 */
async function died(text) {
  if (flight?.kind === "ask") return diedOf(flight, text);
  deaths += 1;
  const neverCame = phase === "starting";
  end();
  if (neverCame) {
    phase = "starting"; // nobody else starts one meanwhile
    if (await edition.renewIfNew()) return; // its files may have gone with a former edition
    if (worker) return; // somebody has pressed a button
  }
  if (deaths < 2) {
    spawn();
    return;
  }
  phase = "failed";
  failure = text;
  tell();
}

/**
 * @param {{ key: Key, request: Request }} asked
 * @param {string} text
 */
function diedOf({ key, request }, text) {
  const again = !ended.has(request);
  ended.add(request);
  if (again && !waiting.has(key)) waiting.set(key, request);
  spawn();
  if (!again && !waiting.has(key)) request.onTrouble("deaths", text);
}

export function tryAgain() {
  deaths = 0;
  failure = "";
  spawn();
}
