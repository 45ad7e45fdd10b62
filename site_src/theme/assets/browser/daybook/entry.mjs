// Writing one line: what was done, one or two boxes, "Write it". Nothing that is typed is refused; what cannot be right
// is said beside its box and beside its line.

import * as draft from "./draft.mjs";
import * as form from "../sheet/form.mjs";
import * as table from "../sheet/table.mjs";
import { afterPress } from "../shared/press.mjs";
import { filled, localMinute, newEntry } from "./book.mjs";
import { tidyName } from "./address.mjs";

const PAUSE_MS = 600; // from the last key to a word about what is typed
const NOT_DONE_BY_HAND = ["start", "answer", "withdrawn"]; // these lines are begun elsewhere

function element(tag, text = "", values = {}) {
  const made = document.createElement(tag);
  made.textContent = text;
  for (const [name, value] of Object.entries(values)) made.setAttribute(name, value);
  return made;
}

function field(name, label, values) {
  const box = element("div", "", { class: "field" });
  const id = `entry-common-${name}`;
  const input = element("input", "", { id, type: "text", autocomplete: "off", ...values });
  const frame = element("div", "", { class: "box" });
  frame.append(input);
  box.append(element("label", label, { for: id }), frame);
  return { box, input };
}

export class Writing {
  // `does` has write(entry), a promise; check(entry, onFaults); saveWith(entry).
  // Without a batch it only begins new ones.
  constructor(place, forms, { batch, which }, does) {
    Object.assign(this, { place, forms, batch, which, does });
    this.home = document.querySelector("[data-entry-forms]");
    this.leaving = new AbortController();
    this.open = null; // {kind, form, replaces}
    this.draw();
    this.listen();
    this.minute = setInterval(() => this.tick(), 15_000);
  }

  close() {
    clearInterval(this.minute);
    this.shut();
    this.leaving.abort();
    this.place.replaceChildren();
  }

  draw() {
    this.kinds = element("div", "", { class: "entry-kinds", role: "group", "aria-label": "What was done" });
    this.likely = element("div", "", { class: "entry-likely" });
    const all = element("div", "", { class: "entry-all" });
    for (const [kind, one] of this.forms) {
      if (!NOT_DONE_BY_HAND.includes(kind)) all.append(this.kindButton(kind, one.dataset.label));
    }
    this.kinds.append(element("h3", "Write a line"), this.likely, all);
    this.kinds.hidden = !this.batch;
    this.sheet = element("div", "", { class: "entry-sheet" });
    this.sheet.hidden = true;
    this.head = element("h3");
    this.fault = element("p", "", { class: "entry-fault", role: "alert" });
    this.common = element("div", "", { class: "entry-common" });
    this.number = field("batch", "Batch number", { maxlength: "40" });
    this.at = field("at", "Done at", { type: "datetime-local" });
    this.who = field("who", "Who", { maxlength: "40" });
    this.remark = field("remark", "Remark, may stay blank", { maxlength: "400" });
    this.buttons = element("div", "", { class: "sheet-buttons" });
    this.writeButton = element("button", "Write it", { type: "submit", class: "main-button" });
    this.strike = element("button", "Strike the line out", { type: "button", "data-action": "strike" });
    this.buttons.append(this.writeButton, element("button", "Leave it", { type: "button", "data-action": "leave" }), this.strike);
    this.common.append(this.at.box, this.who.box, this.remark.box);
    this.sheet.append(this.head, this.fault);
    this.place.replaceChildren(this.kinds, this.sheet);
  }

  kindButton(kind, words) {
    return element("button", words, { type: "button", "data-kind-of-entry": kind });
  }

  listen() {
    const on = (name, handler) => this.place.addEventListener(name, handler, { signal: this.leaving.signal });
    on("click", (event) => this.pressed(event.target.closest("button")));
    on("submit", (event) => {
      event.preventDefault();
      this.write();
    });
    on("input", (event) => this.edited(event.target));
    on("keydown", (event) => this.keyed(event));
    on("paste", (event) => this.pasted(event));
  }

