// What journeys at the bench share: the bench of a recipe, and the way through its
// steps.

import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, openBrowser, startServer } from "./harness.js";

/**
 * Runs a journey at the bench of a recipe begun from a starting fold. `options` are
 * more of what the browser is told, such as its language.
 */
export function journey(name, starter, walk, viewport = PHONE, options = {}) {
  test(name, async () => {
    const server = await startServer();
    const browser = await openBrowser(viewport, options);
    try {
      const page = await browser.context.newPage();
      await page.goto(`${server.address}/new`);
      await page.locator("main[data-ready]").waitFor();
      await page.locator(`[data-starter="${starter}"]`).click();
      await page.waitForURL("**/recipe/*");
      const address = page.url().replace("/recipe/", "/bench/");
      await page.goto(address);
      await heading(page).waitFor();
      await walk(page, { address, browser, server });
      assert.deepEqual(browser.complaints, []);
    } finally {
      await browser.close();
      await server.stop();
    }
  });
}

/** Of the bench itself, not of how it was last seen. */
export const heading = (page) => page.locator("main[data-ready] .bench h1");
export const next = (page) => page.locator("button.turn-on");
export const back = (page) => page.locator(".turn-back");
export const step = (page) => new URL(page.url()).searchParams.get("step");
export const where = (page) => page.locator(".bench-where span").first().innerText();
export const count = async (page) => Number((await where(page)).match(/of (\d+)$/)[1]);
export const listed = (page) => page.getByRole("dialog", { name: "All steps" });

/** Waits until the bench stands at the step of this number. */
export async function at(page, number) {
  await page.getByText(`Step ${number} of`).first().waitFor();
}

export async function jump(page, title) {
  await page.locator(".bench-progress").click();
  await listed(page).getByRole("button", { name: title }).first().click();
  await heading(page).getByText(title).waitFor();
}
