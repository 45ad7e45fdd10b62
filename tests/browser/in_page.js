// Helpers that the tests run inside a page, as `helpers.<name>`.

globalThis.helpers = {
  // The words and figures that stand in each place of a sheet's results.
  places: (section) =>
    Object.fromEntries(
      [...section.querySelectorAll("[data-place]")].map((place) => [
        place.dataset.place,
        place.textContent.replace(/\s+/g, " ").trim(),
      ]),
    ),

  html: (section) =>
    Object.fromEntries([...section.querySelectorAll("[data-place]")].map((place) => [place.dataset.place, place.innerHTML])),

  // HTML as the browser writes it back.
  normal: (html) => {
    const box = document.createElement("div");
    box.innerHTML = html;
    return box.innerHTML;
  },

  cells: (field) =>
    [...field.querySelectorAll("tr[data-row]")].map((row) =>
      [...row.querySelectorAll("[data-column]")].map((box) => box.value),
    ),

  paste: (box, text) => {
    const data = new DataTransfer();
    data.setData("text/plain", text);
    box.focus();
    box.dispatchEvent(new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }));
  },

  // Puts values into the boxes, all at once, and waits for their answer.
  ask: async (section, questions) => {
    for (const field of section.querySelectorAll("[data-question]")) {
      const value = questions[field.dataset.question] ?? "";
      if (field.dataset.kind === "table") fillTable(field, value);
      else if (field.querySelector("input[type=radio]")) {
        for (const box of field.querySelectorAll("input[type=radio]")) box.checked = value ? box.value === value : box.defaultChecked;
      } else {
        const box = field.querySelector("input, select");
        box.value = value || box.defaultValue || "";
      }
    }
    section.querySelector(".sheet-form input").dispatchEvent(new Event("input", { bubbles: true }));
    const until = performance.now() + 45000;
    const waits = () => section.querySelector("[data-results]").hasAttribute("data-waiting");
    while (waits() && performance.now() < until) await new Promise((done) => setTimeout(done, 10));
    return helpers.html(section);
  },

  // Types into a box; gives back whether something stands in its field the moment after.
  type: (box, text, something) => {
    box.value = text;
    box.dispatchEvent(new Event("input", { bubbles: true }));
    return Boolean(box.closest(".field").querySelector(something));
  },

  // Types word0, word1 ... with a pause between them.
  typeOften: async (box, word, times, pause) => {
    for (let number = 0; number < times; number += 1) {
      helpers.type(box, `${word}${number}`, "*");
      await new Promise((done) => setTimeout(done, pause));
    }
  },

  // Goes to an address the way a reader does, by a link.
  press: (address) => {
    const main = document.querySelector("main");
    main.dataset.left = "";
    const link = main.appendChild(document.createElement("a"));
    link.href = address;
    link.click();
  },

  // The same as one who has looked at the page: before, a browser loads what is followed to anew, and the engine with it.
  follow: (address) => {
    const until = performance.now() + 1500;
    const wait = (done) =>
      helpers.knowsThePages() || performance.now() > until ? done(helpers.press(address)) : setTimeout(wait, 20, done);
    return helpers.knowsThePages() ? helpers.press(address) : new Promise(wait);
  },

  // Whether the theme is there, and its list of the pages.
  knowsThePages: () =>
    Boolean(window.document$) &&
    performance.getEntriesByType("resource").some(({ name, responseEnd }) => name.endsWith("/sitemap.xml") && responseEnd),

  // Notes every text that is put into an element from now on.
  listen: (element) => {
    window.said = [];
    new MutationObserver(() => window.said.push(element.textContent)).observe(element, {
      childList: true,
      characterData: true,
      subtree: true,
    });
  },

  // Notes how many errors were to be seen at each change from now on.
  watchErrors: (section) => {
    window.seen = [];
    const count = () => window.seen.push(section.querySelectorAll("[data-error]:not([hidden])").length);
    new MutationObserver(count).observe(section, { subtree: true, attributes: true, childList: true });
  },

  // Marks one element of each look that is not known yet, and tells the looks.
  looks: (known) => {
    const seen = new Set(known);
    const fresh = [];
    const lookOf = looker();
    for (const one of document.querySelectorAll("[data-look]")) delete one.dataset.look;
    for (const one of document.querySelectorAll("body *")) {
      if (![...one.childNodes].some((node) => node.nodeType === 3 && node.data.trim()) || !one.checkVisibility()) continue;
      const look = lookOf(one);
      if (seen.has(look)) continue;
      seen.add(look);
      fresh.push(look);
      one.dataset.look = "";
    }
    return fresh;
  },

  // The kinds of element in the text that are not known yet. Of what is drawn, the words alone.
  kinds: (known) => {
    const seen = new Set(known);
    const all = document.querySelectorAll("article *:not(svg.chart *, svg :not(text))");
    return [...new Set([...all].map((one) => [one.localName, ...one.classList].join(".")))].filter((one) => !seen.has(one));
  },

  // Takes the menus off the page while something is done.
  textAlone: async (work) => {
    const put = [...document.querySelectorAll(".md-header, .md-tabs, .md-sidebar, .md-footer")].map((part) => {
      const mark = document.createComment("");
      part.replaceWith(mark);
      return () => mark.replaceWith(part);
    });
    try {
      return await work();
    } finally {
      for (const back of put) back();
    }
  },

  // Tables and rows of boxes with columns past the edge of their box. A plan for the wall, and one of eight columns and
  // more, may be moved sideways: its first column stays.
  hiddenColumns: () =>
    [...document.querySelectorAll("article :is(.md-typeset__scrollwrap, .table-box, .grid-box, .case-table)")]
      .filter((box) => box.checkVisibility() && box.scrollWidth > box.clientWidth + 1 && !box.closest("[data-for-wall]") && !box.querySelector("thead th:nth-child(8)"))
      .map((box) => `${box.scrollWidth - box.clientWidth} px of “${box.textContent.trim().replace(/\s+/g, " ").slice(0, 60)}”`),

  // Figures in tables that stand on two lines, as “1500” and “0”.
  brokenFigures: () => {
    const found = [];
    for (const cell of document.querySelectorAll("article .table-box td")) {
      if (!cell.checkVisibility()) continue;
      const walker = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT);
      for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        for (const figure of node.data.matchAll(/\d[\d.,:]*/g)) {
          const range = document.createRange();
          range.setStart(node, figure.index);
          range.setEnd(node, figure.index + figure[0].length);
          if (new Set([...range.getClientRects()].map((box) => Math.round(box.top))).size > 1) found.push(`${figure[0]} in “${cell.textContent}”`);
        }
      }
    }
    return found;
  },

  // Controls that a gloved finger would miss.
  small: (section, least) =>
    [...section.querySelectorAll("button, input, select, summary")]
      .map((control) => (control.type === "radio" ? control.closest("label") : control))
      .map((control) => [control.outerHTML.slice(0, 120), control.getBoundingClientRect()])
      .filter(([, box]) => box.width && Math.min(box.width, box.height) < least - 0.5)
      .map(([html, box]) => `${Math.round(box.width)}x${Math.round(box.height)} ${html}`),

  // Controls that show under `root` with something else on top at their centre: a tap there would miss them.
  covered: async (root) => {
    await Promise.all(document.getAnimations().map((one) => one.finished.catch(() => {})));
    const found = [];
    for (const control of document.querySelectorAll(`${root} :is(${CONTROLS})`)) {
      if (!shows(control) || hits(control)) continue;
      control.scrollIntoView({ block: "center", inline: "nearest", behavior: "instant" });
      if (hits(control)) continue;
      const late = performance.now() + 3000; // the theme moves its sides along, on a busy machine late
      while (performance.now() < late && !hits(control)) {
        control.scrollIntoView({ block: "center", inline: "nearest", behavior: "instant" });
        await new Promise((done) => requestAnimationFrame(done));
      }
      if (!hits(control)) found.push(`${briefly(control)} under ${briefly(atCentre(control))}`);
    }
    return found;
  },
};

