// Times refits of every starting fold on a slowed processor: from a sheet tapped
// to what changes, or what clashes, painted. Prints the times in milliseconds as
// a JSON list.

import { openBrowser } from "./harness.js";

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
    await page.getByRole("tab", { name: "Refit", exact: true }).click();
    const sheets = page.getByRole("group", { name: "A sheet", exact: true });
    await sheets.waitFor();
    await session.send("Emulation.setCPUThrottlingRate", { rate: SLOWED });
    times.push(...(await sheets.evaluate(timeTaps)));
    await session.send("Emulation.setCPUThrottlingRate", { rate: 1 });
  }
  console.log(JSON.stringify(times));
} finally {
  await browser.close();
}

// Runs in the page. Each sheet is tapped as a frame begins; the answer comes in a
// later one, and a message sent as that begins arrives once it has been painted.
// The first tap, in which code is compiled, is not counted.
async function timeTaps(sheets) {
  const answer = document.querySelector(".refitted");
  const rest = () => new Promise((rested) => setTimeout(rested, 200));
  const tap = (sheet) =>
    new Promise((painted) => {
      requestAnimationFrame(() => {
        const start = performance.now();
        const watch = new MutationObserver(() => {
          watch.disconnect();
          requestAnimationFrame(() => {
            const { port1, port2 } = new MessageChannel();
            port1.onmessage = () => painted(performance.now() - start);
            port2.postMessage("painting");
          });
        });
        watch.observe(answer, { childList: true, subtree: true });
        sheet.click();
      });
    });
  const all = [...sheets.querySelectorAll("button")];
  await tap(all.at(-1));
  const times = [];
  for (const sheet of all) {
    await rest();
    times.push(await tap(sheet));
    if (answer.textContent.trim() === "") throw new Error("The sheet brought no answer.");
  }
  return times;
}
