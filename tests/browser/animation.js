// Times frames of the opening of every starting fold, and of a recipe in a file,
// on a slowed processor: from the slider moved to the new picture painted.
// Prints the times in milliseconds as JSON.

import { openBrowser } from "./harness.js";

const FRAMES = 20;
const SLOWED = 4;

const [address, file] = process.argv.slice(2);
const browser = await openBrowser();
try {
  const page = await browser.context.newPage();
  const session = await browser.context.newCDPSession(page);
  await page.goto(`${address}new`);
  await page.locator("[data-starter]").first().waitFor();
  const starters = await page
    .locator("[data-starter]")
    .evaluateAll((all) => all.map((starter) => starter.dataset.starter));

  const timed = async () => {
    await page.getByRole("button", { name: "Opening", exact: true }).click();
    const slider = page.locator('.opening input[type="range"]');
    await slider.waitFor();
    await session.send("Emulation.setCPUThrottlingRate", { rate: SLOWED });
    const times = await slider.evaluate(timeFrames, FRAMES);
    await session.send("Emulation.setCPUThrottlingRate", { rate: 1 });
    return times;
  };
  const times = { starters: [], forty: [] };
  for (const starter of starters) {
    await page.goto(`${address}new`);
    await page.locator(`[data-starter="${starter}"]`).click();
    times.starters.push(...(await timed()));
  }
  await page.goto(address);
  await page.locator("input[type=file]").setInputFiles(file);
  await page.getByRole("link", { name: "Ladder of forty panels" }).first().click();
  times.forty = await timed();
  console.log(JSON.stringify(times));
} finally {
  await browser.close();
}

// Runs in the page. A message sent as a frame begins arrives once it has been
// painted. The first frames, in which code is compiled, are not counted.
async function timeFrames(slider, frames) {
  const frame = (share) =>
    new Promise((painted) => {
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        const start = performance.now();
        port1.onmessage = () => painted(performance.now() - start);
        slider.value = slider.max * share;
        slider.dispatchEvent(new Event("input", { bubbles: true }));
        port2.postMessage("painting");
      });
    });
  for (const share of [0.1, 0.9, 0.5]) await frame(share);
  const times = [];
  for (let count = 0; count < frames; count += 1) {
    times.push(await frame((count + 0.5) / frames));
  }
  return times;
}
