/**
 * What a fault says of itself; anything may be thrown.
 * @param {unknown} fault
 */
export const saidBy = (fault) => (fault instanceof Error ? fault.message : String(fault));
