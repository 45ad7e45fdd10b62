// Type as large as a screen lets it be, and never a screen that has to be scrolled: what is too much for one, at the
// smallest type that is read from the back of a room, goes on the next.

import { element } from "../shared/element.mjs";

const LARGEST = 0.078; // of the shorter side of the window
const SMALLEST = 0.03; // 23 px of 768
const STEP = 0.94;
const LAST_RESORT = 0.018;
const LARGEST_SHEET = 1.6; // times its size in the page

const side = () => Math.min(innerWidth, innerHeight);
/** @param {HTMLElement} body */
const isOver = (body) => body.scrollHeight > body.clientHeight + 1 || body.scrollWidth > body.clientWidth + 1;

/**
 * @param {HTMLElement} body
 * @param {number} share
 */
function set(body, share) {
  body.style.fontSize = `${share * side()}px`;
}

/**
 * The largest type with which what stands in a body needs no scrolling.
 * @param {HTMLElement} body
 */
export function enlarge(body) {
  let share = LARGEST;
  set(body, share);
  while (isOver(body) && share > LAST_RESORT) {
    share *= STEP;
    set(body, share);
  }
}

/**
 * The same for a sheet, which has sizes of its own.
 * @param {HTMLElement} body
 * @param {HTMLElement} sheet
 * @param {number} [step] how many times as large it has to become to be changed at all
 */
export function scale(body, sheet, step = 0) {
  body.style.fontSize = "";
  const form = sheet.querySelector(".sheet-form"); // its tables do not break: they would lie over the answers
  const isTooLarge = () => isOver(body) || (form !== null && form.scrollWidth > form.clientWidth + 1);
  const before = Number(sheet.style.getPropertyValue("zoom") || 0);
  let zoom = LARGEST_SHEET;
  sheet.style.setProperty("zoom", String(zoom));
  while (isTooLarge() && zoom > 0.5) {
    zoom *= 0.96;
    sheet.style.setProperty("zoom", String(zoom));
  }
  if (zoom < before * step) sheet.style.setProperty("zoom", String(before));
}

/**
 * A list as lists of one, a table as tables of a row, a box as what is in it; anything else as it is.
 * @param {Element} node
 * @returns {Element[]}
 */
function broken(node) {
  if (node.matches("ol, ul") && node.children.length > 1) {
    return [...node.children].map((item, at) => {
      const list = /** @type {Element} */ (node.cloneNode(false));
      if (list instanceof HTMLOListElement) list.start = (node instanceof HTMLOListElement ? node.start : 1) + at;
      list.append(item.cloneNode(true));
      return list;
    });
  }
  const rows = node.matches("table") ? [...node.querySelectorAll("tbody tr")] : [];
  if (rows.length > 1) {
    return rows.map((row) => {
      const table = /** @type {Element} */ (node.cloneNode(true));
      const body = element("tbody");
      body.append(row.cloneNode(true));
      table.querySelector("tbody")?.replaceWith(body);
      return table;
    });
  }
  if (node.matches("div, section, details") && !node.matches(".hazard") && node.children.length) return [...node.children];
  return [node];
}

/** @param {Element[]} list rows of one table stand in one table again */
function joined(list) {
  /** @type {Element[]} */
  const done = [];
  for (const node of list) {
    const last = done.at(-1);
    const [mine, theirs] = [node.querySelector(":scope > tbody"), last?.querySelector(":scope > tbody")];
    if (mine && theirs && node.matches("table") && last?.querySelector("thead")?.textContent === node.querySelector("thead")?.textContent) theirs.append(...mine.cloneNode(true).childNodes);
    else done.push(mine ? /** @type {Element} */ (node.cloneNode(true)) : node);
  }
  return done;
}

/**
 * What goes on one screen, and what on the next.
 * @param {HTMLElement} body in which it is measured
 * @param {Element[]} nodes
 * @returns {Element[][]}
 */
export function divided(body, nodes) {
  set(body, SMALLEST);
  /** @param {Element[]} list */
  const fits = (list) => {
    body.replaceChildren(...joined(list));
    return !isOver(body);
  };
  /** @type {Element[][]} */
  const done = [];
  /** @type {Element[]} */
  let now = [];
  const rest = [...nodes];
  for (let node = rest.shift(); node; node = rest.shift()) {
    if (fits([...now, node])) {
      now.push(node);
      continue;
    }
    if (now.length && fits([node])) {
      done.push(now);
      now = [node];
      continue;
    }
    const pieces = broken(node);
    if (pieces.length > 1 || pieces[0] !== node) rest.unshift(...pieces);
    else if (now.length) {
      done.push(now);
      now = [];
      rest.unshift(node);
    } else done.push([node]);
  }
  if (now.length) done.push(now);
  return done.map(joined);
}
