// Pieces folded from other sheets: begun, shaped, glued, opened, taken out.

import assert from "node:assert/strict";
import { accessible, begin, journey } from "./journey.js";
import { turnTo } from "./parts.js";

/** A walk through a recipe begun from a starting fold. */
const gluing = (name, starter, walk, viewport) =>
  journey(
    name,
    async (page, { address }) => {
      await begin(page, address, starter);
      await turnTo(page, "Pop-ups & pockets");
      await page.getByText("Glue a piece in").waitFor();
      await walk(page);
    },
    viewport,
  );

const button = (page, name) => page.getByRole("button", { name, exact: true });

gluing("a piece is glued in, turned over, undone", "book", async (page) => {
  const weight = async () => Number((await page.locator(".facts").innerText()).match(/([\d.]+) g$/)[1]);
  const without = await weight();
  await button(page, "Add a piece").click();
  await page.getByText("Where it is glued").waitFor();
  await page.locator(".caption", { hasText: "Front of the piece up" }).waitFor();
  assert.ok((await weight()) > without, "its paper weighs something");
  await page.getByRole("slider", { name: "Score between tab and flap" }).waitFor();
  await accessible(page);
  await button(page, "Undo").click();
  await page.getByText("Nothing is glued in yet.").waitFor();
  assert.equal(await weight(), without);
});

gluing("a pop-up stands up as the card opens", "v-fold", async (page) => {
  await button(page, "Opening").click();
  const slider = page.locator('.opening input[type="range"]');
  await slider.waitFor();
  const figure = () => page.locator(".drawn svg g").first().innerHTML();
  const shut = await figure();
  await slider.evaluate((slider) => {
    slider.value = slider.max;
    slider.dispatchEvent(new Event("input", { bubbles: true }));
  });
  await page.waitForFunction(
    (shut) => document.querySelector(".drawn svg g").innerHTML !== shut,
    shut,
  );
  await page.locator(".opening-name", { hasText: "Open" }).waitFor();
});

gluing("glue that locks the card is said where it is glued", "platform", async (page) => {
  await page.locator(".layer-head").click();
  // Both walls in one: two folds side by side hold the pages.
  await page.getByRole("button", { name: "Remove right wall", exact: true }).click();
  await page.locator(".problem-count.grave").waitFor();
  await page.locator(".problem-count").click();
  await page.locator(".problem.stop").first().waitFor();
});
