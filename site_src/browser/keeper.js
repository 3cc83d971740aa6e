// Answers from the copy of the shop that a buyer keeps on her phone. Stores nothing by itself: keep.mjs fetches the files
// when she asks for it, checks each, and says which edition is the current one. This script is there only after that.
//
// Files are kept by their SHA-256, an edition is a list {files: {path: [sha256, bytes]}} kept by its own. So files of two
// editions never mix: whatever a page asks for is answered from the page's edition or not at all. A page that names a
// file with the beginning of its hash gets that very file, of whatever edition; all else is of the current edition. A file
// that the browser has removed or harmed is fetched anew and used only if it is the same file.

const scope = new URL(self.registration.scope);
const FILES = `boltside files ${scope.pathname}`;
const STATE = `boltside state ${scope.pathname}`;
// Never answered from the copy: they say whether there is a newer edition.
const ALWAYS_ASKED = ["shop/edition.json", "shop/files.json", "keeper.js"];
const EDITION_DIGITS = 12;
const TYPES = {
  html: "text/html; charset=utf-8",
  css: "text/css; charset=utf-8",
  mjs: "text/javascript; charset=utf-8",
  js: "text/javascript; charset=utf-8",
  json: "application/json",
  svg: "image/svg+xml",
  png: "image/png",
  jpg: "image/jpeg",
  jpeg: "image/jpeg",
  webp: "image/webp",
  woff2: "font/woff2",
  txt: "text/plain; charset=utf-8",
  vtt: "text/vtt; charset=utf-8",
  csv: "text/csv; charset=utf-8",
  pdf: "application/pdf",
  xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
  zip: "application/zip",
  webmanifest: "application/manifest+json",
};
const GONE = `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>Not whole on this phone</title><h1>This page is no longer on this phone</h1>
<p>The browser has removed a part of the shop that was kept here, and there is no connection to fetch it again.
With a connection it opens as usual.</p>`;

const LEFT_OUT = `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>Not kept on this phone</title><h1>This pattern is not kept on this phone</h1>
<p>Others of this shop are. With a connection it opens as usual, and can be kept too.</p>
<p><a href="HOME">To the shop</a></p>`;

const lists = new Map(); // edition to the promise of its list; a list never changes

self.addEventListener("install", (event) => {
  self.skipWaiting();
  // Some browsers ask the network beside a worker that is only just starting; a kept shop is to be asked for nothing.
  if (event.addRoutes) event.waitUntil(event.addRoutes({ condition: { requestMethod: "GET" }, source: "fetch-event" }));
});
// The page from which the shop was kept works without a connection too, not only those opened after it.
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== scope.origin || !url.pathname.startsWith(scope.pathname)) return;
  if (request.cache === "no-store") return; // keep.mjs asks the network itself
  const path = unescaped(url.pathname.slice(scope.pathname.length));
  if (path === null || ALWAYS_ASKED.includes(path)) return;
  event.respondWith(answer(request, url, path === "" || path.endsWith("/") ? `${path}index.html` : path));
});

function unescaped(text) {
  try {
    return decodeURIComponent(text);
  } catch {
    return null;
  }
}

async function answer(request, url, path) {
  const state = await read("state");
  const current = state?.current && (await list(state.current));
  if (!current) return request.mode === "navigate" ? fetch(request).catch(gone) : fetch(request);
  const digits = url.search.slice(1);
  const named = digits.length === EDITION_DIGITS && /^[0-9a-f]+$/.test(digits);
  const pattern = /^patterns\/([^/]+)\/./.exec(path)?.[1];
  if (pattern && state.patterns && !state.patterns.includes(pattern)) {
    if (request.mode === "navigate") return fetch(request).catch(leftOut);
    return named ? asNamed(request, path, digits) : fetch(request);
  }
  for (const edition of named ? [state.current, state.previous, state.next] : [state.current]) {
    const file = edition && (await list(edition))?.files[path];
    if (file && (!named || file[0].startsWith(digits))) return whole(path, file, request.mode === "navigate");
  }
  if (request.mode !== "navigate") return named ? asNamed(request, path, digits) : fetch(request);
  if (current.files[`${path}/index.html`]) return Response.redirect(`${url.origin}${url.pathname}/${url.search}`);
  const missing = await whole("404.html", current.files["404.html"], true);
  // That page may stand at any depth, so its addresses begin at the host's root, as if the shop stood there.
  const text = (await missing.text()).replaceAll(/(href|src|data-\w+)="\//g, `$1="${scope.pathname}`);
  return new Response(text, { status: 404, headers: { "Content-Type": TYPES.html } });
}

// The kept file, or the same from the network, or words that say what is wrong.
async function whole(path, [sha256], isPage) {
  const files = await caches.open(FILES);
  let bytes = await checked(await files.match(keyOf(sha256)), sha256);
  if (!bytes) {
    const address = new URL(path.replace(/(^|\/)index\.html$/, "$1"), scope);
    address.search = sha256.slice(0, EDITION_DIGITS);
    bytes = await checked(await fetch(address, { cache: "no-store" }).catch(() => null), sha256);
    if (bytes) await files.put(keyOf(sha256), new Response(bytes)).catch(() => {});
  }
  if (bytes) return told(path, bytes);
  return isPage ? gone() : Response.error();
}

// A file of an edition that is not kept (any more), for a page that has been open since: that very file, or none.
async function asNamed(request, path, digits) {
  const bytes = await checked(await fetch(request).catch(() => null), digits);
  return bytes ? told(path, bytes) : Response.error();
}

function told(path, bytes) {
  const type = TYPES[path.slice(path.lastIndexOf(".") + 1)] ?? "application/octet-stream";
  return new Response(bytes, { headers: { "Content-Type": type, "X-Content-Type-Options": "nosniff" } });
}

const leftOut = () =>
  new Response(LEFT_OUT.replace("HOME", scope.pathname), { status: 503, headers: { "Content-Type": TYPES.html } });
const gone = () => new Response(GONE, { status: 503, headers: { "Content-Type": TYPES.html } });

// The bytes of an answer, if their SHA-256 begins with these digits.
async function checked(response, digits) {
  if (!response?.ok) return null;
  const bytes = await response.arrayBuffer().catch(() => null);
  if (!bytes) return null;
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  const sha256 = Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return sha256.startsWith(digits) ? bytes : null;
}

const keyOf = (name) => new URL(`kept/${name}`, scope).href;

async function read(name) {
  const kept = await (await caches.open(STATE)).match(keyOf(name));
  return kept ? kept.json().catch(() => null) : null;
}

function list(edition) {
  if (!lists.has(edition)) {
    const reading = read(edition).then((found) => (found?.files ? found : null));
    lists.set(edition, reading);
    reading.then((found) => found || lists.delete(edition));
  }
  return lists.get(edition);
}
