// The projector view: the same page in large type, one step a screen. Arrow keys, Page Up and Page Down (as a
// presenter's remote sends them), Home, End; Escape closes it.

const SKIPPED = ".headerlink, .sheet, .exercises, .cases, .sources, .projector-offer, .sign-off, .for-trainer, .listen-for, script, style";
const FEW_CHARACTERS = 260; // so few can stand larger still
const ALONE = "h2, h3"; // each begins a screen

function copy(node) {
  const made = node.cloneNode(true);
  for (const one of [made, ...made.querySelectorAll("[id]")]) one.removeAttribute("id"); // the page has that name already
  made.querySelectorAll?.(SKIPPED).forEach((one) => one.remove());
  made.querySelectorAll?.("a").forEach((link) => link.replaceWith(...link.childNodes)); // a stray press must not leave the page
  made.querySelectorAll?.("details").forEach((one) => { one.open = true; });
  return made;
}

const isToWriteOn = (node) => node.matches("p") && node.textContent.includes("______"); // a line for a pen
const words = (heading) => copy(heading).textContent.trim();

// One screen: {head, nodes}. A list of steps and a plan give one screen a step; the rest one a heading.
export function screens(content) {
  const found = [];
  let head = "";
  let now = null;
  const begin = () => found.push((now = { head, nodes: [] }));
  for (const node of content.children) {
    if (node.matches(SKIPPED) || isToWriteOn(node)) continue;
    if (node.matches("h1")) {
      head = words(node);
      begin();
    } else if (node.matches(ALONE)) {
      head = words(node);
      now = null;
    } else if (node.matches("div") && node.querySelector(":scope > h2")) {
      head = words(node.querySelector("h2"));
      begin();
      now.nodes.push(...[...node.children].filter((child) => !child.matches("h2") && !isToWriteOn(child)));
      now = null;
    } else if (stepsOf(node).length > 1) {
      stepsOf(node).forEach((step, at) => {
        begin();
        now.nodes.push(step);
        now.step = `${at + 1} of ${stepsOf(node).length}`;
      });
      now = null;
    } else {
      if (!now) begin();
      now.nodes.push(node);
    }
  }
  return found.filter((screen) => screen.nodes.length);
}

function stepsOf(node) {
  const list = node.matches("ol") ? node : node.matches(".steps") ? node.querySelector(":scope > ol") : null;
  if (list) return [...list.children];
  const plan = node.matches(".plan") ? node.querySelectorAll("tbody tr") : [];
  return [...plan];
}

function shown(node) {
  if (!node.matches("tr, li")) return copy(node);
  const box = document.createElement("div");
  const made = copy(node);
  if (!node.matches("tr")) {
    box.append(...made.childNodes);
    return box;
  }
  for (const [at, cell] of [...made.cells].entries()) {
    const line = document.createElement("p");
    line.className = at ? "" : "projector-minutes";
    line.append(...cell.childNodes);
    box.append(line);
  }
  return box;
}

class Projector {
  constructor(list, opener) {
    this.list = list;
    this.opener = opener;
    this.at = 0;
    this.dialog = document.createElement("dialog");
    this.dialog.className = "projector";
    this.dialog.setAttribute("aria-label", "Projector view");
    this.head = document.createElement("h2");
    this.head.tabIndex = -1;
    this.body = document.createElement("div");
    this.body.className = "projector-body md-typeset";
    this.body.setAttribute("role", "region");
    this.body.setAttribute("aria-live", "polite");
    this.body.setAttribute("aria-label", "This step");
    const bar = document.createElement("div");
    bar.className = "projector-bar";
    this.count = document.createElement("span");
    bar.append(this.button("Back", -1), this.count, this.button("Next", 1), this.button("Close", 0));
    this.dialog.append(this.head, this.body, bar);
    this.dialog.addEventListener("keydown", (event) => this.keyed(event));
    this.dialog.addEventListener("close", () => this.closed());
    document.body.append(this.dialog);
    this.dialog.showModal();
    this.show(0);
    this.head.focus();
  }

  button(words, step) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = words;
    button.addEventListener("click", () => (step ? this.show(this.at + step) : this.dialog.close()));
    return button;
  }

  show(at) {
    this.at = Math.max(0, Math.min(at, this.list.length - 1));
    const { head, nodes, step } = this.list[this.at];
    this.head.textContent = step ? `${head} · ${step}` : head;
    this.count.textContent = `${this.at + 1} / ${this.list.length}`;
    this.body.replaceChildren(...nodes.map(shown));
    const few = this.body.textContent.length < FEW_CHARACTERS && !this.body.querySelector("svg, table");
    this.body.classList.toggle("few-words", few);
    this.body.tabIndex = this.body.scrollHeight > this.body.clientHeight ? 0 : -1; // the keyboard scrolls it
    this.body.scrollTop = 0;
  }

  keyed(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const onButton = event.target.matches("button") && event.key === " ";
    const to = { ArrowRight: this.at + 1, PageDown: this.at + 1, " ": this.at + 1, ArrowLeft: this.at - 1, PageUp: this.at - 1, Home: 0, End: this.list.length - 1 }[event.key];
    event.stopPropagation(); // the theme has keys of its own
    if (to === undefined || onButton) return;
    event.preventDefault();
    this.show(to);
  }

  closed() {
    this.dialog.remove();
    this.opener.focus();
  }
}

// Offered where there is something to show step by step.
export function offerProjector() {
  document.querySelector("dialog.projector")?.remove();
  const content = document.querySelector(".md-content__inner");
  if (!content || content.querySelector(".projector-offer") || !content.querySelector(".steps, .plan")) return;
  const offer = document.createElement("p");
  offer.className = "projector-offer";
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = "Projector view";
  button.addEventListener("click", () => new Projector(screens(content), button));
  offer.append(button);
  content.querySelector("h1")?.after(offer);
}
