// Which book and which batch the page's address names.

import { relativeRoot } from "../shared/root.mjs";

const LONGEST = 40;

/** @typedef {{ batch: string, which: "own" | "demo" }} Where a batch, or none, of a book */

/** @param {unknown} text */
export const tidyName = (text) => String(text ?? "").replace(/\s+/g, " ").trim().slice(0, LONGEST).replace(/[\uD800-\uDBFF]$/, "").toWellFormed();

/** @returns {Where} */
export function named() {
  const words = new URLSearchParams(location.search);
  return { batch: tidyName(words.get("batch")), which: words.get("book") === "demo" ? "demo" : "own" };
}

/** @param {{ batch?: string, which: string }} where */
export function query({ batch, which }) {
  const words = new URLSearchParams();
  if (batch) words.set("batch", batch);
  if (which === "demo") words.set("book", "demo");
  return `?${words}`;
}

/** @param {Where} where */
export const dayBookPage = (where) => `${relativeRoot()}records/day-book/${query(where)}`;

/** @param {Where["which"]} which */
export const handOverPage = (which) => `${relativeRoot()}records/hand-over/${query({ which })}`;

/**
 * Where a batch, or all at work, is given to another device.
 * @param {Where} where
 */
export const codesPage = (where) => `${relativeRoot()}records/by-codes/${query(where)}`;
