// On a screen that is broader than high, the lower part of a tall plate stands beside its upper part.

const APART = 24; // units of the plate
let count = 0;

/**
 * @param {string} name
 * @param {Record<string, string | number>} attributes
 */
function made(name, attributes) {
  const one = document.createElementNS("http://www.w3.org/2000/svg", name);
  for (const [key, value] of Object.entries(attributes)) one.setAttribute(key, String(value));
  return one;
}

/**
 * A part of the plate, moved to its place; what lies outside of it is not seen.
 * @param {Element[]} drawn
 * @param {{ top: number, high: number, wide: number, left: number }} where
 */
function moved(drawn, { top, high, wide, left }) {
  const id = `unfolded-${(count += 1)}`;
  const clip = made("clipPath", { id });
  clip.append(made("rect", { x: 0, y: top, width: wide, height: high }));
  const group = made("g", { "clip-path": `url(#${id})` });
  group.append(...drawn);
  const place = made("g", { transform: `translate(${left} ${-top})` });
  place.append(clip, group);
  return place;
}

/** @param {SVGElement} plate a copy, with the height at which it may be parted */
export function unfold(plate) {
  const [, , wide = 0, high = 0] = (plate.getAttribute("viewBox") ?? "").split(" ").map(Number);
  const fold = Number(plate.dataset.fold);
  delete plate.dataset.fold;
  const drawn = [...plate.children].filter((one) => !one.matches("title, desc, defs"));
  const again = drawn.map((one) => /** @type {Element} */ (one.cloneNode(true)));
  plate.append(
    moved(drawn, { top: 0, high: fold, wide, left: 0 }),
    moved(again, { top: fold, high: high - fold, wide, left: wide + APART }),
  );
  plate.setAttribute("viewBox", `0 0 ${2 * wide + APART} ${Math.max(fold, high - fold)}`);
}
