// At the bench: one step a screen, by thumb, key and swipe, kept through
// reloads and restarts, with the server gone.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { test } from "node:test";
import { LAPTOP, PHONE, openBrowser, startServer } from "./harness.js";

const AXE = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

const heading = (page) => page.locator(".bench h1");
const next = (page) => page.getByRole("button", { name: /^(Next|Finish)$/ });
const back = (page) => page.getByRole("button", { name: "Back", exact: true });
const step = (page) => new URL(page.url()).searchParams.get("step");

/** Runs a journey that begins at the bench of a fresh card like a book. */
function journey(name, walk, viewport = PHONE) {
  test(name, async () => {
    const server = await startServer();
    const browser = await openBrowser(viewport);
    try {
      const page = await browser.context.newPage();
      await page.goto(`${server.address}/new`);
      await page.locator('[data-starter="book"]').click();
      await page.waitForURL(/\/recipe\/[^/]+$/);
      const bench = page.url().replace("/recipe/", "/bench/");
      await open(page, bench);
      await walk({ page, bench, browser, server });
      assert.deepEqual(browser.complaints, []);
    } finally {
      await browser.close();
      await server.stop();
    }
  });
}

async function open(page, address) {
  await page.goto(address);
  await page.locator("main[data-ready] .bench h1").waitFor();
}

/** Goes on by `turn` and waits for the next step. */
async function turned(page, turn) {
  const before = step(page);
  await turn();
  await page.waitForFunction(
    (before) => new URL(location.href).searchParams.get("step") !== before,
    before,
  );
  return step(page);
}

async function swipe(page, from, to) {
  const touch = (type, x) =>
    page.locator(".task-head").dispatchEvent(type, {
      pointerType: "touch",
      pointerId: 7,
      isPrimary: true,
      clientX: x,
      clientY: 300,
      bubbles: true,
    });
  await touch("pointerdown", from);
  await touch("pointerup", to);
}

journey("leads by thumb from the first step to the last", async ({ page }) => {
  const seen = [step(page)];
  while (step(page) !== "finish") {
    const targets = [next(page), back(page)];
    for (const target of targets) {
      const { width, height } = await target.boundingBox();
      assert.ok(width >= 64 && height >= 64, `${seen.at(-1)}: ${width} × ${height}`);
    }
    seen.push(await turned(page, () => next(page).click()));
    await page.waitForFunction(() => document.activeElement?.tagName === "H1");
  }
  assert.equal(seen[0], "gather");
  assert.ok(seen.indexOf("cut-strip") < seen.indexOf("score-0"));
  assert.ok(seen.indexOf("score-0") < seen.indexOf("fold-0"));
  assert.equal(new Set(seen).size, seen.length);
  await page.getByRole("heading", { name: "Your card is made" }).waitFor();
});

journey("turns by keys, page turners and swipes, but not while typing", async ({ page }) => {
  assert.equal(await turned(page, () => page.keyboard.press("PageDown")), "cut-strip");
  await turned(page, () => page.keyboard.press("ArrowRight"));
  await turned(page, () => page.keyboard.press("PageUp"));
  assert.equal(step(page), "cut-strip");
  await turned(page, () => swipe(page, 300, 120));
  await turned(page, () => swipe(page, 120, 300));
  assert.equal(step(page), "cut-strip");
  await page.getByRole("textbox", { name: /note/ }).fill("mind the deckle");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Space");
  assert.equal(step(page), "cut-strip");
});

journey("goes on at the same step after a reload, a restart and without the server", async (walk) => {
  const { page, bench, browser, server } = walk;
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await turned(page, () => next(page).click());
  await page.getByRole("textbox", { name: /note/ }).fill("leave the deckle on the left");
  await turned(page, () => next(page).click());
  const here = step(page);
  const title = await heading(page).innerText();

  await open(page, bench);
  assert.equal(step(page), here);
  await server.stop();
  await browser.restart();
  const later = await browser.context.newPage();
  await open(later, bench);
  assert.equal(await heading(later).innerText(), title);
  await turned(later, () => back(later).click());
  const note = later.getByRole("textbox", { name: /note/ });
  assert.equal(await note.inputValue(), "leave the deckle on the left");
  await turned(later, () => next(later).click());
  await turned(later, () => next(later).click());
});

journey("counts a batch, step by step", async ({ page, bench }) => {
  await page.getByRole("textbox", { name: /Cards to make/ }).fill("24");
  await turned(page, () => next(page).click());
  const counted = page.getByRole("group", { name: "Cards counted" });
  await counted.getByText("24 cards").waitFor();
  await counted.getByRole("button", { name: "One more done" }).click();
  await counted.getByRole("button", { name: "One more done" }).click();
  await open(page, bench);
  assert.match(await counted.locator("output").innerText(), /^2\s+of 24$/);
  await counted.getByRole("button", { name: "All done" }).click();
  assert.match(await counted.locator("output").innerText(), /^24/);
});

journey("leads to any step from the list, and shows cautions before a blade is used", async ({ page }) => {
  await turned(page, () => next(page).click());
  assert.ok(await page.locator("details.caution").first().evaluate((caution) => caution.open));
  await page.getByRole("button", { name: /Step 2 of/ }).click();
  await page.getByRole("dialog").getByRole("button", { name: /Score/ }).first().click();
  await page.waitForURL(/step=score-0/);
});

journey("warns before anything is cut when a card cannot be made", async ({ page, bench }) => {
  await page.evaluate(() => {
    const key = Object.keys(localStorage).find((key) => key.startsWith("foldwright/recipe/"));
    const text = localStorage.getItem(key);
    const end = text.indexOf("\n");
    const file = JSON.parse(text.slice(end));
    for (const stock of file.recipes[0].stocks) stock.width = "1 in";
    localStorage.setItem(key, text.slice(0, end + 1) + JSON.stringify(file));
  });
  await open(page, bench);
  await page.getByRole("heading", { name: "Don't cut yet" }).waitFor();
  await page.getByRole("button", { name: "Show the steps all the same" }).click();
  await page.getByRole("heading", { name: "Take out your paper" }).waitFor();
});

for (const [device, viewport] of Object.entries({ phone: PHONE, laptop: LAPTOP })) {
  journey(
    `has no barrier at any step: ${device}`,
    async ({ page }) => {
      await page.emulateMedia({ reducedMotion: "reduce" });
      for (;;) {
        for (const colorScheme of ["light", "dark"]) {
          await page.emulateMedia({ colorScheme });
          // Evaluated by the test client, so the page's own policy stays as it is.
          await page.evaluate(AXE);
          const { violations } = await page.evaluate(() => globalThis.axe.run());
          assert.deepEqual(
            violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)]),
            [],
            `${step(page)}, ${colorScheme}`,
          );
        }
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        assert.ok(wide <= 0, `${step(page)}: ${wide} px wider than the screen`);
        const small = await page.evaluate(() =>
          [...document.querySelectorAll(".bench :is(button, a, summary, textarea, input)")]
            .filter((target) => target.checkVisibility())
            .map((target) => [target.textContent || target.ariaLabel, target.getBoundingClientRect()])
            .filter(([, { width, height }]) => width < 44 || height < 44)
            .map(([name, { width, height }]) => `${name}: ${width} × ${height}`),
        );
        assert.deepEqual(small, [], step(page));
        if (step(page) === "finish") break;
        await turned(page, () => next(page).click());
      }
    },
    viewport,
  );
}
