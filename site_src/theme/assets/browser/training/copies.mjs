// Copies of what stands in a page, for the projector and for the trainer's notes.

export const FOR_TRAINER = ".for-trainer, .listen-for, .to-show";
export const LEFT_OUT = ".headerlink, .term-note, .exercises, .results-kept, .coming-back, .sources, .plan, .projector-offer, .notes-offer, .screen-notes, .sign-off, .hand-out, .hand-out-offer, .wall-offer, .plate details, script, style";

/**
 * A copy that may stand beside the page: without names that the page has already, without what is the trainer's, and
 * without links, so that a stray press does not leave the page.
 * @template {Element} Kind
 * @param {Kind} node
 */
export function copy(node) {
  const made = /** @type {Kind} */ (node.cloneNode(true));
  made.querySelectorAll(`${LEFT_OUT}, ${FOR_TRAINER}, section.sheet, section.cases`).forEach((one) => one.remove());
  for (const one of [made, ...made.querySelectorAll("[id]")]) one.removeAttribute("id");
  made.querySelectorAll("a").forEach((link) => link.replaceWith(...link.childNodes));
  made.querySelectorAll("details").forEach((one) => { one.open = true; });
  return made;
}

/** @param {Element} node */
export const isDrawn = (node) => node.matches("figure.drawing") || Boolean(node.querySelector("figure"));

/**
 * The same without its drawing, which had a screen of its own.
 * @template {Element} Kind
 * @param {Kind} node a copy
 */
export function withoutDrawing(node) {
  node.querySelectorAll("figure").forEach((one) => one.remove());
  return node;
}
