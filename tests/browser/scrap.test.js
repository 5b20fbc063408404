// A scrap is measured, and what can be made of it comes up and is opened. The
// names come from an invented paper workshop at a harbour town's library.

import assert from "node:assert/strict";
import { LAPTOP, PHONE } from "./harness.js";
import { AXE, begin, journey } from "./journey.js";
import { keepRecipe, keptRecipes } from "./kept.js";
import { inches, shown } from "./numbers.js";

/** A walk that begins at the list of recipes, with one of the maker's own. */
const searching = (name, walk, viewport) =>
  journey(
    name,
    async (page, served) => {
      await begin(page, served.address, "book");
      const [recipe] = await keptRecipes(page);
      recipe.file.recipes[0].name = "Lighthouse card";
      await keepRecipe(page, recipe);
      await go(page, `${served.address}/`);
      await walk(page, served);
    },
    viewport,
  );

async function go(page, address) {
  await page.goto(address);
  await page.locator("main[data-ready] h1").waitFor();
}

const told = (page) => page.locator(".scrap-told");
const tile = (page, name) => page.locator(".tile").filter({ hasText: name });
const across = (page) => page.getByRole("textbox", { name: "Width" });
const up = (page) => page.getByRole("textbox", { name: "Height" });

async function search(page, width, height) {
  await across(page).fill(width);
  await up(page).fill(height);
  await told(page).getByText(/can be cut from it/).waitFor();
}

searching("what fits comes up, the least changed first, and opens with one tap", async (page) => {
  await page.getByRole("link", { name: "What can I make from a scrap?" }).click();
  await page.waitForURL("**/scrap");
  await across(page).fill("nothing");
  await page.locator('.size-fields [aria-invalid="true"]').waitFor();

  // A whole sheet: everything as it is, the maker's own first.
  await search(page, "12", "12");
  const counts = (await told(page).innerText()).match(/^(\d+) of (\d+)/);
  assert.equal(counts[1], counts[2]);
  assert.match(await page.locator(".tile").first().innerText(), /Lighthouse card[\s\S]*As it is\.[\s\S]*Your recipe/);

  // By hand: a strip of 8 1/2 in is 8 in now, so the closed card is 4 in wide.
  await search(page, "8", "5 1/2");
  const own = tile(page, "Lighthouse card");
  await own.getByText(shown("4 × 5 1/2 in, goes into")).waitFor();
  await own.getByText(shown("Instead of 4 1/4 × 5 1/2 in.")).waitFor();
  await own.getByRole("button").click();
  await page.waitForURL("**/recipe/*");
  await page.getByRole("heading", { name: "Lighthouse card from a scrap" }).waitFor();
  const strip = await page.locator('.spot[aria-label^="card base length,"]').first().getAttribute("aria-label");
  assert.equal(inches(strip.split(",")[1]), 8);
  await page.locator(".problem-count").click();
  await page.getByRole("region", { name: "Problems" }).waitFor();
  assert.equal(await page.locator(".problem.stop").count(), 0);

  // A sliver makes nothing.
  await page.goBack();
  await search(page, "1", "1/2");
  await told(page).getByText(/^None of/).waitFor();
});

searching("scraps on hand are kept, chosen and taken off, without the server too", async (page, { address, server }) => {
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await server.stop();
  await go(page, `${address}/scrap`);
  await search(page, "6 1/8", "3 3/4");
  await page.getByRole("button", { name: "Put this one on the list" }).click();
  await search(page, "200 mm", "120 mm");
  await page.getByRole("button", { name: "Put this one on the list" }).click();
  assert.equal(await page.getByRole("button", { name: "Put this one on the list" }).count(), 0);
  await page.reload();
  const first = page.getByRole("button", { name: shown("6 1/8 × 3 3/4 in"), exact: true });
  await first.click();
  await told(page).getByText(/can be cut from it/).waitFor();
  await page.getByRole("button", { name: shown("6 1/8 × 3 3/4 in"), exact: true, pressed: true }).waitFor();
  assert.equal(await across(page).inputValue(), "6 1/8 in");
  await page.getByRole("button", { name: shown("Take 6 1/8 × 3 3/4 in off the list") }).click();
  await first.waitFor({ state: "detached" });
  await page.locator(".notice").getByRole("button", { name: "Undo" }).click();
  await first.waitFor();
});

searching("two hundred recipes are looked at while the page stays alive", async (page, { address }) => {
  const [recipe] = await keptRecipes(page);
  for (let number = 1; number < 200; number += 1) {
    recipe.file.recipes[0].name = `Tide ${number} card`;
    await keepRecipe(page, { ...recipe, key: `foldwright/recipe/copy${number}` });
  }
  await go(page, `${address}/scrap`);
  await page.evaluate(() => {
    globalThis.frames = 0;
    globalThis.during = 0;
    const count = () => {
      if (document.querySelector('.scrap .tiles[aria-busy="true"]')) globalThis.during += 1;
      requestAnimationFrame(count);
    };
    count();
  });
  const slow = await page.context().newCDPSession(page);
  await slow.send("Emulation.setCPUThrottlingRate", { rate: 6 });
  await search(page, "8", "5 1/2");
  // Frames were painted while it was looking, with some results in them.
  assert.ok((await page.evaluate(() => globalThis.during)) > 1);
  await slow.send("Emulation.setCPUThrottlingRate", { rate: 1 });
  assert.ok(Number((await told(page).innerText()).match(/of (\d+)/)[1]) >= 200);
  const shown = await page.locator(".tile").count();
  await page.getByRole("button", { name: "Show more" }).click();
  await page.waitForFunction((shown) => document.querySelectorAll(".tile").length > shown, shown);
});

for (const [device, viewport] of Object.entries({ phone: PHONE, laptop: LAPTOP })) {
  searching(`is in reach of everybody on a ${device}`, async (page, { address }) => {
    await go(page, `${address}/scrap`);
    await search(page, "8", "5 1/2");
    await page.getByRole("button", { name: "Put this one on the list" }).click();
    for (const scheme of ["light", "dark"]) {
      await page.emulateMedia({ colorScheme: scheme, reducedMotion: "reduce" });
      await page.evaluate(AXE);
      const found = await page.evaluate(async () => {
        const { violations } = await globalThis.axe.run();
        const seen = (element) => element.getClientRects().length > 0;
        const size = (element) => element.getBoundingClientRect();
        const targets = [...document.querySelectorAll("main a, main button, main input")].filter(seen);
        const small = targets.filter((target) => size(target).width < 44 || size(target).height < 44);
        return {
          barriers: violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)]),
          small: small.map((element) => element.outerHTML.slice(0, 120)),
          wide: document.documentElement.scrollWidth > document.documentElement.clientWidth,
        };
      });
      assert.deepEqual(found, { barriers: [], small: [], wide: false }, scheme);
    }
  }, viewport);
}
