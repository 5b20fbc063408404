// Asks for code before the app itself is here: everything that only the empty
// list of recipes can do without.
const PARTS = {{parts}};

if (location.pathname !== "/" || hasRecipes()) PARTS.forEach(preload);

function preload(href) {
  const link = document.createElement("link");
  Object.assign(link, { rel: "preload", as: "fetch", crossOrigin: "anonymous", href });
  document.head.append(link);
}

function hasRecipes() {
  try {
    return Object.keys(localStorage).some((key) => key.startsWith("foldwright/recipe/"));
  } catch {
    return false; // This browser forbids storage.
  }
}
