// Times opening an address without its server. Says "kept" when the worker has
// everything, waits for a line that says the server is gone, then prints the
// times in milliseconds as a JSON list.

import { once } from "node:events";
import { openBrowser } from "./harness.js";

const OPENINGS = 9;
const SLOWED = 4;

const address = process.argv[2];
const browser = await openBrowser();
try {
  const first = await browser.context.newPage();
  await first.goto(address);
  await first.locator("[data-ready]").first().waitFor({ state: "attached" });
  await first.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await first.close();
  console.log("kept");
  await once(process.stdin, "data");

  const times = [];
  for (let count = 0; count < OPENINGS; count += 1) times.push(await timeOpening());
  console.log(JSON.stringify(times));
} finally {
  await browser.close();
  process.stdin.destroy();
}

async function timeOpening() {
  const page = await browser.context.newPage();
  try {
    const session = await browser.context.newCDPSession(page);
    await session.send("Emulation.setCPUThrottlingRate", { rate: SLOWED });
    await page.addInitScript(() => {
      const look = () => {
        if (!document.querySelector("[data-ready]")) return;
        globalThis.usableAt ??= performance.now();
        watcher.disconnect();
      };
      const watcher = new MutationObserver(look);
      watcher.observe(document, { attributes: true, childList: true, subtree: true });
    });
    await page.goto(address);
    const usable = await page.waitForFunction(() => globalThis.usableAt);
    return await usable.jsonValue();
  } finally {
    await page.close();
  }
}
