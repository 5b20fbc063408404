// What is being typed stays: through a reload of the page, and while the same
// thing is changed in another tab.

import assert from "node:assert/strict";
import { begin, journey } from "./journey.js";
import { keptRecipes } from "./kept.js";
import { turnTo } from "./parts.js";

/** Opens the editor of the first number under Panels. */
async function edit(page) {
  await turnTo(page, "Panels");
  await page.locator("#section .number-button").first().click();
  return page.getByRole("dialog").getByRole("textbox", { name: "Length" });
}

journey("half a number is there again after a reload", async (page, { address }) => {
  await begin(page, address, "book");
  const field = await edit(page);
  await field.fill("3 1/");
  await page.reload();
  await page.locator('.drawn svg[role="img"]').waitFor();
  const again = await edit(page);
  await page.waitForFunction(() => document.activeElement?.value === "3 1/");
  await again.fill("3 1/2");
  await page.getByRole("button", { name: "Done", exact: true }).click();
  // Neither what was taken nor what was given up comes back.
  const third = await edit(page);
  assert.equal(await third.inputValue(), "3 1/2 in");
  await third.fill("9 9");
  await page.getByRole("dialog").getByRole("button", { name: "Close", exact: true }).click();
  assert.equal(await (await edit(page)).inputValue(), "3 1/2 in");
});

journey("a name half typed is not written over from another tab", async (page, { address }) => {
  await begin(page, address, "book");
  const other = await page.context().newPage();
  await other.goto(page.url());
  await other.locator('.drawn svg[role="img"]').waitFor();
  const name = async (of) => {
    await turnTo(of, "Papers");
    return of.locator("#section").getByRole("textbox", { name: "Name", exact: true }).first();
  };
  const [mine, theirs] = [await name(page), await name(other)];
  await mine.focus();
  await page.keyboard.press("End");
  await mine.pressSequentially(" from the nor");
  const typed = await mine.inputValue();
  await theirs.fill("Cream card");
  await theirs.blur();
  const isThere = async () => JSON.stringify(await keptRecipes(page)).includes("Cream card");
  for (let tries = 0; !(await isThere()); tries += 1) {
    assert.ok(tries < 100, "it is kept");
    await page.waitForTimeout(50);
  }
  await page.waitForTimeout(300);
  assert.equal(await mine.inputValue(), typed);
  await page.reload();
  await page.locator('.drawn svg[role="img"]').waitFor();
  const again = await name(page);
  await page.waitForFunction((typed) => [...document.querySelectorAll("input")].some(({ value }) => value === typed), typed);
  assert.equal(await again.inputValue(), typed);
});
