// A sheet to print is made on the device itself, without a network too.

import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, openBrowser, startServer, walked } from "./harness.js";
import { accessible, begin, textOf } from "./journey.js";
import { turnTo } from "./parts.js";

const button = (page, name) => page.getByRole("button", { name, exact: true });

/** Waits until the worker keeps the app. */
const KEPT = async () => {
  const { active } = await navigator.serviceWorker.ready;
  if (active.state !== "activated") {
    await new Promise((resolve) => active.addEventListener("statechange", resolve, { once: true }));
  }
};

/** What a page has handed on to the system. */
const HANDS_ON = () => {
  globalThis.handedOn = [];
  navigator.canShare = ({ files }) => files?.length === 1;
  navigator.share = async ({ files: [file] }) => {
    globalThis.handedOn.push([file.name, file.type, (await file.slice(0, 5).text())]);
  };
};

test("a sheet to print is saved, and handed on where the browser can, without a network too", async () => {
  const server = await startServer();
  const browser = await openBrowser(PHONE);
  try {
    const page = await browser.context.newPage();
    await walked([browser], async () => {
      await begin(page, server.address, "gate");
      await page.evaluate(KEPT);
      await server.halt();
      await browser.context.setOffline(true);
      await page.reload();
      await turnTo(page, "Scores");
      const saving = page.waitForEvent("download");
      await button(page, "Sheet to print (Letter)").click();
      const saved = await saving;
      assert.match(saved.suggestedFilename(), /^[a-z-]+\.pdf$/);
      const text = await textOf(saved);
      for (const said of ["Made with Foldwright", "Page 1 of"]) assert.ok(text.includes(said), said);
      await accessible(page);
      const savingCards = page.waitForEvent("download");
      await button(page, "Recipe cards, four to a page (Letter)").click();
      const cards = await savingCards;
      assert.match(cards.suggestedFilename(), /^[a-z-]+\.cards\.pdf$/);
      const four = await textOf(cards);
      assert.equal(four.split("Cut the cards apart").length, 5);

      await page.addInitScript(HANDS_ON);
      await page.reload();
      await turnTo(page, "Scores");
      await button(page, "Sheet to print (A4)").click();
      await button(page, "Hand on").click();
      const [name, type, head] = (await page.evaluate(() => globalThis.handedOn))[0];
      assert.equal(name, saved.suggestedFilename());
      assert.deepEqual([type, head], ["application/pdf", "%PDF-"]);
    });
    const own = (text) => !/WebSocket|ERR_INTERNET_DISCONNECTED|ERR_CONNECTION/.test(text);
    assert.deepEqual(browser.complaints.filter(own), []);
  } finally {
    await browser.close();
    await server.stop();
  }
});
