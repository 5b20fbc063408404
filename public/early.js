// Asks for code before the app itself is here: that of the page at this address,
// and of the language. The empty list of recipes needs no more than the app.
const PARTS = {{parts}};
const LANGUAGES = {{languages}};
const KEPT = "foldwright/";

const place = location.pathname.split("/")[1];
const files = place ? partsOf(place) : hasRecipes() ? partsOf("recipes") : [];
if (files.length > 0) [...files, LANGUAGES[spoken()]].filter(Boolean).forEach(preload);

function partsOf(place) {
  const { keeping, syncing } = PARTS;
  const keepers = ["devices", "earlier", "paper", "settings"];
  if (keepers.includes(place)) return [...new Set([...keeping, ...syncing])];
  return PARTS[place === "scrap" ? "list" : place] ?? [];
}

function preload(href) {
  const link = document.createElement("link");
  Object.assign(link, { rel: "preload", as: "fetch", crossOrigin: "anonymous", href });
  document.head.append(link);
}

function hasRecipes() {
  return kept((storage) => Object.keys(storage).some((key) => key.startsWith(`${KEPT}recipe/`)));
}

// The language that was chosen, or else the page's own.
function spoken() {
  const settings = kept((storage) => storage.getItem(`${KEPT}settings`)) ?? "";
  return settings.match(/"language":\s*"(\w+)"/)?.[1] ?? document.documentElement.lang;
}

function kept(look) {
  try {
    return look(localStorage);
  } catch {
    return undefined; // This browser forbids storage.
  }
}
