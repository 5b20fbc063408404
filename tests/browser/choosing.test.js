// A fold to start from is found by how it works, by what it is called, and by what
// it does.

import assert from "node:assert/strict";
import { accessible, journey } from "./journey.js";

const ids = (page) =>
  page.locator("[data-starter]:visible").evaluateAll((tiles) => tiles.map((tile) => tile.dataset.starter));
const find = (page, words) => page.getByRole("searchbox", { name: "Find a fold" }).fill(words);
const chip = (page, name) => page.getByRole("button", { name, exact: true });
const status = (page) => page.getByRole("search").getByRole("status").innerText();

journey("folds are grouped, and found by name, sheet, envelope and what they do", async (page, { address }) => {
  await page.goto(`${address}/new`);
  await page.locator("main[data-ready] [data-starter]").first().waitFor();
  const all = await ids(page);
  assert.equal(all.length, 31);
  assert.equal(await status(page), "");
  const groups = await page.locator(".page h2").allInnerTexts();
  assert.deepEqual(groups, [
    "Panels side by side",
    "Corners, edges and windows",
    "Folded both ways",
    "Something rises as it opens",
    "Pieces glued in",
  ]);

  // Names of the trade (common practice), whole or in part, in any order.
  await find(page, "gatefold");
  assert.deepEqual(await ids(page), ["gate", "shaped-gate", "arched-gate"]);
  assert.equal(await status(page), "3 folds");
  await find(page, "leporello");
  assert.deepEqual(await ids(page), ["accordion"]);
  assert.equal(await status(page), "One fold");
  // Groups with nothing in them go.
  assert.deepEqual(await page.locator(".page h2:visible").allInnerTexts(), ["Panels side by side"]);

  // Finished sizes are found however they are written.
  await find(page, "4 1/4 × 5 1/2");
  const sized = await ids(page);
  await find(page, "4 1/4x5 1/2");
  assert.deepEqual(await ids(page), sized);
  assert.ok(sized.includes("book") && sized.length < all.length);
  // 4 1/4 × 5 1/2 in goes into an A2 envelope (published sizes).
  await find(page, "A2");
  assert.ok((await ids(page)).includes("book"));

  await find(page, "");
  await chip(page, "Rises").click();
  const rising = await ids(page);
  assert.deepEqual(rising, ["step", "box", "stairs", "beak", "star", "v-fold", "platform"]);
  await chip(page, "From one sheet").click();
  assert.deepEqual(await ids(page), rising.slice(0, 5));
  await find(page, "nothing is called so");
  assert.deepEqual(await ids(page), []);
  assert.equal(await status(page), "No fold goes with all of that.");
  await accessible(page);
  await chip(page, "Show all folds").click();
  assert.deepEqual(await ids(page), all);
  await page.locator('[data-starter="tent"]').click();
  await page.waitForURL("**/recipe/*");
});
