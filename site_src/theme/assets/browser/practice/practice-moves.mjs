// What a tap means: the text of a move, or what has to be typed before it.

import { part, parts } from "../shared/element.mjs";

/** @param {string} typed */
const plain = (typed) => typed.trim().replace(",", ".").replace(/\s*(%|°C|cm|min|h|L\/t)$/, "");

/** @param {number} value */
const short = (value) => String(Math.round(value * 100) / 100);

/**
 * @param {HTMLInputElement} box
 * @returns {string} blank where it is right
 */
function wrongWith(box) {
  const label = box.labels?.[0]?.textContent ?? "A number";
  const { low = "", high = "", clock } = box.dataset;
  const typed = plain(box.value);
  const value = Number(typed);
  const inside = typed && /^\d+(\.\d+)?$/.test(typed) && value >= Number(low) && value <= Number(high);
  if (inside && (clock === undefined || value % 100 < 60)) return "";
  if (inside) return `${label}: hours and minutes, such as 0645; the minutes end at 59.`;
  return `${label}: type a number from ${low} to ${high}.`;
}

/**
 * @param {HTMLElement} stage
 * @param {HTMLElement} button
 * @returns {{ move: string } | { wrong: string, box: HTMLElement | null }}
 */
export function moveOf(stage, button) {
  const code = button.dataset.move ?? "";
  const { field, how } = button.dataset;
  if (how === "orders") return ordersOf(stage);
  const box = field ? document.getElementById(field) : null;
  if (!(box instanceof HTMLInputElement)) return { move: code };
  const guess = how === "expected";
  if (!guess && "optional" in box.dataset && !box.value.trim()) return { move: code };
  const wrong = wrongWith(box);
  if (wrong) return { wrong: guess ? `First what you expect. ${wrong}` : wrong, box };
  const value = short(Number(plain(box.value)));
  if (!guess) return { move: `${code}${value}` };
  const sure = stage.querySelector(`[data-sure="${CSS.escape(field ?? "")}"]`);
  const typed = sure instanceof HTMLInputElement ? plain(sure.value) : "";
  if (!typed) return { move: `${code}~${value}` };
  if (!/^\d{1,2}(\.\d+)?$/.test(typed)) return { wrong: "Give or take: type a number from 0 to 99, or leave it blank.", box: /** @type {HTMLElement} */ (sure) };
  return { move: `${code}~${value}_${short(Number(typed))}` };
}

/** @param {HTMLElement} stage */
function ordersOf(stage) {
  const form = part(stage, "[data-orders]");
  const orders = [];
  for (const choice of parts(form, "select[data-order]")) {
    const how = choice instanceof HTMLSelectElement ? choice.value : "";
    if (!how) continue;
    const code = choice.dataset.order ?? "";
    const box = form.querySelector(`[data-order-number="${CSS.escape(code)}"]`);
    const typed = box instanceof HTMLInputElement ? plain(box.value) : "";
    if (!/^\d{1,2}(\.\d)?$/.test(typed)) {
      const named = form.querySelector(`label[for="${CSS.escape(choice.id)}"]`)?.textContent ?? "This order";
      return { wrong: `${named}: type the hours from now, or the °C, from 0 to 99, such as 8.`, box: box instanceof HTMLElement ? box : null };
    }
    orders.push(`${code}${how}${typed}`);
  }
  if (orders.length > 8) return { wrong: "Eight orders are the most that one hand-over holds. Take some out.", box: null };
  return { move: ["ho", ...orders].join("_") };
}

const LETTERS = ["A", "B", "C", "D", "E"];

/** The first three to five actions get a letter, for a group. @param {HTMLElement} stage */
export function letter(stage) {
  const more = parts(stage, ".practice-more button[data-move]");
  const five = [...parts(stage, ".practice-big button[data-move]"), ...more].slice(0, LETTERS.length);
  for (const [at, one] of five.entries()) {
    one.dataset.letter = LETTERS[at];
    one.prepend(`${LETTERS[at]} · `);
  }
  const big = stage.querySelector(".practice-big");
  for (const one of five) if (more.includes(one)) big?.append(one.closest(".practice-offer") ?? one);
}

/**
 * Votes as `A4 B2 C1`.
 * @param {string} typed
 * @param {string[]} letters
 * @returns {{ letter: string, hands: number } | string}
 */
export function counted(typed, letters) {
  const parted = [...typed.toUpperCase().matchAll(/([A-Z])\s*[:=]?\s*(\d{1,3})/g)];
  const rest = typed.toUpperCase().replace(/([A-Z])\s*[:=]?\s*(\d{1,3})/g, "").replace(/[\s,;]/g, "");
  const such = letters.slice(0, 3).map((one, at) => `${one}${4 - at}`).join(" ");
  if (!parted.length || rest) return `Votes: type letter and hands, such as ${such}.`;
  /** @type {Map<string, number>} */
  const hands = new Map();
  for (const [, one, number] of parted) hands.set(one, (hands.get(one) ?? 0) + Number(number));
  const unknown = [...hands.keys()].find((one) => !letters.includes(one));
  if (unknown) return `There is no ${unknown} on this screen: ${letters.join(", ")}.`;
  const most = Math.max(...hands.values());
  const first = [...hands].filter(([, number]) => number === most).map(([one]) => one);
  if (!most) return "Nobody has voted yet.";
  if (first.length > 1) return `${first.join(" and ")} have ${most} each. Let each side say why, then vote again.`;
  return { letter: first[0], hands: most };
}
