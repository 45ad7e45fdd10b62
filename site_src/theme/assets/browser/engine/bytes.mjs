// Files of an engine, fetched and counted, and checked where this browser can.

import { digest } from "../shared/digest.mjs";

/** @typedef {import("./coming.mjs").Coming} Coming */

/** @param {string} address */
export const nameOf = (address) => address.split("/").at(-1) ?? "";

/**
 * @param {string} address
 * @param {Coming} coming counts it
 * @param {RequestInit} [options]
 */
export async function bytesOf(address, coming, options) {
  const response = await fetch(address, options);
  if (!response.ok) throw new Error(`${address} could not be fetched (${response.status})`);
  return new Uint8Array(await coming.counted(nameOf(address), response).arrayBuffer());
}

/**
 * The bytes whose SHA-256 begins so. What the browser holds may be damaged: then past it.
 * @param {string} address
 * @param {string} mark
 * @param {Coming} coming
 */
export async function checkedBytes(address, mark, coming) {
  for (const cache of /** @type {const} */ (["default", "reload"])) {
    const bytes = await bytesOf(address, coming, { cache });
    if (!isSecureContext || !crypto.subtle || (await digest(bytes)).startsWith(mark)) return bytes;
  }
  throw new Error("the calculators are not those that were published");
}
