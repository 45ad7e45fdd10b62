// A procedure on one page for the wall, put together from its own page when it is asked for: nothing of it stands twice.

import { element, found, part, parts } from "../shared/element.mjs";
import { printAs } from "../shared/printing.mjs";

const SMALLEST_PT = 9; // less is not read from a step away
const LARGEST_PT = 20;
const STEP_PT = 0.25;
const LAST_LEVEL = 12;
/** From which level on a part stands closer: limits and steps as running lines. */
const CLOSER = [[6, ".wall-limits"], [7, ""], [8, ".wall-steps"]];
// A source in brackets is a link to it, or ends on how it was read.
const SOURCE = "¤";
const STANDING = /\s*\((?:[^()]*¤[^()]*|(?:[^()]*\b)?(?:common practice|from memory|read|said of trials|in a copy|second-hand|abstract|abstracts|computed|published))(?:;[^()]*)?\)/g;
const ROUNDED_PX = 6; // of columns that share a width
const FULL = 0.99; // a printer's letters are a hair wider than the screen's

export function openWall() {
  for (const offer of parts(document, ".wall-offer[hidden]")) {
    offer.hidden = false;
    for (const press of parts(offer, "[data-wall]")) press.addEventListener("click", () => printWall(offer, press.dataset.wall ?? "A4"));
  }
}

/**
 * @param {HTMLElement} offer
 * @param {string} size
 */
function printWall(offer, size) {
  const sheet = drawn(offer, size);
  document.body.append(sheet);
  fit(sheet);
  printAs("prints-wall", () => sheet.remove());
}

/**
 * @param {HTMLElement} offer
 * @param {string} size
 */
function drawn(offer, size) {
  const page = part(document, "article");
  const said = found(offer, "template", HTMLTemplateElement).content.cloneNode(true);
  const sheet = element("section", "", { class: "wall-sheet", "data-size": size });
  const head = element("div", "", { class: "wall-head" });
  const title = element("div");
  title.append(element("h1", wordsOf(part(page, "h1"))));
  sheet.append(said);
  title.append(...parts(sheet, ".wall-said > *"), element("p", wordsOf(part(page, ".print-edition")), { class: "wall-edition" }));
  head.append(title, ...parts(sheet, ".wall-code"));
  const foot = part(sheet, ".wall-foot");
  const whole = new RegExp(offer.dataset.whole ?? "", "i"); // words that keep somebody from harm: nothing of theirs is left out
  sheet.replaceChildren(head, boxes(page), before(page), steps(page, whole), limits(page, whole), foot);
  return sheet;
}

/** Drops what can be missed, in this order, until the sheet holds at the smallest type; then sets it as large as it can stand. */
/** @param {HTMLElement} sheet */
function fit(sheet) {
  const height = parseFloat(getComputedStyle(sheet).getPropertyValue("--wall-height")) * (96 / 25.4) * FULL;
  const holds = (/** @type {number} */ points) => {
    sheet.style.fontSize = `${points}pt`;
    settle(part(sheet, ".wall-boxes"));
    return sheet.getBoundingClientRect().height <= height && sheet.scrollWidth <= sheet.clientWidth + ROUNDED_PX;
  };
  for (let level = 1; !holds(SMALLEST_PT) && level <= LAST_LEVEL; level += 1) {
    for (const one of parts(sheet, `[data-drop="${level}"]`)) one.hidden = true;
    for (const one of parts(sheet, `[data-instead="${level}"]`)) one.hidden = false;
    for (const [from, place] of CLOSER) if (from === level) (place ? part(sheet, `${place}`) : sheet).classList.add("closer");
  }
  let points = SMALLEST_PT;
  while (points < LARGEST_PT && holds(points + STEP_PT)) points += STEP_PT;
  holds(points);
}

/**
 * Sets the boxes in as many columns as make them lowest.
 * @param {HTMLElement} all
 */
