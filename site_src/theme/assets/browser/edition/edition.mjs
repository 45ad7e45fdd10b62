// One edition a visit: the page in view, the scripts and the calculators come from one build. A page of another build, a
// file that is no longer there, or a reply of other calculators has the page loaded again with everything typed kept.

import { button, element } from "../shared/element.mjs";
import { siteRoot } from "../shared/root.mjs";

/**
 * What a part of the page carries over a reload: `words` is what was typed in words, by question; the rest is its own.
 * @typedef {{ words?: Record<string, string> | string[], [more: string]: any }} Typed
 */

/** @typedef {{ from: string, path: string, typed: Record<string, Typed>, times: number[] }} Carried */

const KEY = `${siteRoot.pathname}carried`;
const PATIENCE_MS = 4000; // for the look at what a reload would bring, and for lines that are being written
const MOST_A_MINUTE = 3; // a server that gives now one edition and now another must not keep a page loading for ever

export const mark = document.documentElement.dataset.edition ?? ""; // of the page that brought these scripts
const inView = () => {
  const meta = document.head.querySelector("meta[name=edition]");
  return meta instanceof HTMLMetaElement ? meta : null;
};

export const inViewIsOurs = () => (inView()?.content ?? "") === mark;
export const calculators = () => inView()?.dataset.calculators ?? ""; // their mark
/** @param {string} theirs */
export const ofOurCalculators = (theirs) => theirs === inView()?.dataset.calculators;

// What is carried over a reload is taken out at once, whatever becomes of it.
const taken = takeOut();
/** @type {Record<string, Typed>} */
const carried = taken?.path === location.pathname ? taken.typed : {};
let news = taken && taken.path === location.pathname ? arrival(taken) : "";

/** @returns {Carried | null} */
function takeOut() {
  try {
    const text = sessionStorage.getItem(KEY);
    sessionStorage.removeItem(KEY);
    return JSON.parse(text ?? "null");
  } catch {
    return null;
  }
}

/** @param {Carried} taken */
function arrival({ from, typed }) {
  const first = from === mark ? "This page was loaded again." : "The handbook was renewed while this page was open: this is the new edition.";
  return Object.keys(typed).length ? `${first} What you had typed is kept.` : first;
}

/**
 * What a part of the page had.
 * @param {string} part
 * @returns {any}
 */
export const carriedFor = (part) => carried[part] ?? null;

/**
 * What the next page that is drawn takes up, in place of what was carried before.
 * @param {Record<string, Typed>} typed
 */
export function carryOn(typed) {
  for (const part of Object.keys(carried)) delete carried[part];
  Object.assign(carried, typed);
}

/**
 * Once a part has found its place again that is said, with the words of what found none.
 * @param {string} part
 * @param {string[]} [left]
 */
export function placed(part, left = []) {
  carried[part] = { words: left };
}

/** @type {() => Record<string, Typed>} */
let gather = () => ({});
/** @param {() => Record<string, Typed>} collect gives what is typed, by part */
export const carries = (collect) => (gather = collect);

/** @type {Set<Promise<unknown>>} */
const held = new Set();
/**
 * A reload waits for what is being written.
 * @template Done
 * @param {Promise<Done>} work
 */
export function hold(work) {
  /** @type {Promise<unknown>} */
  const done = work.catch(() => {}).finally(() => held.delete(done));
  held.add(done);
  return work;
}

/** @param {number} ms */
const pause = (ms) => new Promise((done) => setTimeout(done, ms));

/** @param {number[]} times */
function put(times) {
  const typed = gather();
  try {
    sessionStorage.setItem(KEY, JSON.stringify({ from: mark, path: location.pathname, typed, times }));
    return true;
  } catch {
    return !Object.keys(typed).length;
  }
}

/** @type {Promise<boolean> | null} */
let renewing = null;

// Loads the page again; false when it must not.
export async function renew() {
  const done = await (renewing ??= begin());
  if (!done) renewing = null; // the next page tries again
  return done;
}

async function begin() {
  const times = (taken?.times ?? []).filter((time) => Date.now() - time < 60_000);
  if (times.length >= MOST_A_MINUTE) {
    say("The site is being renewed just now, and its parts do not fit together. Wait a few minutes, then load this page again. Until then nothing is worked out here.");
    return false;
  }
  times.push(Date.now());
  await Promise.race([Promise.all(held), pause(PATIENCE_MS)]);
  if (!put(times)) {
    say("The handbook has a new edition, and this page belongs to the former one. This browser cannot carry over what you typed: write it down, then load the page again.", { again: true });
    return false;
  }
  addEventListener("pagehide", () => put(times)); // what is typed until the new page comes
  location.reload();
  return true;
}

// The edition that a reload would bring: from the server, or from the copy kept on the device.
async function next() {
  try {
    const response = await fetch(location.pathname, { signal: AbortSignal.timeout(PATIENCE_MS) });
    return /<html[^>]* data-edition="([0-9a-f]+)"/.exec(await response.text())?.[1] ?? "";
  } catch {
    return "";
  }
}

export async function renewIfNew() {
  const coming = await next();
  return Boolean(coming) && coming !== mark && renew();
}

/**
 * For a part of the page that comes on its own: when it does not come, the edition may have gone.
 * @template Part
 * @param {() => Promise<Part>} part
 */
export async function bring(part) {
  try {
    return await part();
  } catch (fault) {
    console.warn(fault);
    if (!(await renewIfNew())) say("A part of this page could not be fetched, so some of it does not work. What you typed here is kept when you load the page again.", { again: true });
    return null;
  }
}

/**
 * One line above the page, until the reader has read it or leaves.
 * @param {string} text
 * @param {{ again?: boolean }} [offer]
 */
export function say(text, { again = false } = {}) {
  document.querySelector(".edition-note")?.remove();
  const note = element("div", "", { class: "edition-note", role: "status" });
  const pressed = button(again ? "Load the page again" : "I have read this");
  pressed.addEventListener("click", () => (again ? renew() : note.remove()));
  note.append(element("p", text), pressed);
  putOnTop(note);
}

/** @param {HTMLElement} box */
export function putOnTop(box) {
  const content = document.querySelector(".md-content__inner");
  const head = content?.querySelector("h1");
  if (head) head.after(box);
  else content?.prepend(box);
}

// Once every part has had its turn: what has happened, and what has found no place.
export function tell() {
  const lost = Object.values(carried).flatMap(({ words }) => Object.values(words ?? {}));
  if (lost.length) news = `${news} This page has no place any more for: ${lost.join("; ")}.`;
  if (news) say(news);
  news = "";
}
