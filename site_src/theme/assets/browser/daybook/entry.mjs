// Writing one line: what was done, one or two boxes, "Write it". Nothing that is typed is refused; what cannot be right
// is said beside its box and beside its line.

import * as clock from "./clock.mjs";
import { Aids } from "./aids.mjs";
import * as draft from "./draft.mjs";
import * as form from "../sheet/form.mjs";
import * as table from "../sheet/table.mjs";
import { afterPress } from "../shared/press.mjs";
import { around, button, element, parts } from "../shared/element.mjs";
import { saidBy } from "../shared/fault.mjs";
import { localMinute } from "../shared/moment.mjs";
import { filled, newEntry } from "./book.mjs";
import { tidyName } from "./address.mjs";

/** @typedef {import("./book.mjs").Entry} Entry */

/**
 * What else the page does with a line.
 * @typedef {object} Does
 * @property {(entry: Entry) => Promise<void>} write
 * @property {(entry: Entry, onFaults: (faults: form.Fault[]) => void) => void} check
 * @property {(batch: string) => boolean} known
 * @property {import("./book.mjs").Book} book
 * @property {(entry: Entry) => void} saveWith
 * @property {() => Entry[]} lines of the book
 */

/**
 * What stands in a line that is begun, corrected or taken up again.
 * @typedef {object} Begun
 * @property {form.Values} [values]
 * @property {string} [number] of a batch that is begun
 * @property {string} [remark]
 * @property {string} [at]
 * @property {string | null} [replaces] the entry that it corrects
 * @property {string} [who] wrote it so far
 * @property {string} [aside] said above it
 */

const PAUSE_MS = 600; // from the last key to a word about what is typed

/** @returns {string} */
const lastWriter = () => draft.recall("who") ?? "";

export class Writing {
  /** @type {{ kind: string, form: HTMLElement, replaces: string | null } | null} */
  open = null;
  touched = false; // the time of the line
  busy = false;
  used = false; // a form has been opened here
  sure = ""; // the batch that is begun a second time all the same
  askedOfClock = false;
  by = draft.TAB; // whose half-typed line stands here: it may have been begun in another tab
  pause = 0;
  leaving = new AbortController();
  choice = element("div", "", { class: "entry-kinds", role: "group", "aria-label": "What was done" });
  likely = element("div", "", { class: "entry-likely" });
  sheet = element("div", "", { class: "entry-sheet", hidden: "" });
  head = element("h3");
  fault = element("p", "", { class: "entry-fault", role: "alert" });
  common = element("div", "", { class: "entry-common" });
  buttons = element("div", "", { class: "sheet-buttons" });
  writeButton = element("button", "Write it", { type: "submit", class: "main-button" });
  strike = button("Strike the line out", { "data-action": "strike" });

  /**
   * Without a batch it only begins new ones.
   * @param {HTMLElement} place
   * @param {import("./kinds.mjs").Kinds} kinds
   * @param {string} batch
   * @param {Does} does
   */
  constructor(place, kinds, batch, does) {
    this.place = place;
    this.kinds = kinds;
    this.batch = batch;
    this.does = does;
    clock.watch();
    this.number = kinds.common("batch");
    this.at = kinds.common("at");
    this.who = kinds.common("who");
    this.remark = kinds.common("remark");
    this.draw();
    this.listen();
    this.aids = new Aids(this);
    this.minute = setInterval(() => this.tick(), 15_000);
  }

  close() {
    clearInterval(this.minute);
    this.shut();
    this.leaving.abort();
    this.kinds.home.append(this.number.box, this.at.box, this.who.box, this.remark.box);
    this.place.replaceChildren();
  }

  draw() {
    const all = element("div", "", { class: "entry-all" });
    for (const kind of this.kinds.forms.keys()) if (this.kinds.isOffered(kind)) all.append(this.kindButton(kind));
    this.choice.append(element("h3", "Write a line"), this.likely, all);
    this.choice.hidden = !this.batch;
    this.buttons.append(this.writeButton, button("Leave it", { "data-action": "leave" }), this.strike);
    this.common.append(this.at.box, this.who.box, this.remark.box);
    this.sheet.append(this.head, this.fault);
    this.place.replaceChildren(this.choice, this.sheet);
  }

  /** @param {string} kind */
  kindButton(kind) {
    return button(this.kinds.labelOf(kind), { "data-kind-of-entry": kind });
  }

  listen() {
    const { signal } = this.leaving;
    this.place.addEventListener("click", (event) => this.pressed(around(event.target, "button")), { signal });
    this.place.addEventListener("submit", (event) => {
      event.preventDefault();
      this.write();
    }, { signal });
    this.place.addEventListener("input", (event) => this.edited(event.target), { signal });
    this.place.addEventListener("keydown", (event) => this.keyed(event), { signal });
    this.place.addEventListener("paste", (event) => this.pasted(event), { signal });
  }

