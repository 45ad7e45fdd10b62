// What the build says of the two engines, put in here by it.

/**
 * @typedef {object} Engines
 * @property {string[]} startsOnSmall the sheets that the small engine answers: in every test it gave what Python gives
 * @property {Record<string, number>} python what Python is started with: addresses from this file, and the bytes carried
 * @property {Record<string, Record<string, number>>} packages the same of each package
 */

export const engines = /** @type {Engines} */ (/** @type {any} */ ("%%ENGINES%%"));
