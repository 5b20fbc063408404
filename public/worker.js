// Keeps one release of the app so that it opens without a connection.
//
// A new release is fetched whole beside the old one and then waits. It takes
// over when every page of the old one is closed, or when a page asks for it
// with the message { type: "take-over" }; never by itself, so nothing changes
// under somebody's hands.
//
// Of the languages only those are kept that are spoken: the one the browser asks
// for, or those that the release before has kept, and each that a page asks for
// with the message { type: "keep-language", language }.

const RELEASE = "{{release}}";
const FILES = {{precache}};
const LANGUAGES = {{languages}};
const PREFIX = "foldwright-";
const CACHE = PREFIX + RELEASE;
const PAGE = "/";

// Only the server can answer these.
const SERVER_ONLY = [/^\/api\//, /^\/health$/];
const MADE = ["sheet", "cards", "template", "data", "photo"];

addEventListener("install", (event) => event.waitUntil(keepFiles()));
addEventListener("activate", (event) => event.waitUntil(dropOldReleases()));
addEventListener("message", (event) => {
  const { type, language } = event.data ?? {};
  if (type === "take-over") event.waitUntil(skipWaiting());
  if (type === "keep-language") event.waitUntil(keepLanguage(language));
});
addEventListener("fetch", (event) => {
  const name = keptName(event.request);
  if (name) event.respondWith(kept(name, event.request));
});

async function keepFiles() {
  const cache = await caches.open(CACHE);
  const spoken = (await spokenBefore()).map((language) => LANGUAGES[language]);
  await Promise.all([...FILES, ...spoken].map((name) => keepFile(cache, name)));
}

// The languages of which an earlier release has kept the file, which has
// another hash in its name.
async function spokenBefore() {
  const names = (await caches.keys()).filter((name) => name.startsWith(PREFIX));
  const kept = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
  const paths = kept.flat().map((request) => new URL(request.url).pathname);
  const stem = (path) => path.slice(0, path.lastIndexOf("-") + 1);
  const languages = Object.keys(LANGUAGES);
  const spoken = languages.filter((language) =>
    paths.some((path) => stem(path) === stem(LANGUAGES[language])));
  return spoken.length > 0 ? spoken : languages.filter((language) => language === askedFor());
}

// The first of the browser's languages that there is, or else English.
function askedFor() {
  const asked = navigator.languages.map((tag) => tag.split("-")[0].toLowerCase());
  return asked.find((language) => language in LANGUAGES) ?? "en";
}

async function keepLanguage(language) {
  const name = LANGUAGES[language];
  if (!name) return;
  const cache = await caches.open(CACHE);
  if (!(await cache.match(name))) await keepFile(cache, name);
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
  if (Object.values(LANGUAGES).includes(url.pathname)) return url.pathname;
  if (request.mode !== "navigate") return null;
  if (SERVER_ONLY.some((pattern) => pattern.test(url.pathname))) return null;
  // What is made of a shared recipe, and what it shows, is a file of the server.
  if (MADE.some((name) => url.searchParams.has(name))) return null;
  // As on the server, an address with an ending is a file, all others are
  // places in the app.
  return url.pathname.split("/").pop().includes(".") ? null : PAGE;
}

async function kept(name, request) {
  const cache = await caches.open(CACHE);
  return (await cache.match(name)) ?? fetch(request);
}
