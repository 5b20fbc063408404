// Visits an address for the first time, without a worker, and prints the paths
// of everything the browser asks for as a JSON list, but for code that is asked for
// only once the page is there.

import { openBrowser } from "./harness.js";

const browser = await openBrowser();
try {
  const page = await browser.context.newPage();
  // A worker would fetch everything, behind the open app.
  await page.addInitScript(() => delete Navigator.prototype.serviceWorker);
  await page.addInitScript(noteReady);
  const asked = [];
  page.on("request", (request) => asked.push({ request, at: Date.now() }));
  await page.goto(process.argv[2]);
  await page.locator("main[data-ready]").waitFor({ state: "attached" });
  await page.waitForLoadState("networkidle");
  const ready = await page.evaluate(() => globalThis.readyAt);
  const isCode = (request) => ["fetch", "script"].includes(request.resourceType());
  const needed = asked.filter(({ request, at }) => at < ready || !isCode(request));
  console.log(JSON.stringify([...new Set(needed.map(({ request }) => new URL(request.url()).pathname))]));
} finally {
  await browser.close();
}

// Runs in the page: notes when the page is there.
function noteReady() {
  const watcher = new MutationObserver(() => {
    if (!document.querySelector("main[data-ready]")) return;
    watcher.disconnect();
    globalThis.readyAt = Date.now();
  });
  watcher.observe(document, { attributes: true, childList: true, subtree: true });
}
