// Starts the app where no page is, in a worker: what takes long is done there.
import start from "{{app.js}}";

await start({ module_or_path: "{{app.wasm}}" });
