// Answers from the copy that the reader had kept on the device. It keeps nothing by itself: the page fills the cache
// when the reader asks for it, and until then, or once the copy is removed, every request goes to the network.

import { fetchChecked, intact, passes, wholeCopy } from "./assets/browser/offline/copy.mjs";

const scope = self.registration.scope;
let looked = null; // a promise of the copy in use, or of null

const copyInUse = () => (looked ??= wholeCopy(scope).catch(() => null));

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

// The page has kept, updated, mended or removed something.
self.addEventListener("message", (event) => {
  if (event.data !== "changed") return;
  looked = null;
  event.waitUntil(copyInUse().then((copy) => event.ports[0]?.postMessage(copy?.version ?? null)));
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(scope) || passes(request)) return;
  event.respondWith(answer(event));
});

async function answer(event) {
  const { request } = event;
  const copy = await copyInUse();
  if (!copy) return fetch(request);
  const { pathname, search } = new URL(request.url);
  const path = pathname.slice(new URL(scope).pathname.length).replace(/(^|\/)index\.html$/, "$1");
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

// The runtime's large files were checked when they were stored, and are not read twice at every start.
async function kept(event, copy, path) {
  const large = path.startsWith("runtime/") && (await copy.cache.match(new URL(path, scope)).catch(() => null));
  const held = large || (await intact(copy, scope, path));
  if (held) return held;
  try {
    const fresh = await fetchChecked(copy, scope, path);
    event.waitUntil(copy.cache.put(new URL(path, scope), fresh.clone()).catch(() => {})); // a full disk mends nothing
    return fresh;
  } catch (fault) {
    if (event.request.mode !== "navigate") return new Response(null, { status: 504, statusText: "Damaged on this device" });
    return fetch(event.request).catch(() => damagedPage(copy));
  }
}

function damagedPage(copy) {
  const home = new URL(scope).pathname;
  const html = `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>This page is damaged on this device</title>
<h1>This page is damaged on this device</h1>
<p>The copy kept for use without a network has lost this page, and there is no network to fetch it from.</p>
<p>Other pages may be whole: <a href="${home}">go to the first page</a>.</p>
<p>Once there is a network, open <a href="${home}reference/offline/">Use without a network</a> and press “Check and mend”.</p></html>`;
  return new Response(html, { status: 504, headers: { ...copy.headers, "Content-Type": "text/html; charset=utf-8" } });
}
