// Starts the app, then lets the worker keep a copy for when there is no
// connection. The worker comes last so that the first visit is not slowed, and
// even where the app fails, so that a repaired release can arrive.
import start from "{{app.js}}";

// Code that only the empty list of recipes can do without. Asked for now, it
// arrives while the app starts.
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

try {
  await start({ module_or_path: "{{app.wasm}}" });
} catch (trouble) {
  console.error(trouble);
  document.getElementById("start-trouble")?.removeAttribute("hidden");
}

// Missing where the address is neither localhost nor HTTPS.
if (navigator.serviceWorker) {
  navigator.serviceWorker
    .register("/worker.js", { updateViaCache: "none" })
    .catch((trouble) => console.warn("There will be no copy for offline use.", trouble));
}
