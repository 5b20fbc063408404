// A recipe is shared by link: read without scripts, fitted to the reader's
// unit and paper, made offline, kept, renewed, and ended.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { once } from "node:events";
import { createServer } from "node:net";
import { test } from "node:test";
import { LAPTOP, PHONE, openBrowser, startServer } from "./harness.js";
import { accessible, begin } from "./journey.js";
import { plain, shown } from "./numbers.js";
import { turnTo } from "./parts.js";

const button = (page, name) => page.getByRole("button", { name, exact: true });

/** Tries until something is so, since the server hears of changes in its own time. */
async function until(what, tell) {
  for (let tries = 0; tries < 40; tries += 1) {
    if (await what()) return;
    await new Promise((resolve) => setTimeout(resolve, 250));
  }
  assert.fail(tell);
}

/** Opens what can be done with the only recipe of the list. */
async function more(page, address) {
  await page.goto(address);
  await page.locator(".tile-more").click();
}

/** Brings a device into the workshop, begins a recipe and returns its link. */
async function shareOne(page, server) {
  await page.goto(`${server.address}/devices#code=${server.code}`);
  await button(page, "Bring it in").click();
  await page.locator(".status-link").waitFor();
  await begin(page, server.address, "letter");
  await page.locator('[data-status="everywhere"]').waitFor();
  await more(page, server.address);
  await button(page, "Share by link").click();
  const link = page.getByRole("textbox", { name: "The link" });
  await until(async () => {
    await button(page, "Make a link").click();
    return link
      .waitFor({ timeout: 1500 })
      .then(() => true)
      .catch(() => false);
  }, "no link is made");
  assert.match(await page.locator(".share-picture").getAttribute("alt"), /camera/);
  return link.inputValue();
}

/** Runs a walk of one who shares and of those who read. */
function sharing(name, walk) {
  test(name, async () => {
    const server = await startServer();
    const browsers = [];
    const open = async (viewport, options) => {
      const browser = await openBrowser(viewport, options);
      browsers.push(browser);
      return browser;
    };
    try {
      const owner = await open(LAPTOP, { locale: "en-US" });
      const page = await owner.context.newPage();
      const link = await shareOne(page, server);
      await walk({ server, page, link, open });
      assert.deepEqual(owner.complaints, []);
    } finally {
      for (const browser of browsers) await browser.close();
      await server.stop();
    }
  });
}

sharing("a link is read and printed without scripts, and ends at once", async ({ server, page, link, open }) => {
  const scriptless = await open(PHONE, { javaScriptEnabled: false });
  const reader = await scriptless.context.newPage();
  const answer = await reader.goto(link);
  assert.equal(answer.status(), 200);
  const headers = answer.headers();
  assert.equal(headers["cache-control"], "no-store");
  assert.equal(headers["referrer-policy"], "no-referrer");
  assert.match(headers["x-robots-tag"], /noindex/);
  // A letter fold of 11 in: two panels of 3 11/16 in, one of 3 5/8 in.
  const text = plain(await reader.locator("main").innerText());
  for (const told of [/3¹¹⁄₁₆\sin/, /3⅝\sin/, /8½/, /Score at|From the fence/, /Guillotine/, /Find its envelope/]) {
    assert.match(text, told);
  }
  assert.ok((await reader.locator(".card-step").count()) > 5);
  assert.ok((await reader.locator(".card-drawing svg").count()) > 5);
  assert.equal(await reader.locator("[style], main script").count(), 0);
  await reader.emulateMedia({ media: "print" });
  assert.equal(await reader.locator(".top").isVisible(), false);
  assert.equal(await reader.locator(".card-step").last().isVisible(), true);

  const body = async (address) => {
    const answer = await fetch(address);
    return [answer.status, await answer.text()];
  };
  const [status, never] = await body(`${server.address}/shared/${"0".repeat(64)}`);
  assert.equal(status, 404);
  assert.match(never, /Nothing is shared here/);
  await button(page, "End this link").click();
  await button(page, "End this link").waitFor({ state: "detached" });
  assert.deepEqual(await body(link), [404, never]);
  assert.deepEqual(scriptless.complaints, []);
});

