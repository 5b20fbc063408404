// The maker takes the steps in another order, within what is sound, and puts steps of
// their own between them.

import assert from "node:assert/strict";
import { at, count, heading, journey, listed, next, step } from "./at-bench.js";
import { accessible } from "./journey.js";

const open = async (page) => {
  await page.locator(".bench-progress").click();
  await listed(page).waitFor();
};
const button = (page, name) => listed(page).getByRole("button", { name });
const titles = (page) => listed(page).locator(".step-title").allInnerTexts();
const why = (page) => listed(page).locator(".step-stays");
const focused = (page, id) =>
  page.waitForFunction((id) => document.activeElement?.id === id, id);

journey("a step stays where it has to be, and is told why", "book", async (page) => {
  await open(page);
  const usual = await titles(page);
  await button(page, "Change the order").click();
  // Common practice: paper first, folds after scores, the envelope last.
  await button(page, "Later: Take out your paper").click();
  await why(page).getByText("Paper and tools are taken out before anything else.").waitFor();
  await button(page, /^Earlier: Fold at/).first().click();
  await why(page).getByText("needs the paper flat, so that comes before folding").waitFor();
  assert.equal(await why(page).count(), 1);
  await button(page, "Later: Let it dry").click();
  await why(page).getByText("The finished card is tried in its envelope").waitFor();
  assert.deepEqual(await titles(page), usual);
  assert.equal(await button(page, "Back to the usual order").count(), 0);
  await accessible(page);

  // Large enough for a thumb.
  for (const box of await listed(page).locator(".step-move").all()) {
    const { width, height } = await box.boundingBox();
    assert.ok(width >= 44 && height >= 44, `${width} × ${height}`);
  }
});

journey("a step of one's own is moved, worked, and removed", "book", async (page) => {
  const all = await count(page);
  await open(page);
  const usual = await titles(page);
  await button(page, "Add a step of your own").click();
  await focused(page, "own-step-words");
  await page.keyboard.type("Stamp the harbour");
  await button(page, "For each card").click();
  await listed(page).getByRole("textbox", { name: "What to do" }).press("Enter");
  await page.waitForFunction(() => document.activeElement?.id.startsWith("order-own-"));
  assert.equal((await titles(page))[1], "Stamp the harbour");

  // By keyboard, with the focus on the button that was pressed.
  await page.keyboard.press("Enter");
  await page.waitForFunction(
    () => document.querySelectorAll(".step-title")[2]?.textContent === "Stamp the harbour",
  );
  await page.waitForFunction(() => document.activeElement?.id.endsWith("-later"));
  await page.keyboard.press("Enter");
  await page.waitForFunction(
    () => document.querySelectorAll(".step-title")[3]?.textContent === "Stamp the harbour",
  );
  await accessible(page);
  await button(page, "Undo").click();
  await page.waitForFunction(
    () => document.querySelectorAll(".step-title")[2]?.textContent === "Stamp the harbour",
  );
  // Its own step alone leaves the rest in its usual order.
  assert.equal(await button(page, "Back to the usual order").count(), 0);
  assert.deepEqual(
    (await titles(page)).filter((title) => title !== "Stamp the harbour"),
    usual,
  );

  await page.keyboard.press("Escape");
  await next(page).click();
  await next(page).click();
  await heading(page).getByText("Stamp the harbour").waitFor();
  assert.match(step(page), /^own-\d+$/);
  assert.equal(await count(page), all + 1);
  await page.getByText("Your own step", { exact: true }).waitFor();
  await page.getByRole("textbox", { name: "Your note for this step" }).fill("blue ink");
  await page.reload();
  await heading(page).getByText("Stamp the harbour").waitFor();
  assert.equal(
    await page.getByRole("textbox", { name: "Your note for this step" }).inputValue(),
    "blue ink",
  );

  await open(page);
  await button(page, "Change the order").click();
  await button(page, "Change your step: Stamp the harbour").click();
  await listed(page).getByRole("textbox", { name: "What to do" }).fill("Stamp the quay");
  await button(page, "Keep the changes").click();
  await page.waitForFunction(
    () => document.querySelectorAll(".step-title")[2]?.textContent === "Stamp the quay",
  );
  await button(page, "Change your step: Stamp the quay").click();
  await button(page, "Remove the step").click();
  await focused(page, "order-add");
  assert.deepEqual(await titles(page), usual);
  await page.keyboard.press("Escape");
  assert.equal(await count(page), all);
});

journey("another order is kept, and the usual one comes back", "book", async (page) => {
  await open(page);
  const usual = await titles(page);
  await button(page, "Change the order").click();
  // The first that can go earlier does, until it is past its neighbour.
  const moves = listed(page).locator('.step-move[id$="-earlier"]:not(:disabled)');
  let moved = false;
  for (let number = 0; number < (await moves.count()) && !moved; number += 1) {
    await moves.nth(number).click();
    moved = (await why(page).count()) === 0;
  }
  assert.ok(moved, "nothing moves");
  await button(page, "Back to the usual order").waitFor();
  const other = await titles(page);
  assert.notDeepEqual(other, usual);
  await page.reload();
  await heading(page).waitFor();
  await open(page);
  assert.deepEqual(await titles(page), other);
  await button(page, "Change the order").click();
  await button(page, "Back to the usual order").click();
  await focused(page, "order-change");
  assert.deepEqual(await titles(page), usual);
  await page.keyboard.press("Escape");
  await at(page, 1);
});

journey(
  "in German as well",
  "book",
  async (page) => {
    await page.locator(".bench-progress").click();
    const list = page.getByRole("dialog", { name: "Alle Schritte" });
    await list.getByRole("button", { name: "Reihenfolge ändern" }).click();
    await list.getByRole("button", { name: /^Früher: Bei .* falzen/ }).first().click();
    await list.locator(".step-stays").getByText("also vor dem Falzen").waitFor();
    await accessible(page);
  },
  undefined,
  { locale: "de-DE" },
);