const CONTROLS = "a[href], button, input, select, textarea, summary, label";
// What the theme draws as a control and means as a heading: it lets taps through.
const HEADINGS = ".md-nav__item--section > .md-nav__link, .md-nav--lifted > .md-nav__list > .md-nav__item > .md-nav__link";

const briefly = (element) => element?.outerHTML.replace(/\s+/g, " ").slice(0, 120) ?? "the edge of the screen";

function shows(control) {
  const wide = innerWidth > 1219; // where the menu stands beside the page
  if (!control.checkVisibility({ opacityProperty: true, visibilityProperty: true })) return false;
  const { width, height } = control.getBoundingClientRect();
  if (Math.min(width, height) < 2 || control.disabled) return false;
  if (wide) return !control.matches(`${HEADINGS}, .md-search__form > label`);
  const drawer = control.closest(".md-sidebar--primary");
  return !drawer || document.getElementById("__drawer").checked;
}

// The middle of the largest part: a link may stand on two lines.
function atCentre(control) {
  const area = (box) => box.width * box.height;
  const box = [...control.getClientRects()].sort((one, other) => area(other) - area(one))[0];
  return box && document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
}

function hits(control) {
  const top = atCentre(control);
  if (!top) return false;
  if (control.contains(top) || top.closest("label")?.control === control || top === control.control) return true;
  const [own, other] = [control, top].map((one) => one.closest(".md-nav")); // in the menu a part is laid over the whole
  return Boolean(own) && own !== other && own.contains(other);
}

// What contrast is reckoned from. Every ground is looked at once, whatever stands on it.
function looker() {
  const grounds = new Map([[null, ""]]);
  const groundOf = (at) => {
    if (!grounds.has(at)) {
      const { backgroundColor, backgroundImage, opacity } = getComputedStyle(at);
      const bare = backgroundColor === "rgba(0, 0, 0, 0)" && backgroundImage === "none" && opacity === "1";
      grounds.set(at, (bare ? "" : ` ${backgroundColor} ${backgroundImage} ${opacity}`) + groundOf(at.parentElement));
    }
    return grounds.get(at);
  };
  return (element) => {
    const { color, fill, fontSize, fontWeight, textShadow } = getComputedStyle(element);
    return [color, fill, Math.round(parseFloat(fontSize)), fontWeight >= 700, textShadow].join(" ") + groundOf(element);
  };
}

function fillTable(field, values) {
  const rows = () => [...field.querySelectorAll("tr[data-row]")];
  while (rows().length < values.length) field.querySelector("[data-action=add-row]").click();
  rows().forEach((row, at) => {
    [...row.querySelectorAll("[data-column]")].forEach((box, column) => {
      box.value = values[at]?.[column] ?? "";
    });
  });
}

addEventListener("securitypolicyviolation", (event) =>
  console.error(`policy breach: ${event.violatedDirective} ${event.blockedURI}`),
);