  // The kinds that come next by the course of the batch stand on top; room is kept for them, so nothing moves.
  offer(kinds) {
    const known = kinds.filter((kind) => this.forms.has(kind) && !NOT_DONE_BY_HAND.includes(kind)).slice(0, 3);
    const drawn = [...this.likely.children].map((button) => button.dataset.kindOfEntry);
    if (known.join() === drawn.join()) return;
    afterPress(() => this.likely.replaceChildren(...known.map((kind) => this.kindButton(kind, this.forms.get(kind).dataset.label))));
  }

  pressed(button) {
    if (!button || !this.place.contains(button)) return;
    const rowsOf = () => button.closest("[data-question]");
    const actions = {
      leave: () => this.leave(),
      strike: () => this.strikeOut(),
      "save-with": () => this.does.saveWith(this.entry()),
      "add-row": () => table.addRow(rowsOf()),
      "remove-row": () => {
        table.removeRow(rowsOf(), button.closest("[data-row]"));
        this.edited(this.open.form);
      },
    };
    if (button.dataset.kindOfEntry) this.begin(button.dataset.kindOfEntry);
    else actions[button.dataset.action]?.();
  }

  begin(kind, { values = {}, number = "", remark = "", at = "", replaces = null, aside = "" } = {}) {
    const own = this.forms.get(kind);
    if (!own) return;
    this.putAway();
    this.open = { kind, form: own, replaces };
    this.touched = Boolean(at);
    this.head.textContent = replaces ? `Correct: ${own.dataset.label}` : own.dataset.label;
    this.sheet.append(own);
    own.append(this.common, this.buttons);
    if (kind === "start" && !replaces) own.prepend(this.number.box);
    form.write(this.sheet, values);
    form.clearErrors(own);
    this.number.input.value = number;
    this.sure = "";
    this.at.input.value = at || localMinute();
    this.who.input.value = draft.recall("who") ?? "";
    this.remark.input.value = remark;
    this.strike.hidden = !replaces;
    this.strike.textContent = "Strike the line out";
    this.say(aside);
    this.kinds.hidden = true;
    this.sheet.hidden = false;
    const first = own.querySelector("input:not([type=radio], [type=datetime-local]), select, textarea");
    (first ?? this.remark.input).focus();
    this.sheet.scrollIntoView({ block: "start" });
  }

  correct(entry) {
    this.begin(entry.kind, { ...entry, replaces: entry.id, aside: "The line stays in the book, struck through, with this one in its place." });
  }

  leave() {
    this.shut();
    draft.keepDraft(this.which, null);
    this.kinds.querySelector("button")?.focus();
  }

  shut() {
    clearTimeout(this.pause);
    if (!this.open) return;
    this.putAway();
    this.sheet.hidden = true;
    this.kinds.hidden = !this.batch;
  }

  putAway() {
    for (const shared of [this.number.box, this.common, this.buttons]) shared.remove();
    if (this.open) this.home.append(this.open.form);
    this.open = null;
  }

  say(text) {
    this.fault.replaceChildren(text);
    this.fault.hidden = !text;
  }

  tick() {
    if (this.open && !this.touched && document.activeElement !== this.at.input) this.at.input.value = localMinute();
  }

  edited(target) {
    if (!this.open) return;
    if (target === this.at.input) this.touched = true;
    form.clearErrors(target.closest?.("[data-question]") ?? this.open.form);
    const { kind, replaces } = this.open;
    const [number, at, remark] = [this.number, this.at, this.remark].map((one) => one.input.value);
    draft.keepDraft(this.which, { batch: this.batch, kind, values: filled(form.read(this.sheet)), number, at, remark, replaces });
    clearTimeout(this.pause);
    this.pause = setTimeout(() => this.check(), PAUSE_MS);
  }

