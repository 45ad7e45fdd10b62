// Finds the sheets and the exercises of a page, and of each page that instant navigation brings.

import * as engine from "./engine.mjs";
import { reachWideTables } from "./scroll.mjs";
import { Sheet } from "./sheet.mjs";
import "./terms.mjs";
import { openTraining } from "./training.mjs";

let open = [];

const whenIdle = (work) =>
  "requestIdleCallback" in window ? requestIdleCallback(work, { timeout: 2000 }) : setTimeout(work, 200);

function arrived() {
  whenIdle(async () => (await import("./offline.mjs")).arrived());
  for (const one of open) one.close();
  open = [...[...document.querySelectorAll("section.sheet")].map((section) => new Sheet(section)), ...openTraining()];
  papers();
  reachWideTables();
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
  if (document.querySelector("section.paper")) (await import("./paper.mjs")).openPapers();
}

// A page brought back whole by the browser's own "back" may hold an old answer about a vessel.
addEventListener("pageshow", (event) => {
  if (!event.persisted) return;
  for (const sheet of open) if (sheet.results?.guarded) sheet.clear(sheet.section.querySelector("[data-action=clear]"));
});

if (window.document$) window.document$.subscribe(arrived);
else arrived();
