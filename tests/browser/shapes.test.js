// Windows, edges and outlines are cut, moved and taken back, and folds get the
// room that what they wrap asks for.

import assert from "node:assert/strict";
import { accessible, begin, journey } from "./journey.js";
import { plain } from "./numbers.js";
import { turnTo } from "./parts.js";

/** A walk through a recipe begun from a starting fold. */
const shaping = (name, starter, walk, viewport) =>
  journey(
    name,
    async (page, { address }) => {
      await begin(page, address, starter);
      await walk(page);
    },
    viewport,
  );

const drawn = (page) => page.locator(".drawn svg g").first().innerHTML();
const button = (page, name) => page.getByRole("button", { name, exact: true });
const grams = async (page) => Number((await page.locator(".facts").innerText()).match(/([\d.]+) g$/)[1]);

/** Waits until the figure is another than it was. */
async function changed(page, before) {
  await page.waitForFunction(
    (before) => document.querySelector(".drawn svg g").innerHTML !== before,
    before,
  );
}

shaping("a window is cut, shaped, moved and taken back", "book", async (page) => {
  const whole = await grams(page);
  const before = await drawn(page);
  await button(page, "Add window").click();
  await changed(page, before);
  // Half of 4 1/4 × 5 1/2 in, in the middle of the front.
  const grip = page.locator(".window-grip");
  const at = async () => plain(await grip.getAttribute("aria-label"));
  await grip.waitFor();
  assert.match(await at(), /^window, one and one sixteenth inches from the left and 1⅜\sin from the bottom;/);
  const box = await grip.boundingBox();
  assert.ok(box.width >= 44 && box.height >= 44, "a thumb can take hold of it");
  assert.ok((await grams(page)) < whole, "what is cut out weighs nothing");

  const straight = await drawn(page);
  await page.getByLabel("Outline").selectOption("Round or oval");
  await changed(page, straight);
  await accessible(page);

  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x - 6, y, { steps: 3 });
  await page.mouse.move(x - 12, y, { steps: 3 });
  await page.mouse.up();
  const dragged = await at();
  assert.doesNotMatch(dragged, /^window, one and one sixteenth inches/);
  // All of a drag is one change.
  await button(page, "Undo").click();
  assert.match(await at(), /^window, one and one sixteenth inches/);
  await grip.focus();
  await page.keyboard.press("ArrowUp");
  assert.match(await at(), /and one and seven sixteenths inches from the bottom;/);
  assert.ok(await grip.evaluate((grip) => grip === document.activeElement), "the focus stays");

  await button(page, "Remove window").click();
  await grip.waitFor({ state: "detached" });
  assert.equal(await grams(page), whole);
});

shaping("corners are rounded and an edge is shaped", "book", async (page) => {
  let before = await drawn(page);
  await button(page, "Round corners").click();
  await changed(page, before);
  before = await drawn(page);
  await button(page, "Shape an edge").click();
  await changed(page, before);
  for (const form of ["Scallops", "Points", "Corner by corner", "One arc inwards"]) {
    before = await drawn(page);
    await page.getByLabel("How it runs").selectOption(form);
    await changed(page, before);
  }
  await page.getByLabel("How it runs").selectOption("Points");
  before = await drawn(page);
  await button(page, "Points: one more").click();
  await changed(page, before);
  await accessible(page);
});

shaping("a mat is cut as a heart, corner by corner", "book", async (page) => {
  await turnTo(page, "Layers");
  await page.locator(".layer-head").first().click();
  let before = await drawn(page);
  await page.locator(".outline select").selectOption("Die-cut");
  await changed(page, before);
  before = await drawn(page);
  await page.getByLabel("Start from").selectOption("Heart");
  await changed(page, before);
  await page.getByText("Corner by corner").click();
  await accessible(page);

  const corner = page.getByRole("group", { name: "Corner 1", exact: true });
  before = await drawn(page);
  await corner.getByLabel("Height").fill("12,5");
  await corner.getByLabel("Height").press("Enter");
  await changed(page, before);
  await corner.getByLabel("Bend").fill("51");
  await corner.getByLabel("Bend").press("Enter");
  await corner.getByText("From −50 to 50.").waitFor();

  // The bench says how it is cut.
  await page.goto(page.url().replace("/recipe/", "/bench/"));
  await page.locator(".bench-progress").click();
  await page.getByRole("dialog", { name: "All steps" }).getByRole("button", { name: /^\d+\s*Cut the / }).click();
  await page.getByText(/^Then cut the .* along its outline/).waitFor();
});

shaping("what folds wrap is told, and room is made for it", "own", async (page) => {
  const rows = page.locator(".panels > .panel");
  await page.getByRole("button", { name: /^Add a panel after/ }).last().click();
  await rows.nth(2).waitFor();
  // Both folds the same way and all panels of one width: one goes inside.
  await page.getByRole("button", { name: /^panel 1 width, / }).click();
  await page.getByRole("textbox", { name: "Length", exact: true }).fill("5");
  await button(page, "Done").click();
  const folds = page.locator(".score-line");
  await folds.nth(1).waitFor();
  for (const fold of [0, 1]) await folds.nth(fold).getByRole("button", { name: "Valley" }).click();
  await turnTo(page, "Scores");
  await page.getByText(/wraps 1 sheet: allow ¹⁄₁₆\sin/).waitFor();
  await button(page, "Make room").waitFor();
  await accessible(page);
  await button(page, "Make room").click();
  await button(page, "Make room").waitFor({ state: "detached" });
  await button(page, "Undo").click();
  await button(page, "Make room").waitFor();
});