function settle(all) {
  const heights = [2, 3, 4].map((columns) => {
    all.style.columns = `${columns}`;
    return { columns, height: all.getBoundingClientRect().height };
  });
  all.style.columns = `${heights.reduce((low, one) => (one.height < low.height - 1 ? one : low)).columns}`;
}

/**
 * The boxes of the page: what kills in full; of the others, where there is no room, what they warn of.
 * @param {HTMLElement} page
 */
function boxes(page) {
  const all = element("div", "", { class: "wall-boxes" });
  const also = element("p", "", { class: "wall-also" });
  const seen = new Set();
  for (const [at, box] of parts(page, ".hazard").entries()) {
    const copy = cleaned(box);
    if (seen.has(copy.textContent)) continue;
    seen.add(copy.textContent);
    all.append(copy);
    if (at === 0 || box.matches(".hazard-danger")) continue;
    const level = box.matches(".hazard-warning") ? "2" : "1";
    copy.dataset.drop = level;
    const short = element("span", `${wordsOf(part(box, ".hazard-word"))}: ${wordsOf(part(box, "strong"))} `, { "data-instead": level });
    short.hidden = true;
    also.append(short);
  }
  const both = element("div");
  both.append(all, also);
  return both;
}

/** @param {HTMLElement} page */
function before(page) {
  const all = element("div", "", { class: "wall-before" });
  for (const one of after(page, "before-you-start")) {
    if (/^(Permits|Wear)\./.test(wordsOf(one)) && one.matches("p")) all.append(cleaned(one));
  }
  all.dataset.drop = "4";
  return all;
}

/**
 * @param {HTMLElement} page
 * @param {RegExp} whole
 */
function steps(page, whole) {
  const all = element("div", "", { class: "wall-steps" });
  let number = 0;
  let head = "";
  for (const one of after(page, "steps")) {
    if (one.matches("h3")) head = wordsOf(one);
    if (one.matches("blockquote")) all.append(cleaned(one));
    for (const item of parts(one, ":scope.steps > ol > li")) {
      if (head) all.append(element("h2", head), " ");
      head = "";
      number += 1;
      all.append(step(item, number, whole.test(wordsOf(item))), " ");
    }
  }
  return all;
}

/**
 * @param {HTMLElement} item
 * @param {number} number
 * @param {boolean} whole
 */
function step(item, number, whole) {
  const line = element("div", "", { class: "wall-step" });
  line.append(element("b", `${number}`), " ");
  for (const one of parts(item, ":scope > :is(p, ul, blockquote)")) {
    if (!one.matches(".look-for")) line.append(spanOf([...cleaned(one).childNodes], one.matches("blockquote") ? "wall-note" : "wall-do"), " ");
    else for (const [name, words] of named(cleaned(one))) line.append(spanOf(words, name), " ");
  }
  if (whole) return line;
  for (const look of parts(line, ".wall-look")) {
    shorten(look, "9");
    if (!/\d/.test(wordsOf(look))) look.dataset.drop = "10";
  }
  for (const act of parts(line, ".wall-do")) shorten(act, "11");
  return line;
}

/**
 * What stands behind “Look for:” and what behind “Write:”.
 * @param {HTMLElement} line
 * @returns {[string, ChildNode[]][]}
 */
function named(line) {
  /** @type {[string, ChildNode[]][]} */
  const all = [];
  for (const node of [...line.childNodes]) {
    const name = node instanceof HTMLElement && node.matches("em") && /^(Look for|Write):$/.exec(node.textContent?.trim() ?? "");
    if (name) all.push([name[1] === "Write" ? "wall-write" : "wall-look", name[1] === "Write" ? [node] : []]);
    else all.at(-1)?.[1].push(node);
  }
  return all;
}

/**
 * @param {ChildNode[]} nodes
 * @param {string} name
 */
