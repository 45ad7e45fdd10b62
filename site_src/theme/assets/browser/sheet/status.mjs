// The line under the form, the bar while the engine starts, and what is said to those who listen.

import { element, found, part } from "../shared/element.mjs";
import { Foot } from "./foot.mjs";

const QUIET_MS = 1000; // an answer that changes with every key is read out once it rests
const AGAIN_MS = 20000; // from one word on a long wait to the next, for those who listen
const MOST_LINKS = 2;

export class Status {
  /** @param {HTMLElement} section */
  constructor(section) {
    this.line = part(section, "[data-state]");
    this.bar = found(section, ".sheet-progress", HTMLProgressElement);
    // Read out from a place of its own, so that the line may change with every key.
    this.line.removeAttribute("role");
    this.line.setAttribute("aria-live", "off");
    this.voice = element("p", "", { class: "sheet-voice", role: "status" });
    section.append(this.voice);
    this.words = document.createTextNode("");
    this.foot = new Foot(part(section, ".sheet-now"), part(section, ".sheet-form"));
    this.meanwhile = meanwhile(section);
    this.waits = false; // for what comes over a slow line
    this.toldAt = -Infinity;
    this.aside = ""; // where the numbers came from; stands in front until the next change
    this.text = "";
    this.engine = "";
    this.timer = /** @type {number | undefined} */ (undefined);
  }

  draw() {
    const text = [this.aside, this.engine || this.text].filter(Boolean).join(" ");
    if (this.words.data !== text) this.words.data = text;
    const shown = [...(text ? [this.words] : []), ...(this.waits && this.meanwhile ? [this.meanwhile] : [])];
    if (shown.length !== this.line.childNodes.length || shown.some((node, at) => node !== this.line.childNodes[at])) this.line.replaceChildren(...shown);
    this.foot.look();
  }

  /**
   * What the sheet has to say; an answer may still change with the next key, and stays in view while one types.
   * @param {string} text
   */
  say(text, { answer = false, aloud = text } = {}) {
    this.text = text;
    this.line.toggleAttribute("data-pinned", answer);
    this.draw();
    this.announce(aloud, answer ? QUIET_MS : 0);
  }

  /** @param {string} text */
  remark(text) {
    this.aside = text;
    this.draw();
    if (text) this.announce(text);
  }

  /** @param {string} text */
  announce(text, delay = 0) {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => {
      if (this.voice.textContent !== text) this.voice.textContent = text;
    }, delay);
  }

  /**
   * What the engine has to say goes first while it lasts.
   * @param {string} text
   * @param {number} done of a hundred
   */
  starting(text, done) {
    this.engine = text;
    this.bar.hidden = !text;
    this.bar.value = done;
    this.draw();
  }

  /**
   * How a wait on a slow line stands is told to those who listen too, now and then; where somebody waits for an answer it stays in view.
   * @param {string} text
   * @param {boolean} asked whether somebody does
   */
  waiting(text, asked) {
    if (!text && !this.waits) return;
    this.waits = Boolean(text);
    this.line.toggleAttribute("data-waits", this.waits && asked);
    this.draw();
    if (!text || !asked || performance.now() - this.toldAt < AGAIN_MS) return;
    this.toldAt = performance.now();
    this.announce(`The calculator is coming: ${text}. Your numbers are kept.`);
  }
}

/**
 * What of the page can be read until the calculator is there.
 * @param {HTMLElement} section
 */
function meanwhile(section) {
  const after = [...document.querySelectorAll("article h2[id]")].filter((heading) => !section.contains(heading) && section.compareDocumentPosition(heading) & Node.DOCUMENT_POSITION_FOLLOWING);
  if (!after.length) return null;
  const line = element("span", "Meanwhile on this page: ", { class: "sheet-meanwhile" });
  after.slice(0, MOST_LINKS).forEach((heading, at) => {
    const words = heading.firstChild?.textContent ?? "";
    line.append(at ? " · " : "", element("a", words, { href: `#${heading.id}` }));
  });
  return line;
}
