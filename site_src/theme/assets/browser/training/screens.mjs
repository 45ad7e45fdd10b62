// What a page shows on a projector, screen by screen, and what stands beside each screen for the trainer alone.
// A session goes by its plan: each row names the parts that are on the screen then. Other pages go from top to bottom.

import { element, parts } from "../shared/element.mjs";
import { caseScreens } from "./case-screens.mjs";
import { copy, FOR_TRAINER, isDrawn, LEFT_OUT, withoutDrawing } from "./copies.mjs";

/**
 * @typedef {object} Screen
 * @property {string} head
 * @property {string} step such as "2 of 5", or nothing
 * @property {Element[]} nodes copies, ready to be shown
 * @property {HTMLElement | null} sheet the page's own, which is lent to the screen
 * @property {string} gist what it shows, where its own words would only say once more what the screen before it said
 * @property {Element[]} notes what stands in the page for the trainer
 */
/** @typedef {{ minutes: string, says: Element, screens: number[] }} Row the numbers of its screens, from 1 */
/** @typedef {{ screens: Screen[], course: Row[] }} Deck */
/** @typedef {{ id: string, level: number, head: string, nodes: Element[] }} Section */

// What a part is called before the class, where its heading speaks to the trainer.
/** @type {Record<string, string>} */
const BEFORE_THE_CLASS = { Show: "Look", Ask: "What do you do?", "The hazard that must come up": "The hazard", "The exercise": "Exercise" };

/** @param {Element} node */
const isToWriteOn = (node) => node.matches("p") && Boolean(node.textContent?.includes("______")); // a line for a pen
/** @param {Element} heading */
const words = (heading) => copy(heading).textContent?.trim() ?? "";

/**
 * The parts of a page by their headings; what stands for the trainer, or on paper, is in none.
 * @param {Element} content
 */
function sections(content) {
  /** @type {Section[]} */
  const found = [];
  for (const node of content.children) {
    if (node.matches(LEFT_OUT) || isToWriteOn(node)) continue;
    if (node.matches("h1, h2, h3")) found.push({ id: node.id, level: Number(node.tagName[1]), head: words(node), nodes: [] });
    else if (node.matches(".for-trainer") && node.querySelector(":scope > h2")) continue;
    else if (node.matches("div") && node.querySelector(":scope > h2")) {
      const heading = /** @type {Element} */ (node.querySelector(":scope > h2"));
      found.push({ id: heading.id, level: 2, head: words(heading), nodes: [...node.children].filter((child) => child !== heading && !isToWriteOn(child)) });
    } else found.at(-1)?.nodes.push(node);
  }
  return found;
}

/**
 * The screens of one part of a page.
 * @param {Section} section
 */
function screensOf(section) {
  /** @type {Screen[]} */
  const made = [];
  /** @type {Element[]} */
  const before = []; // notes that stand before the first screen
  /** @type {Screen | null} */
  let now = null;
  /** @param {Partial<Screen>} given */
  const begin = (given = {}) => {
    const screen = { head: BEFORE_THE_CLASS[section.head] ?? section.head, step: "", nodes: [], sheet: null, gist: "", notes: before.splice(0), ...given };
    made.push(screen);
    return screen;
  };
  /** @param {Element} node */
  const take = (node) => {
    if (node.matches(LEFT_OUT)) return;
    if (node.matches(FOR_TRAINER)) return void (made.at(-1)?.notes ?? before).push(node);
    if (node.matches("div:not([class]), div.off-paper")) return void [...node.children].forEach(take);
    const steps = stepsOf(node);
    if (node.matches("section.sheet") && node instanceof HTMLElement) {
      begin({ sheet: node });
    } else if (node.matches("section.cases")) {
      for (const one of parts(node, "[data-case]")) caseScreens(one).forEach(begin);
    } else if (node.matches(".class-screens")) {
      for (const one of parts(node, ".reveal")) revealed(one).forEach(begin);
    } else if (isDrawn(node)) {
      begin({ nodes: [copy(node)] });
    } else if (steps.length > 1) {
      steps.forEach((step, at) => begin({ step: `${at + 1} of ${steps.length}`, nodes: stepNodes(step), notes: [...before.splice(0), ...step.querySelectorAll(FOR_TRAINER)] }));
    } else {
      now ??= begin();
      now.nodes.push(copy(node));
      return;
    }
    now = null;
  };
  section.nodes.forEach(take);
  return made;
}

