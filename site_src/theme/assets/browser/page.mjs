// Finds the sheets and the exercises of a page, and of each page that instant navigation brings.

import { bookIsThere, isThere } from "./daybook/there.mjs";
import * as edition from "./edition/edition.mjs";
import * as engine from "./engine/engine.mjs";
import { offerOnTop } from "./engine/more.mjs";
import { offerColours } from "./reading/colours.mjs";
import { keepFocus } from "./reading/focus.mjs";
import { menuByKeys } from "./reading/menu-keys.mjs";
import { besideThePage } from "./reading/menus.mjs";
import { reachWideTables } from "./reading/scroll.mjs";
import { Sheet } from "./sheet/sheet.mjs";
import "./reading/terms.mjs";
import { around, part, parts } from "./shared/element.mjs";
import { lateTheme, mayCome } from "./shared/theme.mjs";
import { openTraining } from "./training/training.mjs";

/**
 * A part of the page that a script works on.
 * @typedef {object} Part
 * @property {() => void} close
 * @property {string[]} needs packages of the engine
 * @property {string} [sheet] which one it is
 * @property {string} [carriedAs] what it is called when the page is loaded again with what was typed
 * @property {() => edition.Typed | null} [typed]
 * @property {Promise<unknown>} [ready] once what it holds has been read
 */

/** @type {Part[]} */
let open = [];
let visits = 0;

/** @param {() => unknown} work */
const whenIdle = (work) =>
  "requestIdleCallback" in window ? requestIdleCallback(work, { timeout: 2000 }) : setTimeout(work, 200);

function typedIn() {
  /** @type {Record<string, edition.Typed>} */
  const typed = {};
  for (const one of open) {
    const own = one.carriedAs && one.typed?.();
    if (one.carriedAs && own) typed[one.carriedAs] = own;
  }
  return typed;
}
edition.carries(typedIn);

// The theme fetches a page again at the first link within it, and draws it anew: what was typed goes over to the new one.
let here = { path: "", search: "" };
function carryWithin() {
  const { pathname: path, search } = location;
  const again = path === here.path && (!search || search === here.search);
  if (here.path) edition.carryOn(again ? typedIn() : {});
  here = { path, search };
  return again;
}

function arrived() {
  const again = carryWithin();
  for (const one of open) one.close();
  open = [];
  besideThePage();
  menuByKeys();
  engine.turned();
  if (!edition.inViewIsOurs()) return void edition.renew(); // new words are not answered by old scripts
  whenIdle(async () => (await edition.bring(() => import("./offline/offline.mjs")))?.arrived());
  open = [...parts(document, "section.sheet").map((section) => new Sheet(section)), ...openTraining()];
  keepFocus(again);
  papers();
  forTheWall();
  reachWideTables();
  Promise.all([openDayBooks(++visits), openPractice(visits), openCompetence(visits)]).then(edition.tell);
  if (!open.length) return;
  whenIdle(() => open.forEach((one) => engine.start(one.needs, one.sheet)));
}

// The theme only moves the view; the next Tab has to go on from there too.
document.addEventListener("click", (event) => {
  const skip = around(event.target, ".md-skip");
  const goal = skip instanceof HTMLAnchorElement && document.getElementById(decodeURIComponent(skip.hash.slice(1)));
  if (!goal) return;
  goal.tabIndex = -1;
  setTimeout(() => goal.focus());
});

async function papers() {
  if (document.querySelector("section.paper")) (await edition.bring(() => import("./paper/paper.mjs")))?.openPapers();
}

async function forTheWall() {
  if (document.querySelector(".wall-offer")) (await edition.bring(() => import("./paper/wall.mjs")))?.openWall();
}

// The practice batch comes only on its own pages.
/** @param {number} visit */
async function openPractice(visit) {
  const practice = document.querySelector("[data-practice]") && (await edition.bring(() => import("./practice/practice.mjs")));
  if (practice && visit === visits) open.push(...practice.openPractice());
}

// The record of competence comes only on its own pages.
/** @param {number} visit */
async function openCompetence(visit) {
  const record = document.querySelector("[data-competence]") && (await edition.bring(() => import("./training/record/competence.mjs")));
  if (record && visit === visits) open.push(...record.openCompetence());
}

// The day-book comes only where there is one: on its own pages, and where a sheet may take a batch's numbers from it.
/** @type {Record<string, () => Promise<false | undefined | (() => Part[])>>} */
const DAY_BOOKS = {
  write: async () => (await edition.bring(() => import("./daybook/daybook.mjs")))?.openDayBook,
  today: async () => ((await isThere("own")) || (await isThere("demo"))) && (await edition.bring(() => import("./daybook/at-home.mjs")))?.openAtHome,
  "hand-over": async () => (await edition.bring(() => import("./daybook/hand-over.mjs")))?.openHandOver,
  codes: async () => (await edition.bring(() => import("./daybook/codes/codes.mjs")))?.openCodes,
  "look-back": async () => (await edition.bring(() => import("./daybook/back.mjs")))?.openLookingBack,
};

/** @param {number} visit */
async function openDayBooks(visit) {
  const [page] = parts(document, "[data-day-book]");
  if (!page) return lend(visit);
  const opens = await DAY_BOOKS[page.dataset.dayBook ?? ""]?.();
  if (!opens || visit !== visits) return;
  const books = opens();
  open.push(...books);
  await Promise.all(books.map((book) => book.ready));
}

/** @param {number} visit */
async function lend(visit) {
  const sheets = open.filter((one) => one instanceof Sheet);
  const lending = sheets.length && (await bookIsThere()) && (await edition.bring(() => import("./daybook/lend.mjs")));
  if (visit !== visits) return;
  if (lending) lending.lendTo(sheets);
  else for (const sheet of sheets) sheet.lending.settle("");
}

// A page brought back whole by the browser's own "back" may hold an old answer about a vessel.
addEventListener("pageshow", (event) => {
  if (!event.persisted) return;
  for (const sheet of open) if (sheet instanceof Sheet && sheet.results.guarded) sheet.filling.clear(part(sheet.section, "[data-action=clear]"));
});

offerOnTop();
offerColours();
const late = lateTheme();
const sheetFirst = late !== null && document.querySelector("section.sheet") !== null;
if (sheetFirst) {
  arrived();
  if (!document.querySelector("[data-results][data-waiting]")) mayCome();
}

/** The theme tells of each page, of that in view too. */
function follow() {
  let known = sheetFirst;
  if (window.document$) window.document$.subscribe(() => (known ? (known = false) : arrived()));
  else if (!known) arrived();
}
if (late) late.then(follow);
else follow();
