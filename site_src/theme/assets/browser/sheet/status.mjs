// The line under the form, the bar while the engine starts, and what is said to those who listen.

const QUIET_MS = 1000; // an answer that changes with every key is read out once it rests

import { element, found, part } from "../shared/element.mjs";

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
    this.aside = ""; // where the numbers came from; stands in front until the next change
    this.text = "";
    this.engine = "";
    this.timer = /** @type {number | undefined} */ (undefined);
  }

  draw() {
    const text = [this.aside, this.engine || this.text].filter(Boolean).join(" ");
    if (this.line.textContent !== text) this.line.textContent = text;
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
}
