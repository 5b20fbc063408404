// Starts the app, then lets the worker keep a copy for when there is no
// connection. The worker comes last so that the first visit is not slowed, and
// even where the app fails, so that a repaired release can arrive.
import start from "{{app.js}}";

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
