// Draws the three places that speak of use without a network: a line in the footer, an offer under the first answer,
// and the panel on the page about it.

import { button, element, part, parts } from "../shared/element.mjs";
import { saidTime } from "../shared/moment.mjs";

/** @typedef {import("./copy.mjs").Copy} Copy */
/** @typedef {{ version: string, list: string, bytes: number, carried: number, corrections?: import("./copy.mjs").Correction[] }} Offer what the site has */
/** @typedef {{ name: Work, done: number, all: number, stop: AbortController }} Working */
/** @typedef {"keep" | "mend" | "remove"} Work */

/**
 * How things stand.
 * @typedef {object} Now
 * @property {"yes" | "address" | "browser"} able whether this device can keep anything, or what is in the way
 * @property {Copy | null} copy
 * @property {Offer | null} offer
 * @property {Offer | null} newer
 * @property {Working | null} work
 * @property {string} said
 * @property {boolean} declined
 * @property {boolean} answered
 * @property {number} lost of the files of the copy
 */

/** @typedef {Record<Work | "stop" | "decline", () => unknown>} Actions */

/** @param {number} bytes */
const megabytes = (bytes) => `${Math.max(1, Math.round(bytes / 1e6))} MB`;
/** @param {string} version */
const short = (version) => version.slice(0, 8);

/**
 * @param {string} text
 * @param {string} action
 * @param {() => unknown} act
 */
function acting(text, action, act) {
  const made = button(text, { "data-offline-action": action });
  made.addEventListener("click", act);
  return made;
}

const CANNOT = {
  address:
    "This address cannot be kept for use without a network. Browsers allow it only for https:// addresses and for a site on the device itself (localhost), not for an http:// address on a local network.",
  browser: "This browser cannot keep the handbook for use without a network. A private window may be why.",
};
// No page can tell whether its window is a private one, so it is said to everybody, before anything is kept.
const PRIVATE = "In a private window it is gone when the last such window closes.";
const WORKING = { keep: "Saving", mend: "Checking", remove: "Removing" };

/** @param {Now} now */
function standing(now) {
  if (now.able !== "yes") return CANNOT[now.able];
  if (!now.copy) return "Not saved: this handbook needs a network.";
  const day = saidTime(new Date(now.copy.at));
  const fault = now.lost ? ` ${now.lost} files of it are missing: check and mend it.` : "";
  return `Saved for use without a network: version ${short(now.copy.version)}, ${megabytes(now.copy.bytes)}, on ${day}.${fault}`;
}

/**
 * One line is read out when it changes; bytes and bar change many times a second and are not.
 * While work goes on the bar is moved, not drawn anew, so that the focus stays on “Stop”.
 * @param {HTMLElement} place
 * @param {Now} now
 * @param {string} words
 * @param {HTMLElement[]} drawn
 * @param {Actions} actions
 */
function fill(place, now, words, drawn, actions) {
  const line = place.querySelector("[data-offline-state]") ?? element("p", "", { role: "status", "data-offline-state": "" });
  const text = now.work ? `${WORKING[now.work.name]}${now.work.stop.signal.aborted ? ", stopping" : ""} …` : words;
  if (line.textContent !== text) line.textContent = text;
  if (!now.work) {
    place.replaceChildren(line, ...drawn);
    return;
  }
  const { name, done, all } = now.work;
  let bar = place.querySelector("progress");
  if (!bar) {
    bar = element("progress", "", { max: "100", "aria-label": WORKING[name] });
    place.replaceChildren(line, bar, element("p", "", { "data-offline-bytes": "" }));
    if (name === "keep") place.append(acting("Stop", "stop", actions.stop));
  }
  bar.value = all ? (100 * done) / all : 0;
  part(place, "[data-offline-bytes]").textContent = all ? `${(done / 1e6).toFixed(1)} of ${(all / 1e6).toFixed(1)} MB` : "";
}

/** @param {Offer} offer */
const keepWords = (offer) => `Keep for use without a network (about ${megabytes(offer.carried)})`;
/**
 * @param {Offer} offer
 * @param {Actions} actions
 */
const keepButton = (offer, actions) => acting(keepWords(offer), "keep", actions.keep);

/**
 * @param {HTMLElement} place
 * @param {Now} now
 * @param {Actions} actions
 */
function drawPanel(place, now, actions) {
  const words = [now.said, standing(now)];
  const drawn = [];
  if (now.able === "yes" && !now.copy && now.offer) {
    const { carried, bytes } = now.offer;
    drawn.push(element("p", `About ${megabytes(carried)} to fetch, less what the browser holds already, and ${megabytes(bytes)} of room on this device.`));
    drawn.push(element("p", PRIVATE), keepButton(now.offer, actions));
  }
  if (now.able === "yes" && !now.copy && !now.offer) words.push("There is no network now, so it cannot be saved now.");
  if (now.newer) {
    drawn.push(element("p", `A newer version is there: ${short(now.newer.version)}. Until you take it, the saved one is shown.`));
    drawn.push(acting("Take the newer version (only what has changed is fetched)", "keep", actions.keep));
  }
  if (now.copy) drawn.push(acting("Check and mend", "mend", actions.mend), acting("Remove it from this device", "remove", actions.remove));
  fill(place, now, words.filter(Boolean).join(" "), drawn, actions);
}

/**
 * @param {Now} now
 * @param {Actions} actions
 */
function drawOffer(now, actions) {
  const [sheet] = parts(document, "section.sheet");
  const [place] = parts(document, "[data-offline-offer]");
  const wanted = now.answered && now.able === "yes" && !now.declined && !now.copy ? now.offer : null;
  if (!sheet || (!place && !wanted)) return;
  if (place && !wanted && !now.work && !now.copy) {
    place.remove();
    return;
  }
  const box = place ?? sheet.appendChild(element("div", "", { class: "offline-offer", "data-offline-offer": "" }));
  const drawn = wanted ? [keepButton(wanted, actions), acting("Not now", "decline", actions.decline), element("p", PRIVATE)] : [];
  fill(box, now, now.copy ? standing(now) : now.said, drawn, actions);
}

/**
 * @param {Now} now
 * @param {string} scope
 */
function drawLine(now, scope) {
  const footer = document.querySelector(".md-footer .colophon");
  if (!footer) return;
  const line = footer.querySelector(".offline-line") ?? footer.appendChild(element("p", "", { class: "offline-line" }));
  const link = line.querySelector("a") ?? element("a", "Use without a network");
  link.href = new URL("reference/offline/", scope).href;
  let words = "";
  if (now.copy) words = now.lost ? "The saved copy is damaged. " : "Saved for use without a network. ";
  if (now.copy && !navigator.onLine) words += "No network: the saved copy is shown. ";
  if (now.newer) words += now.work?.name === "keep" ? "The newer version is being fetched. " : "A newer version is there. ";
  if (line.textContent !== words + link.textContent) line.replaceChildren(words, link);
}

/**
 * @param {Now} now
 * @param {string} scope
 * @param {Actions} actions
 */
export function draw(now, scope, actions) {
  const [panel] = parts(document, "[data-offline-panel]");
  if (panel) drawPanel(panel, now, actions);
  drawOffer(now, actions);
  drawLine(now, scope);
}
