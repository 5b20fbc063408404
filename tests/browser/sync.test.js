// Two devices with a profile each: paired by code, apart, and together again.

import assert from "node:assert/strict";
import { test } from "node:test";
import { LAPTOP, PHONE, openBrowser, startServer, walked } from "./harness.js";
import { accessible, begin } from "./journey.js";
import { turnTo } from "./parts.js";
import { button, join, synced, visit } from "./workshop.js";

/** Runs a walk with a laptop and a phone in one workshop, a recipe on both. */
function together(name, walk, starter = "letter") {
  test(name, async () => {
    const server = await startServer();
    const [laptop, phone] = [await openBrowser(LAPTOP), await openBrowser(PHONE)];
    try {
      const [near, far] = [await laptop.context.newPage(), await phone.context.newPage()];
      await walked([laptop, phone], async () => {
        // What was there before the device came in comes along.
        await begin(near, server.address, starter);
        await join(near, `${server.address}/devices#code=${server.code}`, "Laptop");
        await synced(near);
        await button(near, "Show a code").click();
        const code = (await near.locator(".pairing-code").innerText()).trim();
        await accessible(near);
        await join(far, `${server.address}/devices#code=${code}`, "Phone");
        await synced(far);
        await visit(far, server.address);
        await far.locator(".tile-link").waitFor();
        await walk({ near, far, laptop, phone, server, code });
      });
      // A lost connection is no fault of the app's.
      const own = (text) => !/WebSocket|ERR_INTERNET_DISCONNECTED|ERR_CONNECTION|401/.test(text);
      assert.deepEqual([...laptop.complaints, ...phone.complaints].filter(own), []);
    } finally {
      await laptop.close();
      await phone.close();
      await server.stop();
    }
  });
}

const named = (page, name) => page.locator(".tile-name", { hasText: name });

async function rename(page, name) {
  await page.locator(".tile-more").first().click();
  await page.getByRole("textbox", { name: "Name" }).fill(name);
  await button(page, "Rename").click();
  await named(page, name).waitFor();
}

together("what is changed apart comes together, progress too", async ({ near, far, laptop, phone, server }) => {
  await visit(near, server.address);
  await synced(near);
  await laptop.context.setOffline(true);
  await phone.context.setOffline(true);
  await rename(near, "Harbour letter");
  await far.locator(".tile-more").first().click();
  await far.getByRole("link", { name: "To the bench" }).click();
  await far.locator(".bench h1").waitFor();
  await far.getByRole("textbox", { name: "Your note for this step" }).fill("the blue one");
  await far.locator("button.turn-on").click();
  await far.getByText("Step 2 of").first().waitFor();
  const id = new URL(far.url()).pathname.split("/").pop();
  await laptop.context.setOffline(false);
  await phone.context.setOffline(false);
  await named(near, "Harbour letter").waitFor();
  await synced(near);
  // The laptop's name is on the phone, the phone's note and step on the laptop.
  await far.locator(".bench-name", { hasText: "Harbour letter" }).waitFor({ state: "attached" });
  // The bench stays where it was opened, whatever comes later.
  await near.waitForFunction((id) => localStorage.getItem(`foldwright/bench/${id}`), id);
  await near.goto(`${server.address}/bench/${id}`);
  await near.locator(".bench h1").waitFor();
  await near.getByText("Step 2 of").first().waitFor();
  await near.locator(".turn-back").click();
  const note = near.getByRole("textbox", { name: "Your note for this step" });
  await near.waitForFunction(() => document.querySelector(".bench textarea")?.value === "the blue one");
  assert.equal(await note.inputValue(), "the blue one");
  // Live from here on: what one does the other has.
  await visit(far, server.address);
  await synced(far);
  await visit(near, server.address);
  await rename(near, "Harbour letter, two");
  await named(far, "Harbour letter, two").waitFor();
});

