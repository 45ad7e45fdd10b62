// The line that stays in view at the foot of the screen: it stands above the keyboard, and not over what is typed in.

import { afterPress } from "../shared/press.mjs";

const MOST = 0.45; // of what is seen of the page; a taller line stays in its place
const CLEAR = 8; // px between the line and the box above it

/**
 * How much of the foot of the page the keyboard covers; a page that is enlarged with two fingers is left alone.
 * @returns {number} px
 */
function underKeys() {
  const seen = window.visualViewport;
  if (!seen || seen.scale > 1.01) return 0;
  return Math.max(0, Math.round(document.documentElement.clientHeight - seen.offsetTop - seen.height));
}

export class Foot {
  /**
   * @param {HTMLElement} place the line with what stands beside it
   * @param {HTMLElement} form
   */
  constructor(place, form) {
    this.place = place;
    this.form = form;
    this.high = 0; // of the screen that was taken when we last looked
    this.room = "";
    this.leaving = new AbortController();
    this.settle = () => this.look();
    this.sizes = new ResizeObserver(this.settle);
    this.sizes.observe(place);
    const { signal } = this.leaving;
    form.addEventListener("focusin", () => afterPress(() => this.look({ moved: true })), { signal });
    for (const name of ["resize", "scroll"]) window.visualViewport?.addEventListener(name, this.settle, { signal });
  }

  leave() {
    this.leaving.abort();
    this.sizes.disconnect();
    this.keepClear("");
  }

  /**
   * Makes room for the line, and brings the box in hand out from under it where the line has grown or the box is another.
   * @param {{ moved?: boolean }} [how]
   */
  look({ moved = false } = {}) {
    const box = document.activeElement;
    const typing = box instanceof HTMLElement && this.form.contains(box);
    const under = typing ? underKeys() : 0;
    this.place.style.setProperty("--under", `${under}px`);
    this.place.toggleAttribute("data-tall", this.place.offsetHeight > MOST * (document.documentElement.clientHeight - under));
    const sticks = getComputedStyle(this.place).position === "sticky";
    const high = sticks ? this.place.offsetHeight + under : 0;
    this.keepClear(sticks && this.place.querySelector("[data-pinned], [data-waits]") ? `${high + CLEAR}px` : "");
    const grown = high > this.high;
    this.high = high;
    if (typing && (grown || moved) && this.covers(box)) box.scrollIntoView({ block: "nearest" });
  }

  /**
   * How far from the foot of the screen a browser stops that brings something into view.
   * @param {string} room
   */
  keepClear(room) {
    if (room === this.room) return;
    this.room = room;
    document.documentElement.style.scrollPaddingBottom = room;
  }

  /** @param {HTMLElement} box */
  covers(box) {
    const [line, own] = [this.place.getBoundingClientRect(), box.getBoundingClientRect()];
    const foot = document.documentElement.clientHeight;
    return this.high > 0 && own.bottom > Math.min(line.top, foot) && own.top < Math.max(line.bottom, foot);
  }
}
