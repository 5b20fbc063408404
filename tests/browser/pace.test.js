// The bench tells how long a session takes, by how long its maker took before. The steady
// count of the page is put ahead where time goes by.

import assert from "node:assert/strict";
import { at, heading, journey, listed, next } from "./at-bench.js";
import { accessible } from "./journey.js";

/** Every kind of work, each time a minute for one card but for drying. */
const MINUTE = Object.fromEntries(
  ["gather", "cut", "score", "fold", "decorate", "glue", "insert", "envelope", "own"].map((kind) => [
    kind,
    [600, 600, 600, 600, 600],
  ]),
);
const KEY = "foldwright/pace";
const kept = (page) => page.evaluate((key) => JSON.parse(localStorage.getItem(key)), KEY);

/** Comes to the bench again, with a count that can be put ahead. */
async function again(page) {
  await page.addInitScript(() => {
    globalThis.ahead = 0;
    const now = performance.now.bind(performance);
    performance.now = () => now() + ahead;
  });
  await page.reload();
  await heading(page).waitFor();
}
const pass = (page, seconds) => page.evaluate((seconds) => void (ahead += seconds * 1000), seconds);

journey("nothing is told before enough is known, then a range", "book", async (page) => {
  await again(page);
  assert.equal(await page.locator(".how-long").count(), 0);
  await page.evaluate(
    ([key, kept]) => localStorage.setItem(key, JSON.stringify({ foldwright: 1, kept })),
    [KEY, MINUTE],
  );
  await page.reload();
  await heading(page).waitFor();
  const told = page.locator(".how-long").first();
  // As many minutes as steps besides the drying, whichever plan they are cut by.
  assert.match(await told.innerText(), /^About (\d+)( to \d+)? minutes for 1 card\./);
  await told.getByText("Drying comes on top.").waitFor();
  await accessible(page);
  await next(page).click();
  await at(page, 2);
  await page.locator(".bench-progress").click();
  await listed(page).getByText(/minutes are left\./).waitFor();
});

journey("steps are measured while they are in sight", "book", async (page) => {
  await again(page);
  await next(page).click();
  await at(page, 2);
  await pass(page, 40);
  await next(page).click();
  await at(page, 3);
  const { cut } = (await kept(page)).kept;
  assert.equal(cut.length, 1);
  assert.ok(cut[0] >= 400, `${cut[0]} tenths of a second`);
});
