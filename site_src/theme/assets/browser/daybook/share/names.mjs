// What the files of a shared folder are called: device, running number, digest of what is in them. No two devices ever
// write one file, none is written twice, and half a file is told from a whole one.

import { digest } from "../../shared/digest.mjs";

const NAME = /(?<![0-9a-z])([0-9a-z]{8})-([0-9]{6})-([0-9a-f]{64})\.json/g;
const LETTERS = "0123456789abcdefghijklmnopqrstuvwxyz";

/** @typedef {{ name: string, device: string, number: number, digest: string }} Named */

/**
 * The names of ours in a listing, whatever the server writes around them: JSON, HTML or XML.
 * @param {string} listing
 * @returns {Named[]}
 */
export function namesIn(listing) {
  const found = new Map();
  for (const [name, device, number, sum] of listing.matchAll(NAME)) found.set(name, { name, device, number: Number(number), digest: sum });
  return [...found.values()].sort((one, other) => (one.name < other.name ? -1 : 1));
}

/**
 * @param {string} device
 * @param {number} number
 * @param {Uint8Array<ArrayBuffer>} bytes
 */
export const nameFor = async (device, number, bytes) => `${device}-${String(number).padStart(6, "0")}-${await digest(bytes)}.json`;

/** What a device calls itself: drawn once, and so long that no two draw the same. */
export const freshDevice = () => [...crypto.getRandomValues(new Uint32Array(8))].map((number) => LETTERS[number % 36]).join("");
