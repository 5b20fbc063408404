// Visits pages for the first time over a slow line, without a worker: a phone slowed
// four times, 1.6 Mbit/s and 150 ms, as Lighthouse's slow 4G has it. Prints for each
// page the bytes that came until it can be used, and in milliseconds when that was
// and when the largest thing on it was painted, as a JSON list.

import { openBrowser } from "./harness.js";

const LINE = {
  offline: false,
  latency: 150,
  downloadThroughput: (1.6 * 1024 * 1024) / 8,
  uploadThroughput: (750 * 1024) / 8,
};
const SLOWED = 4;

const [address, shared] = process.argv.slice(2);
const { kept, id } = await begun();
const pages = [
  ["start", "", ".job"],
  ["new", "new", "main[data-ready] [data-starter]"],
  ["recipe", `recipe/${id}`, '.drawn svg[role="img"]'],
  ["bench", `bench/${id}`, "main[data-ready] .bench h1"],
  ["shared", `shared/${shared}`, "main[data-ready] h1"],
];
const visits = [];
for (const [name, path, usable] of pages) visits.push({ name, ...(await visit(path, usable)) });
console.log(JSON.stringify(visits));

/** Begins a recipe, and returns what the browser keeps then. */
async function begun() {
  const browser = await openBrowser();
  try {
    const page = await browser.context.newPage();
    await page.goto(`${address}new`);
    await page.locator('[data-starter="gate"]').click();
    await page.waitForURL(/\/recipe\//);
    await page.locator('.drawn svg[role="img"]').waitFor();
    const kept = await page.evaluate(() => Object.entries(localStorage));
    return { kept, id: new URL(page.url()).pathname.split("/").pop() };
  } finally {
    await browser.close();
  }
}

async function visit(path, usable) {
  const browser = await openBrowser();
  try {
    const page = await browser.context.newPage();
    // A worker would fetch everything, behind the open app.
    await page.addInitScript(() => delete Navigator.prototype.serviceWorker);
    await page.addInitScript(notePaint);
    if (path.startsWith("recipe") || path.startsWith("bench")) {
      await page.addInitScript((kept) => kept.forEach(([key, text]) => localStorage.setItem(key, text)), kept);
    }
    const session = await browser.context.newCDPSession(page);
    let bytes = 0;
    session.on("Network.loadingFinished", ({ encodedDataLength }) => {
      bytes += encodedDataLength;
    });
    await session.send("Network.enable");
    await session.send("Network.emulateNetworkConditions", LINE);
    await session.send("Emulation.setCPUThrottlingRate", { rate: SLOWED });
    await page.goto(address + path, { waitUntil: "commit" });
    await page.locator(usable).first().waitFor({ timeout: 60_000 });
    const until = bytes;
    const at = await page.evaluate(() => performance.now());
    await page.waitForTimeout(2000);
    const largest = await page.evaluate(() => globalThis.largestAt);
    return { bytes: until, usable: at, largest };
  } finally {
    await browser.close();
  }
}

// Runs in the page: notes when the largest thing so far was painted.
function notePaint() {
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) globalThis.largestAt = entry.startTime;
  }).observe({ type: "largest-contentful-paint", buffered: true });
}