sharing("a link becomes a live card in the reader's unit, on their paper, at their bench", async ({ server, page, link, open }) => {
  const browser = await open(PHONE, { locale: "en-GB" });
  const reader = await browser.context.newPage();
  await reader.goto(link);
  await button(reader, "Keep it").waitFor();
  // Whoever measures in millimetres reads millimetres.
  await reader.getByRole("button", { name: "Millimetres", exact: true, pressed: true }).waitFor();
  assert.match(await reader.locator(".card-measures").first().innerText(), /\d\smm/);
  await accessible(reader);
  const inches = reader.locator(".whole-card", { hasText: shown("3 11/16 in") });
  await reader.getByRole("button", { name: "Inches", exact: true }).click();
  await inches.waitFor();
  await button(reader, "Undo").click();
  await inches.waitFor({ state: "detached" });
  // A4 in three is 100, 100 and 97 mm (printers' folding guides).
  await button(reader, "A4").click();
  await reader.locator(".whole-card", { hasText: "97 mm" }).waitFor();
  assert.equal(await button(reader, "A4").getAttribute("aria-pressed"), "true");
  await reader.getByText(/lengths differ/).click();
  await reader.locator(".changes").waitFor();
  await accessible(reader);
  // A scrap the card is too large for is taken once something is let go of.
  await reader.getByText("Another size").click();
  const sheet = reader.getByRole("group", { name: "The sheet" });
  await sheet.getByLabel("Width").fill("0");
  await sheet.getByText("Give a size above 0.").waitFor();
  await sheet.getByLabel("Width").fill("76");
  await sheet.getByLabel("Height").fill("76");
  await button(reader, "Use this sheet").click();
  await reader.getByText("These don't go together").waitFor();
  await reader.locator(".whole-card", { hasText: "97 mm" }).waitFor();
  await accessible(reader);
  await reader.getByRole("button", { name: /^Let card width be less/ }).click();
  await reader.getByText("Card width may be less than its limit.").waitFor();
  await reader.getByText("The card base is cut from 76 × 76 mm").waitFor();
  await button(reader, "Undo").click();
  await reader.locator(".whole-card", { hasText: "97 mm" }).waitFor();

  // The bench works without a connection, and so does the page.
  await reader.evaluate(async () => {
    const { active } = await navigator.serviceWorker.ready;
    if (active.state !== "activated") {
      await new Promise((resolve) => active.addEventListener("statechange", resolve, { once: true }));
    }
  });
  const complaints = browser.complaints.splice(0);
  assert.deepEqual(complaints, []);
  await browser.context.setOffline(true);
  await reader.goto(link);
  await reader.getByText("There is no connection.").waitFor();
  await reader.getByRole("link", { name: "To the bench" }).click();
  await reader.locator(".bench h1").waitFor();
  await reader.locator("button.turn-on").click();
  await reader.getByText("Step 2 of").first().waitFor();
  await reader.reload();
  await reader.getByText("Step 2 of").first().waitFor();
  await reader.locator(".bench-leave").click();
  await reader.locator(".shared h1").waitFor();
  await browser.context.setOffline(false);

  // What the sharer changes is offered, and taken only when asked for.
  await more(page, server.address);
  await page.getByLabel("Name").fill("Harbour letter");
  await button(page, "Rename").click();
  const newer = button(reader, "Take the newer");
  await until(async () => {
    await reader.reload();
    return newer
      .waitFor({ timeout: 1500 })
      .then(() => true)
      .catch(() => false);
  }, "no newer version is offered");
  assert.notEqual(await reader.locator("h1").innerText(), "Harbour letter");
  await newer.click();
  await reader.getByRole("heading", { level: 1, name: "Harbour letter" }).waitFor();

  await button(reader, "Keep it").click();
  await reader.getByRole("link", { name: "Open your copy" }).waitFor();
  await more(page, server.address);
  await button(page, "Share by link").click();
  await button(page, "End this link").click();
  await button(page, "End this link").waitFor({ state: "detached" });
  await reader.reload();
  await reader.getByText(/has ended the link/).waitFor();
  await reader.goto(server.address);
  await reader.locator(".tile", { hasText: "Harbour letter" }).waitFor();
  assert.equal(await reader.locator(".tile").count(), 1);
});

sharing("the page of a shared card never shows less than it did", async ({ link, open }) => {
  // Without the worker, which would answer from its copy.
  const browser = await open(PHONE, { serviceWorkers: "block" });
  const reader = await browser.context.newPage();
  let go;
  const held = new Promise((resolve) => (go = resolve));
  await reader.route("**/assets/{split,chunk,gathered}*", async (route) => {
    await held;
    await route.continue();
  });
  await reader.addInitScript(noteLeast);
  await reader.goto(link);
  await reader.getByRole("heading", { level: 1 }).waitFor();
  const written = (await reader.locator("main").innerText()).length;
  assert.ok(written > 500, `${written} letters`);
  await reader.waitForTimeout(500);
  assert.equal(await button(reader, "Keep it").count(), 0, "the app has no code yet");
  go();
  await button(reader, "Keep it").waitFor();
  const least = await reader.evaluate(() => globalThis.least);
  assert.ok(least > written / 2, `${least} of ${written} letters`);
});

// Runs in the page: notes how few letters it has shown since it was there.
function noteLeast() {
  globalThis.least = Infinity;
  const look = () => {
    const shown = document.querySelector("main")?.innerText.length ?? 0;
    globalThis.least = Math.min(globalThis.least, shown);
  };
  addEventListener("DOMContentLoaded", () => {
    look();
    new MutationObserver(look).observe(document.body, { childList: true, subtree: true });
  });
}

/** A port that nobody listens on. */
async function freePort() {
  const listening = createServer().listen(0);
  await once(listening, "listening");
  const { port } = listening.address();
  listening.close();
  await once(listening, "close");
  return port;
}

test("a sheet that this device makes leads to the link it made, until that is ended", async () => {
  const there = "https://cards.example.org";
  const server = await startServer(await freePort(), undefined, ["--address", there]);
  const browser = await openBrowser(LAPTOP, { locale: "en-US" });
  try {
    const page = await browser.context.newPage();
    const link = await shareOne(page, server);
    assert.ok(link.startsWith(`${there}/shared/`), link);
    /** The text of the sheet that is made of the recipe. */
    const sheet = async () => {
      await page.goto(server.address);
      await page.locator('main a[href^="/recipe/"]').first().click();
      await turnTo(page, "Scores");
      const saving = page.waitForEvent("download");
      await button(page, "Sheet to print (Letter)").click();
      const file = await (await saving).path();
      return execFileSync("pdftotext", ["-raw", file, "-"], { encoding: "utf8" }).replace(/\s/g, "");
    };
    assert.ok((await sheet()).includes(link));
    await more(page, server.address);
    await button(page, "Share by link").click();
    await button(page, "End this link").click();
    await button(page, "End this link").waitFor({ state: "detached" });
    assert.ok(!(await sheet()).includes("/shared/"));
    assert.deepEqual(browser.complaints, []);
  } finally {
    await browser.close();
    await server.stop();
  }
});
