// An outline in an SVG file becomes a die-cut layer, as large as the file says or as wide
// as the maker wants it; what is no outline is told.

import assert from "node:assert/strict";
import { accessible, begin, journey } from "./journey.js";
import { plain } from "./numbers.js";
import { turnTo } from "./parts.js";

const dialog = (page) => page.getByRole("dialog", { name: "Outline from an SVG file" });
const add = (page) => dialog(page).getByRole("button", { name: "Add as a layer" });
const drawn = (page) => page.locator(".drawn svg g").first().innerHTML();

/** A file of shapes in a drawing of three inches by two, or of no size. */
const svg = (inside, size = "width='3in' height='2in'") =>
  `<svg xmlns='http://www.w3.org/2000/svg' ${size} viewBox='0 0 300 200'>${inside}</svg>`;

/** Chooses a file of that text. */
const choose = (page, text, name = "quay.svg") =>
  page
    .locator("input[type=file][accept*=svg]")
    .setInputFiles({ name, mimeType: "image/svg+xml", buffer: Buffer.from(text) });

/** The width and the height of the layer that is open. */
async function size(page) {
  const numbers = page.locator(".layer-body .number-button");
  const of = async (label) => {
    const number = numbers.filter({ has: page.locator(".number-label", { hasText: new RegExp(`^${label}$`) }) });
    return plain(await number.first().locator(".number-value").innerText());
  };
  return [await of("Width"), await of("Height")];
}

const outlining = (name, walk) =>
  journey(name, async (page, { address }) => {
    await begin(page, address, "book");
    await turnTo(page, "Layers");
    await walk(page);
  });

outlining("an outline in a file becomes a layer as large as the file says", async (page) => {
  const before = await drawn(page);
  const layers = await page.locator(".layer").count();
  // A plate of 2 × 1 1/2 in with a round hole, a smaller plate, and what is no outline.
  await choose(
    page,
    svg(
      "<rect width='200' height='150' rx='20'/><circle cx='100' cy='75' r='30'/>" +
        "<rect x='220' y='20' width='50' height='50'/><text x='9' y='190'>Quay</text><path d='M0 190h90'/>",
    ),
  );
  await dialog(page).waitFor();
  const found = dialog(page).getByRole("group", { name: "Outlines in the file" }).getByRole("button");
  assert.equal(await found.count(), 3);
  assert.match(plain(await found.first().innerText()), /^Outline 1, 2 .*Holes: 1$/s);
  assert.equal(await found.first().getAttribute("aria-pressed"), "true");
  await dialog(page).getByText("Texts: 1. Turn them into paths").waitFor();
  await dialog(page).getByText("Open lines: 1").waitFor();
  for (const each of await found.all()) {
    const box = await each.boundingBox();
    assert.ok(box.width >= 44 && box.height >= 44, "a thumb can choose it");
  }
  await accessible(page);
  await add(page).click();
  await dialog(page).waitFor({ state: "hidden" });
  await page.waitForFunction((before) => document.querySelector(".drawn svg g").innerHTML !== before, before);
  assert.equal(await page.locator(".layer").count(), layers + 1);
  const [width, height] = await size(page);
  assert.match(width, /^2(\s|$)/);
  assert.match(height, /^1½(\s|$)/);
  assert.notEqual(await page.evaluate(() => document.activeElement.tagName), "BODY");

  // It is a die-cut outline, and can be made another.
  const outline = page.locator(".layer-body .outline select");
  assert.equal(await outline.evaluate((it) => it.selectedOptions[0].textContent), "Die-cut");
  const from = page.getByLabel("Start from");
  assert.equal(await from.evaluate((it) => it.selectedOptions[0].textContent), "From a file");
  const traced = await drawn(page);
  await from.selectOption("Star");
  await page.waitForFunction((before) => document.querySelector(".drawn svg g").innerHTML !== before, traced);
  await page.getByRole("button", { name: "Undo", exact: true }).click();
  await page.waitForFunction((before) => document.querySelector(".drawn svg g").innerHTML === before, traced);

  // It is there after a reload.
  await page.reload();
  await page.locator(".drawn svg g").first().waitFor();
  await page.waitForFunction((before) => document.querySelector(".drawn svg g").innerHTML === before, traced);
});

outlining("where a file tells no size, the maker gives a width", async (page) => {
  await choose(page, svg("<ellipse cx='150' cy='100' rx='100' ry='50'/>", ""));
  await dialog(page).getByText("The file does not say how large the outline is.").waitFor();
  assert.ok(await add(page).isDisabled());
  await accessible(page);
  const width = dialog(page).getByLabel("Width of the layer");
  await width.fill("wide");
  await width.press("Enter");
  await dialog(page).locator("[aria-invalid=true]").waitFor();
  await width.fill("3");
  await width.press("Enter");
  await add(page).click();
  await dialog(page).waitFor({ state: "hidden" });
  const [wide, high] = await size(page);
  assert.match(wide, /^3(\s|$)/);
  assert.match(high, /^1½(\s|$)/);
});

outlining("what can't be cut is told, and nothing is added", async (page) => {
  const layers = await page.locator(".layer").count();
  const told = (words) => page.getByRole("alert").getByText(words).waitFor();
  await choose(page, "no drawing");
  await told("This is no SVG file, or it is damaged.");
  await choose(page, svg("<path d='M0 0h90'/><text>Quay</text>"));
  await told("There is no closed outline in this file.");
  await told("Open lines: 1");
  await choose(page, `${svg("")}${" ".repeat(2_000_000)}`);
  await told("This file is larger than 2 MB.");
  // A bow tie, which no die can be.
  await choose(page, svg("<path d='M0 0L90 90V10L0 60Z'/>"));
  await dialog(page).waitFor();
  await add(page).click();
  await dialog(page).getByRole("alert").getByText("This outline crosses or touches itself").waitFor();
  await accessible(page);
  await dialog(page).getByRole("button", { name: "Close" }).click();
  assert.equal(await page.locator(".layer").count(), layers);
});
