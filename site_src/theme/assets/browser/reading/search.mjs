// Stands before the theme's own search worker, which would be fetched with every page, and with it the index of the whole
// handbook. Both come with the first query. This file is started as a plain worker, so it imports nothing; what follows
// the "#" in its address is the theme's worker.

const scope = /** @type {DedicatedWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const READY = 1; // the theme's kinds of message: 0 brings an index, 1 says that it is in, 2 asks, 3 answers
const QUERY = 2;
const ANSWER = 3;
const ENTRIES = "../../search/entries.json"; // from where this file is built: see site_src/search.py

// Words that every page has: with the ending left open they would find "today" and "together".
const SMALL = new Set("a an and are as at be by can do does for from how i if in is it my of on or so that the this to up was we what when where which who why with you".split(" "));

/** @type {string[]} two words that lead somewhere together, written with "_" as site_src/search.py does */
let pairs = [];

/**
 * A question without its small words, unless nothing else is left of it, and with the pairs of words that lead somewhere.
 * @param {string} query as the theme writes it: a sign may stand before a word, a star behind
 */
function asked(query) {
  const words = query.split(/\s+/).filter(Boolean);
  const bare = (/** @type {string} */ word) => word.replace(/^[+~-]|[*]$/g, "").toLowerCase();
  const kept = words.filter((word) => !SMALL.has(bare(word)));
  if (!kept.length) return query;
  const joined = kept.slice(1).map((word, at) => `${bare(kept[at])}_${bare(word)}`);
  return [...kept, ...joined.filter((two) => pairs.some((pair) => pair.startsWith(two))).map((two) => `${two}*`)].join(" ");
}

/**
 * What was found, without what helped to find it: the theme would show it as tags and as words that are missing.
 * @param {{ data: { items: { tags?: string[], terms: Record<string, boolean> }[][] } }} answer
 */
function shown(answer) {
  for (const found of answer.data.items.flat()) {
    delete found.tags;
    for (const term of Object.keys(found.terms)) if (term.includes("_")) delete found.terms[term];
  }
  return answer;
}

/** @type {{ type: number, data: object } | null} the page's own first message: settings, and an index without entries */
let setup = null;
/** @type {Promise<Worker> | null} */
let searching = null;

/** @returns {Promise<Worker>} the theme's worker, once it has the whole index */
async function begin() {
  const worker = new Worker(new URL(location.hash.slice(1), location.href));
  const entries = await (await fetch(new URL(ENTRIES, location.href))).json();
  pairs = entries.docs.flatMap((/** @type {{ tags?: string[] }} */ entry) => entry.tags ?? []).filter((/** @type {string} */ word) => word.includes("_"));
  await new Promise((done, fail) => {
    worker.addEventListener("message", done, { once: true });
    worker.addEventListener("error", fail, { once: true });
    worker.postMessage({ ...setup, data: { ...setup?.data, ...entries } });
  });
  worker.addEventListener("message", ({ data }) => scope.postMessage(shown(data)));
  return worker;
}

scope.addEventListener("message", async ({ data }) => {
  if (data.type !== QUERY) {
    setup = data;
    scope.postMessage({ type: READY });
    return;
  }
  if (!searching && !data.data) {
    scope.postMessage({ type: ANSWER, data: { items: [] } }); // the theme asks once at the start, with nothing typed
    return;
  }
  searching ??= begin();
  try {
    (await searching).postMessage({ ...data, data: asked(data.data) });
  } catch (fault) {
    console.warn(fault);
    searching = null; // the next key tries again
  }
});
