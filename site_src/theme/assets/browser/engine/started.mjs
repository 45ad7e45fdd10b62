// Python as it stands once the calculators are loaded, before anything was asked: kept on the device, so that the next
// start takes it up instead of doing it all again. Whatever goes wrong here, the engine starts the long way.

import { digest } from "../shared/digest.mjs";
import { siteRoot } from "../shared/root.mjs";

const PAGE = 65536; // most of the memory is blank: only pages that hold something are kept
const key = new URL("started", siteRoot).href;
const prefix = `${siteRoot.pathname} started `;

/**
 * The first page says how long the memory is and which pages follow.
 * @param {Uint8Array} memory
 */
function packed(memory) {
  const words = new BigUint64Array(memory.buffer, memory.byteOffset, memory.byteLength >> 3);
  const holds = (/** @type {number} */ page) => {
    const end = Math.min((page + 1) * PAGE, memory.byteLength);
    for (let at = (page * PAGE) >> 3; at < end >> 3; at += 1) if (words[at]) return true;
    return false;
  };
  /** @type {number[]} */
  const pages = [];
  for (let page = 0; page * PAGE < memory.byteLength; page += 1) if (holds(page)) pages.push(page);
  const bytes = new Uint8Array((pages.length + 1) * PAGE);
  new TextEncoder().encodeInto(JSON.stringify({ length: memory.byteLength, pages }), bytes);
  pages.forEach((page, at) => bytes.set(memory.subarray(page * PAGE, (page + 1) * PAGE), (at + 1) * PAGE));
  return bytes;
}

/** @param {Uint8Array} bytes */
function unpacked(bytes) {
  /** @type {{ length: number, pages: number[] }} */
  const { length, pages } = JSON.parse(new TextDecoder().decode(bytes.subarray(0, bytes.indexOf(0))));
  const memory = new Uint8Array(length);
  pages.forEach((page, at) => {
    const start = (at + 1) * PAGE;
    memory.set(bytes.subarray(start, Math.min(start + PAGE, start + length - page * PAGE)), page * PAGE);
  });
  return memory;
}

/**
 * The memory that an earlier start left here, or null.
 * @param {string} version of the runtime and the calculators: a memory of others is of no use
 */
export async function recall(version) {
  try {
    const held = await caches.match(key, { cacheName: prefix + version });
    if (!held) return null;
    const bytes = new Uint8Array(await held.arrayBuffer());
    if ((await digest(bytes)) === held.headers.get("SHA-256")) return unpacked(bytes);
    await forget();
  } catch {
    // not on this address, not in this browser, or unreadable
  }
  return null;
}

export const able = () => isSecureContext && "caches" in self && Boolean(crypto.subtle);

/**
 * @param {string} version
 * @param {Uint8Array} memory
 */
export async function keep(version, memory) {
  try {
    const bytes = packed(memory);
    await forget();
    const headers = { "SHA-256": await digest(bytes) };
    await (await caches.open(prefix + version)).put(key, new Response(bytes, { headers }));
  } catch {
    // a full disk, or a private window
  }
}

export async function forget() {
  for (const name of await caches.keys()) if (name.startsWith(prefix)) await caches.delete(name);
}
