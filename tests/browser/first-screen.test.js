// The first screen: what all of this is for, and finished cards to look into.

import assert from "node:assert/strict";
import { LAPTOP, PHONE, eventually } from "./harness.js";
import { accessible, begin, journey } from "./journey.js";
import { keptRecipes } from "./kept.js";
import { turnTo } from "./parts.js";

const samples = (page) => page.locator(".samples [data-sample]");

/** Opens the first screen and waits for the cards with their pictures. */
async function arrive(page, address) {
  await page.goto(address);
  await page.getByText("Follow it at the table, step by step.").waitFor();
  await samples(page).nth(5).locator("svg.in-space").waitFor();
}

for (const [screen, viewport] of Object.entries({ phone: PHONE, laptop: LAPTOP })) {
  journey(`a finished card goes straight to the bench on a ${screen}`, async (page, { address }) => {
    await arrive(page, address);
    assert.equal(await samples(page).count(), 6);
    await accessible(page);
    assert.equal((await keptRecipes(page)).length, 0, "nothing is kept before something is opened");
    await page.getByRole("button", { name: "To the bench: Lighthouse" }).click();
    await page.getByText("Step 1 of").first().waitFor();
    await page.goto(address);
    await page.locator(".tile-name", { hasText: "Lighthouse" }).waitFor();
    assert.equal(await samples(page).count(), 0, "there is a recipe now");
  }, viewport);
}

journey("a finished card opens to be changed", async (page, { address }) => {
  await arrive(page, address);
  await samples(page).filter({ hasText: "Ferry pass" }).click();
  await page.waitForURL("**/recipe/*");
  await page.getByRole("heading", { name: "Ferry pass" }).waitFor();
  await page.getByText("No problems").or(page.locator(".problem-count:not(.grave)")).first().waitFor();
});

journey("put away, they come back with Undo and not by themselves", async (page, { address }) => {
  await arrive(page, address);
  const away = page.getByRole("button", { name: "Put these away" });
  await away.click();
  await samples(page).first().waitFor({ state: "detached" });
  await page.getByRole("button", { name: "Undo" }).click();
  await samples(page).first().waitFor();
  await away.click();
  await samples(page).first().waitFor({ state: "detached" });
  await page.reload();
  await page.getByText("Follow it at the table, step by step.").waitFor();
  // Long enough for them to come, had they not been put away.
  await page.waitForLoadState("networkidle");
  assert.equal(await samples(page).count(), 0);
});

journey("what the words of the trade mean is a tap away", async (page, { address }) => {
  await begin(page, address, "gate");
  await turnTo(page, "Print direction");
  await page.getByRole("link", { name: "What do these words mean?" }).click();
  await page.waitForURL("**/words#print-direction");
  const word = page.getByText("Print direction", { exact: true });
  await word.waitFor();
  // It is looked for as the page comes, under the bar at the top.
  await eventually(page, () => {
    const { top, bottom } = document.getElementById("print-direction").getBoundingClientRect();
    return top >= 0 && bottom <= innerHeight;
  });
  await page.locator(".glossary svg").nth(3).waitFor();
  await accessible(page);
  await page.goBack();
  await page.getByRole("tab", { name: "Card", exact: true }).waitFor();
});
