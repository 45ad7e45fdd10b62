// The theme's script takes as long as all the rest on a small tablet. So it waits where a reader does: on the day-book's
// pages until what is kept of the book is on the screen, on a sheet until the answer that was come for is there. The page
// names it by a link then; elsewhere it is a script as ever.

const PATIENCE_MS = 800;

/** @type {(work: Promise<unknown>) => void} */
let begin = () => {};
const looked = new Promise((done) => (begin = done));

/** What goes before the theme. @param {Promise<unknown>} work */
export const goesBefore = (work) => begin(work);

/** Nobody waits for anything. */
export const mayCome = () => begin(Promise.resolve());

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
