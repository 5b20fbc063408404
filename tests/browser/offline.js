// Times opening a recipe without the server, each time in a browser just
// started; an app without recipes is opened at its start. Says "kept" when the
// worker has everything, waits for a line that says the server is gone, then
// prints the times in milliseconds as a JSON list.

import { once } from "node:events";
import { openBrowser } from "./harness.js";

const OPENINGS = 9;
const SLOWED = 4;

const [address, starter] = process.argv.slice(2);
const browser = await openBrowser();
try {
  const first = await browser.context.newPage();
  await first.goto(address);
  await first.locator("main[data-ready]").waitFor({ state: "attached" });
  await first.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  const place = starter ? await begun(first) : address;
  await first.close();
  console.log("kept");
  await once(process.stdin, "data");

  const times = [];
  for (let count = 0; count < OPENINGS; count += 1) times.push(await timeOpening(place));
  console.log(JSON.stringify(times));
} finally {
  await browser.close();
  process.stdin.destroy();
}

/** Begins a recipe from a starting fold and returns its address. */
async function begun(page) {
  await page.goto(`${address}new`);
  await page.locator(`[data-starter="${starter}"]`).click();
  await page.waitForURL(/\/recipe\//);
  return page.url();
}

async function timeOpening(place) {
  await browser.restart();
  const page = await browser.context.newPage();
  const session = await browser.context.newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate: SLOWED });
  await page.addInitScript(notePainted);
  await page.goto(place);
  const painted = await page.waitForFunction(() => globalThis.paintedAt);
  return painted.jsonValue();
}

// Runs in the page: notes when what is ready has been painted, in milliseconds
// from the start of the navigation. A message sent before a frame is painted
// arrives when it has been.
function notePainted() {
  const watcher = new MutationObserver(() => {
    if (!document.querySelector("main[data-ready]")) return;
    watcher.disconnect();
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      globalThis.paintedAt = performance.now();
    };
    requestAnimationFrame(() => port2.postMessage("painting"));
  });
  watcher.observe(document, { attributes: true, childList: true, subtree: true });
}
