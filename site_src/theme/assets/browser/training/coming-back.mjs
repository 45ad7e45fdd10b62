// What is due again, at the top of the training page: three at the most, each a link to where it is asked.

import * as marks from "./marks.mjs";
import { element, part } from "../shared/element.mjs";
import { localMinute, saidDay } from "../shared/moment.mjs";

export class ComingBack {
  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    /** @type {Record<string, { chapter: string, said: string, where: string } | undefined>} */
    this.known = JSON.parse(section.dataset.known ?? "{}");
    this.leave = marks.subscribe(() => this.draw());
    this.draw();
  }

  close() {
    this.leave();
  }

  draw() {
    const list = part(this.section, "[data-training=due]");
    const due = marks.due((id) => Boolean(this.known[id])).flatMap((id) => this.known[id] ?? []);
    list.replaceChildren(
      ...due.map((one) => {
        const line = element("li");
        line.append(element("a", one.said, { href: one.where }));
        return line;
      }),
    );
    this.section.hidden = false;
    part(this.section, "[data-training=state]").textContent = marks.said() || this.words(due.length);
  }

  /** @param {number} count */
  words(count) {
    if (count) return count === 1 ? "Due again today:" : "Due again today, the longest overdue first:";
    const days = [...marks.results().values()].map((one) => one.due).sort();
    const today = localMinute().slice(0, 10);
    const ahead = days.find((day) => day > today);
    return ahead ? `Nothing is due today. The next comes back on ${saidDay(ahead)}.` : "Nothing has been answered on this device yet. What you answer comes back here.";
  }
}
