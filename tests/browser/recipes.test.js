// Recipes are begun, named, found, copied, deleted and brought back, kept
// through reloads and full storage, shared between tabs, and carried in files.
// The names come from an invented paper workshop at a harbour town's library.

import assert from "node:assert/strict";
import { readFile, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { LAPTOP, PHONE, openBrowser, startServer } from "./harness.js";
import { AXE } from "./journey.js";
import { keepRecipe, keptRecipes } from "./kept.js";
import { turnTo } from "./parts.js";

/** Runs a journey on a page that shows no recipes yet. */
function journey(name, walk, viewport = PHONE) {
  test(name, async (t) => {
    const server = await startServer();
    const browser = await openBrowser(viewport);
    try {
      const page = await browser.context.newPage();
      await go(page, `${server.address}/`);
      await walk({ page, address: server.address, context: browser.context, t });
      assert.deepEqual(browser.complaints, []);
    } finally {
      await browser.close();
      await server.stop();
    }
  });
}

async function go(page, address) {
  await page.goto(address);
  await page.locator("main[data-ready] h1").waitFor();
}

/** Begins a recipe from a starting fold and returns its address. */
async function begin(page, address, starter = "book") {
  await go(page, `${address}/new`);
  await page.locator(`[data-starter="${starter}"]`).click();
  await page.waitForURL(/\/recipe\/[^/.]+$/);
  return page.url();
}

const names = (page) => page.locator(".tile-name").allInnerTexts();
const notice = (page) => page.locator(".notice p");
const choices = (page) => page.getByRole("dialog");

async function more(page, name) {
  await page.getByRole("button", { name: `More for ${name}`, exact: true }).click();
  await choices(page).getByRole("heading", { name, exact: true }).waitFor();
}

async function rename(page, from, to) {
  await more(page, from);
  await choices(page).getByRole("textbox", { name: "Name" }).fill(to);
  await choices(page).getByRole("button", { name: "Rename" }).click();
  await page.locator(".tile-name", { hasText: to }).waitFor();
}

/** Begins a recipe, gives it a name, and ends at the list. */
async function beginNamed(page, address, name, starter) {
  await begin(page, address, starter);
  const first = await page.locator("main h1").innerText();
  await go(page, `${address}/`);
  await rename(page, first, name);
}

async function downloaded(page, click) {
  const [download] = await Promise.all([page.waitForEvent("download"), click()]);
  return { name: download.suggestedFilename(), path: await download.path() };
}

journey("an empty list says what a recipe is and leads to the folds", async ({ page }) => {
  await page.getByText("Choose a fold for your card.").waitFor();
  await page.getByRole("link", { name: "Choose a fold" }).click();
  await page.getByRole("heading", { level: 1, name: "Choose a fold" }).waitFor();
  assert.ok((await page.locator("[data-starter]").count()) >= 24, "folds of every kind");
});

journey("a recipe is begun, renamed, copied, deleted and brought back", async ({ page, address }) => {
  await beginNamed(page, address, "Quay at low tide");
  await page.reload();
  await page.locator(".tile").first().waitFor();
  assert.deepEqual(await names(page), ["Quay at low tide"]);

  await more(page, "Quay at low tide");
  await choices(page).getByRole("button", { name: "Duplicate" }).click();
  await page.locator(".tile-name", { hasText: "(copy)" }).waitFor();
  assert.equal((await names(page)).length, 2);

  await more(page, "Quay at low tide");
  await choices(page).getByRole("button", { name: "Delete" }).click();
  await notice(page).getByText("“Quay at low tide” is deleted.").waitFor();
  assert.deepEqual(await names(page), ["Quay at low tide (copy)"]);
  assert.equal((await keptRecipes(page)).length, 1);

  await page.getByRole("button", { name: "Undo" }).click();
  await page.locator(".tile-name", { hasText: /tide$/ }).waitFor();
  await page.reload();
  await page.locator(".tile").first().waitFor();
  assert.deepEqual((await names(page)).sort(), ["Quay at low tide", "Quay at low tide (copy)"]);
});

journey("a recipe is found by the words of its name", async ({ page, address }) => {
  for (const name of ["Quay", "Lighthouse", "Harbour master", "Net loft", "Saturday class"]) {
    await beginNamed(page, address, name);
  }
  const field = page.getByRole("searchbox", { name: "Search the recipes" });
  await field.fill("MASTER harb");
  assert.deepEqual(await names(page), ["Harbour master"]);
  await field.fill("anchor");
  assert.deepEqual(await names(page), []);
  await page.getByText("No recipe is called “anchor”.").waitFor();
  await field.fill("");
  await page.locator(".tile").nth(4).waitFor();
  assert.equal((await names(page)).length, 5);
});

journey("recipes go into a file and come back from it", async ({ page, address }) => {
  await beginNamed(page, address, "Quay");
  await beginNamed(page, address, "Net loft");
  const before = (await keptRecipes(page)).map(({ file }) => file);

  await more(page, "Quay");
  const one = await downloaded(page, () =>
    choices(page).getByRole("button", { name: "Download as a file" }).click(),
  );
  assert.equal(one.name, "quay.foldwright.json");
  const all = await downloaded(page, () => page.getByRole("button", { name: "Download all" }).click());
  const file = JSON.parse(await readFile(all.path, "utf8"));
  assert.equal(file.foldwright, 4);
  assert.deepEqual(file.recipes.map(({ name }) => name).sort(), ["Net loft", "Quay"]);

  // What is here already is not added twice.
  await page.locator("input[type=file]").setInputFiles(all.path);
  await notice(page).getByText("2 recipes are here already; nothing was added.").waitFor();

  await page.evaluate(() => localStorage.clear());
  await page.reload();
  await page.getByText("Choose a fold for your card.").waitFor();
  await page.locator("input[type=file]").setInputFiles(all.path);
  await notice(page).getByText("Added 2 recipes.").waitFor();
  const after = (await keptRecipes(page)).map(({ file }) => file);
  const sorted = (files) => files.flatMap(({ recipes }) => recipes).sort((a, b) => (a.name < b.name ? -1 : 1));
  assert.deepEqual(sorted(after), sorted(before));

  const spoiled = join(tmpdir(), `spoiled-${process.pid}.json`);
  await writeFile(spoiled, '{"foldwright": 1,\n"recipes": [');
  await page.locator("input[type=file]").setInputFiles(spoiled);
  await notice(page).getByText("This file can't be read").waitFor();
  await writeFile(spoiled, '{"foldwright": 99, "recipes": []}');
  await page.locator("input[type=file]").setInputFiles(spoiled);
  await notice(page).getByText("This file is of version 99").waitFor();
  assert.equal((await keptRecipes(page)).length, 2);
});

journey("two tabs show each other's changes and overwrite none", async ({ page, address, context }) => {
  const recipe = await begin(page, address);
  const other = await context.newPage();
  await go(other, recipe);
  const list = await context.newPage();
  await go(list, `${address}/`);
  const name = await page.locator("main h1").innerText();

  // A change in the list reaches the tabs in which the recipe is open.
  await rename(list, name, "Quay");
  await page.locator("main h1", { hasText: "Quay" }).waitFor();
  await other.locator("main h1", { hasText: "Quay" }).waitFor();

  // Something is kept that this tab does not hear of: a page is not told of
  // what is written from itself.
  const [quay] = await keptRecipes(page);
  quay.file.recipes[0].name = "Quay at high tide";
  await keepRecipe(page, quay);
  await other.locator("main h1", { hasText: "high tide" }).waitFor();
  await page.getByRole("button", { name: "Undo", exact: true }).waitFor();
  await foldFirst(page, "Mountain");
  await notice(page).getByText("Another tab changed this recipe at the same time").waitFor();
  await page.locator("main h1", { hasText: "Quay at high tide" }).waitFor();
  await page.getByRole("link", { name: "Open my copy" }).click();
  await page.locator("main h1", { hasText: "Quay (from another tab)" }).waitFor();
  await list.locator(".tile-name", { hasText: "(from another tab)" }).waitFor();
  assert.equal((await keptRecipes(page)).length, 2);
});

/** Folds the first score one way, a change that needs no typing. */
async function foldFirst(page, way) {
  await turnTo(page, "Panels");
  await page.locator("#section").getByText(way, { exact: true }).first().click();
}

journey("what makes no sense is set aside whole, reported, and can be fetched", async ({ page, address }) => {
  await beginNamed(page, address, "Quay");
  const damaged = '7 1 2\n{"foldwright": 1, "recipes": [{"name": "Ne';
  await page.evaluate((text) => localStorage.setItem("foldwright/recipe/d0", text), damaged);
  await page.reload();
  await notice(page).getByText("can't be read whole. It is set aside, not deleted").waitFor();
  assert.deepEqual(await names(page), ["Quay"]);
  assert.equal(
    await page.evaluate(() => localStorage.getItem("foldwright/aside/foldwright/recipe/d0")),
    damaged,
  );
  await go(page, `${address}/settings`);
  const file = await downloaded(page, () =>
    page.getByRole("button", { name: "Download it as it is" }).click(),
  );
  assert.equal(await readFile(file.path, "utf8"), damaged);
  await go(page, `${address}/recipe/d0`);
  await page.getByRole("heading", { name: "This recipe can't be read whole" }).waitFor();
  await page.getByRole("button", { name: "Delete it" }).click();
  await notice(page).getByText("What was set aside is deleted.").waitFor();
  await page.getByRole("button", { name: "Undo" }).click();
  assert.equal(
    await page.evaluate(() => localStorage.getItem("foldwright/aside/foldwright/recipe/d0")),
    damaged,
  );
});

journey("an address without a recipe says so", async ({ page, address }) => {
  for (const place of ["recipe", "bench", "earlier"]) {
    await go(page, `${address}/${place}/nothing`);
    await page.getByRole("heading", { name: "No such recipe" }).waitFor();
  }
});

journey("a recipe that can't be read whole is opened as far as it can be", async ({ page, address }) => {
  await beginNamed(page, address, "Quay");
  // A note of one character too many, as an earlier version kept it.
  const [quay] = await keptRecipes(page);
  quay.file.recipes[0].notes = { gather: "n".repeat(4001) };
  await keepRecipe(page, quay);
  await page.reload();
  await page.getByRole("link", { name: /“Quay” can't be read whole/ }).click();
  const file = await downloaded(page, () =>
    page.getByRole("button", { name: "Download it as it is" }).click(),
  );
  await page.locator("main").getByRole("button", { name: "Open what can be read" }).click();
  await page.locator("main h1", { hasText: "Quay" }).waitFor();
  await notice(page).getByText("A text is cut after 4000 characters; it had 4001.").waitFor();
  await page.reload();
  await page.locator("main h1", { hasText: "Quay" }).waitFor();

  // And so is its file, on another day.
  await page.evaluate(() => localStorage.clear());
  await go(page, `${address}/`);
  await page.locator("input[type=file]").setInputFiles(file.path);
  await notice(page).getByText("A note is longer than 4000 characters.").waitFor();
  await page.getByRole("button", { name: "Add what can be read" }).click();
  await notice(page).getByText("“Quay” is back but for this").waitFor();
  assert.deepEqual(await names(page), ["Quay"]);
});

journey("a full storage is said, and nothing is lost", async ({ page, address }) => {
  const recipe = await begin(page, address);
  const [{ key, file: whole }] = await keptRecipes(page);
  const before = await page.evaluate((key) => localStorage.getItem(key), key);
  await page.evaluate(() => {
    globalThis.setItem = Storage.prototype.setItem;
    Storage.prototype.setItem = () => {
      throw new DOMException("full", "QuotaExceededError");
    };
  });
  await foldFirst(page, "Mountain");
  await notice(page).getByText("This browser's storage is full").waitFor();
  assert.equal(await page.evaluate((key) => localStorage.getItem(key), key), before);
  const file = await downloaded(page, () =>
    page.locator(".notice").getByRole("button", { name: "Download" }).click(),
  );
  const [saved] = JSON.parse(await readFile(file.path, "utf8")).recipes;
  const [old] = whole.recipes;
  assert.notDeepEqual(saved, old);

  // Once there is room, the next change keeps everything.
  await page.evaluate(() => {
    Storage.prototype.setItem = globalThis.setItem;
  });
  await foldFirst(page, "Valley");
  await foldFirst(page, "Mountain");
  // It is kept right after the frame that shows it.
  await page.waitForTimeout(200);
  const [after] = await keptRecipes(page);
  const [now] = after.file.recipes;
  assert.deepEqual(now, saved);
  await go(page, recipe);
});

journey("what is set is used by new recipes and outlasts the page", async ({ page, address }) => {
  await go(page, `${address}/settings`);
  await page.getByRole("button", { name: "Millimetres" }).click();
  await page.getByRole("button", { name: "0.5 mm" }).click();
  await page.getByRole("textbox", { name: /scoring board/ }).fill("40 cm");
  await page.getByRole("textbox", { name: /scoring board/ }).press("Enter");
  await page.reload();
  await page.locator("main[data-ready] h1").waitFor();
  await page.getByRole("button", { name: "0.5 mm", pressed: true }).waitFor();
  assert.equal(await page.getByRole("textbox", { name: /scoring board/ }).inputValue(), "400 mm");
  await page.getByRole("textbox", { name: /scoring board/ }).fill("wide");
  await page.getByRole("textbox", { name: /scoring board/ }).press("Enter");
  await page.locator("label.field", { hasText: "scoring board" }).locator(".wrong", { hasText: /\S/ }).waitFor();
  await begin(page, address);
  const [{ file }] = await keptRecipes(page);
  assert.equal(file.recipes[0].notation.step, "half-millimetre");
});

journey("a keyboard leads through, and each page is announced", async ({ page }) => {
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  assert.equal(await page.evaluate(() => document.activeElement.id), "main");
  await page.getByRole("link", { name: "Settings" }).press("Enter");
  await page.getByRole("heading", { level: 1, name: "Settings" }).waitFor();
  await page.waitForFunction(() => document.activeElement?.tagName === "H1");
  assert.equal(await page.title(), "Settings · Foldwright");
});

for (const [device, viewport] of Object.entries({ phone: PHONE, laptop: LAPTOP })) {
  for (const colorScheme of ["light", "dark"]) {
    journey(
      `no page has a barrier: ${device}, ${colorScheme}`,
      async ({ page, address, t }) => {
        await page.emulateMedia({ colorScheme, reducedMotion: "reduce" });
        await t.test("the empty list", () => unhindered(page));
        await beginNamed(page, address, "Quay at low tide");
        const recipe = await begin(page, address);
        const bench = recipe.replace("/recipe/", "/bench/");
        for (const place of ["/", "/new", "/settings", "/nowhere"]) {
          await go(page, address + place);
          await t.test(place, () => unhindered(page));
        }
        for (const [place, at] of Object.entries({ recipe, bench })) {
          await go(page, at);
          await t.test(place, () => unhindered(page));
        }
        await go(page, `${address}/`);
        await more(page, "Quay at low tide");
        await t.test("a dialog", () => unhindered(page));
        await choices(page).getByRole("button", { name: "Delete" }).click();
        await notice(page).waitFor();
        await t.test("a notice", () => unhindered(page));
      },
      viewport,
    );
  }
}

/** Nothing for axe to find, nothing wider than the screen, no small target. */
async function unhindered(page) {
  // Evaluated by the test client, so the page's own policy stays as it is.
  await page.evaluate(AXE);
  const { violations } = await page.evaluate(() => globalThis.axe.run());
  assert.deepEqual(
    violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)]),
    [],
  );
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  assert.ok(wide <= 0, `${wide} px wider than the screen`);
  const small = await page.evaluate(() =>
    [...document.querySelectorAll("main :is(a, button), .menu a, .notice button")]
      .filter((target) => target.checkVisibility())
      .map((target) => [target.textContent || target.ariaLabel, target.getBoundingClientRect()])
      .filter(([, { width, height }]) => width < 44 || height < 44)
      .map(([name, { width, height }]) => `${name}: ${width} × ${height}`),
  );
  assert.deepEqual(small, []);
}
