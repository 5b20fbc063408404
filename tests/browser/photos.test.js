// Photographs: kept beside the recipes, sent along with them to other
// devices and to readers of a link, and forgotten once nothing uses them.

import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join as path } from "node:path";
import { test } from "node:test";
import { LAPTOP, PHONE, eventually, openBrowser, startServer, walked } from "./harness.js";
import { at, count, next } from "./at-bench.js";
import { accessible, begin, journey } from "./journey.js";
import { kept, photograph } from "./photograph.js";
import { button, join, synced, visit } from "./workshop.js";

/** What the server takes of one workshop. */
const MOST = 200;
const DAY = 24 * 60 * 60 * 1000;

const notice = (page) => page.locator(".notice p");
const stands = (page, status) => page.locator(`.status-link[data-status="${status}"]`).waitFor();

/** The name of a photograph: half of its SHA-256, by Node's own. */
const named = (file) => createHash("sha256").update(file).digest("hex").slice(0, 32);

/** A PNG of one pixel (ISO/IEC 15948), told from others by what follows its end. */
const PIXEL = Buffer.from(
  "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==",
  "base64",
);
const picture = (number) => Buffer.concat([PIXEL, Buffer.from(`no. ${number}`)]);

/** Puts photographs where the app keeps them, as it does itself. */
const put = (page, files) =>
  page.evaluate(
    (files) =>
      new Promise((done, failed) => {
        const request = indexedDB.open("foldwright-photographs", 1);
        request.onupgradeneeded = () => request.result.createObjectStore("photographs");
        request.onerror = () => failed(request.error);
        request.onsuccess = () => {
          const transaction = request.result.transaction("photographs", "readwrite");
          for (const [name, bytes] of files) {
            transaction.objectStore("photographs").put(Uint8Array.from(bytes), name);
          }
          transaction.oncomplete = () => done(request.result.close());
          transaction.onabort = () => failed(transaction.error);
        };
      }),
    files.map((file) => [named(file), [...file]]),
  );

/** The bytes of a photograph that is kept, once the app has made its database. */
const KEPT = (name) =>
  new Promise((done, failed) => {
    const request = indexedDB.open("foldwright-photographs");
    // It is the app that makes it.
    request.onupgradeneeded = () => request.transaction.abort();
    request.onerror = () => done(null);
    request.onsuccess = () => {
      const found = request.result.transaction("photographs").objectStore("photographs").get(name);
      found.onerror = () => failed(found.error);
      found.onsuccess = () => done((request.result.close(), found.result ? [...found.result] : null));
    };
  });

/** Waits until a drawing shows a photograph that is here. */
const shows = (page, where) =>
  eventually(page, (where) => document.querySelector(`${where} svg image`)?.href.baseVal.startsWith("blob:"), where);

/** Waits until a photograph is kept, as it is. */
async function arrives(page, file) {
  await eventually(page, KEPT, named(file));
  assert.deepEqual(Buffer.from(await page.evaluate(KEPT, named(file))), file);
}

/** The only recipe of the list as it is in a file. */
async function exported(page, address) {
  await visit(page, `${address}/`);
  await page.locator(".tile-more").click();
  const [download] = await Promise.all([page.waitForEvent("download"), button(page, "Download as a file").click()]);
  return JSON.parse(await readFile(await download.path(), "utf8"));
}

/** Takes in recipes whose papers show photographs, two each, named one after the other. */
async function takeIn(page, address, file, photos, name) {
  const [one] = file.recipes;
  const recipes = [];
  for (let at = 0; at < photos.length; at += 2) {
    const recipe = structuredClone(one);
    recipe.name = `${name} ${recipes.length + 1}`;
    const [stock] = recipe.stocks;
    stock.face.photo = named(photos[at]);
    if (photos[at + 1]) stock.back.photo = named(photos[at + 1]);
    recipes.push(recipe);
  }
  const at = path(tmpdir(), `photos-${process.pid}.json`);
  await writeFile(at, JSON.stringify({ ...file, recipes }));
  try {
    await visit(page, `${address}/`);
    await page.locator("input[type=file]").setInputFiles(at);
    await notice(page).getByText(/^Added /).waitFor();
  } finally {
    await rm(at);
  }
}

