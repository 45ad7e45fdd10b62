// A file of the reader's own, for the device to keep.

import { element } from "./element.mjs";

/**
 * @param {string[]} pieces of its text, since a long one is not put together at once
 * @param {string} name
 * @param {string} type
 */
export function giveFile(pieces, name, type) {
  const link = element("a", "", { href: URL.createObjectURL(new Blob(pieces, { type })), download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
