// Files of many recipes are taken in whole or not at all, with the page alive
// meanwhile, and the list of many is gone through and searched.
// The names come from an invented paper workshop at a harbour town's library.

import assert from "node:assert/strict";
import { readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { accessible, begin, journey } from "./journey.js";

const MANY = 300;
/** How long keeping a text takes, in milliseconds, where something is to happen in the midst. */
const SLOWED = 20;

const notice = (page) => page.locator(".notice p");
const progress = (page) => page.getByRole("group", { name: "Adding from a file" });
const tiles = (page) => page.locator(".tile");

/** The keys of recipes, and of what an import needs. */
const keys = (page) =>
  page.evaluate(() =>
    Object.keys(localStorage)
      .filter((key) => key.startsWith("foldwright/recipe/") || key.startsWith("foldwright/import"))
      .sort(),
  );

async function go(page, address) {
  await page.goto(address);
  await page.locator("main[data-ready] h1").waitFor();
}

/** Begins a recipe, shows the list, and returns the recipe as it is in a file. */
async function first(page, address) {
  await begin(page, address, "book");
  const name = await page.locator("main h1").innerText();
  await go(page, `${address}/`);
  await page.getByRole("button", { name: `More for ${name}`, exact: true }).click();
  const dialog = page.getByRole("dialog");
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    dialog.getByRole("button", { name: "Download as a file" }).click(),
  ]);
  await dialog.waitFor({ state: "hidden" });
  return JSON.parse(await readFile(await download.path(), "utf8"));
}

/** Runs with the path of a file of many recipes, laid out as ours are. */
async function withFile(file, change, run) {
  const [one] = file.recipes;
  const recipes = Array.from({ length: MANY }, (_, number) => ({ ...one, name: `Quay “${number}” \\ ½` }));
  change(recipes);
  const path = join(tmpdir(), `many-${process.pid}.json`);
  await writeFile(path, JSON.stringify({ ...file, recipes }, null, 2));
  try {
    await run(path);
  } finally {
    await rm(path);
  }
}

const choose = (page, path) => page.locator("input[type=file]").setInputFiles(path);

/** Has the storage of a page take so long for a text, in milliseconds. */
async function slow(page, time) {
  await page.evaluate((time) => {
    const write = (globalThis.write ??= Storage.prototype.setItem);
    Storage.prototype.setItem = function (key, text) {
      const until = performance.now() + time;
      while (performance.now() < until);
      return write.call(this, key, text);
    };
  }, time);
}

/** Waits until some recipes are added and others are not. */
const midway = (page) => progress(page).getByText(/Adding [1-9]\d* of 300 recipes/).waitFor();

journey("a large file is read beside the page, and on it where no worker comes", async (page, { address }) => {
  const file = await first(page, address);
  await withFile(file, () => {}, async (path) => {
    const started = page.waitForEvent("worker");
    await choose(page, path);
    const worker = await started;
    assert.match(worker.url(), /\/assets\/beside-[0-9a-f]{8}\.js$/);
    const gone = new Promise((over) => worker.once("close", over));
    await notice(page).getByText(`Added ${MANY} recipes`).waitFor();
    // It goes with the file.
    await gone;
  });
  await withFile(file, (recipes) => recipes.forEach((recipe) => (recipe.copies = 2)), async (path) => {
    await page.addInitScript(() => delete globalThis.Worker);
    await go(page, `${address}/`);
    await choose(page, path);
    await notice(page).getByText(`Added ${MANY} recipes`).waitFor();
  });
});

journey("many recipes are added at once, and the list goes through them", async (page, { address }) => {
  const file = await first(page, address);
  const other = await page.context().newPage();
  await go(other, `${address}/`);
  await tiles(other).first().waitFor();
  await withFile(file, () => {}, async (path) => {
    await slow(page, SLOWED);
    await choose(page, path);
    await midway(page);
    assert.equal(await progress(page).getByRole("progressbar").getAttribute("max"), String(MANY));
    // The page can be used meanwhile, and no tab shows a part of them.
    await page.getByRole("link", { name: "Settings" }).click();
    await page.getByRole("heading", { level: 1, name: "Settings" }).waitFor();
    await page.getByText("This browser keeps 1 recipe.").waitFor();
    await progress(page).waitFor();
    assert.equal(await tiles(other).count(), 1);
    await slow(page, 0);
    await notice(page).getByText(`Added ${MANY} recipes.`).waitFor();
    await progress(page).waitFor({ state: "hidden" });
    await page.getByText("This browser keeps 301 recipes.").waitFor();
    await other.getByText("60 of 301 recipes are shown.").waitFor();
    assert.deepEqual(
      (await keys(page)).filter((key) => key.startsWith("foldwright/import")),
      [],
    );
    // What is here already is not added twice.
    await choose(page, path);
    await notice(page).getByText(`${MANY} recipes are here already; nothing was added.`).waitFor();
  });

  await go(page, `${address}/`);
  await page.getByText("60 of 301 recipes are shown.").waitFor();
  await page.waitForFunction(() => document.querySelectorAll(".tile").length === 60);
  await accessible(page);
  await page.getByRole("button", { name: "Show more" }).click();
  await page.waitForFunction(() => document.querySelectorAll(".tile").length === 120);
  assert.equal(
    await page.evaluate(() =>
      [...document.querySelectorAll(".tile-link")].indexOf(document.activeElement),
    ),
    60,
  );
  const field = page.getByRole("searchbox", { name: "Search the recipes" });
  await field.fill("“299” quay");
  await page.waitForFunction(() => document.querySelectorAll(".tile").length === 1);
  assert.equal(await page.locator(".tile-name").innerText(), "Quay “299” \\ ½");
  // What is typed there is there again after a reload.
  await page.reload();
  await page.waitForFunction(() => document.querySelector("[type=search]")?.value === "“299” quay");
  await page.waitForFunction(() => document.querySelectorAll(".tile").length === 1);
  await field.fill("anchor");
  await page.getByText("No recipe is called “anchor”.").waitFor();

  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Download all" }).click(),
  ]);
  const all = JSON.parse(await readFile(await download.path(), "utf8"));
  assert.equal(all.foldwright, 4);
  assert.equal(all.recipes.length, MANY + 1);
});

