// Keeps one release of the app so that it opens without a connection.
//
// A new release is fetched whole beside the old one and then waits. It takes
// over when every page of the old one is closed, or when a page asks for it
// with the message { type: "take-over" }; never by itself, so nothing changes
// under somebody's hands.

const RELEASE = "{{release}}";
const FILES = {{precache}};
const PREFIX = "foldwright-";
const CACHE = PREFIX + RELEASE;
const PAGE = "/";

// Only the server can answer these.
const SERVER_ONLY = [/^\/api\//, /^\/health$/];

addEventListener("install", (event) => event.waitUntil(keepFiles()));
addEventListener("activate", (event) => event.waitUntil(dropOldReleases()));
addEventListener("message", (event) => {
  if (event.data?.type === "take-over") event.waitUntil(skipWaiting());
});
addEventListener("fetch", (event) => {
  const name = keptName(event.request);
  if (name) event.respondWith(kept(name, event.request));
});

async function keepFiles() {
  const cache = await caches.open(CACHE);
  await Promise.all(FILES.map((name) => keepFile(cache, name)));
}

// The names of hashed files change with their content, so a copy of the last
// release is as good as a fresh one. The others are asked for anew.
async function keepFile(cache, name) {
  const hashed = name.startsWith("/assets/");
  const copy = hashed && (await caches.match(name));
  if (copy) return cache.put(name, copy);
  return cache.add(new Request(name, { cache: hashed ? "default" : "reload" }));
}

async function dropOldReleases() {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  await Promise.all(old.map((name) => caches.delete(name)));
}

// The kept file that answers a request, or nothing if the server should.
function keptName(request) {
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== location.origin) return null;
  if (FILES.includes(url.pathname)) return url.pathname;
  if (request.mode !== "navigate") return null;
  if (SERVER_ONLY.some((pattern) => pattern.test(url.pathname))) return null;
  // As on the server, an address with an ending is a file, all others are
  // places in the app.
  return url.pathname.split("/").pop().includes(".") ? null : PAGE;
}

async function kept(name, request) {
  const cache = await caches.open(CACHE);
  return (await cache.match(name)) ?? fetch(request);
}
