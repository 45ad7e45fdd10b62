// Answers from the copy that the reader had kept on the device. It keeps nothing by itself: the page fills the cache
// when the reader asks for it, and until then, or once the copy is removed, every request goes to the network.

import { fetchChecked, intact, overruling, passes, wholeCopy } from "./assets/browser/offline/copy.mjs";

/** @typedef {import("./assets/browser/offline/copy.mjs").Copy & { overruled: Correction[] }} Copy */
/** @typedef {import("./assets/browser/offline/copy.mjs").Correction} Correction */

const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const { scope } = worker.registration;
/** @type {Promise<Copy | null> | null} */
let looked = null; // the copy in use

const FRESH_MS = 4000; // then the kept page is taken after all

const copyInUse = () => (looked ??= look().catch(() => null));

/** @returns {Promise<Copy | null>} */
async function look() {
  const copy = await wholeCopy(scope);
  return copy && { ...copy, overruled: await overruling(scope, copy) };
}

worker.addEventListener("install", () => worker.skipWaiting());
worker.addEventListener("activate", (event) => event.waitUntil(worker.clients.claim()));

// The page has kept, updated, mended or removed something.
worker.addEventListener("message", (event) => {
  if (event.data !== "changed") return;
  looked = null;
  event.waitUntil(copyInUse().then((copy) => event.ports[0]?.postMessage(copy?.version ?? null)));
});

worker.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(scope) || passes(request)) return;
  event.respondWith(answer(event));
});

/** @param {FetchEvent} event */
async function answer(event) {
  const { request } = event;
  const copy = await copyInUse();
  if (!copy) return fetch(request);
  const { pathname, search } = new URL(request.url);
  const path = pathname.slice(new URL(scope).pathname.length).replace(/(^|\/)index\.html$/, "$1");
  const isPage = /(^|\/|\.html)$/.test(path);
  if (copy.overruled.length && isPage && Object.hasOwn(copy.files, path)) return overruled(event, copy, path);
  if (Object.hasOwn(copy.files, path)) return kept(event, copy, path);
  if (Object.hasOwn(copy.files, `${path}/`)) return Response.redirect(`${scope}${path}/${search}`, 301);
  try {
    return await fetch(request);
  } catch (fault) {
    const page = request.mode === "navigate" && (await intact(copy, scope, "404.html"));
    if (page) return new Response(page.body, { status: 404, headers: page.headers });
    throw fault;
  }
}

/**
 * A correction that concerns safety came after the copy was kept: pages come from the site while it can be reached, and
 * what was wrong is not shown again from the copy.
 * @param {FetchEvent} event
 * @param {Copy} copy
 * @param {string} path
 */
async function overruled(event, copy, path) {
  /** @type {Promise<null>} */
  const late = new Promise((done) => setTimeout(() => done(null), FRESH_MS));
  const fresh = await Promise.race([fetch(event.request).catch(() => null), late]);
  if (fresh?.ok) return fresh;
  const held = await kept(event, copy, path);
  const html = held.ok ? await held.clone().text() : "";
  const sheet = new URL(event.request.url).searchParams.get("sheet");
  const wrong = copy.overruled.filter(({ pages, sheets, marks }) => pages.includes(path) || sheets.includes(sheet ?? "") || marks.some((text) => html.includes(text)));
  return held.ok && wrong.length ? correctedPage(copy, wrong) : held;
}

/**
 * The runtime's large files were checked when they were stored, and are not read twice at every start.
 * @param {FetchEvent} event
 * @param {Copy} copy
 * @param {string} path
 */
async function kept(event, copy, path) {
  const large = path.startsWith("runtime/") && (await copy.cache.match(new URL(path, scope)).catch(() => null));
  const held = large || (await intact(copy, scope, path));
  if (held) return held;
  try {
    const fresh = await fetchChecked(copy, scope, path);
    event.waitUntil(copy.cache.put(new URL(path, scope), fresh.clone()).catch(() => {})); // a full disk mends nothing
    return fresh;
  } catch {
    if (event.request.mode !== "navigate") return new Response(null, { status: 504, statusText: "Damaged on this device" });
    return fetch(event.request).catch(() => damagedPage(copy));
  }
}

/**
 * @param {Copy} copy
 * @param {string} title
 * @param {string} text HTML
 */
function plainPage(copy, title, text) {
  const html = `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>${title}</title>
<h1>${title}</h1>
${text}</html>`;
  return new Response(html, { status: 504, headers: { ...copy.headers, "Content-Type": "text/html; charset=utf-8" } });
}

/** @param {string} words */
const asText = (words) => words.replace(/[&<>]/g, (sign) => `&#${sign.charCodeAt(0)};`);

/**
 * @param {Copy} copy
 * @param {Correction[]} corrections
 */
function correctedPage(copy, corrections) {
  const home = new URL(scope).pathname;
  const told = corrections.map(({ day, word, where, wrong, now }) => `<h2>${asText(word)}: correction of ${asText(day)}</h2>
<p>It concerns: ${asText(where.join("; "))}.</p>
<p><strong>What was wrong:</strong> ${asText(wrong)}</p>
<p><strong>Now:</strong> ${asText(now)}</p>`);
  return plainPage(copy, "This page was corrected", `${told.join("\n")}
<p>This device holds the page as it was before, and does not show it any more. The corrected page comes as soon as there is a network: then load this page again.</p>
<p>In an emergency: <a href="${home}safety/emergency/">what to do</a>. Other pages: <a href="${home}">go to the first page</a>.</p>`);
}

/** @param {Copy} copy */
function damagedPage(copy) {
  const home = new URL(scope).pathname;
  return plainPage(copy, "This page is damaged on this device", `<p>The copy kept for use without a network has lost this page, and there is no network to fetch it from.</p>
<p>Other pages may be whole: <a href="${home}">go to the first page</a>.</p>
<p>Once there is a network, open <a href="${home}reference/offline/">Use without a network</a> and press “Check and mend”.</p>`);
}
