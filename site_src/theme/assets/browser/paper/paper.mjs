// Record sheets: blank by themselves, filled by Python with the case that the link from a sheet carries.

import { drawCode } from "./code.mjs";
import * as engine from "../engine/engine.mjs";
import { siteRoot } from "../shared/root.mjs";

let open = [];

export function openPapers() {
  for (const one of open) one.close();
  open = [...document.querySelectorAll("section.paper")].map((section) => new Paper(section));
}

class Paper {
  constructor(section) {
    this.section = section;
    this.state = section.querySelector("[data-state]");
    section.querySelector("[data-action=print]").addEventListener("click", () => this.print());
    const query = new URLSearchParams(location.search);
    this.sheet = query.get("sheet");
    if (this.sheet) this.ask(query);
  }

  ask(query) {
    const now = new Date();
    const date = new Date(now.getTime() - now.getTimezoneOffset() * 60000).toISOString().slice(0, 16).replace("T", " ");
    const example = query.has("example");
    query.delete("sheet");
    query.delete("example");
    this.state.textContent = "The numbers of the link are being filled in.";
    engine.ask(this, {
      needs: this.section.dataset.needs.split(" ").filter(Boolean),
      body: () => ({ paper: this.section.dataset.paper, sheet: this.sheet, questions: Object.fromEntries(query), example, date }),
      onReply: (reply) => this.replied(reply),
      onTrouble: () => (this.state.textContent = "The numbers could not be filled in. Write them with a pen."),
    });
  }

  replied(reply) {
    if (!this.section.isConnected) return;
    for (const [name, text] of Object.entries(reply.places)) this.section.querySelector(`[data-place=${name}]`).innerHTML = text;
    this.state.textContent = reply.status;
    this.section.dataset.standing = reply.state;
    const link = new URL(`calculators/${this.sheet}/${location.search}#${this.sheet}`, siteRoot).href;
    this.code = drawCode(this.section.querySelector(".paper-code"), link);
  }

  async print() {
    await this.code; // none on a blank sheet
    if (this.section.isConnected) print();
  }

  close() {
    engine.forget(this);
  }
}
