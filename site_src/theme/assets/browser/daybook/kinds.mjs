// The kinds of entry as Python declares them and the page was built with: their forms, what is done with each, the
// fields that every line has, and the head of the table that lines stand in.

import { found, part, parts } from "../shared/element.mjs";

/** @typedef {"begins" | "strikes" | "says" | "by-itself"} Role what the page does with a kind beside writing it */

export class Kinds {
  /** @param {HTMLElement} home where the fields that every line has stay while nobody writes in them */
  constructor(home) {
    this.home = home;
    this.version = home.dataset.version ?? "";
    this.kept = found(home, "template[data-kinds]", HTMLTemplateElement).content; // and the forms
    this.forms = new Map(parts(this.kept, "form[data-entry-kind]").map((form) => [form.dataset.entryKind ?? "", form]));
  }

  /** @param {HTMLElement} form in which nobody writes any more */
  putAway(form) {
    this.kept.append(form);
  }

  /** @param {string} kind */
  labelOf(kind) {
    return this.forms.get(kind)?.dataset.label ?? kind;
  }

  /**
   * @param {string} kind
   * @param {Role} role
   */
  is(kind, role) {
    return this.forms.get(kind)?.dataset.role === role;
  }

  /**
   * The one kind of a role.
   * @param {Role} role
   */
  of(role) {
    return [...this.forms.keys()].find((kind) => this.is(kind, role)) ?? "";
  }

  /**
   * Whether a line of this kind is written by hand in a batch that is begun.
   * @param {string} kind
   */
  isOffered(kind) {
    return this.forms.has(kind) && !["begins", "strikes", "by-itself"].includes(this.forms.get(kind)?.dataset.role ?? "");
  }

  /**
   * Whether a line of this kind may be kept on the device before it is written.
   * @param {string} kind
   */
  isDrafted(kind) {
    return this.forms.get(kind)?.dataset.drafted === "yes";
  }

  /**
   * A field that every line has.
   * @param {"batch" | "at" | "who" | "remark"} name
   */
  common(name) {
    const box = part(document, `[data-common=${name}]`);
    return { box, input: found(box, "input", HTMLInputElement) };
  }

  /** The table that lines stand in, with its head and no lines. */
  table() {
    const table = found(this.home, "template[data-lines]", HTMLTemplateElement).content.firstElementChild?.cloneNode(true);
    if (!(table instanceof HTMLTableElement)) throw new Error("the page has no head for its lines");
    return table;
  }
}
