// Starts the app, then lets the worker keep a copy for when there is no
// connection. The worker comes last, when a page is shown, so that the first visit
// is not slowed, and even where the app fails, so that a repaired release can
// arrive.
import start from "{{app.js}}";

const PATIENCE = 10_000; // In milliseconds.

try {
  // What was seen here comes first: the app would take its place at once.
  await globalThis.seen;
  await start({ module_or_path: "{{app.wasm}}" });
  await shown();
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

function shown() {
  return new Promise((done) => {
    const look = () => document.querySelector("main[data-ready]") && done();
    const changes = { childList: true, subtree: true, attributeFilter: ["data-ready"] };
    new MutationObserver(look).observe(document.body, changes);
    setTimeout(done, PATIENCE);
    look();
  });
}
