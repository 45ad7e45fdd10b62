// The page of one's own results: a table, a file to save and to bring back, a way to remove all.

import * as marks from "./marks.mjs";
import { giveFile } from "../shared/file.mjs";
import { around, element, found, part } from "../shared/element.mjs";
import { localMinute, saidDay, saidTime } from "../shared/moment.mjs";

/** @type {Record<string, string>} */
export const RESULT_WORDS = { right: "right at the first try", safe: "would do, and not the best", missed: "missed" };

export class ResultsKept {
  /** @param {HTMLElement} section */
  constructor(section) {
    this.section = section;
    /** @type {Record<string, { chapter: string, said: string } | undefined>} */
    this.known = JSON.parse(section.dataset.known ?? "{}");
    part(section, "[data-training=tools]").hidden = false;
    section.addEventListener("click", (event) => this.pressed(around(event.target, "button[data-action]")));
    this.file = found(section, "input[type=file]", HTMLInputElement);
    this.file.addEventListener("change", () => this.bringBack());
    this.leave = marks.subscribe(() => this.draw());
    this.draw();
  }

  close() {
    this.leave();
  }

  /** @param {string} name */
  place(name) {
    return part(this.section, `[data-training="${name}"]`);
  }

  /** @param {string} text */
  say(text) {
    this.place("state").textContent = text;
  }

  draw() {
    const all = [...marks.results()].sort(([a, x], [b, y]) => x.chapter.localeCompare(y.chapter) || a.localeCompare(b));
    const body = this.place("rows");
    body.replaceChildren(
      ...all.map(([id, one]) => {
        const row = document.createElement("tr");
        const said = this.known[id]?.said ?? id.replaceAll("-", " ");
        for (const text of [said, one.kind === "question" ? "judgement" : "sum", RESULT_WORDS[one.mark], saidTime(one.at), saidDay(one.due)]) {
          row.append(element("td", text));
        }
        return row;
      }),
    );
    this.place("table").hidden = !all.length;
    this.say(marks.said() || (all.length ? `${all.length} kept on this device.` : "Nothing is kept on this device. If you have worked here before, the browser was cleared, or it was another browser: bring back a file that you saved."));
  }

  /** @param {HTMLElement | null} button */
  pressed(button) {
    const action = button?.dataset.action;
    if (action === "save") this.save();
    if (action === "bring") this.file.click();
    if (button && action === "remove") this.remove(button);
  }

  save() {
    giveFile([marks.exported()], `training-results-${localMinute().slice(0, 10)}.json`, "application/json");
    this.say("Saved as a file.");
  }

  async bringBack() {
    const file = this.file.files?.[0];
    this.file.value = "";
    if (!file) return;
    const { fault, added, left } = marks.take(file.size > 1e6 ? " ".repeat(1e6) : await file.text(), this.known);
    const leftWords = left ? ` ${left} left out: this handbook does not know them.` : "";
    this.say(fault ?? `${added} brought back; what was newer here stays.${leftWords}${marks.said() ? ` ${marks.said()}` : ""}`);
  }

  /** @param {HTMLElement} button */
  remove(button) {
    if (button.dataset.sure !== "yes") {
      button.dataset.sure = "yes";
      button.textContent = "Remove all of them: press again";
      return;
    }
    button.dataset.sure = "";
    button.textContent = "Remove my results";
    marks.remove();
  }
}