together("a code is good once, and a removed device is cut off", async ({ near, far, phone, server, code }) => {
  const other = await openBrowser(PHONE);
  try {
    const page = await other.context.newPage();
    await visit(page, `${server.address}/devices#code=${code}`);
    await accessible(page);
    await button(page, "Bring it in").click();
    await page.getByText("This code doesn’t work").waitFor();
  } finally {
    await other.close();
  }
  await visit(near, `${server.address}/devices`);
  await near.getByRole("button", { name: /^Phone, / }).click();
  await button(near, "Remove it from the workshop").click();
  await far.locator('.status-link[data-status="ended"]').waitFor();
  // It is told who did it, and that lasts.
  await visit(far, `${server.address}/devices`);
  await far.locator('.status-link[data-status="ended"]').waitFor();
  await far.getByText("“Laptop” removed this device from the workshop").waitFor();
  await visit(near, server.address);
  await rename(near, "After the phone was gone");
  await synced(near);
  await visit(far, `${server.address}/devices`);
  await far.getByText("Bring this device in").waitFor();
  await visit(far, server.address);
  assert.equal(await named(far, "After the phone was gone").count(), 0);
  assert.equal(await far.locator(".tile").count(), 1, "what it had is still there");
  assert.ok(phone);
});

together("deleted recipes and earlier states come back, paper adds up", async ({ near, far, server }) => {
  await visit(near, server.address);
  await near.locator(".tile-more").click();
  await button(near, "Delete").click();
  await far.locator(".tile").waitFor({ state: "detached" });
  await visit(far, `${server.address}/devices`);
  await far.getByRole("button", { name: /^Bring back / }).click();
  await near.locator(".tile").waitFor();

  await visit(far, `${server.address}/paper`);
  await accessible(far);
  const count = (page) => page.getByRole("textbox", { name: /^Sheets of/ }).first();
  await count(far).fill("20");
  await count(far).press("Tab");
  await visit(near, `${server.address}/paper`);
  await near.waitForFunction(() => document.querySelector(".paper input")?.value === "20");
  await Promise.all(
    [near, far].map((page) => page.getByRole("button", { name: /^One sheet fewer/ }).first().click()),
  );
  for (const page of [near, far])
    await page.waitForFunction(() => document.querySelector(".paper input")?.value === "18");

  await visit(near, server.address);
  await rename(near, "Another name");
  await synced(near);
  await near.locator(".tile-more").click();
  await near.getByRole("link", { name: "Earlier versions" }).click();
  await near.getByRole("button", { name: /^Go back to/ }).first().waitFor();
  await accessible(near);
  await near.getByRole("button", { name: /^Go back to/ }).first().click();
  await near.locator('.drawn svg[role="img"]').waitFor();
  await visit(near, server.address);
  assert.equal(await named(near, "Another name").count(), 0);
});

together("what was deleted a month ago is gone from every device", async ({ near, far, server }) => {
  const id = (await far.locator(".tile-link").getAttribute("href")).split("/").pop();
  const kept = (page) => page.evaluate((id) => Object.keys(localStorage).filter((key) => key.endsWith(`/${id}`)), id);
  await visit(near, server.address);
  await near.locator(".tile-more").click();
  await button(near, "Delete").click();
  await far.locator(".tile").waitFor({ state: "detached" });
  await synced(near);
  assert.notDeepEqual(await kept(near), []);
  // The next time it opens, this device begins to count.
  await visit(near, server.address);
  await near.waitForFunction(() => localStorage.getItem("foldwright/deleted"));
  await near.evaluate(() => {
    const text = JSON.parse(localStorage.getItem("foldwright/deleted"));
    for (const known of Object.values(text.kept.known)) known.waited = 31 * 24 * 60 * 60 * 1000;
    localStorage.setItem("foldwright/deleted", JSON.stringify(text));
  });
  await visit(near, server.address);
  for (const page of [near, far]) {
    await page.waitForFunction((id) => !Object.keys(localStorage).some((key) => key.endsWith(`/${id}`)), id);
  }
  await visit(far, `${server.address}/devices`);
  await synced(far);
  assert.equal(await far.getByText("Bring back").count(), 0);
  assert.deepEqual(await kept(far), []);
});

test("a server that was away loses nothing, and comes back by itself", async () => {
  const { mkdtemp, rm } = await import("node:fs/promises");
  const { tmpdir } = await import("node:os");
  const { join: path } = await import("node:path");
  const data = await mkdtemp(path(tmpdir(), "foldwright-workshops-"));
  const server = await startServer(0, data);
  const browser = await openBrowser(PHONE);
  let again;
  try {
    const page = await browser.context.newPage();
    await begin(page, server.address, "letter");
    await join(page, `${server.address}/devices#code=${server.code}`, "Phone");
    await synced(page);
    await visit(page, server.address);
    await server.halt();
    await page.locator('.status-link[data-status="waiting"]').waitFor();
    await rename(page, "While it was away");
    again = await startServer(Number(new URL(server.address).port), data);
    assert.equal(again.code, undefined, "it is claimed");
    await page.evaluate(() => dispatchEvent(new Event("online")));
    await synced(page);
  } finally {
    await browser.close();
    await again?.halt();
    await server.halt();
    await rm(data, { recursive: true, force: true });
  }
});

