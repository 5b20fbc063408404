// A crease pattern in the open format FOLD becomes a recipe, as large as the file or the
// maker says; what no recipe can hold is told.
// The names come from an invented paper workshop at a harbour town's library.

import assert from "node:assert/strict";
import { accessible, journey } from "./journey.js";
import { plain } from "./numbers.js";

const notice = (page) => page.locator(".notice");
const added = async (page) =>
  plain(await page.locator(".notice p", { hasText: "Pilot boat" }).innerText());
const asked = (page) => page.getByRole("dialog", { name: "How large is the sheet?" });

/** A sheet of 8 by 6 with a fold in its middle, and a crease across a corner, by its letter. */
const pattern = (more = {}, letter = "M") =>
  JSON.stringify({
    file_spec: 1.2,
    file_title: "Pilot boat",
    frame_classes: ["creasePattern"],
    vertices_coords: [[0, 0], [4, 0], [6, 0], [8, 0], [8, 2], [8, 6], [4, 6], [0, 6]],
    edges_vertices: [[0, 1], [1, 2], [2, 3], [3, 4], [4, 5], [5, 6], [6, 7], [7, 0], [1, 6], [2, 4]],
    edges_assignment: ["B", "B", "B", "B", "B", "B", "B", "B", "V", letter],
    ...more,
  });

/** Chooses a file of that text. */
const choose = (page, text, name = "quay.fold") =>
  page
    .locator("input[type=file]")
    .setInputFiles({ name, mimeType: "application/json", buffer: Buffer.from(text) });

async function go(page, address) {
  await page.goto(`${address}/`);
  await page.locator("main[data-ready] h1").waitFor();
}

journey("a crease pattern becomes a recipe as large as its file says", async (page, { address }) => {
  await go(page, address);
  await choose(page, pattern({ frame_unit: "in" }, "U"));
  await notice(page).getByText("Added “Pilot boat”").waitFor();
  const told = await added(page);
  assert.match(told, /8 × 6 in/);
  assert.match(told, /Creases without a direction: 1\./);
  await page.locator(".tile").waitFor();
  await page.getByRole("link", { name: "Open it" }).click();
  await page.waitForURL("**/recipe/*");
  await page.locator('.drawn svg[role="img"]').waitFor();
  await page.getByRole("heading", { level: 1, name: "Pilot boat" }).waitFor();
  await accessible(page);
});

journey("where a file tells no size, the maker is asked", async (page, { address }) => {
  await go(page, address);
  await choose(page, pattern());
  await asked(page).waitFor();
  await accessible(page);
  await page.keyboard.press("Escape");
  await notice(page).getByText("Cancelled. Nothing was added.").waitFor();
  assert.equal(await page.locator(".tile-more").count(), 0);

  await choose(page, pattern());
  const add = asked(page).getByRole("button", { name: "Add the recipe" });
  assert.ok(await add.isDisabled());
  const side = asked(page).getByLabel("Longer side");
  await side.fill("0");
  await side.press("Enter");
  await asked(page).locator("[aria-invalid=true]").waitFor();
  await side.fill("12");
  await side.press("Enter");
  await add.click();
  await asked(page).waitFor({ state: "hidden" });
  await notice(page).getByText("Added “Pilot boat”").waitFor();
  assert.match(await added(page), /12 × 9 in/);
  assert.equal(await page.locator("dialog[open]").count(), 0);
});

journey("what no recipe can hold is told, and nothing is added", async (page, { address }) => {
  await go(page, address);
  const told = (words) => notice(page).getByText(words).waitFor();
  await choose(page, "no pattern");
  await told("This is no crease pattern in the format FOLD");
  await choose(page, pattern({ frame_classes: ["foldedForm"] }));
  await told("This file shows something folded.");
  await choose(page, pattern({ frame_unit: "mm", vertices_coords: [[0, 0], [1, null]] }));
  await told("Entry 2 of “vertices_coords” in this file can’t be read.");
  assert.equal(await page.locator(".tile-more").count(), 0);
  await accessible(page);
});