/** Opens what can be done with a recipe of the list. */
const more = (page, name) => page.getByRole("button", { name: `More for ${name}`, exact: true }).click();

async function remove(page, address, name) {
  await visit(page, `${address}/`);
  await more(page, name);
  await button(page, "Delete").click();
  await synced(page);
}

/** Asks the server about photographs as the device of a page does. */
async function ask(page, address, method, name = "", body = undefined) {
  const member = await page.evaluate(() => localStorage.getItem("foldwright/member"));
  const headers = { authorization: `Bearer ${JSON.parse(member).kept.key}` };
  return fetch(`${address}/api/photos${name && `/${name}`}`, { method, headers, body });
}

/** The names of the photographs that the server has. */
const there = async (page, address) =>
  (await (await ask(page, address, "GET")).json()).map(({ name }) => name);

async function until(what, tell) {
  for (let tries = 0; tries < 120; tries += 1) {
    if (await what()) return;
    await new Promise((resolve) => setTimeout(resolve, 250));
  }
  assert.fail(tell);
}

/** Runs a walk with a laptop and a phone in one workshop, a recipe on both. */
function together(name, walk) {
  test(name, async () => {
    const server = await startServer();
    const [laptop, phone] = [await openBrowser(LAPTOP), await openBrowser(PHONE)];
    const others = [];
    const open = async (viewport) => {
      others.push(await openBrowser(viewport));
      return others.at(-1);
    };
    try {
      const [near, far] = [await laptop.context.newPage(), await phone.context.newPage()];
      const { address } = server;
      await walked([laptop, phone, ...others], async () => {
        await begin(near, address, "letter");
        await join(near, `${address}/devices#code=${server.code}`, "Laptop");
        await synced(near);
        await button(near, "Show a code").click();
        const code = (await near.locator(".pairing-code").innerText()).trim();
        await join(far, `${address}/devices#code=${code}`, "Phone");
        await synced(far);
        await walk({ near, far, laptop, phone, address, open });
      });
      // A lost connection is no fault of the app's, nor that pictures which are still
      // drawn have no address any more once their page is left.
      const own = (text) => !/WebSocket|ERR_INTERNET_DISCONNECTED|ERR_CONNECTION|ERR_FILE_NOT_FOUND/.test(text);
      const all = [laptop, phone, ...others].flatMap(({ complaints }) => complaints);
      assert.deepEqual(all.filter(own), []);
    } finally {
      for (const browser of [laptop, phone, ...others]) await browser.close();
      await server.stop();
    }
  });
}

together("a photograph goes where its recipe goes", async ({ near, far, laptop, phone, address, open }) => {
  const file = await exported(near, address);
  const [face, back, later] = [1, 2, 3].map(picture);
  await put(near, [face, back]);
  await takeIn(near, address, file, [face, back], "Ropes");
  await synced(near);
  await visit(far, `${address}/`);
  await arrives(far, face);
  await arrives(far, back);
  await shows(far, ".tile");
  // What a file lacks is said as it is saved.
  await more(near, "Ropes 1");
  await Promise.all([near.waitForEvent("download"), button(near, "Download as a file").click()]);
  await notice(near).getByText("Photographs are not in the file").waitFor();
  await accessible(near);

  // Apart, and together again.
  await put(near, [later]);
  await visit(near, `${address}/`);
  await laptop.context.setOffline(true);
  await phone.context.setOffline(true);
  await takeIn(near, address, file, [later], "Sails");
  await far.reload();
  await far.locator(".tile", { hasText: "Ropes 1" }).waitFor();
  await shows(far, ".tile");
  await laptop.context.setOffline(false);
  await phone.context.setOffline(false);
  await synced(near);
  await arrives(far, later);

  // Who reads a shared recipe gets its photographs and no others, also for later.
  await more(near, "Ropes 1");
  await button(near, "Share by link").click();
  await button(near, "Make a link").click();
  const link = await near.getByRole("textbox", { name: "The link" }).inputValue();
  const reader = await open(PHONE);
  const reading = await reader.context.newPage();
  await reading.goto(link);
  await button(reading, "Keep it").waitFor();
  await arrives(reading, face);
  await arrives(reading, back);
  await shows(reading, ".whole-card");
  assert.equal((await fetch(`${link}?photo=${named(later)}`)).status, 404);
  await reading.evaluate(async () => {
    const { active } = await navigator.serviceWorker.ready;
    if (active.state === "activated") return;
    await new Promise((resolve) => active.addEventListener("statechange", resolve, { once: true }));
  });
  await reader.context.setOffline(true);
  await reading.reload();
  await reading.getByText("There is no connection.").waitFor();
  await shows(reading, ".whole-card");
  await reader.context.setOffline(false);
});

