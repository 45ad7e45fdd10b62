/**
 * What stands in a field: text, or rows of text.
 * @typedef {string | string[][]} Typed
 */

/**
 * Whether nothing was typed.
 * @param {Typed} value
 */
export const isBlank = (value) => (Array.isArray(value) ? value.flat().every((cell) => !cell.trim()) : !value.trim());
