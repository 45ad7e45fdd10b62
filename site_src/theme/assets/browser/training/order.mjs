// The order of the choices of a case, drawn from the paper's number: the same number gives the same order on every device.

/** @param {string} text */
function seedOf(text) {
  let hash = 2166136261;
  for (const letter of text) hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 16777619);
  return hash >>> 0;
}

/** @param {number} state */
function drawn(state) {
  let mixed = (state + 0x6d2b79f5) | 0;
  mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
  mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
  return { state: (state + 0x6d2b79f5) | 0, part: ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296 };
}

/**
 * The places 0 to count - 1 in the order of this paper.
 * @param {string} paper
 * @param {string} name of the case and its step
 * @param {number} count
 */
export function orderOf(paper, name, count) {
  const places = [...Array(count).keys()];
  let state = seedOf(`${paper} ${name}`);
  for (let at = count - 1; at > 0; at -= 1) {
    const one = drawn(state);
    state = one.state;
    const other = Math.floor(one.part * (at + 1));
    [places[at], places[other]] = [places[other], places[at]];
  }
  return places;
}
