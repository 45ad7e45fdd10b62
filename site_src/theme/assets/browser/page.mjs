// Finds the sheets and the exercises of a page, and of each page that instant navigation brings.

import * as edition from "./edition/edition.mjs";
import * as engine from "./engine/engine.mjs";
import { reachWideTables } from "./reading/scroll.mjs";
import { Sheet } from "./sheet/sheet.mjs";
import "./reading/terms.mjs";
import { openTraining } from "./training/training.mjs";

let open = [];
let visits = 0;

const whenIdle = (work) =>
  "requestIdleCallback" in window ? requestIdleCallback(work, { timeout: 2000 }) : setTimeout(work, 200);

edition.carries(() => Object.fromEntries(open.map((one) => [one.carriedAs, one.typed?.()]).filter(([, typed]) => typed)));

function arrived() {
  for (const one of open) one.close();
  open = [];
  if (!edition.inViewIsOurs()) return void edition.renew(); // new words are not answered by old scripts
  whenIdle(async () => (await edition.bring(() => import("./offline/offline.mjs")))?.arrived());
  open = [...[...document.querySelectorAll("section.sheet")].map((section) => new Sheet(section)), ...openTraining()];
  papers();
  reachWideTables();
  openRecords(++visits).then(edition.tell);
  if (!open.length) return;
  whenIdle(() => open.length && engine.start(open.flatMap((one) => one.needs)));
}

// The theme only moves the view; the next Tab has to go on from there too.
document.addEventListener("click", (event) => {
  const skip = event.target.closest?.(".md-skip");
  const goal = skip && document.getElementById(decodeURIComponent(new URL(skip.href).hash.slice(1)));
  if (!goal) return;
  goal.tabIndex = -1;
  setTimeout(() => goal.focus());
});

async function papers() {
  if (document.querySelector("section.paper")) (await edition.bring(() => import("./paper/paper.mjs")))?.openPapers();
}

// The day-book comes only where there is one, or where a sheet was opened from a batch.
async function openRecords(visit) {
  const page = document.querySelector("[data-day-book]");
  const sheets = open.filter((one) => one instanceof Sheet);
  if (page?.dataset.dayBook === "write") {
    const daybook = await edition.bring(() => import("./daybook/daybook.mjs"));
    if (!daybook || visit !== visits) return;
    const books = daybook.openDayBook();
    open.push(...books);
    await Promise.all(books.map((book) => book.ready));
  } else if (page) {
    const back = await edition.bring(() => import("./daybook/back.mjs"));
    if (back && visit === visits) open.push(...back.openLookingBack());
  } else if (sheets.length && new URLSearchParams(location.search).has("batch")) {
    const keeping = await edition.bring(() => import("./daybook/keep.mjs"));
    if (keeping && visit === visits) keeping.offerKeeping(sheets);
  }
}

// A page brought back whole by the browser's own "back" may hold an old answer about a vessel.
addEventListener("pageshow", (event) => {
  if (!event.persisted) return;
  for (const sheet of open) if (sheet.results?.guarded) sheet.clear(sheet.section.querySelector("[data-action=clear]"));
});

if (window.document$) window.document$.subscribe(arrived);
else arrived();
