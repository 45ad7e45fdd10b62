// Record sheets: blank by themselves, filled by Python with the case that the link from a sheet carries.

import { drawCode } from "./code.mjs";
import * as engine from "../engine/engine.mjs";
import { part, parts } from "../shared/element.mjs";
import { localMinute } from "../shared/moment.mjs";
import { siteRoot } from "../shared/root.mjs";

/** @type {Paper[]} */
let open = [];

export function openPapers() {
  for (const one of open) one.close();
  open = parts(document, "section.paper").map((section) => new Paper(section));
}

class Paper {
  /** @type {Promise<void> | undefined} */
  code; // of the link, once there is a case to link to

  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    this.state = part(section, "[data-state]");
    part(section, "[data-action=print]").addEventListener("click", () => this.print());
    const query = new URLSearchParams(location.search);
    this.sheet = query.get("sheet");
    if (this.sheet) this.ask(query);
  }

  /** @param {URLSearchParams} query */
  ask(query) {
    const date = localMinute().replace("T", " ");
    const example = query.has("example");
    query.delete("sheet");
    query.delete("example");
    this.state.textContent = "The numbers of the link are being filled in.";
    engine.ask(this, {
      needs: (this.section.dataset.needs ?? "").split(" ").filter(Boolean),
      body: () => ({ paper: this.section.dataset.paper, sheet: this.sheet, questions: Object.fromEntries(query), example, date }),
      onReply: (reply) => this.replied(reply),
      onTrouble: () => (this.state.textContent = "The numbers could not be filled in. Write them with a pen."),
    });
  }

  /** @param {{ state: string, places: Record<string, string>, status: string }} reply */
  replied(reply) {
    if (!this.section.isConnected) return;
    for (const [name, text] of Object.entries(reply.places)) part(this.section, `[data-place=${name}]`).innerHTML = text;
    this.state.textContent = reply.status;
    this.section.dataset.standing = reply.state;
    const link = new URL(`calculators/${this.sheet}/${location.search}#${this.sheet}`, siteRoot).href;
    this.code = drawCode(part(this.section, ".paper-code"), link);
  }

  async print() {
    await this.code; // none on a blank sheet
    if (this.section.isConnected) print();
  }

  close() {
    engine.forget(this);
  }
}
