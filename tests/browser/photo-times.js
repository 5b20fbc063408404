// Times how long a photograph takes on a slowed processor, from its choice to the paper
// that shows it, without the time that people take between: choosing it until its
// corners can be dragged, laying it flat, and keeping it until the card is drawn with
// it. Prints the sums in milliseconds as a JSON list.

import { openBrowser } from "./harness.js";
import { turnTo } from "./parts.js";

const SLOWED = 4;
const TIMES = 5;

const address = process.argv[2];
const browser = await openBrowser();
try {
  const page = await browser.context.newPage();
  const session = await browser.context.newCDPSession(page);
  await page.goto(`${address}new`);
  await page.locator('[data-starter="book"]').click();
  // From the front the card shows the face of its paper.
  await page.getByRole("button", { name: "Closed", exact: true }).click();
  await turnTo(page, "Papers");
  const face = page.getByRole("group", { name: "Photograph of the face" });
  const dialog = page.getByRole("dialog", { name: "Photograph of the face" });
  const times = [];
  // The first one, for which code is compiled, is not counted.
  for (let turn = 0; turn <= TIMES; turn += 1) {
    const buffer = await photograph(page, turn);
    await face.getByRole("button", { name: /Photograph it|Take another one/ }).click();
    await session.send("Emulation.setCPUThrottlingRate", { rate: SLOWED });
    const input = dialog.locator("input[type=file]");
    let sum = await timed(page, ".photo-picture", () =>
      input.setInputFiles({ name: "quay.jpg", mimeType: "image/jpeg", buffer }),
    );
    sum += await timed(page, "dialog:has(.photo-flat canvas) .button.primary:not([disabled])", () => press(page, "Lay it flat"));
    sum += await timed(page, "body:not(:has(dialog[open])) .drawn svg image", () =>
      press(page, "Show the photograph"),
    );
    await session.send("Emulation.setCPUThrottlingRate", { rate: 1 });
    if (turn > 0) times.push(sum);
  }
  console.log(JSON.stringify(times));
} finally {
  await browser.close();
}

function press(page, name) {
  return page.getByRole("button", { name }).evaluate((button) => button.click());
}

/** How long it takes from something that is done until something is painted. */
async function timed(page, selector, act) {
  const seen = page.evaluate(
    (selector) =>
      new Promise((painted) => {
        globalThis.begun = undefined;
        const begin = () => (globalThis.begun ??= performance.now());
        for (const event of ["change", "click"]) {
          document.addEventListener(event, begin, { capture: true, once: true });
        }
        const look = () => {
          if (globalThis.begun !== undefined && document.querySelector(selector)) {
            requestAnimationFrame(() => setTimeout(() => painted(performance.now() - begun), 0));
          } else {
            requestAnimationFrame(look);
          }
        };
        look();
      }),
    selector,
  );
  await act();
  return seen;
}

/** A picture of twelve megapixels, as phones take them: a sheet with boats and noise. */
async function photograph(page, turn) {
  const drawn = await page.evaluate((turn) => {
    const canvas = document.createElement("canvas");
    [canvas.width, canvas.height] = [4000, 3000];
    const on = canvas.getContext("2d");
    on.fillStyle = "#1c2422";
    on.fillRect(0, 0, 4000, 3000);
    for (let y = 240; y < 2760; y += 40) {
      for (let x = 320; x < 3680; x += 40) {
        const light = 150 + ((x * 31 + y * 17 + turn * 97) % 97);
        on.fillStyle = `rgb(${light} ${light} ${255 - light / 3})`;
        on.fillRect(x, y, 40, 40);
      }
    }
    return canvas.toDataURL("image/jpeg", 0.9).split(",")[1];
  }, turn);
  return Buffer.from(drawn, "base64");
}