function spanOf(nodes, name) {
  const span = element("span", "", { class: name });
  span.append(...nodes);
  if (name === "wall-write") span.dataset.drop = "3";
  return span;
}

/**
 * Lets what stands behind the first sentence be left out, with a sign that there is more on the page.
 * @param {HTMLElement} words
 * @param {string} level
 */
function shorten(words, level) {
  const texts = document.createTreeWalker(words, NodeFilter.SHOW_TEXT);
  for (let node = texts.nextNode(); node; node = texts.nextNode()) {
    const end = /[.!?]["”]?\s+(?=["“]?[A-Z])/.exec(node.nodeValue ?? "");
    if (!end || node.parentElement !== words) continue;
    const range = document.createRange();
    range.setStart(node, end.index + end[0].trimEnd().length);
    range.setEndAfter(words.lastChild ?? node);
    const more = element("span", "", { "data-drop": level });
    more.append(range.extractContents());
    const sign = element("span", "\u00a0…", { "data-instead": level });
    sign.hidden = true;
    words.append(more, sign);
    return;
  }
}

/**
 * @param {HTMLElement} page
 * @param {RegExp} whole
 */
function limits(page, whole) {
  const table = after(page, "limits").flatMap((one) => (one.matches("table") ? [one] : parts(one, "table")))[0];
  const copy = cleaned(table);
  copy.className = "wall-limits";
  const heads = parts(copy, "th").map(wordsOf);
  for (const row of parts(copy, "tbody tr")) {
    const [, accept, watch, stop] = parts(row, "td");
    for (const [at, cell] of parts(row, "td").entries()) cell.dataset.head = heads[at].toLowerCase();
    if (wordsOf(accept) === "—") accept.dataset.none = "";
    if (wordsOf(watch) === "—") watch.dataset.none = "";
    const act = element("span");
    act.append(...[...stop.childNodes].filter((node) => !(node instanceof HTMLElement && node.matches("strong:first-child, br"))));
    for (const line of parts(stop, "br")) line.remove();
    stop.append(" ", act);
    if (whole.test(wordsOf(row))) continue;
    shorten(act, "9");
    act.dataset.drop = "12";
  }
  for (const cell of parts(copy, "tr > :nth-child(3)")) cell.dataset.drop = "5";
  return copy;
}

/**
 * What stands below a heading, up to the next of its rank.
 * @param {HTMLElement} page
 * @param {string} id
 */
function after(page, id) {
  /** @type {HTMLElement[]} */
  const all = [];
  for (let one = part(page, `#${id}`).nextElementSibling; one && !one.matches("h2"); one = one.nextElementSibling) {
    if (one instanceof HTMLElement) all.push(one);
  }
  return all;
}

/**
 * A copy without what is of use on a screen only, and without the sources in brackets: they stand on the page.
 * @template {HTMLElement} Kind
 * @param {Kind} one
 * @returns {Kind}
 */
function cleaned(one) {
  const copy = /** @type {Kind} */ (one.cloneNode(true));
  for (const away of copy.querySelectorAll(".headerlink, .term-note, figure, svg, button")) away.remove();
  for (const link of parts(copy, 'a[href*="reference/sources"]')) link.prepend(SOURCE);
  for (const outer of parts(copy, "a, abbr, span")) outer.replaceWith(...outer.childNodes);
  for (const inner of [copy, ...parts(copy, "*")]) {
    for (const name of inner.getAttributeNames()) if (name !== "class") inner.removeAttribute(name);
  }
  copy.normalize();
  const texts = document.createTreeWalker(copy, NodeFilter.SHOW_TEXT);
  for (let node = texts.nextNode(); node; node = texts.nextNode()) {
    node.nodeValue = (node.nodeValue ?? "").replace(STANDING, "").replaceAll(SOURCE, "");
  }
  return copy;
}

/** @param {HTMLElement} one */
const wordsOf = (one) => (cleaned(one).textContent ?? "").replace(/\s+/g, " ").trim();
