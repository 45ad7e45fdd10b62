// A message that appears while a finger is down moves what the finger is on, and the click misses. So it waits.

const LONGEST_MS = 700; // a press without a click, such as the start of a scroll

let down = -Infinity;

addEventListener("pointerdown", () => (down = performance.now()), { capture: true });
addEventListener("click", () => (down = -Infinity), { capture: true });

/**
 * Does the work at once or, in the middle of a press, after its click.
 * @param {() => unknown} work
 */
export function afterPress(work) {
  if (performance.now() - down > LONGEST_MS) {
    work();
    return;
  }
  const once = () => {
    removeEventListener("click", soon, { capture: true });
    clearTimeout(timer);
    work();
  };
  const soon = () => setTimeout(once); // what the click itself does comes first
  const timer = setTimeout(once, LONGEST_MS);
  addEventListener("click", soon, { capture: true });
}
