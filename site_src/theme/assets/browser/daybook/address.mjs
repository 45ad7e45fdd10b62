// Which book and which batch the page's address names.

import { relativeRoot } from "../shared/root.mjs";

const LONGEST = 40;

export const tidyName = (text) => String(text ?? "").replace(/\s+/g, " ").trim().slice(0, LONGEST);

export function named() {
  const query = new URLSearchParams(location.search);
  return { batch: tidyName(query.get("batch")), which: query.get("book") === "demo" ? "demo" : "own" };
}

export function query({ batch, which }) {
  const words = new URLSearchParams();
  if (batch) words.set("batch", batch);
  if (which === "demo") words.set("book", "demo");
  return `?${words}`;
}

export const dayBookPage = (where) => `${relativeRoot()}records/day-book/${query(where)}`;
