// A card is fitted to another sheet, envelope and unit, kept or left as it is;
// what clashes is let go of, and numbers are tied, by tapping.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { test } from "node:test";
import { LAPTOP, PHONE, openBrowser, startServer } from "./harness.js";

const AXE = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

function journey(name, starter, walk, viewport = PHONE) {
  test(name, async () => {
    const server = await startServer();
    const browser = await openBrowser(viewport);
    try {
      const page = await browser.context.newPage();
      await page.goto(`${server.address}/new`);
      await page.locator("main[data-ready]").waitFor();
      await page.locator(`[data-starter="${starter}"]`).click();
      await page.getByRole("tab", { name: "Refit", exact: true }).click();
      await page.getByText("Make it fit").waitFor();
      await walk(page);
      assert.deepEqual(browser.complaints, []);
    } finally {
      await browser.close();
      await server.stop();
    }
  });
}

const button = (page, name) => page.getByRole("button", { name, exact: true });
const changes = (page) => page.locator(".refitted .changes");
const facts = (page) => page.locator(".facts");

async function accessible(page) {
  await page.evaluate(AXE);
  const { violations } = await page.evaluate(() => globalThis.axe.run());
  assert.deepEqual(
    violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)]),
    [],
  );
}

// A4 in three is 100, 100 and 97 mm (printers' folding guides).
journey("a letter fold becomes one of A4 in one tap, and back", "letter", async (page) => {
  await button(page, "In millimetres").click();
  await button(page, "A4").click();
  await changes(page).getByText("97 mm", { exact: true }).waitFor();
  const told = await changes(page).innerText();
  assert.match(told, /Front width[\s\S]*3 11\/16 in[\s\S]*100 mm/);
  assert.match(told, /Folded-in width[\s\S]*97 mm/);
  assert.equal(await page.locator(".refitted .closed-figure svg").count(), 2);
  const before = await facts(page).innerText();
  await accessible(page);
  await button(page, "Take this card").click();
  await page.locator(".facts", { hasText: "100 × 210 mm" }).waitFor();
  await button(page, "Undo").click();
  await page.locator(".facts", { hasText: before }).waitFor();
});

journey("leaving it as it is changes nothing", "book", async (page) => {
  const before = await facts(page).innerText();
  await page.getByLabel("To go into").selectOption("C6");
  await page.locator(".refitted").getByText("What changes").waitFor();
  await button(page, "Leave it as it is").click();
  await page.locator(".refitted .changes").waitFor({ state: "detached" });
  assert.equal(await facts(page).innerText(), before);
  assert.ok(await button(page, "Undo").isDisabled());
});

journey("what clashes is named, let go of, and held again", "book", async (page) => {
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
  await stuck.getByText("These can't all be").waitFor();
  await stuck.getByText(/card height is pinned at 5 1\/2 in/i).waitFor();
  await stuck.getByRole("button", { name: /unpin card height/i }).click();
  await stuck.getByText("What changes").waitFor();
  await stuck.getByText(/Done: unpin card height/i).waitFor();
  await stuck.getByRole("button", { name: /Hold again/ }).click();
  await stuck.getByText("These can't all be").waitFor();
});

journey("two numbers are tied by tapping, and untied", "own", async (page) => {
  await page.getByRole("button", { name: /^panel 2 width, / }).click();
  await page.getByText("Limits and ties").click();
  await page.getByLabel("Tie to").selectOption({ label: "panel 1 width, 3 in" });
  await button(page, "Keep it 2 in longer").click();
  await button(page, "Done").click();
  await page.getByText("panel 2 width = panel 1 width + 2 in").waitFor();
  await page.getByRole("button", { name: /^panel 1 width, / }).click();
  await page.getByRole("textbox", { name: "Length", exact: true }).fill("4");
  await button(page, "Set").click();
  await button(page, "Done").click();
  await page.getByRole("button", { name: "panel 2 width, 6 in" }).waitFor();
  await page.getByRole("button", { name: /^No longer hold/ }).click();
  await page.getByText("Nothing but the sums of the panels").waitFor();
}, LAPTOP);
