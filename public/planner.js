// Starts the app where no page is, in a worker: it plans cuts there.
import start from "{{app.js}}";

await start({ module_or_path: "{{app.wasm}}" });