together("a photograph of a step goes where its recipe goes", async ({ near, far, laptop, address }) => {
  const group = (page) => page.getByRole("group", { name: "Your photograph of this step" });
  const look = (page) => group(page).getByRole("button", { name: "Look at the photograph large" });
  await visit(near, `${address}/`);
  const bench = (await near.locator(".tile-link").getAttribute("href")).replace("/recipe/", "/bench/");
  await visit(near, address + bench);
  await visit(far, address + bench);
  // Without a connection, which comes back.
  await laptop.context.setOffline(true);
  await group(near).getByRole("button", { name: "Add a photograph" }).click();
  const dialog = near.getByRole("dialog", { name: "Your photograph of this step" });
  const buffer = await photograph(near);
  await dialog.locator("input[type=file]").setInputFiles({ name: "table.jpg", mimeType: "image/jpeg", buffer });
  await look(near).waitFor();
  await laptop.context.setOffline(false);
  const file = await kept(near);
  await arrives(far, file);
  await look(far).waitFor();
  await until(async () => (await there(near, address)).includes(named(file)), "it is not sent");
  // Removed on the one it goes from the other; what nothing uses waits to be forgotten.
  await group(far).getByRole("button", { name: "Remove the photograph" }).click();
  await look(near).waitFor({ state: "detached" });
  const unused = () => JSON.parse(localStorage.getItem("foldwright/unused"))?.kept.known;
  await near.reload();
  await eventually(near, unused);
  await arrives(near, file);
  await far.locator(".notice").getByRole("button", { name: "Undo" }).click();
  await look(near).waitFor();

  // Who reads a shared recipe sees it at its step.
  await visit(near, `${address}/`);
  await near.locator(".tile-more").click();
  await button(near, "Share by link").click();
  await button(near, "Make a link").click();
  const link = await near.getByRole("textbox", { name: "The link" }).inputValue();
  assert.equal((await fetch(`${link}?photo=${named(file)}`)).status, 200);
  assert.ok((await (await fetch(link)).text()).includes(`?photo=${named(file)}`));
});

together("what two devices finish apart is in the log of both", async ({ near, far, laptop, phone, address }) => {
  await visit(near, `${address}/`);
  const bench = (await near.locator(".tile-link").getAttribute("href")).replace("/recipe/", "/bench/");
  for (const page of [near, far]) {
    await visit(page, address + bench);
    await at(page, 1);
  }
  await laptop.context.setOffline(true);
  await phone.context.setOffline(true);
  for (const page of [near, far]) {
    const all = await count(page);
    for (let number = 1; number <= all; number += 1) {
      await at(page, number);
      await next(page).click();
    }
    await page.locator(".run").waitFor();
  }
  await laptop.context.setOffline(false);
  await phone.context.setOffline(false);
  for (const page of [near, far]) await page.locator(".run").nth(1).waitFor();
  // What is removed on the one is gone from the other, and comes back to both.
  await near.locator(".run").first().getByRole("button", { name: "Remove this entry" }).click();
  await far.locator(".run").nth(1).waitFor({ state: "detached" });
  await near.locator(".notice").getByRole("button", { name: "Undo" }).click();
  await far.locator(".run").nth(1).waitFor();
});

