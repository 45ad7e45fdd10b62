// One worker a visit, kept across the pages. One request is in flight; of each sheet only the newest waits.

import * as edition from "../edition/edition.mjs";

export const LIMIT_SECONDS = 10; // for one answer; the page names it when it is passed

let worker = null;
let phase = "off"; // off, starting, ready, failed
let step = { text: "", done: 0 };
let failure = "";
let deaths = 0; // since the last answer
let lastId = 0;
let flight = null;
let limit = 0;
const waiting = new Map(); // sheet -> its newest request
const needed = new Set();
const loaded = new Set();
const listeners = new Set();

export function subscribe(listener) {
  listeners.add(listener);
  listener(state());
  return () => listeners.delete(listener);
}

export function state() {
  return { phase, step: step.text, done: step.done, failure, working: flight?.kind === "ask" ? flight.key : null };
}

function tell() {
  const now = state();
  for (const listener of [...listeners]) listener(now);
}

// Start when there is something to start for; asking twice does nothing.
export function start(needs = []) {
  needs.forEach((name) => needed.add(name));
  if (phase === "off") spawn();
  else pump();
}

function spawn() {
  end();
  loaded.clear();
  phase = "starting";
  step = { text: "Fetching the engine", done: 0 };
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

const send = (message) => worker.postMessage(JSON.stringify(message));

function receive(message) {
  if (message.kind === "progress") {
    step = { text: message.step, done: message.done };
    tell();
  } else if (message.kind === "ready") {
    phase = "ready";
    message.packages?.forEach((name) => loaded.add(name));
    performance.measure?.("engine-start", { start: performance.now() - message.ms.all, duration: message.ms.all, detail: { ...message.ms, again: message.again } });
    tell();
    pump();
  } else if (message.kind === "failed" && message.id === undefined) {
    died(message.text);
  } else if (flight && message.id === flight.id) {
    landed(message);
  }
}

function landed(message) {
  const { key, request, kind, needs } = flight;
  clearTimeout(limit);
  flight = null;
  if (kind === "load") gotPackages(message, needs);
  if (message.kind === "reply") deaths = 0;
  tell();
  if (message.kind === "reply" && !edition.ofOurCalculators(message.calculators)) {
    request.onTrouble("fault", "the calculator is not of the same edition as this page");
    edition.renew();
    return;
  }
  if (kind === "ask" && !waiting.has(key)) {
    if (message.kind === "reply") request.onReply(message.reply);
    else request.onTrouble("fault", message.text);
  }
  pump();
}

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

const notLoaded = (names) => [...names].filter((name) => !loaded.has(name));

// `request` is {body, needs, onReply(reply), onTrouble(kind, text), seconds}; kinds: hang, stopped, fault. A large book may
// take more seconds than one answer.
export function ask(key, request) {
  waiting.set(key, request);
  request.needs.forEach((name) => needed.add(name));
  if (phase === "off") spawn();
  else pump();
}

export function forget(key) {
  waiting.delete(key);
}

export const isWaiting = (key) => waiting.has(key) || flight?.key === key;

function pump() {
  if (phase !== "ready" || flight) return;
  const id = ++lastId;
  const plain = [...waiting].find(([, request]) => !notLoaded(request.needs).length);
  if (plain) {
    const [key, request] = plain;
    waiting.delete(key);
    flight = { id, kind: "ask", key, request };
    send({ id, kind: "ask", request: request.body() });
    limit = setTimeout(hung, (request.seconds ?? LIMIT_SECONDS) * 1000);
    tell();
    return;
  }
  const needs = notLoaded(needed);
  if (!needs.length) return;
  flight = { id, kind: "load", needs };
  send({ id, kind: "load", needs });
}

function hung() {
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

// Once it is started again, with what it was working on; the second time in a row the page says so.
async function died(text) {
  deaths += 1;
  if (flight?.kind === "ask" && !waiting.has(flight.key)) waiting.set(flight.key, flight.request);
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

export function tryAgain() {
  deaths = 0;
  failure = "";
  spawn();
}
