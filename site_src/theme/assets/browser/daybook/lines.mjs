// Lines as they were typed, for the moments before Python has drawn them, or where it cannot.

const MOST = 60; // of the newest

function element(tag, text = "", values = {}) {
  const made = document.createElement(tag);
  made.textContent = text;
  for (const [name, value] of Object.entries(values)) made.setAttribute(name, value);
  return made;
}

const wordsOf = (place) => place?.textContent.trim() ?? "";

// "Basket and grain 168 g", "Drained", with the words of the form.
function said(form, question, value) {
  const field = form?.querySelector(`[data-question="${CSS.escape(question)}"]`);
  const label = field?.querySelector("label, legend")?.firstChild?.textContent.trim() ?? question;
  if (Array.isArray(value)) return `${label}: ${value.map((row) => row.join(" ").trim()).filter(Boolean).join("; ")}`;
  const choice = field?.querySelector(`input[value="${CSS.escape(value)}"]`)?.closest("label") ?? field?.querySelector(`option[value="${CSS.escape(value)}"]`);
  const unit = wordsOf(field?.querySelector(".unit"));
  return choice ? wordsOf(choice) : `${label} ${value}${unit ? ` ${unit}` : ""}`;
}

export function labelOf(forms, entry) {
  return forms.get(entry.kind)?.dataset.label ?? entry.kind;
}

export function inWords(forms, entry) {
  const form = forms.get(entry.kind);
  const parts = Object.entries(entry.values ?? {}).map(([question, value]) => said(form, question, value));
  if (entry.replaces) parts.push(entry.kind === "withdrawn" ? "strikes out an earlier line" : "in place of an earlier line");
  return parts.join(", ");
}

function dayRow(day) {
  const made = element("tr", "", { class: "book-date" });
  made.append(element("th", day, { colspan: "6", scope: "rowgroup" }));
  return made;
}

function row(forms, entry) {
  const made = element("tr", "", { "data-entry": entry.id });
  const label = labelOf(forms, entry);
  const when = String(entry.at ?? "").replace("T", " ");
  made.append(element("th", when.slice(11), { class: "time", scope: "row" }));
  const cells = { what: label, values: inWords(forms, entry), who: entry.who, remark: entry.remark };
  for (const [style, text] of Object.entries(cells)) made.append(element("td", text ?? "", { class: style }));
  const tools = element("td", "", { class: "row-tools" });
  if (entry.kind !== "withdrawn") tools.append(element("button", "Correct", { type: "button", "data-action": "correct", "aria-label": `Correct: ${label}, ${when}` }));
  made.append(tools);
  return made;
}

// The newest last, as in a bound book.
export function drawLines(place, forms, entries) {
  place.hidden = !entries.length;
  if (!entries.length) return place.replaceChildren();
  const table = element("table", "", { class: "book-lines" });
  table.append(element("caption", "As written; the calculator has not looked at these lines so far."));
  const head = element("tr");
  for (const text of ["Time", "What", "Values", "Who", "Remark"]) head.append(element("th", text, { scope: "col" }));
  head.append(element("td"));
  table.append(element("thead"), element("tbody"));
  table.tHead.append(head);
  let day = "";
  for (const entry of entries.slice(-MOST)) {
    const own = String(entry.at ?? "").slice(0, 10);
    if (own !== day) table.tBodies[0].append(dayRow(own));
    day = own;
    table.tBodies[0].append(row(forms, entry));
  }
  const box = element("div", "", { class: "table-box" });
  box.append(table);
  place.replaceChildren(box);
  if (entries.length > MOST) place.prepend(element("p", `The last ${MOST} of ${entries.length} lines. The calculator will show all of them.`));
}

// Batches by their last line, the newest first.
export function drawBatches(place, entries, address) {
  const last = new Map();
  for (const entry of entries) {
    last.delete(entry.batch);
    last.set(entry.batch, entry);
  }
  const list = element("ul");
  for (const [batch, entry] of [...last].reverse().slice(0, MOST)) {
    const item = element("li");
    item.append(element("a", batch, { href: address(batch), "data-batch": batch }), ` ${String(entry.at ?? "").replace("T", " ")}`);
    list.append(item);
  }
  place.replaceChildren(list);
}
