// Looking back over the batches of a book.

import * as engine from "../engine/engine.mjs";
import { ask, forget, heldBack } from "./ask.mjs";
import { dayBookPage, named, query } from "./address.mjs";
import { giveFile } from "./files.mjs";
import { bookOf } from "./book.mjs";

export class LookingBack {
  constructor(section) {
    this.section = section;
    this.needs = [];
    const { batch, which } = named();
    this.batch = batch;
    this.book = bookOf(which);
    section.querySelector("[data-daybook=whole]").hidden = false;
    for (const one of section.querySelectorAll("[data-demo-only]")) one.hidden = which !== "demo";
    for (const one of section.querySelectorAll("[data-own-only]")) one.hidden = which === "demo";
    this.leaveEngine = engine.subscribe((state) => this.follow(state));
    this.leaveBook = this.book.subscribe(() => this.ask());
    section.addEventListener("change", (event) => this.chose(event.target));
    section.querySelector("[data-action=save-fits]").addEventListener("click", () => giveFile(this.fits.text, this.fits.name, "application/json"));
    this.read();
    heldBack.then((why) => {
      this.held = why;
      if (why) this.say(why);
    });
  }

  close() {
    this.leaveEngine();
    this.leaveBook();
    forget();
  }

  part(name) {
    return this.section.querySelector(`[data-daybook="${name}"]`);
  }

  say(text) {
    this.part("state").textContent = text;
  }

  async read() {
    try {
      await this.book.read();
    } catch (fault) {
      this.say(fault.message);
    }
    if (this.section.isConnected) this.ask();
  }

  offerBatches() {
    const select = this.part("against");
    this.part("choice").hidden = false;
    const names = [...new Set(this.book.lines.map((line) => line.batch))].reverse();
    if (names.includes(this.batch) && select.options.length === names.length + 1) return;
    if (!names.includes(this.batch)) this.batch = names[0] ?? "";
    select.replaceChildren(...names.map((name) => new Option(name, name, false, name === this.batch)));
  }

  chose(target) {
    if (target !== this.part("against")) return;
    this.batch = target.value;
    history.replaceState(history.state, "", location.pathname + query({ batch: this.batch, which: this.book.which }));
    this.ask();
  }

  ask() {
    if (!this.book.lines.length) return this.say("There is nothing in this book to look back on.");
    this.offerBatches();
    const { batch, book } = this;
    const trouble = (text) => this.section.isConnected && this.say(text);
    const put = (reply, line) => {
      if (!this.section.isConnected || this.batch !== batch) return;
      for (const [name, html] of Object.entries(reply.places)) {
        const place = this.section.querySelector(`[data-place="${name}"]`);
        if (place) place.innerHTML = html;
      }
      for (const link of this.section.querySelectorAll("[data-place] a[data-batch]")) link.href = dayBookPage({ batch: link.dataset.batch, which: book.which });
      if (line !== undefined) this.say(line);
    };
    ask("look-back", book, { batch }, (reply) => put(reply, reply.status), trouble);
    ask("fits", book, { batch }, (reply) => {
      put(reply);
      this.fits = reply;
      this.section.querySelector("[data-action=save-fits]").hidden = !reply.text;
    }, trouble);
  }

  follow({ phase, step, failure }) {
    if (this.held) return;
    if (phase === "starting") this.say(`${step} …`);
    if (phase === "failed") this.say(`The calculator could not start (${failure}), so there is nothing to show here.`);
  }
}

export const openLookingBack = () => [...document.querySelectorAll("section[data-day-book=look-back]")].map((section) => new LookingBack(section));
