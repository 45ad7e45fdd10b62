// A file of the reader's own, for the device to keep.

import { element } from "./element.mjs";

/**
 * @param {string} text
 * @param {string} name
 * @param {string} type
 */
export function giveFile(text, name, type) {
  const link = element("a", "", { href: URL.createObjectURL(new Blob([text], { type })), download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
