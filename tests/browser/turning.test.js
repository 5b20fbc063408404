// The card in space: opened one fold after another or all at once, turned, and
// brought nearer with two fingers; and numbers typed while it is looked at.

import assert from "node:assert/strict";
import { begin, journey } from "./journey.js";

const drawn = (page) => page.locator(".drawn svg g").first().innerHTML();
const slider = (page) => page.getByRole("slider", { name: "How far the card is open" });
const near = (page) =>
  page.locator(".drawn").evaluate((drawn) => Number(getComputedStyle(drawn).scale.split(" ")[0]));

async function slide(page, share) {
  await slider(page).evaluate((slider, share) => {
    slider.value = Number(slider.max) * share;
    slider.dispatchEvent(new Event("input", { bubbles: true }));
  }, share);
}

journey("a card opens one fold after another, or all at once", async (page, { address }) => {
  await begin(page, address, "accordion");
  await page.getByRole("button", { name: "Opening", exact: true }).click();
  await slide(page, 0.5);
  const half = await drawn(page);
  await page.getByRole("button", { name: "All together" }).click();
  await slide(page, 0.5);
  assert.notEqual(await drawn(page), half);
  assert.equal(await slider(page).getAttribute("aria-valuetext"), "All folds at once, 50 % open");
  await page.locator(".drawn svg[aria-label*='All folds at once, 50 % open']").waitFor();
  const seen = new Set();
  for (const share of [0, 0.25, 0.5, 0.75, 1]) {
    await slide(page, share);
    seen.add(await drawn(page));
  }
  assert.equal(seen.size, 5);
  await page.getByRole("button", { name: "Close all folds" }).click();
  await page.waitForFunction(() => document.querySelector(".opening input").value === "0");
  await page.getByRole("button", { name: "Open all folds" }).click();
  await page.waitForFunction(() => document.querySelector(".opening input").value === "1");
  await page.getByRole("button", { name: "One after another" }).click();
  await slide(page, 0.5);
  assert.equal(await drawn(page), half, "it is where it was left");
});

journey("a card with one fold is not asked how it opens", async (page, { address }) => {
  await begin(page, address, "book");
  await page.getByRole("button", { name: "Opening", exact: true }).click();
  await slider(page).waitFor();
  assert.equal(await page.getByRole("button", { name: "All together" }).count(), 0);
});

journey("two fingers bring the card nearer, and one turns it", async (page, { address }) => {
  await begin(page, address, "gate");
  await page.getByRole("button", { name: "Opening", exact: true }).click();
  await slide(page, 0.3);
  const first = await drawn(page);
  const box = await page.locator(".drawn").boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const session = await page.context().newCDPSession(page);
  const touch = (type, ...points) =>
    session.send("Input.dispatchTouchEvent", {
      type,
      touchPoints: points.map(([x, y], id) => ({ x, y, id })),
    });
  const apart = (by) => [[x - by, y], [x + by, y]];
  await touch("touchStart", apart(20)[0]);
  await touch("touchStart", ...apart(20));
  await touch("touchMove", ...apart(30));
  await touch("touchMove", ...apart(40));
  await touch("touchEnd");
  // Twice as far apart is twice as near.
  assert.ok(Math.abs((await near(page)) - 2) < 0.05, `${await near(page)}`);
  assert.equal(await drawn(page), first, "it has not turned");
  const back = page.getByRole("button", { name: "As at first" });
  await back.click();
  assert.equal(await near(page), 1);
  assert.ok(await back.isDisabled());

  await touch("touchStart", [x, y]);
  await touch("touchMove", [x + 30, y]);
  await touch("touchMove", [x + 60, y]);
  await touch("touchEnd");
  assert.notEqual(await drawn(page), first, "it has turned");
  await back.click();
  assert.equal(await drawn(page), first);

  await page.getByRole("button", { name: "Turn", exact: false }).last().focus();
  await page.keyboard.press("+");
  assert.ok((await near(page)) > 1);
  await page.keyboard.press("ArrowRight");
  assert.notEqual(await drawn(page), first);
  await page.keyboard.press("Home");
  assert.equal(await near(page), 1);
  assert.equal(await drawn(page), first);
});

journey("a number is typed on keys of its own, and the card follows at once", async (page, { address }) => {
  await begin(page, address, "book");
  const before = await drawn(page);
  await page.locator('.spot[aria-label^="front width,"]').first().click();
  const editor = page.getByRole("dialog");
  const field = editor.getByRole("textbox", { name: "Length" });
  const key = (name) => editor.getByRole("button", { name, exact: true });
  assert.equal(await field.getAttribute("inputmode"), "none");
  // What was there is chosen, and written over.
  await key("3").click();
  assert.equal(await field.inputValue(), "3");
  await page.waitForFunction((before) => document.querySelector(".drawn svg g").innerHTML !== before, before);
  const [half, quarter] = [0, 1].map((place) => editor.locator(".keys-parts .key").nth(place));
  await half.click();
  await quarter.click();
  // 3 + 1/2 + 1/4 (arithmetic).
  assert.equal(await field.inputValue(), "3 3/4 in");
  await key("9").click();
  await key("5").click();
  await key("mm").click();
  assert.equal(await field.inputValue(), "95 mm");
  await key("Delete").click();
  await key("Delete").click();
  await key("Delete").click();
  assert.equal(await field.inputValue(), "95");
  await key("Clear").click();
  assert.equal(await field.inputValue(), "");
  await key("4").click();
  await key("Done").click();
  await page.locator('.spot[aria-label^="front width, 4"]').first().waitFor();
  // All that was typed is one change.
  await page.getByRole("button", { name: "Undo" }).click();
  assert.equal(await drawn(page), before);
  assert.ok(await page.getByRole("button", { name: "Undo" }).isDisabled());
});

journey("nothing is left of a number on the way to another", async (page, { address }) => {
  await begin(page, address, "gate");
  const spots = () =>
    page.locator(".spot").evaluateAll((spots) => spots.map((spot) => spot.getAttribute("aria-label")));
  await page.locator(".spot").first().click();
  const field = page.getByRole("dialog").getByRole("textbox", { name: "Length" });
  const was = await field.inputValue();
  const all = await spots();
  for (const typed of ["1", "12", "2 1/2", was]) await field.fill(typed);
  await page.getByRole("dialog").getByRole("button", { name: "Done", exact: true }).click();
  assert.deepEqual(await spots(), all);

  // Given up half typed, what it began with is not kept either.
  await page.locator(".spot").first().click();
  for (const typed of ["1", "1 1/"]) await field.fill(typed);
  await page.getByRole("dialog").getByRole("button", { name: "Close", exact: true }).click();
  assert.deepEqual(await spots(), all);
});
