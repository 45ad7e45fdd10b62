// A term shows its meaning under the pointer and the focus by style alone. Here is what a finger and Escape need:
// the first tap shows it and the second follows the link; Escape hides it until the pointer or the focus has left.

/** @type {Element | null} */
let open = null;
let finger = false;

/** @param {Element | null} term */
function show(term) {
  open?.classList.remove("open");
  open = term;
  open?.classList.add("open");
}

addEventListener("pointerdown", (event) => { finger = event.pointerType !== "mouse"; }, true);

addEventListener("click", (event) => {
  const target = event.target instanceof Element ? event.target : null;
  const term = target?.closest(".term") ?? null;
  if (!term) return show(null);
  if (!finger || term === open || !target?.closest("a")) return;
  event.preventDefault();
  event.stopImmediatePropagation(); // else the theme's instant navigation follows the link
  show(term);
}, true);

addEventListener("keydown", (event) => {
  finger = false;
  if (event.key !== "Escape") return;
  show(null);
  for (const term of document.querySelectorAll(".term:is(:hover, :focus-within)")) {
    term.classList.add("shut");
    const leave = () => term.classList.remove("shut");
    term.addEventListener("pointerleave", leave, { once: true });
    term.addEventListener("focusout", leave, { once: true });
  }
}, true);
