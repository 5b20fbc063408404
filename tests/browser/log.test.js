// What was made is kept in the log: with its date and paper, a line and a photograph,
// which the list of recipes shows.

import assert from "node:assert/strict";
import { LAPTOP } from "./harness.js";
import { at, count, heading, journey, next } from "./at-bench.js";
import { accessible } from "./journey.js";
import { turnTo } from "./parts.js";
import { photograph } from "./photograph.js";

const log = (page) => page.locator(".runs");
const entries = (page) => log(page).locator(".run");
const notice = (page) => page.locator(".notice");

/** Goes through all steps, so that all of them are done. */
async function make(page) {
  const all = await count(page);
  for (let number = 1; number <= all; number += 1) {
    await at(page, number);
    await next(page).click();
  }
  await heading(page).getByText("Your card is made").waitFor();
}

journey("what was made is kept with its date, and shown in the list", "letter", async (page, { address }) => {
  // Who looks at the finish before all is done has made nothing.
  await page.goto(`${address}?step=finish`);
  await log(page).getByText("Once every step is done").waitFor();
  assert.equal(await entries(page).count(), 0);
  await page.goto(`${address}?step=gather`);
  await make(page);
  await entries(page).first().waitFor();
  assert.equal(await entries(page).count(), 1);
  // The day as the browser itself writes it (ECMA-402).
  const [locale, today] = await page.evaluate(() => {
    const { lang } = document.documentElement;
    return [lang, [lang, navigator.language].map((it) => new Date().toLocaleDateString(it))];
  });
  const told = await entries(page).locator("summary").innerText();
  assert.ok(today.some((day) => told.includes(day)), `${told} on ${today} in ${locale}`);
  assert.match(told, /1 card/);
  // A card of one strip takes one sheet.
  await log(page).getByText(/^1 sheet of /).first().waitFor();
  await accessible(page);

  await log(page).getByLabel("A line about it").fill("For the quay.");
  await log(page).getByRole("button", { name: "Add a photograph" }).click();
  const sheet = page.getByRole("dialog", { name: "Photograph of what was made" });
  const file = { name: "cards.jpg", mimeType: "image/jpeg", buffer: await photograph(page) };
  await sheet.locator("input[type=file]").setInputFiles(file);
  await sheet.waitFor({ state: "hidden" });
  await log(page).getByRole("button", { name: "Look at the photograph large" }).waitFor();
  // Once more on the same screen, it is the same run.
  await page.reload();
  await entries(page).first().waitFor();
  assert.equal(await entries(page).count(), 1);
  assert.equal(await log(page).getByLabel("A line about it").inputValue(), "For the quay.");
  await accessible(page);

  // Another run is another entry, the newest first.
  await page.getByRole("button", { name: "Start again" }).click();
  await make(page);
  await entries(page).nth(1).waitFor();
  assert.equal(await entries(page).count(), 2);
  assert.match(await entries(page).nth(1).locator("summary").innerText(), /For the quay\./);
  await entries(page).first().getByRole("button", { name: "Remove this entry" }).click();
  await notice(page).getByText("The entry was removed.").waitFor();
  assert.equal(await entries(page).count(), 1);
  assert.equal(await page.evaluate(() => document.activeElement?.textContent), "Made so far");
  await notice(page).filter({ hasText: "The entry was removed." }).getByRole("button", { name: "Undo" }).click();
  await entries(page).nth(1).waitFor();

  // The list shows the photograph of the newest that has one, and the drawing beside it.
  await page.goto(new URL("/", address).href);
  const tile = page.locator("main[data-ready] .tile");
  await tile.locator("img.tile-photo").waitFor();
  await tile.locator("svg.in-space").waitFor();
  await accessible(page);
  // In the recipe it is where the card is made.
  await page.goto(address.replace("/bench/", "/recipe/"));
  await turnTo(page, "Scores");
  await entries(page).nth(1).waitFor();
  await accessible(page);
}, LAPTOP);

journey("more cards of a run are the same entry", "letter", async (page) => {
  await make(page);
  await log(page).getByText("1 card", { exact: true }).waitFor();
  await page.locator(".bench-progress").click();
  await page.getByRole("dialog", { name: "All steps" }).getByRole("button", { name: "Take out your paper" }).click();
  await page.getByRole("button", { name: "One card more" }).click();
  const all = await count(page);
  for (let number = 1; number <= all; number += 1) {
    await at(page, number);
    const done = page.getByRole("button", { name: "All done" });
    if ((await done.count()) && (await done.isEnabled())) await done.click();
    await next(page).click();
  }
  await heading(page).getByText("2 cards are made").waitFor();
  await log(page).getByText("2 cards", { exact: true }).waitFor();
  assert.equal(await entries(page).count(), 1);
});
