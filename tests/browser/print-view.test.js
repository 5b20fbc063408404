// What the browser prints of a page is what is read there, without what is pressed.

import assert from "node:assert/strict";
import { begin, journey } from "./journey.js";
import { PARTS, turnTo } from "./parts.js";

/** Numbers, papers, cards, where a side is seen and which step it is are read, and pressed only on a screen. */
const READ = ".number-button, .essential, .tile-link, .rounded, .side, .bench-progress";

/** What can be pressed and would stand on the paper. */
function pressed(read) {
  const all = document.querySelectorAll(
    "button, a.button, nav, dialog, [role=tablist], input:is([type=range], [type=file])",
  );
  const seen = [...all].filter((it) => it.checkVisibility({ visibilityProperty: true }) && !it.matches(read));
  return seen.map((it) => `${it.tagName}.${it.className}: ${it.textContent.trim()}`);
}

journey("a printed page has what is read and nothing that is pressed", async (page, { address }) => {
  const check = async (what) => {
    await page.emulateMedia({ media: "print" });
    assert.deepEqual(await page.evaluate(pressed, READ), [], what);
    const read = await page.locator("main").innerText();
    assert.ok(read.trim().length > 20, `${what} has something to read`);
    await page.emulateMedia({ media: "screen" });
  };
  const open = async (path) => {
    await page.goto(address + path);
    await page.locator("main[data-ready] h1").first().waitFor();
    await check(path);
  };
  await open("/");
  await open("/new");
  await page.locator("[data-starter]").first().waitFor();
  await check("the folds");
  await begin(page, address, "gate");
  const recipe = new URL(page.url()).pathname;
  for (const part of Object.keys(PARTS)) {
    await turnTo(page, part);
    await check(part);
  }
  await open(recipe.replace("recipe", "bench"));
  for (let step = 0; step < 3; step += 1) {
    await page.getByRole("button", { name: "Next" }).click();
    await check(await page.locator("h1").innerText());
  }
  for (const path of ["/", "/list", "/words", "/settings", "/paper"]) await open(path);
});