journey("what one tab has added stays, however late another hears that it is done", async (page, { address }) => {
  const file = await first(page, address);
  const other = await page.context().newPage();
  // This one hears a second late that the import is done.
  await other.addInitScript(() => {
    const key = "foldwright/import";
    const { getItem } = Storage.prototype;
    let seen = null;
    Storage.prototype.getItem = function (asked) {
      const text = getItem.call(this, asked);
      if (asked === key && text !== null) {
        seen = text;
      }
      return asked === key ? seen : text;
    };
    addEventListener("storage", (event) => {
      if (event.isTrusted && event.key === key && event.newValue === null) {
        event.stopImmediatePropagation();
        setTimeout(() => {
          seen = null;
          const { oldValue, storageArea } = event;
          dispatchEvent(new StorageEvent("storage", { key, oldValue, storageArea }));
        }, 1000);
      }
    });
  });
  await go(other, `${address}/`);
  await tiles(other).first().waitFor();
  await withFile(file, () => {}, async (path) => {
    await slow(page, SLOWED);
    await choose(page, path);
    await midway(page);
    await other.evaluate(() => localStorage.getItem("foldwright/import"));
    await slow(page, 0);
    await notice(page).getByText(`Added ${MANY} recipes.`).waitFor();
    await other.evaluate(() => navigator.locks.request("foldwright-import", () => {}));
    await other.getByText("60 of 301 recipes are shown.").waitFor();
    assert.equal((await keys(page)).filter((key) => key.startsWith("foldwright/recipe/")).length, MANY + 1);
  });
});

journey("an import that is cancelled leaves nothing", async (page, { address }) => {
  const file = await first(page, address);
  const before = await keys(page);
  await withFile(file, () => {}, async (path) => {
    await slow(page, SLOWED);
    await choose(page, path);
    await midway(page);
    const cancel = progress(page).getByRole("button", { name: "Cancel" });
    const { width, height } = await cancel.boundingBox();
    assert.ok(width >= 44 && height >= 44, `${width} × ${height}`);
    await cancel.press("Enter");
    await notice(page).getByText("Cancelled. Nothing was added.").waitFor();
    assert.deepEqual(await keys(page), before);
    // And can be begun again.
    await slow(page, 0);
    await choose(page, path);
    await notice(page).getByText(`Added ${MANY} recipes.`).waitFor();
  });
});

journey("an import whose tab is closed leaves nothing", async (page, { address }) => {
  const file = await first(page, address);
  const before = await keys(page);
  await withFile(file, () => {}, async (path) => {
    await slow(page, SLOWED);
    await choose(page, path);
    await midway(page);
    const next = await page.context().newPage();
    await page.close({ runBeforeUnload: false });
    await go(next, `${address}/`);
    await tiles(next).first().waitFor();
    await next.waitForFunction(() => localStorage.getItem("foldwright/import") === null);
    assert.deepEqual(await keys(next), before);
    assert.equal(await tiles(next).count(), 1);
  });
});

journey("a file broken in its last recipe is refused whole, and taken as far as it goes when asked", async (page, { address }) => {
  const file = await first(page, address);
  const before = await keys(page);
  const spoil = (recipes) => {
    recipes[MANY - 1] = { ...recipes[MANY - 1], name: "Net loft", notes: { gather: "n".repeat(4001) } };
  };
  await withFile(file, spoil, async (path) => {
    await choose(page, path);
    await notice(page).getByText("Recipe 300 of this file, “Net loft”,").waitFor();
    await notice(page).getByText("Nothing was added.").waitFor();
    assert.deepEqual(await keys(page), before);
    await page.getByRole("button", { name: "Add what can be read" }).click();
    await notice(page).getByText(`Added ${MANY} recipes.`).waitFor();
    await notice(page).getByText("A text is cut after 4000 characters; it had 4001.").waitFor();
  });
  // One that ends too soon says where.
  const cut = join(tmpdir(), `cut-${process.pid}.json`);
  await writeFile(cut, '{"foldwright": 3,\n"recipes": [\n{"name": "Qu');
  await choose(page, cut);
  await notice(page).getByText("it stops making sense in line 3").waitFor();
  await rm(cut);
});

journey("an import that does not fit says how many would, and leaves nothing", async (page, { address }) => {
  const file = await first(page, address);
  const before = await keys(page);
  await page.evaluate(() => {
    const setItem = Storage.prototype.setItem;
    Storage.prototype.setItem = function (key, text) {
      const recipes = Object.keys(this).filter((held) => held.startsWith("foldwright/recipe/"));
      if (key.startsWith("foldwright/recipe/") && recipes.length > 100) {
        throw new DOMException("full", "QuotaExceededError");
      }
      setItem.call(this, key, text);
    };
  });
  await withFile(file, () => {}, async (path) => {
    await choose(page, path);
    await notice(page).getByText("there is room for 100 of 300 recipes in this browser").waitFor();
    assert.deepEqual(await keys(page), before);
    assert.equal(await tiles(page).count(), 1);
  });
});
