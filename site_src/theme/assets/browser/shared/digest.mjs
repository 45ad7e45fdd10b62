// What tells one file from another, and a damaged one from a whole one.

/**
 * The SHA-256 of some bytes, as 64 hexadecimal digits.
 * @param {BufferSource} bytes
 */
export async function digest(bytes) {
  const found = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return [...found].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
