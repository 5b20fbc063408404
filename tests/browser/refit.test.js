// A card is fitted to another sheet, envelope and unit, kept or left as it is;
// what clashes is let go of, and numbers are tied, by tapping.

import assert from "node:assert/strict";
import { LAPTOP } from "./harness.js";
import { accessible, begin, journey } from "./journey.js";
import { plain } from "./numbers.js";
import { turnTo } from "./parts.js";

/** A walk through a recipe begun from a starting fold. */
const refitting = (name, starter, walk, viewport) =>
  journey(
    name,
    async (page, { address }) => {
      await begin(page, address, starter);
      await turnTo(page, "Resize");
      await page.getByText("Make it fit").waitFor();
      await walk(page);
    },
    viewport,
  );

const button = (page, name) => page.getByRole("button", { name, exact: true });
const changes = (page) => page.locator(".refitted .changes");
const facts = (page) => page.locator(".facts");

// A4 in three is 100, 100 and 97 mm (printers' folding guides).
refitting("a letter fold becomes one of A4 in one tap, and back", "letter", async (page) => {
  await button(page, "In millimetres").click();
  await button(page, "A4").click();
  await changes(page).getByText("97 mm", { exact: true }).waitFor();
  const told = plain(await changes(page).innerText());
  assert.match(told, /Front width[\s\S]*3¹¹⁄₁₆\sin[\s\S]*100\smm/);
  assert.match(told, /Folded-in width[\s\S]*97\smm/);
  assert.equal(await page.locator(".refitted .closed-figure svg").count(), 2);
  const before = await facts(page).innerText();
  await accessible(page);
  await button(page, "Take this card").click();
  await page.locator(".facts", { hasText: "100 × 210 mm" }).waitFor();
  await button(page, "Undo").click();
  await page.locator(".facts", { hasText: before }).waitFor();
});

refitting("leaving it as it is changes nothing", "book", async (page) => {
  const before = await facts(page).innerText();
  await page.getByLabel("To go into").selectOption("C6");
  await page.locator(".refitted").getByText("What changes").waitFor();
  await button(page, "Leave it as it is").click();
  await page.locator(".refitted .changes").waitFor({ state: "detached" });
  assert.equal(await facts(page).innerText(), before);
  assert.ok(await button(page, "Undo").isDisabled());
});

refitting("what clashes is named, let go of, and held again", "book", async (page) => {
  // A pinned height of 5 1/2 in does not go into a sheet of 4 × 10 in.
  await page.locator(".drawn .spot").last().waitFor();
  await page.getByRole("button", { name: /^card height, / }).click();
  await page.getByLabel("Pinned: stays as it is when others move").check();
  await button(page, "Done").click();
  await page.getByText("Another closed size").click();
  const height = page.getByLabel("Closed height");
  await height.fill("4 in");
  await height.blur();
  const stuck = page.locator(".refitted");
  await stuck.getByText("These don't go together").waitFor();
  await stuck.getByText(/card height is pinned at 5½\sin/i).waitFor();
  await stuck.getByRole("button", { name: /unpin card height/i }).click();
  await stuck.getByText("What changes").waitFor();
  await stuck.getByText(/card height is no longer pinned/i).waitFor();
  await stuck.getByRole("button", { name: /Hold again/ }).click();
  await stuck.getByText("These don't go together").waitFor();
});

refitting("two numbers are tied by tapping, and untied", "own", async (page) => {
  await page.getByRole("button", { name: /^panel 2 width, / }).click();
  await page.getByText("Limits and ties").click();
  await page.getByLabel("Tie to").selectOption({ label: "panel 1 width, 3\u00a0in" });
  await button(page, "Keep it 2 in longer").click();
  await button(page, "Done").click();
  await page.locator(".holding").getByText("panel 2 width = panel 1 width + 2 in").waitFor();
  await page.getByRole("button", { name: /^panel 1 width, / }).click();
  await page.getByRole("textbox", { name: "Length", exact: true }).fill("4");
  await button(page, "Done").click();
  await page.getByRole("button", { name: "panel 2 width, 6 in" }).waitFor();
  await page.getByRole("button", { name: /^Remove: / }).click();
  await page.getByText("Nothing but the sums of the panels").waitFor();
}, LAPTOP);
