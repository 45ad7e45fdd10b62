// The answers of one sheet: named places that Python fills, and what they stand for at the moment.

import { element, part, parts } from "../shared/element.mjs";

/** @type {Record<string, string | undefined>} */
const NOTES = {
  old: "Old answer. It belongs to earlier numbers, not to what stands in the form now.",
  blank: "The earlier answer has been taken away, because it does not belong to what stands in the form now.",
};

/**
 * The figure with its unit; whose numbers they are stands once in front of the line.
 * @param {HTMLElement} answer
 */
function figureOf(answer) {
  const own = [...part(answer, ".figure").childNodes].filter((one) => !(one instanceof Element && one.className === "of-example"));
  return own.map((one) => one.textContent).join("");
}

/**
 * The interval of an answer, as it stands under it.
 * @param {HTMLElement} answer
 */
function doubtOf(answer) {
  const interval = answer.querySelector(".interval")?.textContent ?? "";
  return interval ? ` (${interval})` : "";
}

/** @param {string} text */
function firstSentence(text) {
  return text.match(/^.*?[.?!](?=\s|$)/)?.[0] ?? text;
}

/** @param {string} text */
const ended = (text) => (/[.?!]$/.test(text) ? text : `${text}.`);

/**
 * A sentence that lists what is not about people, as far as the first of the list; how many more there are is said.
 * @param {string} text
 */
function firstOfList(text) {
  const [first = "", ...more] = text.split("; ");
  return more.length && text.length > MOST_OF_LIST ? `${first.replace(/[.,]$/, "")}, and ${more.length} more below.` : text;
}

const MOST_OF_LIST = 120; // letters of a list in the line that stays in view
const MOST_SAID = 260; // letters of that line with a second figure in it: a third of a phone’s screen at the most

export class Results {
  /** @param {HTMLElement} section */
  constructor(section) {
    this.box = part(section, "[data-results]");
    this.guarded = section.dataset.guarded === "yes";
    this.places = new Map(parts(this.box, "[data-place]").map((place) => [place.dataset.place ?? "", place]));
    /** @type {Map<string, string>} */
    this.shown = new Map(); // what was put in, to leave alone what stays the same
    /** @type {Record<string, string> | null} */
    this.example = null; // the page's own worked case, kept from the first answer on
    this.note = element("p", "", { class: "standing-note", hidden: "" });
    this.box.prepend(this.note);
  }

  get standing() {
    return this.box.dataset.standing ?? "";
  }

  /** @param {string} standing */
  stand(standing) {
    this.box.dataset.standing = standing;
    this.note.textContent = NOTES[standing] ?? "";
    this.note.hidden = !NOTES[standing];
  }

  /** @param {Record<string, string>} texts HTML, by place */
  fill(texts) {
    this.example ??= Object.fromEntries([...this.places].map(([name, place]) => [name, place.innerHTML]));
    for (const [name, place] of this.places) {
      const text = texts[name] ?? "";
      if (this.shown.get(name) === text) continue;
      this.shown.set(name, text);
      place.innerHTML = text;
      const around = place.closest("details");
      if (around) around.hidden = !text;
    }
  }

  /**
   * @param {string} state
   * @param {Record<string, string>} texts
   * @param {boolean} withExample whether some of the numbers are the worked case's
   */
  answer(state, texts, withExample) {
    this.fill(texts);
    this.stand(state);
    this.box.toggleAttribute("data-with-example", withExample);
  }

  // The numbers above have changed and there is no answer to them.
  lapse() {
    if (this.standing === "example" || this.standing === "old" || this.standing === "blank") return;
    if (this.guarded) this.fill({});
    this.stand(this.guarded ? "blank" : "old");
  }

  showExample() {
    if (this.example) this.fill(this.example);
    this.stand("example");
    this.box.removeAttribute("data-with-example");
  }

  // The first note with a signal word, as far as its first sentence.
  warned() {
    const box = this.box.querySelector("[data-place=notes] .hazard");
    const word = box?.querySelector(".hazard-word")?.textContent ?? "";
    const text = box?.querySelector("p:not(.hazard-word)")?.textContent ?? "";
    const said = firstSentence(text);
    return word ? `${word}: ${box?.matches(".hazard-notice") ? firstOfList(said) : said}` : "";
  }

  /** The figures that lead, with their doubt, and what to do first. */
  leading() {
    const leads = parts(this.box, ".answer.lead").slice(0, 2);
    const answers = leads.length ? leads : parts(this.box, ".answer").slice(0, 1);
    const [first = "", second = ""] = answers.map((answer) => `${part(answer, "dt").textContent}: ${figureOf(answer)}${doubtOf(answer)}`);
    const act = firstSentence(answers[0]?.querySelector(".next")?.textContent ?? "");
    const refused = this.box.querySelector(".refusal")?.textContent ?? "";
    return { first: (act ? `${ended(first)} ${act}` : first) || refused, second, acts: Boolean(act) };
  }

  // In words, for the line that stays in view and for those who listen: what has a signal word, then a figure with what
  // to do. A second figure is told where there is room for it, or where the first does not say what to do.
  headline() {
    const whose = this.box.hasAttribute("data-with-example") ? `${this.box.querySelector(".standing")?.textContent}:` : "";
    const { first, second, acts } = this.leading();
    const said = [whose, this.warned(), first].filter(Boolean).join(" ");
    const both = second && (!acts || said.length + second.length < MOST_SAID) ? `${said} · ${second}` : said;
    return both.replace(/\s+/g, " ").trim();
  }
}
