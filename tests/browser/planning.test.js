// The plan by which a class is cut becomes better beside the page, in a worker: it is
// watched, kept, looked for longer, and made again after a reload, without a connection,
// and where there is no worker.

import assert from "node:assert/strict";
import { accessible, begin, journey } from "./journey.js";
import { plain } from "./numbers.js";
import { turnTo } from "./parts.js";

const CARDS = "Cards to make, 1 to 9999";

/** What is said of the plan that is shown, once nobody looks for another any more. */
async function planned(page) {
  await page.locator('.plan[data-looking="false"] .plan-takes').waitFor();
  return plain(await page.locator(".plan-takes").innerText());
}

const numbers = (told) => told.match(/New sheets: (\d+)\. Cuts: (\d+)\. Settings of the fence: (\d+)\./).slice(1).map(Number);

async function classOf(page, cards) {
  await turnTo(page, "Class & post");
  await page.getByLabel(CARDS).fill(`${cards}`);
}

journey("a plan is watched, kept, and made again", async (page, { address }) => {
  await begin(page, address, "book");
  await classOf(page, 100);
  const first = await planned(page);
  const [worker, ...others] = page.workers();
  assert.match(worker.url(), /\/assets\/beside-[0-9a-f]{8}\.js$/);
  assert.equal(others.length, 0);
  await accessible(page);
  // Looking longer never makes it worse, and the page answers meanwhile.
  const longer = page.getByRole("button", { name: "Look longer" });
  const keep = page.getByRole("button", { name: "Keep this plan" });
  await longer.click();
  await page.getByText("Add ribbon, gems, glue or anything else").click();
  await page.getByLabel("What it is").waitFor();
  const better = numbers(await planned(page));
  assert.ok(better[0] <= numbers(first)[0]);
  if (await longer.isVisible()) {
    await longer.click();
    // It may have ended by then.
    await keep.click({ timeout: 2000 }).catch(() => {});
  }
  const kept = await planned(page);
  assert.ok(numbers(kept)[0] <= better[0]);
  await page.reload();
  await turnTo(page, "Class & post");
  assert.equal(await page.getByLabel(CARDS).inputValue(), "100");
  assert.equal(await planned(page), kept);
  // Once the worker keeps the app, it plans without a connection too.
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.context().setOffline(true);
  await page.reload();
  await turnTo(page, "Class & post");
  assert.equal(await planned(page), kept);
  assert.equal(page.workers().length, 1);
  await page.context().setOffline(false);
});

journey("where there is no worker, the page plans by itself", async (page, { address }) => {
  await page.addInitScript(() => {
    delete globalThis.Worker;
  });
  await begin(page, address, "book");
  await classOf(page, 100);
  assert.match(await planned(page), /New sheets: \d+/);
  assert.equal(page.workers().length, 0);
});

journey("a worker that says nothing is done without", async (page, { address }) => {
  await page.addInitScript(() => {
    globalThis.Worker = class {
      postMessage() {}
      terminate() {}
    };
  });
  await begin(page, address, "book");
  await classOf(page, 100);
  assert.match(await planned(page), /New sheets: \d+/);
});

// The bench cuts by the plan that is kept for so many cards, and goes on by it after a
// reload.
journey("the bench goes on by the plan that it began with", async (page, { address }) => {
  await begin(page, address, "book");
  const id = new URL(page.url()).pathname.split("/").pop();
  await page.goto(`${address}/bench/${id}`);
  const task = page.locator(".task");
  await task.waitFor();
  await page.getByLabel(CARDS).fill("100");
  await page.goto(`${address}/recipe/${id}`);
  await classOf(page, 100);
  await planned(page);
  await page.goto(`${address}/bench/${id}`);
  const next = page.getByRole("button", { name: "Next", exact: true });
  await next.click();
  await page.waitForURL(/step=cut-at-\d+-0/);
  const begun = page.url();
  await page.getByRole("button", { name: "One card more" }).or(next).first().click();
  await page.goto(begun);
  await task.waitFor();
  assert.equal(new URL(page.url()).search, new URL(begun).search);
});
