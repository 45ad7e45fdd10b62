// A short code, typed: what it says of a batch, and one line of it for the book.

import { button, element, found, part } from "../../shared/element.mjs";
import { saidBy } from "../../shared/fault.mjs";
import { dayBookPage } from "../address.mjs";
import { askOnce } from "../ask.mjs";
import { newEntry } from "../book.mjs";

export class CodeTyped {
  /**
   * @param {HTMLElement} section
   * @param {import("../book.mjs").Book} book
   * @param {(text: string) => void} say
   */
  constructor(section, book, say) {
    this.book = book;
    this.say = say;
    this.box = found(section, "#short-code", HTMLInputElement);
    this.place = part(section, "[data-codes=typed]");
    this.box.addEventListener("keydown", (event) => event.key === "Enter" && this.read());
  }

  async read() {
    this.place.replaceChildren();
    try {
      const typed = this.box.value;
      const reply = await askOnce("code-typed", this.book, { typed, entries: this.book.lines.map(({ batch }) => ({ batch })) });
      this.box.toggleAttribute("aria-invalid", Boolean(reply.fault));
      if (reply.fault) return this.place.replaceChildren(element("p", reply.fault, { class: "entry-fault", role: "alert" }));
      this.said(reply);
    } catch (fault) {
      this.say(saidBy(fault));
    }
  }

  /** @param {{ batch: string, says: string[], off: boolean, known: boolean, remark: string }} reply */
  said({ batch, says, off, known, remark }) {
    const { which } = this.book;
    const parts = says.map((words) => element("p", words));
    const page = dayBookPage({ batch, which });
    if (off && known) {
      const line = element("p", "People first: ");
      line.append(element("a", "what now?", { href: `${page}#what-now` }));
      parts.push(line);
    }
    if (!known) parts.push(element("p", "This book has no line of that batch: kept, this will be its first. The lines themselves come by the codes or by a file."));
    parts.push(element("p", "It says how the batch stood when the code was made. Look at the batch itself before you take it over."));
    const keep = button("Keep it as a remark in the book");
    keep.addEventListener("click", async () => {
      try {
        await this.book.append([newEntry({ batch, kind: "remark", remark })]);
        this.box.value = "";
        const line = element("p", "Written. ");
        line.append(element("a", `Open batch ${batch}`, { href: page }));
        this.place.replaceChildren(line);
      } catch (fault) {
        this.say(saidBy(fault));
      }
    });
    this.place.replaceChildren(...parts, keep);
  }

  /** @returns {Record<string, () => unknown>} */
  actions() {
    return { "read-short": () => this.read() };
  }
}