  /**
   * The kinds that come next by the course of the batch stand on top; room is kept for them, so nothing moves.
   * @param {string[]} kinds
   */
  offer(kinds) {
    const known = kinds.filter((kind) => this.kinds.isOffered(kind)).slice(0, 3);
    const drawn = parts(this.likely, "button").map((one) => one.dataset.kindOfEntry);
    if (known.join() === drawn.join()) return;
    afterPress(() => this.likely.replaceChildren(...known.map((kind) => this.kindButton(kind))));
  }

  /** @param {HTMLElement | null} pressed */
  pressed(pressed) {
    if (!pressed || !this.place.contains(pressed) || table.pressed(pressed, (field) => this.edited(field))) return;
    if (this.aids.pressed(pressed)) return;
    /** @type {Record<string, () => unknown>} */
    const actions = {
      leave: () => this.leave(),
      strike: () => this.strikeOut(),
      "save-with": () => this.open && this.does.saveWith(this.entry(this.open)),
    };
    if (pressed.dataset.kindOfEntry) this.begin(pressed.dataset.kindOfEntry);
    else actions[pressed.dataset.action ?? ""]?.();
  }

  /**
   * @param {string} kind
   * @param {Begun} [begun]
   */
  begin(kind, { values = {}, number = "", remark = "", at = "", replaces = null, who = lastWriter(), aside = "" } = {}) {
    const own = this.kinds.forms.get(kind);
    if (!own) return;
    this.putAway();
    this.used = true;
    this.open = { kind, form: own, replaces };
    this.touched = Boolean(at);
    this.head.textContent = replaces ? `Correct: ${this.kinds.labelOf(kind)}` : this.kinds.labelOf(kind);
    this.sheet.append(own);
    own.append(this.common, this.buttons);
    if (this.kinds.is(kind, "begins") && !replaces) own.prepend(this.number.box);
    form.write(this.sheet, values);
    form.clearErrors(own);
    this.number.input.value = number;
    this.sure = "";
    this.at.input.value = at || localMinute();
    this.who.input.value = who;
    this.remark.input.value = remark;
    this.strike.hidden = !replaces;
    this.strike.textContent = "Strike the line out";
    this.say(aside);
    this.aids.begun(own);
    this.choice.hidden = true;
    this.sheet.hidden = false;
    const [first] = parts(own, "input:not([type=radio], [type=datetime-local]), select, textarea");
    (first ?? this.remark.input).focus();
    this.sheet.scrollIntoView({ block: "start" });
  }

  /** @param {Entry} entry */
  correct(entry) {
    this.begin(entry.kind, { ...entry, who: undefined, replaces: entry.id, aside: "The line stays in the book, struck through, with this one in its place." });
  }

  leave() {
    this.shut();
    this.draftIsDone();
    this.focusChoice();
  }

  /** @param {FocusOptions} [options] */
  focusChoice(options) {
    parts(this.choice, "button")[0]?.focus(options);
  }

  shut() {
    clearTimeout(this.pause);
    if (!this.open) return;
    this.putAway();
    this.sheet.hidden = true;
    this.choice.hidden = !this.batch;
  }

  putAway() {
    for (const shared of [this.number.box, this.common, this.buttons]) shared.remove();
    if (this.open) this.kinds.putAway(this.open.form);
    this.open = null;
  }

  /** @param {string} text */
  say(text) {
    this.fault.replaceChildren(text);
    this.fault.hidden = !text;
  }

  tick() {
    if (!this.open || this.touched || document.activeElement === this.at.input) return;
    this.at.input.value = localMinute();
    this.aids.drawTime();
  }

  /** @param {EventTarget | null} target */
  edited(target) {
    if (!this.open) return;
    if (target === this.at.input) this.touched = true;
    form.clearErrors(around(target, "[data-question]") ?? this.open.form);
    const { kind, replaces } = this.open;
    const [number, at, remark] = [this.number, this.at, this.remark].map((one) => one.input.value);
    if (this.kinds.isDrafted(kind)) draft.keepDraft(this.does.book, this.batch, this.by, { batch: this.batch, kind, values: filled(form.read(this.sheet)), number, at, remark, replaces, who: this.who.input.value });
    clearTimeout(this.pause);
    this.pause = setTimeout(() => this.check(), PAUSE_MS);
  }

  check() {
    const { open } = this;
    if (!open) return;
    this.does.check(this.entry(open), (faults) => {
      if (this.open === open && !this.busy) afterPress(() => this.open === open && form.showErrors(this.sheet, faults));
    });
  }

  async takeUpDraft() {
    const last = await draft.recallDraft(this.does.book, this.batch);
    if (!last || this.used || this.leaving.signal.aborted) return;
    this.by = last.by ?? "";
    this.begin(last.kind, { ...last, aside: "This line was typed before and is not in the book." });
  }

