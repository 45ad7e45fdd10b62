// What now: something has left the plan. What is done at once stands in the page and is shown by a tap, without Python;
// the ways through the rest of the batch follow from its lines. Taking one fills in a line and writes nothing by itself.

import { around, part, parts } from "../shared/element.mjs";

/** @typedef {import("../sheet/form.mjs").Values} Values */
/** @typedef {{ fault: string, hours: string, begins: string }} Asked */

/**
 * What the page does with it.
 * @typedef {object} Does
 * @property {(asked: Asked, onReply: (html: string) => void, onTrouble: (text: string) => void) => void} ways
 * @property {(kind: string, values: Values, aside: string) => void} begin a line
 */

export class WhatNow {
  fault = "";
  batch = "";
  at = "";
  asked = 0; // of what was asked, the last is what is shown
  leaving = new AbortController();

  /**
   * @param {HTMLElement} place
   * @param {Does} does
   */
  constructor(place, does) {
    this.does = does;
    this.box = part(document, "[data-what-now]");
    place.append(this.box);
    this.box.addEventListener("click", (event) => this.pressed(around(event.target, "button")), { signal: this.leaving.signal });
  }

  close() {
    this.leaving.abort();
    this.shut();
  }

  /**
   * Another batch is open, or the shelf: what is done at once can be read before anything is known of where it is.
   * @param {string} batch
   */
  opened(batch) {
    if (batch !== this.batch) this.shut();
    this.batch = batch;
    this.box.hidden = !batch;
    for (const one of parts(this.box, "[data-fault]")) one.hidden = false;
  }

  shut() {
    this.box.removeAttribute("open");
    this.choose("");
  }

  /**
   * The faults that there can be where the batch is; those that the book knows of are marked.
   * @param {string} at
   * @param {string[]} off
   */
  follow(at, off) {
    this.box.hidden = !at;
    for (const one of parts(this.box, "[data-fault]")) {
      one.hidden = !(one.dataset.places ?? "").split(" ").includes(at);
      one.toggleAttribute("data-known", off.includes(one.dataset.fault ?? ""));
    }
    if (this.at !== at) this.ownFirst(at);
    if (off.length && location.hash === "#what-now") this.box.setAttribute("open", "");
  }

  /**
   * Of the dangers and orders those of the place where the batch is stand first; none is left out.
   * @param {string} at
   */
  ownFirst(at) {
    this.at = at;
    for (const group of parts(this.box, "[data-own-first]")) {
      const elsewhere = parts(group, "[data-at]").filter((one) => !(one.dataset.at ?? "").split(" ").includes(at));
      group.append(...[...group.children].filter((one) => !elsewhere.includes(/** @type {HTMLElement} */ (one))), ...elsewhere);
    }
  }

  // A line was written: ways that were drawn begin at what was so before it.
  aged() {
    this.asked += 1;
    const place = part(this.box, "[data-what-now-ways]");
    if (place.hasChildNodes()) place.textContent = "A line was written since: the ways that stood here are old. Show the ways again.";
  }

  /** @param {string} fault */
  choose(fault) {
    this.fault = fault;
    this.asked += 1;
    for (const one of parts(this.box, "[data-fault-orders]")) one.hidden = one.dataset.faultOrders !== fault;
    for (const one of parts(this.box, "[data-fault]")) one.setAttribute("aria-pressed", String(one.dataset.fault === fault));
    part(this.box, "[data-what-now-ways]").replaceChildren();
  }

  /** @param {string} what */
  number(what) {
    const orders = part(this.box, `[data-fault-orders="${this.fault}"]`);
    const box = orders.querySelector(`[data-fault-number=${what}]`);
    return box instanceof HTMLInputElement ? box.value : "";
  }

  /** @param {HTMLElement | null} pressed */
  pressed(pressed) {
    if (!pressed) return;
    if (pressed.dataset.fault) {
      this.choose(pressed.dataset.fault);
      part(this.box, `[data-fault-orders="${this.fault}"]`).scrollIntoView({ block: "nearest" });
      return;
    }
    /** @type {Record<string, () => void>} */
    const actions = {
      "show-ways": () => this.show(),
      "write-fault": () => this.does.begin("fault", { fault: this.fault, fault_hours: this.number("hours") }, "People first. Then write what happened, and who was told."),
      "take-way": () => this.does.begin("plan", JSON.parse(pressed.dataset.values ?? "{}"), "This is the way you took. It counts once it is written. Write who was told."),
      "fault-step": () => this.step(pressed),
    };
    actions[pressed.dataset.action ?? ""]?.();
  }

  /** @param {HTMLElement} pressed */
  step(pressed) {
    const box = pressed.parentElement?.querySelector("input");
    if (box) box.value = String(Math.max(0, Math.round((Number(box.value) || 0) + Number(pressed.dataset.step))));
  }

  show() {
    const place = part(this.box, "[data-what-now-ways]");
    const { fault } = this;
    const asked = ++this.asked;
    place.textContent = "The ways are being worked out …";
    const put = (/** @type {string} */ html) => {
      if (this.asked !== asked) return;
      place.innerHTML = html;
    };
    this.does.ways({ fault, hours: this.number("hours"), begins: this.number("begins") }, put, (text) => this.asked === asked && (place.textContent = `${text} What is done at once stands above.`));
  }
}
