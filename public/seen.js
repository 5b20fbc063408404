// Shows a page as it was last seen until the app itself is here, and hands on
// what was tapped meanwhile. What was seen is kept apart from what was made: it
// may be cleared at any time.

const RELEASE = document.querySelector("meta[name=release]").content;
const SEEN = "foldwright-seen";
const LARGEST = 2_000_000; // In UTF-16 units: several times the largest list.
const CALM = 1500; // How long, in milliseconds, nothing changes before a page is kept.
const PATIENCE = 5000; // How long, in milliseconds, something tapped may take to come,
const PAUSE = 250; // and how long what was half typed takes to be put back before.

const app = () => document.getElementById("app");
const isReady = () => app().querySelector("main[data-ready]");
const address = () => `/seen${location.pathname}`;

// What the server has written out instead of the app.
if (app().querySelector("[data-hands-on]")) handOn(app());

// Missing where the address is neither localhost nor HTTPS.
if (globalThis.caches) {
  globalThis.seen = show().catch(console.warn);
  keepWhenCalm();
}

async function show() {
  const answer = await (await caches.open(SEEN)).match(address());
  if (answer?.headers.get("state") !== state()) return;
  const text = await answer.text();
  // The app may have been quicker, or cannot start, or the server has written the page.
  const trouble = app().querySelector(":scope > .starting > #start-trouble[hidden]");
  if (!trouble) return;
  app().innerHTML = text;
  for (const styled of app().querySelectorAll("[data-style]")) styled.style.cssText = styled.dataset.style;
  app().prepend(trouble);
  handOn(app());
}

// What decides how a page looks besides what is on it: a card that is gone is not
// shown, nor are words in a language that is not spoken any more.
function state() {
  const name = location.pathname.split("/")[2];
  const isThere = (key) => key.startsWith(`foldwright/recipe/${name ?? ""}`);
  const recipe = Object.keys(localStorage).some(isThere);
  const settings = localStorage.getItem("foldwright/settings");
  return encodeURIComponent([RELEASE, navigator.languages, settings, recipe]);
}

// A page is kept when all of it has come, and whenever it goes out of sight: never
// while somebody works on it.
function keepWhenCalm() {
  let calm, worked;
  const works = () => {
    worked = location.pathname;
  };
  const soon = () => {
    clearTimeout(calm);
    if (worked !== location.pathname) calm = setTimeout(keepNow, CALM);
  };
  const keepNow = () => {
    if (isReady()) keep().catch(console.warn);
  };
  for (const work of ["pointerdown", "keydown"]) addEventListener(work, works);
  new MutationObserver(soon).observe(document.body, { childList: true, subtree: true });
  addEventListener("visibilitychange", () => document.hidden && keepNow());
}

async function keep() {
  // In a page of its own, where nothing is loaded.
  const seen = document.implementation.createHTMLDocument().importNode(app(), true);
  // What is typed is not part of how a page looks, and nothing can be typed
  // before the app is here.
  seen.querySelectorAll("input, select, textarea").forEach((field) => field.setAttribute("disabled", ""));
  seen.querySelectorAll("[data-ready]").forEach((main) => main.removeAttribute("data-ready"));
  // A clock that stands still, or is gone since, would tell a wrong time.
  seen.querySelectorAll("dialog, .at-edge, .clocks").forEach((part) => part.remove());
  // Styles that stand in the text of a page are refused by the page's own policy.
  for (const styled of seen.querySelectorAll("[style]")) {
    styled.dataset.style = styled.getAttribute("style");
    styled.removeAttribute("style");
  }
  const text = seen.innerHTML;
  if (text.length > LARGEST) return;
  const headers = { state: state(), "content-type": "text/html; charset=utf-8" };
  await (await caches.open(SEEN)).put(address(), new Response(text, { headers }));
}

// What is tapped before the app is here is tapped in the app, once it is in the
// place of what was seen.
function handOn(seen) {
  let tapped;
  seen.addEventListener("click", (event) => {
    const what = event.target.closest("a, button, label");
    if (!what || what.hasAttribute("popovertarget")) return;
    event.preventDefault();
    tapped?.removeAttribute("aria-busy");
    tapped = what;
    what.setAttribute("aria-busy", "true");
  });
  let since;
  const observer = new MutationObserver(() => {
    if (seen.isConnected || !isReady()) return;
    since ??= Date.now();
    // What is in a list comes piece by piece.
    const same = tapped && like(tapped);
    if (tapped && !same && Date.now() - since < PATIENCE) return;
    observer.disconnect();
    setTimeout(() => same?.click(), PAUSE);
  });
  observer.observe(document.body, { childList: true, subtree: true, attributeFilter: ["data-ready"] });
}

function like(tapped) {
  const words = (it) => it.getAttribute("aria-label") ?? it.textContent.trim();
  const name = (it) => it.dataset.starter ?? `${it.tagName} ${words(it)} ${it.getAttribute("href")}`;
  return [...app().querySelectorAll(tapped.tagName)].find((it) => name(it) === name(tapped));
}
