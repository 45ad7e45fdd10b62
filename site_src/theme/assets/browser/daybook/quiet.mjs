// The moment when nobody is waited for: what was drawn is on the screen, and nothing has been typed or tapped for a while.
// On a small tablet Python takes from the same processor as the page.

const STILL_MS = 300;
const IDLE_MS = 1000; // a page that is never idle goes on all the same

let last = -Infinity;
for (const kind of ["pointerdown", "keydown", "input"]) addEventListener(kind, () => (last = performance.now()), { capture: true, passive: true });

/** @param {number} ms */
const pause = (ms) => new Promise((done) => setTimeout(done, ms));
/** What was drawn is on the screen. */
export const painted = () => Promise.race([new Promise((done) => requestAnimationFrame(() => setTimeout(done))), pause(document.hidden ? 0 : IDLE_MS)]);
const idle = () => new Promise((done) => ("requestIdleCallback" in self ? requestIdleCallback(done, { timeout: IDLE_MS }) : setTimeout(done)));

/** @param {number} [still] so long nothing was typed or tapped */
export async function quiet(still = STILL_MS) {
  await painted();
  await idle();
  for (let left = last + still - performance.now(); left > 0; left = last + still - performance.now()) {
    await pause(left);
    await idle();
  }
}
