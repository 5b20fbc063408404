// Times refits of every starting fold on a slowed processor: from a tap on a
// sheet to what changes painted. Prints the times in milliseconds as a JSON
// list.

import { openBrowser } from "./harness.js";
import { turnTo } from "./parts.js";

const SHEETS = ["A4", "Letter", "12 × 12 in", "6 × 6 in pad"];
const SLOWED = 4;

const address = process.argv[2];
const browser = await openBrowser();
try {
  const page = await browser.context.newPage();
  const session = await browser.context.newCDPSession(page);
  await page.goto(`${address}new`);
  await page.locator("[data-starter]").first().waitFor();
  const starters = await page
    .locator("[data-starter]")
    .evaluateAll((all) => all.map((starter) => starter.dataset.starter));

  const times = [];
  for (const starter of starters) {
    await page.goto(`${address}new`);
    await page.locator(`[data-starter="${starter}"]`).click();
    await turnTo(page, "Resize");
    await page.locator(".chip").first().waitFor();
    await session.send("Emulation.setCPUThrottlingRate", { rate: SLOWED });
    times.push(...(await page.evaluate(timeTaps, SHEETS)));
    await session.send("Emulation.setCPUThrottlingRate", { rate: 1 });
  }
  console.log(JSON.stringify(times));
} finally {
  await browser.close();
}

// Runs in the page. The first tap, in which code is compiled, is not counted.
async function timeTaps(sheets) {
  const shown = document.querySelector(".refitted");
  const rest = () => new Promise((rested) => setTimeout(rested, 100));
  const painted = () =>
    new Promise((seen) => {
      const watch = new MutationObserver(() => {
        watch.disconnect();
        requestAnimationFrame(() => setTimeout(() => seen(performance.now()), 0));
      });
      watch.observe(shown, { childList: true, subtree: true, characterData: true });
    });
  const times = [];
  for (const name of [sheets[0], sheets[1], ...sheets]) {
    const chip = [...document.querySelectorAll(".chip")].find((chip) => chip.textContent === name);
    await rest();
    const seen = painted();
    const start = performance.now();
    chip.click();
    times.push((await seen) - start);
  }
  return times.slice(2);
}
