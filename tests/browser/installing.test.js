// The browser itself says that the app can be installed.

import assert from "node:assert/strict";
import { test } from "node:test";
import { openBrowser, startServer } from "./harness.js";

test("can be installed, with a manifest and icons that are sound", async () => {
  const server = await startServer();
  const browser = await openBrowser();
  try {
    const page = await browser.context.newPage();
    await page.goto(server.address);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
    const session = await browser.context.newCDPSession(page);
    const { url, errors } = await session.send("Page.getAppManifest");
    assert.equal(url, `${server.address}/manifest.webmanifest`);
    assert.deepEqual(errors, []);
    const { installabilityErrors } = await session.send("Page.getInstallabilityErrors");
    assert.deepEqual(installabilityErrors, []);

    const manifest = await (await fetch(url)).json();
    for (const { src, sizes, type } of manifest.icons) {
      const shown = await page.evaluate(async (address) => {
        const image = new Image();
        image.src = address;
        await image.decode();
        return `${image.naturalWidth}x${image.naturalHeight}`;
      }, src);
      assert.ok(type === "image/svg+xml" || shown === sizes, `${src} is ${shown}, not ${sizes}`);
    }
  } finally {
    await browser.close();
    await server.stop();
  }
});
