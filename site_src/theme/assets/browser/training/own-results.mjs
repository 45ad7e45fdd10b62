// The page of one's own results: a table, a file to save and to bring back, a way to remove all.

import * as record from "./marks.mjs";

const WORDS = { right: "right at the first try", missed: "missed last time" };

export class ResultsKept {
  constructor(section) {
    this.section = section;
    this.known = JSON.parse(section.dataset.known);
    section.querySelector("[data-training=tools]").hidden = false;
    section.addEventListener("click", (event) => this.pressed(event.target.closest("button[data-action]")));
    this.file = section.querySelector("input[type=file]");
    this.file.addEventListener("change", () => this.bringBack());
    this.leave = record.subscribe(() => this.draw());
    this.draw();
  }

  close() {
    this.leave();
  }

  place(name) {
    return this.section.querySelector(`[data-training="${name}"]`);
  }

  say(text) {
    this.place("state").textContent = text;
  }

  draw() {
    const all = [...record.results()].sort(([a, x], [b, y]) => x.chapter.localeCompare(y.chapter) || a.localeCompare(b));
    const body = this.place("rows");
    body.replaceChildren(
      ...all.map(([id, one]) => {
        const row = document.createElement("tr");
        for (const text of [one.chapter, id.replaceAll("-", " "), one.kind === "question" ? "judgement" : "sum", WORDS[one.mark], one.at.replace("T", " ")]) {
          row.append(Object.assign(document.createElement("td"), { textContent: text }));
        }
        return row;
      }),
    );
    this.place("table").hidden = !all.length;
    this.say(record.said() || (all.length ? `${all.length} kept on this device.` : "Nothing is kept on this device. If you have worked here before, the browser was cleared, or it was another browser: bring back a file that you saved."));
  }

  pressed(button) {
    const action = button?.dataset.action;
    if (action === "save") this.save();
    if (action === "bring") this.file.click();
    if (action === "remove") this.remove(button);
  }

  save() {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([record.exported()], { type: "application/json" }));
    link.download = `training-results-${new Date().toISOString().slice(0, 10)}.json`;
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
    this.say("Saved as a file.");
  }

  async bringBack() {
    const [file] = this.file.files;
    this.file.value = "";
    if (!file) return;
    const { fault, added, left } = record.take(file.size > 1e6 ? " ".repeat(1e6) : await file.text(), this.known);
    const leftWords = left ? ` ${left} left out: this handbook does not know them.` : "";
    this.say(fault ?? `${added} brought back; what was newer here stays.${leftWords}${record.said() ? ` ${record.said()}` : ""}`);
  }

  remove(button) {
    if (button.dataset.sure !== "yes") {
      button.dataset.sure = "yes";
      button.textContent = "Remove all of them: press again";
      return;
    }
    button.dataset.sure = "";
    button.textContent = "Remove my results";
    record.remove();
  }
}