  check() {
    const { open } = this;
    if (!open) return;
    this.does.check(this.entry(), (faults) => {
      if (this.open === open && !this.busy) afterPress(() => this.open === open && form.showErrors(this.sheet, faults));
    });
  }

  takeUpDraft() {
    const last = draft.recallDraft(this.which);
    if (!last || last.batch !== this.batch || this.open) return;
    this.begin(last.kind, { ...last, aside: "This line was typed before and is not in the book." });
  }

  // What is carried over when the page is loaded again for a new edition: gas readings too, for that moment.
  typed() {
    if (!this.open) return null;
    const { kind, replaces } = this.open;
    const [number, who, remark] = [this.number, this.who, this.remark].map((one) => one.input.value);
    const at = this.touched ? this.at.input.value : "";
    const words = { ...form.inWords(this.sheet), ...(remark && { remark }), ...(number && { number: `Batch number ${number}` }) };
    return { kind, replaces, number, at, who, remark, values: form.read(this.sheet), words };
  }

  // Gives back in words what this edition has no place for, or null when it has none for the line.
  takeUp(carried) {
    this.begin(carried.kind, { ...carried, values: {}, aside: "This line was being typed when the handbook was renewed. It is not in the book so far." });
    if (!this.open) return null;
    this.who.input.value = carried.who;
    return form.takeOver(this.sheet, carried);
  }

  entry(kind = this.open.kind) {
    const begins = kind === "start" && !this.open.replaces;
    return newEntry({
      batch: begins ? tidyName(this.number.input.value) : this.batch,
      kind,
      at: this.touched ? this.at.input.value : "",
      values: kind === "withdrawn" ? {} : form.read(this.sheet),
      who: this.who.input.value,
      remark: this.remark.input.value,
      replaces: this.open.replaces,
    });
  }

  async write() {
    if (!this.open || this.busy) return;
    const entry = this.entry();
    if (!entry.batch) {
      this.say("Give the batch a number or a name first.");
      this.number.input.focus();
      return;
    }
    if (entry.kind === "start" && !entry.replaces && this.does.known(entry.batch) && this.sure !== entry.batch) {
      this.sure = entry.batch;
      this.say(`A batch ${entry.batch} is in the book already. Change the number, or press “Write it” again to add this line to it.`);
      return;
    }
    if (entry.kind === "remark" && !entry.remark.trim()) {
      this.say("Type what there is to say first.");
      this.remark.input.focus();
      return;
    }
    await this.put(entry);
  }

  strikeOut() {
    if (this.strike.textContent.endsWith("again")) return void this.put(this.entry("withdrawn"));
    this.strike.textContent = "Strike it out: press again";
  }

  // The form stays as it is until the line is on the disk.
  async put(entry) {
    if (this.busy) return;
    this.busy = true;
    clearTimeout(this.pause);
    this.writeButton.textContent = "Writing …";
    try {
      await this.does.write(entry);
      draft.keep("who", entry.who);
      draft.keepDraft(this.which, null);
      this.shut();
      this.kinds.querySelector("button")?.focus({ preventScroll: true });
    } catch (fault) {
      this.say(`${fault.message} What you typed stands here. `);
      this.fault.append(element("button", "Save the book as a file, with this line", { type: "button", "data-action": "save-with" }));
      this.fault.scrollIntoView({ block: "nearest" });
    } finally {
      this.busy = false;
      this.writeButton.textContent = "Write it";
    }
  }

  keyed(event) {
    if (event.key !== "Enter" || event.isComposing || !event.target.matches("[data-column]")) return;
    event.preventDefault();
    table.rowBelow(event.target.closest("[data-question]"), event.target);
  }

  pasted(event) {
    const taken = table.takePaste(event);
    if (!taken) return;
    this.edited(taken.cell);
    if (taken.said) this.fault.textContent = taken.said;
  }
}
