// The bench for left hands, the ruler on its screen, and the way from a step to the
// numbers behind it.

import assert from "node:assert/strict";
import { at, heading, journey, jump, next, step } from "./at-bench.js";
import { LAPTOP, PHONE } from "./harness.js";
import { accessible } from "./journey.js";

const sheet = (page) => page.getByRole("dialog", { name: "Reading aloud, clocks, ruler" });
const open = (page) => page.locator(".bench-aid").last().click();

const SCREENS = { phone: PHONE, sideways: { width: 844, height: 390 }, laptop: LAPTOP };
for (const [name, viewport] of Object.entries(SCREENS)) {
  journey(`the large buttons lie at the left hand, ${name}`, "letter", async (page) => {
    await next(page).click();
    const boxes = () =>
      page.evaluate(() => {
        const box = (of) => document.querySelector(of).getBoundingClientRect().toJSON();
        return { bench: box(".bench"), on: box(".turn-on"), back: box(".turn-back"), turns: box(".turns"), task: box(".task") };
      });
    const right = await boxes();
    await open(page);
    await sheet(page).getByRole("button", { name: "The left hand" }).click();
    await page.keyboard.press("Escape");
    for (const left of [await boxes(), await page.reload().then(() => heading(page).waitFor()).then(boxes)]) {
      // What was so far from the right edge of the bench is so far from the left one.
      const mirrored = (box) => right.bench.right - (box.right - right.bench.left);
      for (const part of ["on", "back", "turns"]) {
        assert.ok(Math.abs(left[part].x - mirrored(right[part])) < 1, `${part}: ${JSON.stringify([left[part], right[part]])}`);
        assert.equal(left[part].y, right[part].y);
        assert.equal(left[part].width, right[part].width);
      }
      assert.equal(left.task.width, right.task.width);
    }
    // Nothing that is read is mirrored.
    const directions = await page.evaluate(() =>
      [...document.querySelectorAll(".task, .task *")].map((it) => getComputedStyle(it)).filter((it) => it.direction !== "ltr" || it.scale !== "none").length);
    assert.equal(directions, 0);
    await accessible(page);
  }, viewport);
}

// A card of the size ID-1 is 85.60 mm wide and 53.98 mm high (ISO/IEC 7810).
journey("the ruler is true once a card was laid on the screen", "letter", async (page) => {
  const ruler = page.locator(".screen-ruler");
  const wide = (locator) => locator.evaluate((it) => it.getBoundingClientRect().width);
  await open(page);
  await page.getByText("This screen does not know how large it is.").waitFor();
  assert.equal(await ruler.count(), 0);
  await page.getByRole("button", { name: "Set the ruler" }).click();
  const slider = page.getByRole("slider", { name: "Width of the outline" });
  const outline = page.getByRole("img", { name: "Outline of a card" });
  await slider.fill("300");
  await page.getByRole("button", { name: "Wider" }).click();
  await page.getByRole("button", { name: "Wider" }).click();
  await page.getByRole("button", { name: "Narrower" }).click();
  const card = await wide(outline);
  assert.ok(Math.abs(card - 300.5) < 0.01, `${card}`);
  const high = await outline.evaluate((it) => it.getBoundingClientRect().height);
  assert.ok(Math.abs(high / card - 85.6 / 53.98) < 1e-3);
  for (const colorScheme of ["light", "dark"]) {
    await page.emulateMedia({ colorScheme });
    await accessible(page);
  }
  await page.getByRole("button", { name: "It fits" }).click();
  await page.getByText("As true as you set it with your card.").waitFor();
  const told = await ruler.getAttribute("aria-label");
  const inches = { "one inch": 1, "two inches": 2, "1 in": 1, "2 in": 2 }[told.match(/^Ruler, (.*) long$/)[1].replace("\u00a0", " ")];
  const expected = (inches * 25.4 * card) / 53.98;
  assert.ok(Math.abs((await ruler.evaluate((it) => it.width.baseVal.value)) - expected) < 0.01);
  // Sixteenths, as on this maker's ruler.
  const marks = (await ruler.locator("path").getAttribute("d")).match(/M[\d.]+/g).map((at) => Number(at.slice(1)));
  assert.equal(marks.length, 16 * inches + 1);
  assert.ok(Math.abs(marks[5] - (expected / inches) * (5 / 16)) < 0.01);
  await accessible(page);

  // Kept on this device, and not claimed at another zoom.
  await page.reload();
  await heading(page).waitFor();
  await open(page);
  await ruler.waitFor();
  const client = await page.context().newCDPSession(page);
  // As a browser does that is zoomed to 200 %.
  const zoomed = { width: PHONE.width / 2, height: PHONE.height / 2, deviceScaleFactor: 2, mobile: false };
  await client.send("Emulation.setDeviceMetricsOverride", zoomed);
  await page.getByText("so the ruler has to be set again").waitFor();
  assert.equal(await ruler.count(), 0);
});

journey("a number that a step shows is changed in the recipe, and the step comes back", "book", async (page) => {
  await jump(page, "Cut at");
  const here = step(page);
  await page.getByText("Change a number in the recipe").click();
  await accessible(page);
  const links = page.locator(".step-numbers a");
  const name = (await links.first().innerText()).split("\n")[0].trim();
  await links.first().click();
  await page.waitForURL("**/recipe/*");
  const editor = page.getByRole("dialog");
  await editor.getByRole("textbox").first().waitFor();
  assert.equal((await editor.getByRole("heading").first().innerText()).toLowerCase(), name.toLowerCase());
  await page.keyboard.press("Escape");
  await page.getByRole("link", { name: "Back to the step" }).click();
  await page.waitForURL("**/bench/*");
  await heading(page).waitFor();
  assert.equal(step(page), here);

  // A step that shows no length of the recipe offers none.
  await jump(page, "Take out your paper");
  await at(page, 1);
  assert.equal(await page.getByText("Change a number in the recipe").count(), 0);
});
