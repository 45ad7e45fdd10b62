// Rows that could not be taken as lines: a list to look at. They are not in the book and stand in nobody's way.

import { button, element } from "../shared/element.mjs";
import { giveFile } from "../shared/file.mjs";
import { localMinute } from "../shared/moment.mjs";

/** @typedef {import("./taking.mjs").Aside} Aside */

const MOST = 100;
const LONGEST = 400; // characters of a row on the page; the file has all

export class SetAside {

  /**
   * @param {HTMLElement} place
   * @param {import("./book.mjs").Book} book
   */
  constructor(place, book) {
    this.place = place;
    this.book = book;
  }

  async draw() {
    /** @type {Aside[]} */
    const rows = await this.book.beside.all("aside");
    this.place.hidden = !rows.length;
    if (!rows.length) return this.place.replaceChildren();
    const head = element("summary", `Set aside: ${rows.length === 1 ? "1 row" : `${rows.length} rows`} to look at`);
    const why = element("p", "These stood in files that were read in, and could not be taken as lines. They are not in the book. Put them right in the file, or write them by hand, then take them away here.", { class: "remark" });
    const list = element("ul", "", { class: "set-aside" });
    for (const row of rows.slice(0, MOST)) list.append(this.row(row));
    const save = button("Save these rows as a file");
    save.addEventListener("click", () => giveFile([`${JSON.stringify(rows, null, 1)}\n`], `set-aside-${localMinute().replaceAll(":", "")}.json`, "application/json"));
    const buttons = element("div", "", { class: "sheet-buttons" });
    buttons.append(save, this.removal(rows.length));
    this.place.replaceChildren(head, why, list, ...(rows.length > MOST ? [element("p", `And ${rows.length - MOST} more: save them as a file to see all.`)] : []), buttons);
  }

  /** @param {Aside} row */
  row({ row, file, at, why, text, what }) {
    const item = element("li");
    const words = text || what;
    item.append(element("p", `${file}, row ${row}, read in ${at.replace("T", " ")}: ${why}`));
    if (words) item.append(element("code", words.length > LONGEST ? `${words.slice(0, LONGEST)} …` : words));
    return item;
  }

  /** @param {number} count */
  removal(count) {
    let asked = false;
    const remove = button("Take them away");
    remove.addEventListener("click", async () => {
      if (!asked) {
        asked = true;
        remove.textContent = `Take all ${count} away for good: press again`;
        return;
      }
      await this.book.beside.clear("aside");
      await this.draw();
    });
    return remove;
  }
}