/**
 * What is asked, then what comes out. Of a case the reasons stand alone: each has its choice with it.
 * @param {Element} one
 */
function revealed(one) {
  const asked = one.querySelector(":scope > .asked");
  const out = one.querySelector(":scope > .comes-out");
  if (!asked || !out) return [];
  const first = isDrawn(asked) ? [{ nodes: [copy(asked)] }, { nodes: [withoutDrawing(copy(asked))] }] : [{ nodes: [copy(asked)] }];
  const then = one.matches(".class-case") ? [copy(out)] : [copy(asked), copy(out)];
  const gist = one.matches(".class-case") ? "The reasons." : "What comes out.";
  return [...first, { nodes: then, gist }].map((screen, at) => ({ ...screen, notes: at === first.length - 1 ? [out] : [] }));
}

/** @param {Element} node */
function stepsOf(node) {
  const list = node.matches("ol") ? node : node.matches(".steps") ? node.querySelector(":scope > ol") : null;
  return list ? [...list.children] : [];
}

/** @param {Element} step */
function stepNodes(step) {
  const made = copy(step);
  if (![...made.children].some((child) => child.matches("p, ul, ol, div, figure"))) {
    const line = element("p");
    line.append(...made.childNodes);
    return [line];
  }
  return [...made.childNodes].map((node) => {
    if (node instanceof Element) return node;
    const line = element("p");
    line.append(node);
    return line;
  }).filter((node) => node.textContent?.trim() || node.querySelector("svg, img"));
}

/**
 * The rows of the plans of a session; the last cell names what is on the screen.
 * @param {Element} content
 */
const planRows = (content) => [...content.querySelectorAll(".plan tbody tr")].filter((row) => row instanceof HTMLTableRowElement).filter((row) => row.cells.length === 3);

/**
 * The parts of the page that a cell of the plan names.
 * @param {Element} cell
 */
const linked = (cell) => [...cell.querySelectorAll("a[href*='#']")].map((link) => new URL(/** @type {HTMLAnchorElement} */ (link).href).hash.slice(1));

/**
 * @param {Element} content
 * @returns {Deck}
 */
export function deckOf(content) {
  const all = sections(content);
  const rows = planRows(content);
  if (!rows.length) return { screens: all.flatMap(screensOf).filter(isFilled), course: [] };
  const named = new Set(rows.flatMap((row) => linked(row.cells[2])));
  const [title, aim] = all;
  const screens = screensOf({ ...title, nodes: [...title.nodes, ...(aim?.nodes ?? [])] }).filter(isFilled);
  /** @type {Map<string, number[]>} */
  const shown = new Map();
  const course = rows.map((row) => {
    const [minutes, says, onScreen] = [.../** @type {HTMLTableRowElement} */ (row).cells];
    const numbers = linked(onScreen).flatMap((id) => {
      let its = shown.get(id);
      if (!its) {
        const made = under(all, id, named).flatMap(screensOf).filter(isFilled);
        its = made.map((_, at) => screens.length + at + 1);
        screens.push(...made);
        shown.set(id, its);
      }
      return its;
    });
    return { minutes: words(minutes), says: copy(says), screens: numbers };
  });
  return { screens, course };
}

/**
 * The part with this name, and the parts below it; not those that have a row of the plan for themselves.
 * @param {Section[]} all
 * @param {string} id
 * @param {Set<string>} named
 */
function under(all, id, named) {
  const at = all.findIndex((one) => one.id === id);
  if (at < 0) return [];
  const rest = all.slice(at + 1);
  const end = rest.findIndex((one) => one.level <= all[at].level);
  return [all[at], ...(end < 0 ? rest : rest.slice(0, end)).filter((one) => !named.has(one.id))];
}

/** @param {Screen} screen */
const isFilled = (screen) => Boolean(screen.sheet) || screen.nodes.some((node) => node.textContent?.trim() || node.matches("svg, img") || node.querySelector("svg, img"));
