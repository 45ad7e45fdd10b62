// On the day-book's pages the theme's script waits until what is kept of the book is on the screen: on a small tablet it
// takes as long as all the rest. The page names it by a link; elsewhere it is a script as ever.

const PATIENCE_MS = 800;

/** @type {(work: Promise<unknown>) => void} */
let begin = () => {};
const looked = new Promise((done) => (begin = done));

/** What goes before the theme. @param {Promise<unknown>} work */
export const goesBefore = (work) => begin(work);

/** @param {number} ms */
const pause = (ms) => new Promise((done) => setTimeout(done, ms));

/** @returns {Promise<void> | null} once the theme is up, where it comes late */
export function lateTheme() {
  const link = document.querySelector("link[data-theme]");
  return link instanceof HTMLLinkElement ? bring(link.href) : null;
}

/** @param {string} address */
async function bring(address) {
  await Promise.race([looked, pause(PATIENCE_MS)]);
  if (!document.hidden) await Promise.race([new Promise((done) => requestAnimationFrame(() => setTimeout(done))), pause(PATIENCE_MS)]);
  const script = document.createElement("script");
  script.src = address;
  await new Promise((done) => {
    script.onload = done;
    script.onerror = done;
    document.head.append(script);
  });
  document.dispatchEvent(new Event("DOMContentLoaded", { bubbles: true })); // which the theme waits for, and which has been
}
