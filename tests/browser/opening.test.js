// The app opens, is accessible, and opens again once the server is gone.

import assert from "node:assert/strict";
import { test } from "node:test";
import { LAPTOP, PHONE, openBrowser, startServer } from "./harness.js";
import { AXE } from "./journey.js";

for (const [name, viewport] of Object.entries({ phone: PHONE, laptop: LAPTOP })) {
  test(`opens on a ${name} without complaint or barrier`, async () => {
    const server = await startServer();
    const browser = await openBrowser(viewport);
    try {
      const page = await browser.context.newPage();
      await page.goto(server.address);
      await page.locator("main[data-ready]").waitFor();
      // Evaluated by the test client, so the page's own policy stays as it is.
      await page.evaluate(AXE);
      const { violations } = await page.evaluate(() => globalThis.axe.run());
      assert.deepEqual(
        violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)]),
        [],
      );
      assert.deepEqual(browser.complaints, []);
    } finally {
      await browser.close();
      await server.stop();
    }
  });
}

test("opens at any address after the server is gone", async () => {
  const server = await startServer();
  const browser = await openBrowser();
  try {
    const page = await browser.context.newPage();
    await page.goto(server.address);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
    await server.stop();
    for (const place of ["/", "/recipes/7", "/bench/7"]) {
      await page.goto(server.address + place);
      await page.locator("main[data-ready]").waitFor();
    }
    assert.deepEqual(browser.complaints, []);
  } finally {
    await browser.close();
  }
});
