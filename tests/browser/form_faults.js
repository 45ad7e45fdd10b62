// What hangs on the words and names of one page, not on its kinds of element: headings that skip a level, names used
// twice or pointing nowhere, controls and pictures without a name, lists with strange children, and boxes that can be
// moved and not be reached by the keyboard.
() => {
  const article = document.querySelector("article");
  const briefly = (one) => one.outerHTML.replace(/\s+/g, " ").slice(0, 120);
  const words = (one) => one.textContent.trim() || one.getAttribute("aria-label") || one.querySelector("img[alt]:not([alt=''])");
  const seen = (style) => [...article.querySelectorAll(style)].filter((one) => one.checkVisibility());
  const named = (one) => one.getAttribute("aria-label") || one.getAttribute("aria-labelledby") || one.title;
  const found = [];
  const say = (what, all) => found.push(...all.slice(0, 3).map((one) => `${what}: ${briefly(one)}`));

  let level = 0;
  for (const head of seen("h1, h2, h3, h4, h5, h6")) {
    const now = Number(head.localName[1]);
    if (now > level + 1) say("a heading skips a level", [head]);
    if (!head.textContent.replace("¶", "").trim()) say("a heading without words", [head]);
    level = now;
  }
  const ids = new Set();
  for (const one of document.querySelectorAll("[id]")) {
    if (ids.has(one.id)) say("a name stands twice", [one]);
    ids.add(one.id);
  }
  for (const one of article.querySelectorAll("[aria-labelledby], [aria-describedby], label[for]")) {
    const names = ["aria-labelledby", "aria-describedby", "for"].flatMap((of) => (one.getAttribute(of) ?? "").split(/\s+/));
    if (names.some((name) => name && !ids.has(name))) say("it points nowhere", [one]);
  }
  say("no words to press", seen("a[href], button, summary").filter((one) => !words(one) && !named(one)));
  say("a box without a label", seen("input:not([type=hidden]), select, textarea").filter((one) => !one.labels?.length && !named(one)));
  say("a picture without words", seen("img:not([alt]), [role=img]:not(:has(> title))").filter((one) => !named(one)));
  say("in a list, but no item of it", seen(":is(ul, ol) > :not(li, script, template), :not(ul, ol, menu) > li"));
  say("in a list of terms, but none", seen("dl > :not(dt, dd, div, script, template), :not(dl, dl > div) > :is(dt, dd)"));
  const moves = (one) => one.scrollWidth > one.clientWidth + 1 || one.scrollHeight > one.clientHeight + 1;
  const reached = (one) => one.tabIndex >= 0 || one.querySelector("a[href], button, input, select, textarea, summary, [tabindex='0']");
  const boxes = seen("*").filter((one) => moves(one) && /auto|scroll/.test(getComputedStyle(one).overflow));
  say("it moves, but not by the keyboard", boxes.filter((one) => !reached(one)));
  return found;
};
