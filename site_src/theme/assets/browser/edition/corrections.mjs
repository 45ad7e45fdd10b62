// Corrections that concern safety: heard of at each contact with the site, told once on each device, and heeded before
// what was kept.

import * as edition from "./edition.mjs";
import { button, element } from "../shared/element.mjs";
import { siteRoot } from "../shared/root.mjs";
import { hear, heard, overruling } from "../offline/copy.mjs";

const READ = `${siteRoot.pathname}corrections-read`;
const GRAVEST_FIRST = ["DANGER", "WARNING", "CAUTION"];
const scope = siteRoot.href;
const inThisEdition = (document.documentElement.dataset.corrections ?? "").split(" ").filter(Boolean);

/** @returns {string[] | null} ids */
function read() {
  try {
    return JSON.parse(localStorage.getItem(READ) ?? "null");
  } catch {
    return null;
  }
}

/** @param {string[]} ids */
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

/**
 * What the site says at a contact. True when the page is loaded again.
 * @param {import("../offline/copy.mjs").Correction[]} corrections
 * @param {boolean} kept whether this device has a copy
 * @param {() => Promise<void>} changed
 */
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
/** @returns {Promise<import("../offline/copy.mjs").Correction[]>} */
export const heardBefore = () => overruling(scope, { corrections: inThisEdition }).catch(() => []); // nothing can be kept here

// Without a contact: what is not read so far, whether this edition has it or not.
export const recall = async () => tell(await heard(scope).catch(() => []));

/** @param {import("../offline/copy.mjs").Correction[]} all */
function tell(all) {
  document.querySelector(".correction")?.remove();
  const corrections = all.filter(({ id }) => !read()?.includes(id));
  if (!corrections.length) return;
  const word = GRAVEST_FIRST.find((one) => corrections.some((correction) => correction.word === one)) ?? GRAVEST_FIRST[0];
  const box = element("div", "", { class: `hazard hazard-${word.toLowerCase()} correction`, role: "alert" });
  box.append(element("p", word, { class: "hazard-word" }));
  for (const { day, where, wrong, now } of corrections) {
    const words = [`This handbook was wrong. Correction of ${day}. It concerns: ${where.join("; ")}.`, wrong, `Now: ${now}`];
    box.append(...words.map((text) => element("p", text)));
  }
  const heeded = button("I have read this");
  heeded.addEventListener("click", () => {
    noteRead(corrections.map(({ id }) => id));
    box.remove();
  });
  box.append(heeded);
  edition.putOnTop(box);
}