test("a network that swallows everything is told of, and so is a server that knows nothing", async () => {
  const { createServer, connect } = await import("node:net");
  const server = await startServer();
  const target = Number(new URL(server.address).port);
  // A way to the server on which nothing comes through any more once it is shut.
  let shut = false;
  const way = createServer((near) => {
    const far = connect(target, "127.0.0.1");
    const pass = (from, to) => from.on("data", (data) => shut || to.write(data));
    pass(near, far);
    pass(far, near);
    for (const end of [near, far]) end.on("error", () => {}).on("close", () => shut || (near.destroy(), far.destroy()));
  });
  await new Promise((ready) => way.listen(0, "127.0.0.1", ready));
  const browser = await openBrowser(PHONE);
  const fresh = [];
  try {
    const address = `http://127.0.0.1:${way.address().port}`;
    const page = await browser.context.newPage();
    await begin(page, address, "letter");
    await join(page, `${address}/devices#code=${server.code}`, "Phone");
    await synced(page);
    shut = true;
    await page.locator('.status-link[data-status="waiting"]').waitFor({ timeout: 20_000 });
    shut = false;
    await page.evaluate(() => dispatchEvent(new Event("online")));
    await synced(page);
    // With the radio off at once.
    await browser.context.setOffline(true);
    await page.locator('.status-link[data-status="waiting"]').waitFor();
    await browser.context.setOffline(false);
    await synced(page);

    // Another server answers in its place, which never heard of this device.
    await server.halt();
    fresh.push(await startServer(target));
    await page.evaluate(() => dispatchEvent(new Event("online")));
    await page.locator('.status-link[data-status="ended"]').waitFor();
    await page.getByText("The server does not know this device any more").waitFor();
    await page.reload();
    await page.getByText("The server does not know this device any more").waitFor();
    await page.getByLabel("Code").fill(fresh[0].code);
    await page.getByLabel("Name of this device").fill("Phone");
    await button(page, "Bring it in").click();
    await synced(page);
  } finally {
    await browser.close();
    way.close();
    await server.stop();
    for (const one of fresh) await one.stop();
  }
});

together("a phone whose browser has cleared everything comes back by itself", async ({ far, phone, server }) => {
  await far.goto("about:blank");
  const session = await phone.context.newCDPSession(far);
  // All but cookies, as browsers do when room runs out.
  await session.send("Storage.clearDataForOrigin", {
    origin: server.address,
    storageTypes: "local_storage,indexeddb,cache_storage,service_workers",
  });
  await visit(far, server.address);
  await far.getByText("comes back").waitFor();
  await far.locator(".tile-link").waitFor();
  await synced(far);

  // Who leaves on purpose is not brought back.
  await visit(far, `${server.address}/devices`);
  await far.getByRole("button", { name: /^Phone, / }).click();
  await button(far, "Leave the workshop").click();
  await far.getByText("Bring this device in").waitFor();
  await visit(far, `${server.address}/devices`);
  await far.getByText("Bring this device in").waitFor();
  assert.equal(await far.evaluate(() => document.cookie), "");
});

// A plan that is kept is the number of its rounds: the phone plans it again.
together("a phone plans a class as the laptop has kept it", async ({ near, far, server }) => {
  await near.getByText("In the workshop").first().waitFor();
  await visit(near, server.address);
  await near.locator(".tile-link").click();
  await near.waitForURL("**/recipe/*");
  const id = new URL(near.url()).pathname.split("/").pop();
  const planned = async (page) => {
    await page.locator('.plan[data-looking="false"] .plan-takes').waitFor();
    return page.locator(".plan-takes").innerText();
  };
  await turnTo(near, "Class & post");
  await near.getByLabel("Cards to make, 1 to 9999").fill("24");
  await planned(near);
  if (await button(near, "Look longer").isVisible()) await button(near, "Look longer").click();
  const kept = await planned(near);
  await visit(near, server.address);
  await synced(near);
  await visit(far, server.address);
  await synced(far);
  await visit(far, `${server.address}/recipe/${id}`);
  await turnTo(far, "Class & post");
  await far.waitForFunction(() => document.querySelector("#section .count-field")?.value === "24");
  assert.equal(await planned(far), kept);
}, "gate");
