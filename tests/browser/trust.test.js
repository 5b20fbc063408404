// The page over plain HTTP on which a device comes to trust the server's own
// authority.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";
import { LAPTOP, PHONE, openBrowser, startServer } from "./harness.js";
import { accessible } from "./journey.js";

for (const [screen, viewport] of Object.entries({ phone: PHONE, laptop: LAPTOP })) {
  for (const colorScheme of ["light", "dark"]) {
    test(`the way to trust the server is plain on a ${screen}, ${colorScheme}`, async () => {
      const server = await startServer(0, undefined, ["--tls", "own"]);
      const browser = await openBrowser(viewport, { colorScheme, acceptDownloads: true });
      try {
        const page = await browser.context.newPage();
        await page.goto(`${server.address}/`);
        await accessible(page);
        for (const device of await page.locator("summary").all()) await device.click();
        await accessible(page);

        const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        assert.ok(wide <= 0, `${wide} px wider than the screen`);
        for (const target of await page.locator("a, summary").all()) {
          const { width, height } = await target.boundingBox();
          assert.ok(width >= 44 && height >= 44, `${await target.innerText()}: ${width} × ${height}`);
        }

        // What to compare is what stands in the server's own window.
        const rows = (await page.locator("pre").innerText()).trim().split("\n");
        assert.equal(rows.length, 4);
        for (const row of rows) assert.ok(server.said.includes(row.trim()), row);

        const [download] = await Promise.all([
          page.waitForEvent("download"),
          page.getByRole("link", { name: "Download the certificate" }).click(),
        ]);
        const certificate = await readFile(await download.path());
        assert.ok(certificate.length > 200, `${certificate.length} bytes`);
        assert.deepEqual(browser.complaints, []);
      } finally {
        await browser.close();
        await server.stop();
      }
    });
  }
}
