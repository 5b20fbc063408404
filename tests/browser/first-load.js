// Visits an address for the first time, without a worker, and prints the paths
// of everything the browser asks for as a JSON list.

import { openBrowser } from "./harness.js";

const browser = await openBrowser();
try {
  const page = await browser.context.newPage();
  // A worker would fetch everything, behind the open app.
  await page.addInitScript(() => delete Navigator.prototype.serviceWorker);
  const asked = new Set();
  page.on("request", (request) => asked.add(new URL(request.url()).pathname));
  await page.goto(process.argv[2]);
  await page.locator("main[data-ready]").waitFor({ state: "attached" });
  await page.waitForLoadState("networkidle");
  console.log(JSON.stringify([...asked]));
} finally {
  await browser.close();
}
