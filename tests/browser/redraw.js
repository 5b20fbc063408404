// Times edits of every starting fold on a slowed processor: a score, or an end of a line, moved by
// its key, from the key to the new figure painted. Prints the times in milliseconds as a JSON list.

import { openBrowser } from "./harness.js";
import { turnTo } from "./parts.js";

const EDITS = 20;
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
    const moved = await handle(page);
    await session.send("Emulation.setCPUThrottlingRate", { rate: SLOWED });
    times.push(...(await moved.evaluate(timeEdits, EDITS)));
    await session.send("Emulation.setCPUThrottlingRate", { rate: 1 });
  }
  console.log(JSON.stringify(times));
} finally {
  await browser.close();
}

/** A score, or an end of a line where there is none, or else a score of a piece glued in. */
async function handle(page) {
  await page.locator(".lines").waitFor({ state: "attached" });
  const score = page.getByRole("slider").first();
  if ((await score.count()) > 0) return score;
  if ((await page.locator(".lines .layer-head").count()) === 0) {
    await turnTo(page, "Pop-ups & pockets");
    await page.locator(".layer-head").first().click();
    await score.waitFor();
    return score;
  }
  await page.locator(".lines .layer-head").first().click();
  const end = page.locator(".line-end").first();
  await end.waitFor();
  return end;
}

// Runs in the page. Each edit is made as a frame begins; a message sent then
// arrives once that frame has been painted, so that the wait for the frame is
// not counted and everything done in it is. The next one waits until all that
// follows an edit is done.
async function timeEdits(moved, edits) {
  const figure = () => document.querySelector(".drawn svg").innerHTML;
  const rest = () => new Promise((rested) => setTimeout(rested, 100));
  const edit = (key) =>
    new Promise((painted) => {
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        const start = performance.now();
        port1.onmessage = () => painted(performance.now() - start);
        moved.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));
        port2.postMessage("painting");
      });
    });
  await edit("ArrowRight");
  const times = [];
  for (let count = 0; count < edits; count += 1) {
    await rest();
    const before = figure();
    times.push(await edit(count % 2 ? "ArrowRight" : "ArrowLeft"));
    if (figure() === before) throw new Error("The edit did not change the figure.");
  }
  return times;
}
