// Corrections that concern safety: heard of at each contact with the site, told once on each device, and heeded before
// what was kept.

import * as edition from "./edition.mjs";
import { siteRoot } from "./root.mjs";
import { hear, heard, overruling } from "./store.mjs";

const READ = `${siteRoot.pathname}corrections-read`;
const GRAVEST_FIRST = ["DANGER", "WARNING", "CAUTION"];
const scope = siteRoot.href;
const inThisEdition = (document.documentElement.dataset.corrections ?? "").split(" ").filter(Boolean);

function read() {
  try {
    return JSON.parse(localStorage.getItem(READ));
  } catch {
    return null;
  }
}

function noteRead(ids) {
  try {
    localStorage.setItem(READ, JSON.stringify([...new Set([...(read() ?? []), ...ids])]));
  } catch {
    // told again next time
  }
}

// Who comes for the first time has read nothing that was wrong.
if (!Array.isArray(read())) noteRead(inThisEdition);

// Whether there is something to tell that only the site can say.
export const isToBeTold = () => inThisEdition.some((id) => !read()?.includes(id));

// What the site says at a contact; `kept` is whether this device has a copy. True when the page is loaded again.
export async function heed(corrections, kept, changed) {
  const unknown = corrections.filter(({ id }) => !inThisEdition.includes(id));
  if (unknown.length && kept) {
    const before = (await heardBefore()).map(({ id }) => id);
    await hear(scope, corrections);
    await changed();
    if (unknown.some(({ id }) => !before.includes(id))) return edition.renew();
  } else if (unknown.length) {
    return edition.renew();
  }
  tell(corrections);
  return false;
}

// What was heard of at an earlier contact and this edition does not have in it.
export const heardBefore = () => overruling(scope, { corrections: inThisEdition }).catch(() => []); // nothing can be kept here

// Without a contact: what is not read so far, whether this edition has it or not.
export const recall = async () => tell(await heard(scope).catch(() => []));

function tell(all) {
  document.querySelector(".correction")?.remove();
  const corrections = all.filter(({ id }) => !read()?.includes(id));
  if (!corrections.length) return;
  const word = GRAVEST_FIRST.find((one) => corrections.some((correction) => correction.word === one));
  const box = document.createElement("div");
  box.className = `hazard hazard-${word.toLowerCase()} correction`;
  box.setAttribute("role", "alert");
  const line = (text, style = "") => {
    const made = box.appendChild(document.createElement("p"));
    made.textContent = text;
    made.className = style;
  };
  line(word, "hazard-word");
  for (const { day, where, wrong, now } of corrections) {
    line(`This handbook was wrong. Correction of ${day}. It concerns: ${where.join("; ")}.`);
    line(wrong);
    line(`Now: ${now}`);
  }
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = "I have read this";
  button.addEventListener("click", () => {
    noteRead(corrections.map(({ id }) => id));
    box.remove();
  });
  box.append(button);
  edition.putOnTop(box);
}