  // What is carried over when the page is loaded again for a new edition: gas readings too, for that moment.
  typed() {
    if (!this.open) return null;
    const { kind, replaces } = this.open;
    const [number, who, remark] = [this.number, this.who, this.remark].map((one) => one.input.value);
    const at = this.touched ? this.at.input.value : "";
    const words = { ...form.inWords(this.sheet), ...(remark && { remark }), ...(number && { number: `Batch number ${number}` }) };
    return { kind, replaces, number, at, who, remark, by: this.by, values: form.read(this.sheet), words };
  }

  /**
   * Gives back in words what this edition has no place for, or null when it has none for the line.
   * @param {Begun & { kind: string, who: string, by?: string, values: form.Values, words: Record<string, string> }} carried
   */
  takeUp(carried) {
    this.begin(carried.kind, { ...carried, values: {}, aside: "This line was being typed when the handbook was renewed. It is not in the book so far." });
    if (!this.open) return null;
    this.who.input.value = carried.who;
    this.by = carried.by ?? draft.TAB;
    return form.takeOver(this.sheet, carried);
  }

  /** @param {{ kind: string, replaces: string | null }} open */
  entry({ kind, replaces }) {
    const begins = this.kinds.is(kind, "begins") && !replaces;
    return newEntry({
      batch: begins ? tidyName(this.number.input.value) : this.batch,
      kind,
      at: this.touched ? this.at.input.value : "",
      values: this.kinds.is(kind, "strikes") ? {} : form.read(this.sheet),
      who: this.who.input.value,
      remark: this.remark.input.value,
      replaces,
      was: replaces ? this.does.lines().find(({ id }) => id === replaces) : undefined,
    });
  }

  async write() {
    if (!this.open || this.busy) return;
    const entry = this.entry(this.open);
    if (!entry.batch) {
      this.say("Give the batch a number or a name first.");
      this.number.input.focus();
      return;
    }
    if (this.kinds.is(entry.kind, "begins") && !entry.replaces && this.does.known(entry.batch) && this.sure !== entry.batch) {
      this.sure = entry.batch;
      this.say(`A batch ${entry.batch} is in the book already. Change the number, or press “Write it” again to add this line to it.`);
      return;
    }
    if (this.kinds.is(entry.kind, "says") && !entry.remark.trim()) {
      this.say("Type what there is to say first.");
      this.remark.input.focus();
      return;
    }
    await this.put(entry);
  }

  // A clock that went ahead is asked about once, before the line: it is never changed afterwards.
  clockIsRight() {
    const doubt = clock.doubt();
    if (doubt && !this.askedOfClock) {
      this.askedOfClock = true;
      this.say(`${doubt} If it is right, press again.`);
      this.fault.scrollIntoView({ block: "nearest" });
      return false;
    }
    this.askedOfClock = false;
    clock.accept();
    return true;
  }

  strikeOut() {
    const { open } = this;
    if (open && this.strike.textContent?.endsWith("again")) return void this.put(this.entry({ ...open, kind: this.kinds.of("strikes") }));
    this.strike.textContent = "Strike it out: press again";
  }

  /**
   * The form stays as it is until the line is on the disk.
   * @param {Entry} entry
   */
  async put(entry) {
    if (this.busy || !this.clockIsRight()) return;
    const { open } = this;
    const focused = document.activeElement;
    this.writes(true);
    clearTimeout(this.pause);
    try {
      await this.does.write(entry);
      draft.keep("who", entry.who);
      this.draftIsDone();
      if (this.kinds.is(entry.kind, "begins")) this.aids.newLot();
      if (this.open !== open && this.open) return; // another line was begun meanwhile
      this.shut();
      this.focusChoice({ preventScroll: true });
    } catch (fault) {
      this.writes(false);
      if (focused instanceof HTMLElement && this.sheet.contains(focused)) focused.focus({ preventScroll: true });
      this.say(`${saidBy(fault)} What you typed stands here. `);
      this.fault.append(button("Save the book as a file, with this line", { "data-action": "save-with" }));
      this.fault.scrollIntoView({ block: "nearest" });
    } finally {
      this.writes(false);
    }
  }

  // What would be typed now would be in no line.
  /** @param {boolean} busy */
  writes(busy) {
    this.busy = busy;
    this.sheet.inert = busy;
    this.writeButton.textContent = busy ? "Writing …" : "Write it";
  }

  draftIsDone() {
    draft.keepDraft(this.does.book, this.batch, this.by, null);
    this.by = draft.TAB;
  }

  /** @param {KeyboardEvent} event */
  keyed(event) {
    const cell = around(event.target, "[data-column]");
    const field = around(event.target, "[data-question]");
    if (event.key !== "Enter" || event.isComposing || !cell || !field) return;
    event.preventDefault();
    table.rowBelow(field, cell);
  }

  /** @param {ClipboardEvent} event */
  pasted(event) {
    const taken = table.takePaste(event);
    if (!taken) return;
    this.edited(taken.cell);
    if (taken.said) this.fault.textContent = taken.said;
  }
}
