// What is shown while the code of a page is on its way.

import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, eventually, openBrowser, startServer } from "./harness.js";
import { begin } from "./journey.js";

/** Holds back the code of all parts from now on; returns what lets it go. */
async function heldBack(page) {
  let go;
  const let_go = new Promise((resolve) => (go = resolve));
  await page.route("**/assets/{split,chunk,gathered}*", async (route) => {
    await let_go;
    await route.continue();
  });
  return go;
}

/** Waits until a page has been kept as it is seen. */
const kept = (page) =>
  eventually(page, async () => {
    const cache = await caches.open("foldwright-seen");
    return Boolean(await cache.match(`/seen${location.pathname}`));
  });

/** Without the worker, which would answer from its copy. `but` is what the browser may complain of. */
async function withoutWorker(walk, but = /^$/) {
  const server = await startServer();
  const browser = await openBrowser(PHONE, { serviceWorkers: "block" });
  try {
    await walk(await browser.context.newPage(), server.address);
    assert.deepEqual(browser.complaints.filter((complaint) => !but.test(complaint)), []);
  } finally {
    await browser.close();
    await server.stop();
  }
}

test("the list is shown as it was seen, and a tap on it is not lost", () =>
  withoutWorker(async (page, address) => {
    await begin(page, address, "book");
    await page.goto(address);
    await page.locator(".tile .miniature svg, .tile svg").first().waitFor();
    await kept(page);
    const go = await heldBack(page);
    await page.reload();
    const tile = page.locator(".tile-link");
    await tile.waitFor();
    assert.equal(await page.locator("main[data-ready]").count(), 0);
    await tile.click();
    assert.equal(new URL(page.url()).pathname, "/");
    go();
    await page.waitForURL("**/recipe/*");
    await page.locator('.drawn svg[role="img"]').waitFor();
  }));

test("what was seen of a deleted recipe is not shown", () =>
  withoutWorker(async (page, address) => {
    await begin(page, address, "book");
    await page.locator("main[data-ready]").waitFor();
    await kept(page);
    await page.evaluate(() => {
      // With its document: from that, what is merely missing would be written again.
      const recipes = Object.keys(localStorage).filter((key) => /^foldwright\/(leaf\/)?recipe\//.test(key));
      recipes.forEach((key) => localStorage.removeItem(key));
    });
    const go = await heldBack(page);
    await page.reload();
    await page.locator("#main").waitFor({ state: "attached" });
    assert.equal(await page.locator(".drawn svg").count(), 0);
    go();
    await page.getByRole("heading", { level: 1, name: "No such recipe" }).waitFor();
  }));

test("each page brings only its own code", () => withoutWorker(async (page, address) => {
  const asked = [];
  page.on("request", (request) => asked.push(new URL(request.url()).pathname));
  await page.goto(`${address}/new`);
  await page.locator("[data-starter]").first().waitFor();
  assert.ok(!asked.some((path) => /split_recipe-/.test(path)), String(asked));
  await page.locator("[data-starter]").first().click();
  await page.waitForURL("**/recipe/*");
  await page.locator('.drawn svg[role="img"]').waitFor();
  assert.ok(asked.some((path) => /split_recipe-/.test(path)), String(asked));
  assert.ok(!asked.some((path) => /split_bench-/.test(path)), String(asked));
}));

test("a tab whose code has not come says so, and comes when asked again", () => withoutWorker(async (page, address) => {
  await begin(page, address, "gate");
  // All that comes by itself waits behind this, and does not come in between.
  await page.route("**/assets/split_dressing*", () => {});
  const making = "**/assets/split_making*";
  await page.route(making, (route) => route.abort());
  await page.reload();
  await page.getByRole("tab", { name: "Make", exact: true }).click();
  await page.getByText("could not be fetched").waitFor();
  await page.unroute(making);
  await page.getByRole("button", { name: "Try again" }).click();
  await page.getByRole("heading", { name: "Score chart" }).waitFor();
}, /ERR_FAILED|Failed to fetch/));
