// A new release waits until somebody asks for it, and nothing changes under
// the pages that are open.

import assert from "node:assert/strict";
import { createServer } from "node:http";
import { test } from "node:test";
import { eventually, openBrowser, startServer } from "./harness.js";

const NEXT = "feedfacefeedface";

/**
 * Serves what `server` serves, and after `release()` the same as a later
 * release: the page and the worker carry another name.
 */
async function inTwoReleases(server) {
  const { id } = await (await fetch(`${server.address}/api/release`)).json();
  let later = false;
  const door = createServer(async (request, response) => {
    try {
      const answer = await fetch(server.address + request.url, { redirect: "error" });
      const type = answer.headers.get("content-type") ?? "";
      let body = Buffer.from(await answer.arrayBuffer());
      if (later && /html|javascript/.test(type)) body = body.toString().replaceAll(id, NEXT);
      response.writeHead(answer.status, {
        "content-type": type,
        "cache-control": answer.headers.get("cache-control"),
        "content-security-policy": answer.headers.get("content-security-policy"),
      });
      response.end(body);
    } catch (trouble) {
      response.writeHead(502).end(String(trouble));
    }
  });
  await new Promise((open) => door.listen(0, "127.0.0.1", open));
  return {
    id,
    address: `http://127.0.0.1:${door.address().port}`,
    release() {
      later = true;
    },
    async stop() {
      door.closeAllConnections();
      await new Promise((closed) => door.close(closed));
    },
  };
}

const shownRelease = (page) => page.locator("meta[name=release]").getAttribute("content");
const keptReleases = (page) => page.evaluate(RELEASES);
/** The releases a browser keeps, beside what was seen of pages. */
const RELEASES = async () => (await caches.keys()).filter((name) => name !== "foldwright-seen");

const ONE_RELEASE = async () =>
  (await caches.keys()).filter((name) => name !== "foldwright-seen").length === 1;

async function open(browser, address) {
  const page = await browser.context.newPage();
  await page.goto(address);
  await page.locator("main[data-ready]").waitFor();
  return page;
}

/** Has the browser look for a new worker, and waits until that one waits. */
function lookForRelease(page) {
  return page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    await registration.update();
    const worker = registration.installing ?? registration.waiting;
    while (worker.state === "installing") {
      await new Promise((changed) => worker.addEventListener("statechange", changed, { once: true }));
    }
    return [worker.state, registration.active.state];
  });
}

test("a new release waits until it is asked to take over", async () => {
  const server = await startServer();
  const door = await inTwoReleases(server);
  const browser = await openBrowser();
  try {
    const first = await open(browser, door.address);
    await first.evaluate(() => navigator.serviceWorker.ready.then(() => true));
    await first.close();
    const page = await open(browser, door.address);
    assert.equal(await shownRelease(page), door.id);

    door.release();
    assert.deepEqual(await lookForRelease(page), ["installed", "activated"]);
    assert.equal((await keptReleases(page)).length, 2, "both releases are kept whole");
    // Neither opening it again nor a second page lets the new one in.
    await page.reload();
    const second = await open(browser, `${door.address}/recipes/7`);
    for (const opened of [page, second]) assert.equal(await shownRelease(opened), door.id);
    await second.close();

    await page.evaluate(async () => {
      const { waiting } = await navigator.serviceWorker.ready;
      waiting.postMessage({ type: "take-over" });
    });
    await eventually(page, ONE_RELEASE);
    await page.goto(door.address);
    await page.locator("main[data-ready]").waitFor();
    assert.equal(await shownRelease(page), NEXT);
    assert.deepEqual(browser.complaints, []);
  } finally {
    await browser.close();
    await door.stop();
    await server.stop();
  }
});

test("a new release takes over once every page is closed", async () => {
  const server = await startServer();
  const door = await inTwoReleases(server);
  const browser = await openBrowser();
  try {
    const first = await open(browser, door.address);
    await first.evaluate(() => navigator.serviceWorker.ready.then(() => true));
    await first.close();
    const page = await open(browser, door.address);
    door.release();
    assert.deepEqual(await lookForRelease(page), ["installed", "activated"]);
    await page.close();

    // The browser takes a moment to notice that a page is closed. A page that
    // is opened before still belongs to the release of that page.
    let later = await open(browser, door.address);
    for (let tries = 0; tries < 20 && (await shownRelease(later)) !== NEXT; tries += 1) {
      await later.close();
      later = await open(browser, door.address);
    }
    assert.equal(await shownRelease(later), NEXT);
    await eventually(later, ONE_RELEASE);
    assert.deepEqual(browser.complaints, []);
  } finally {
    await browser.close();
    await door.stop();
    await server.stop();
  }
});