together("a workshop without room for more photographs says so until there is some", async ({ near, far, address }) => {
  const file = await exported(near, address);
  const all = Array.from({ length: MOST }, (_, number) => picture(number));
  for (const photo of all) assert.equal((await ask(near, address, "PUT", named(photo), photo)).status, 204);
  await takeIn(near, address, file, all, "Papers");
  await synced(near);
  for (const photo of all) await arrives(near, photo);
  const one = picture("one more");
  await put(near, [one]);
  await takeIn(near, address, file, [one], "Sails");
  await stands(near, "trouble");
  await near.locator(".status-link").click();
  await near.getByText(`a workshop has room for ${MOST} at the server`).waitFor();
  await accessible(near);
  await near.reload();
  await near.getByText(`a workshop has room for ${MOST} at the server`).waitFor();
  // The recipe itself is everywhere, in the colour of its paper.
  await visit(far, `${address}/`);
  await far.locator(".tile", { hasText: "Sails 1" }).waitFor();
  assert.ok(!(await there(near, address)).includes(named(one)));
  // The photographs of a deleted recipe make room.
  await remove(near, address, "Papers 2");
  await until(async () => (await there(near, address)).includes(named(one)), "it is not sent");
  // What is lacking is asked for again as the page is seen.
  await far.reload();
  await arrives(far, one);
});

together("what no recipe uses any longer is forgotten in the end", async ({ near, far, address }) => {
  const file = await exported(near, address);
  const [gone, stays] = [picture("gone"), picture("stays")];
  await put(near, [gone, stays]);
  await takeIn(near, address, file, [gone], "Ropes");
  await takeIn(near, address, file, [stays], "Sails");
  await synced(near);
  await visit(far, `${address}/`);
  await arrives(far, gone);
  await remove(near, address, "Ropes 1");
  // It is still there for whoever brings the recipe back.
  const unused = () => JSON.parse(localStorage.getItem("foldwright/unused"))?.kept.known;
  await eventually(near, unused);
  assert.deepEqual(Object.keys(await near.evaluate(unused)), [named(gone)]);
  await arrives(near, gone);
  assert.equal((await there(near, address)).length, 2);
  // A month later.
  await near.evaluate(([name, waited]) => {
    const kept = { looked: Date.now(), known: { [name]: { at: 0, waited } } };
    localStorage.setItem("foldwright/unused", JSON.stringify({ foldwright: 1, kept }));
  }, [named(gone), 31 * DAY]);
  await near.reload();
  await until(async () => (await there(near, address)).length === 1, "the server still has it");
  assert.equal(await near.evaluate(KEPT, named(gone)), null);
  await arrives(near, stays);
  assert.deepEqual(await there(near, address), [named(stays)]);
});

journey("a browser without room says so, and nothing is lost", async (page, { address }) => {
  await begin(page, address, "letter");
  await page.getByRole("tab", { name: "Paper" }).click();
  const face = page.getByRole("group", { name: "Photograph of the face" });
  await face.getByRole("button", { name: "Photograph it" }).click();
  const buffer = await page.screenshot();
  const dialog = page.getByRole("dialog", { name: "Photograph of the face" });
  await dialog.locator("input[type=file]").setInputFiles({ name: "quay.png", mimeType: "image/png", buffer });
  await button(page, "Lay it flat").click();
  await page.getByRole("img", { name: "As it will be shown" }).waitFor();
  const recipes = () => page.evaluate(() => Object.entries(localStorage).filter(([key]) => key.startsWith("foldwright/recipe/")));
  const before = await recipes();
  const session = await page.context().newCDPSession(page);
  await session.send("Storage.overrideQuotaForOrigin", { origin: address, quotaSize: 1 });
  await button(page, "Show the photograph").click();
  await dialog.getByRole("alert").getByText("There is no room left in this browser for the photograph.").waitFor();
  await accessible(page);
  assert.deepEqual(await recipes(), before);
  // Once there is room, the same picture is kept.
  await session.send("Storage.overrideQuotaForOrigin", { origin: address });
  await button(page, "Show the photograph").click();
  await dialog.waitFor({ state: "hidden" });
  await shows(page, ".drawn");
});
