// A resize says what becomes of the envelope, and one is made where none fits.

import assert from "node:assert/strict";
import { LAPTOP, eventually } from "./harness.js";
import { accessible, begin, journey } from "./journey.js";
import { shown } from "./numbers.js";
import { turnTo } from "./parts.js";

const button = (page, name) => page.getByRole("button", { name, exact: true });
const make = (page) => button(page, "Make an envelope for it");
const notice = (page) => page.locator(".notice");
const facts = (page) => page.locator(".facts");

journey("an envelope is made for a card, worked at the bench, and taken back", async (page, { address }) => {
  await begin(page, address, "book");
  const card = page.url();
  await turnTo(page, "Envelope");
  await make(page).waitFor();
  // Envelopes that are sold come first where one takes it.
  const envelopes = page.getByRole("radiogroup", { name: "Envelope", exact: true });
  assert.ok((await envelopes.boundingBox()).y < (await make(page).boundingBox()).y);
  await accessible(page);
  await make(page).click();
  await page.waitForURL((url) => url.href !== card);
  await page.getByRole("heading", { name: "Envelope for “Side fold”" }).waitFor();
  // A card of 4 1/4 × 5 1/2 in goes into A2, which has 4 3/8 × 5 3/4 in ("Common
  // Envelope Sizes"), with 1/8 in on top and at each side ("Tips for Printing
  // Envelopes").
  await facts(page).filter({ hasText: shown("5 3/4 × 4 3/8 in") }).waitFor();
  await page.getByRole("tab", { name: "Fit", exact: true }).click();
  await page.getByText("Make it fit").waitFor();
  assert.equal(await button(page, "Envelope").count(), 0, "it goes into none itself");
  await accessible(page);
  const made = page.url();

  await page.goto(made.replace("/recipe/", "/bench/"));
  await page.locator(".task").waitFor();
  await page.goBack();
  await facts(page).waitFor();
  assert.equal(page.url(), made);

  await page.goto(card);
  await turnTo(page, "Envelope");
  await make(page).click();
  await page.waitForURL((url) => url.href !== card);
  const again = page.url();
  await notice(page).getByRole("button", { name: "Undo" }).click();
  await page.waitForURL(card);
  await notice(page).getByText(/is deleted/).waitFor();
  await page.goto(again);
  await page.getByRole("heading", { name: "No such recipe" }).waitFor();
});

journey(
  "a resize says what becomes of the envelope, and offers to make one where none fits",
  async (page, { address }) => {
    await begin(page, address, "tent");
    await turnTo(page, "Resize");
    const refitted = page.locator(".refitted");
    const closed = async (width, height) => {
      for (const [label, text] of [["Closed width", width], ["Closed height", height]]) {
        await page.getByLabel(label).fill(text);
        await page.getByLabel(label).blur();
      }
    };
    await page.getByText("Another closed size").click();
    await closed("5 1/2 in", "4 1/8 in");
    await refitted.getByText("The card goes into A2 announcement.").waitFor();
    assert.equal(await make(page).count(), 0);
    await closed("7 1/2 in", "4 in");
    await refitted.getByText(/^The card went into A2 announcement. Now the closest envelope that takes it is /).waitFor();

    // Twice as large as the largest envelope there is, from a sheet of that size.
    await page.getByText("Another size").click();
    for (const [label, text] of [["Width", "60 in"], ["Height", "60 in"]]) {
      await page.getByLabel(label, { exact: true }).fill(text);
      await page.getByLabel(label, { exact: true }).blur();
    }
    await button(page, "Same card").click();
    await closed("28 in", "20 in");
    await refitted.getByText("The card went into A2 announcement. Now no standard envelope takes it.").waitFor();
    await make(page).click();
    await notice(page).getByText("“Envelope for “Top fold (tent)”” is there too.").waitFor();
    await accessible(page);
    await button(page, "Take this card").click();
    await facts(page).filter({ hasText: "28 × 20 in" }).waitFor();

    // Where none fits, one that is made comes first.
    await turnTo(page, "Envelope");
    await make(page).waitFor();
    const envelopes = page.getByRole("radiogroup", { name: "Envelope", exact: true });
    assert.ok((await make(page).boundingBox()).y < (await envelopes.boundingBox()).y);
    await make(page).click();
    await facts(page).filter({ hasText: shown("28 1/4 × 20 1/8 in") }).waitFor();
    await page.goto(address);
    await eventually(
      page,
      () => [...document.querySelectorAll("main[data-ready] .tile")].filter(({ innerText }) => innerText.includes("Envelope for")).length === 2,
    );
  },
  LAPTOP,
);
