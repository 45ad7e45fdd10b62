// The places of a page that Python draws. What stays the same is left alone, and the focus stays on its line.

import { around, part, parts } from "../shared/element.mjs";
import { drawnIn } from "./ahead.mjs";

export class Places {
  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    this.shown = drawnIn(section);
  }

  /** @param {string} name */
  get(name) {
    return part(this.section, `[data-place="${name}"]`);
  }

  /**
   * @param {string} name
   * @param {string} html
   */
  put(name, html) {
    const place = this.get(name);
    if (this.shown.get(name) === html) return;
    this.shown.set(name, html);
    const at = place.contains(document.activeElement) ? around(document.activeElement, "[data-entry]")?.dataset.entry : "";
    place.innerHTML = html;
    if (at) parts(place, `[data-entry="${CSS.escape(at)}"] button`)[0]?.focus();
  }

  /** @param {Record<string, string>} all */
  putAll(all) {
    for (const [name, html] of Object.entries(all)) this.put(name, html);
  }

  /** @param {string[]} names */
  clear(names) {
    for (const name of names) this.put(name, "");
  }
}
