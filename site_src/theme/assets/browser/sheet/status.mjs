// The line under the form, the bar while the engine starts, and what is said to those who listen.

const QUIET_MS = 1000; // an answer that changes with every key is read out once it rests

export class Status {
  constructor(section) {
    this.line = section.querySelector("[data-state]");
    this.bar = section.querySelector(".sheet-progress");
    // Read out from a place of its own, so that the line may change with every key.
    this.line.removeAttribute("role");
    this.line.setAttribute("aria-live", "off");
    this.voice = document.createElement("p");
    this.voice.className = "sheet-voice";
    this.voice.setAttribute("role", "status");
    section.append(this.voice);
    this.aside = ""; // where the numbers came from; stands in front until the next change
    this.text = "";
    this.engine = "";
    this.timer = 0;
  }

  draw() {
    const text = [this.aside, this.engine || this.text].filter(Boolean).join(" ");
    if (this.line.textContent !== text) this.line.textContent = text;
  }

  // What the sheet has to say; an answer may still change with the next key, and stays in view while one types.
  say(text, { answer = false, aloud = text } = {}) {
    this.text = text;
    this.line.toggleAttribute("data-pinned", answer);
    this.draw();
    this.announce(aloud, answer ? QUIET_MS : 0);
  }

  remark(text) {
    this.aside = text;
    this.draw();
    if (text) this.announce(text);
  }

  announce(text, delay = 0) {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => {
      if (this.voice.textContent !== text) this.voice.textContent = text;
    }, delay);
  }

  // What the engine has to say goes first while it lasts.
  starting(text, done) {
    this.engine = text;
    this.bar.hidden = !text;
    this.bar.value = done;
    this.draw();
  }
}
