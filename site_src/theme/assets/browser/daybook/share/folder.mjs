// A folder of the web server, over the verbs that servers have for it: a listing, GET and PUT. Where a GET of the folder
// lists nothing, WebDAV's PROPFIND is tried. The browser asks for the server's own password.

import { namesIn } from "./names.mjs";

const PATIENCE_MS = 30_000;
const LARGEST = 8e6; // bytes; ours stay far below
const WRITTEN = [200, 201, 204];
const THERE = [409, 412]; // a file of this name is there already: reading it back shows whether it is whole

/** @typedef {"network" | "password" | "full" | "closed" | "absent" | "server" | "unlisted"} Kind */

const WORDS = {
  network: "The server cannot be reached.",
  password: "The server did not take the password, or none was typed.",
  full: "The server has no room left.",
  closed: "The server does not let this page write into the folder.",
  absent: "The server has no folder for sharing, or does not list what is in it.",
  server: "The server met a fault of its own; its disk may be full.",
  unlisted: "The server took a file and does not list it.",
};

export class Hindered extends Error {
  /**
   * @param {Kind} kind
   * @param {number} [status] of HTTP
   */
  constructor(kind, status = 0) {
    super(status ? `${WORDS[kind]} It answered ${status}.` : WORDS[kind]);
    this.kind = kind;
  }
}

/** @param {string} text */
const isListing = (text) => /^\s*\[/.test(text) || /<title>\s*Index of/i.test(text) || namesIn(text).length > 0;

export class Folder {
  skew = 0; // milliseconds that this device's clock is ahead of the server's

  /** @param {URL | string} address ends in a slash */
  constructor(address) {
    this.address = new URL(address);
  }

  /**
   * @param {string} name
   * @param {RequestInit} [options]
   */
  async ask(name, options = {}) {
    let response;
    try {
      response = await fetch(new URL(name, this.address), { cache: "no-store", credentials: "same-origin", signal: AbortSignal.timeout(PATIENCE_MS), ...options });
    } catch {
      throw new Hindered("network");
    }
    if (response.status === 401 || response.status === 407) throw new Hindered("password", response.status);
    return response;
  }

  // The names of ours that are there.
  async list() {
    const seen = await this.ask("", { headers: { Accept: "application/json, text/html;q=0.9" } });
    const text = await bodyOf(seen);
    if (seen.ok && isListing(text)) return this.listed(seen, text);
    const asked = await this.ask("", { method: "PROPFIND", headers: { Depth: "1" } });
    if (asked.status === 207) return this.listed(asked, await bodyOf(asked));
    if (seen.status >= 500) throw new Hindered("server", seen.status);
    throw new Hindered("absent");
  }

  /**
   * @param {Response} response
   * @param {string} text
   */
  listed(response, text) {
    const told = Date.parse(response.headers.get("Date") ?? "");
    if (told) this.skew = Date.now() - told;
    return namesIn(text);
  }

  /**
   * What is in a file; null when it went away, or is none of ours.
   * @param {string} name
   */
  async get(name) {
    const response = await this.ask(name);
    if (response.status === 404 || Number(response.headers.get("Content-Length")) > LARGEST) return null;
    if (!response.ok) throw new Hindered("server", response.status);
    try {
      return new Uint8Array(await response.arrayBuffer());
    } catch {
      throw new Hindered("network"); // cut off on the way
    }
  }

  /**
   * @param {string} name
   * @param {Uint8Array<ArrayBuffer>} bytes
   */
  async put(name, bytes) {
    const { status } = await this.ask(name, { method: "PUT", body: bytes, headers: { "Content-Type": "application/json", "If-None-Match": "*" } });
    if (WRITTEN.includes(status) || THERE.includes(status)) return;
    if (status === 507) throw new Hindered("full", status);
    throw new Hindered([403, 404, 405, 501].includes(status) ? "closed" : "server", status);
  }
}

/** @param {Response} response */
async function bodyOf(response) {
  try {
    return await response.text();
  } catch {
    throw new Hindered("network");
  }
}
