// A paper as it was photographed: chosen from a file or taken with the camera, its
// corners dragged onto the sheet's, laid flat, and shown on the card.

import assert from "node:assert/strict";
import { test } from "node:test";
import exifr from "exifr";
import { PHONE, eventually, openBrowser, startServer, walked } from "./harness.js";
import { accessible, begin, journey } from "./journey.js";
import { inches, plain, shown } from "./numbers.js";
import { turnTo } from "./parts.js";
import { PICTURE, QUARTERS, SHEET, kept, photograph } from "./photograph.js";

const dialog = (page) => page.getByRole("dialog", { name: "Photograph of the face" });

const look = (page, figure) => page.getByRole("button", { name: figure, exact: true }).click();

async function openPapers(page) {
  await page.getByRole("tab", { name: "Paper" }).click();
  await page.getByRole("group", { name: "Photograph of the face" }).waitFor();
}

async function ask(page) {
  const face = page.getByRole("group", { name: "Photograph of the face" });
  await face.getByRole("button", { name: /Photograph it|Take another one/ }).click();
}

/** Drags each corner to where the sheet has it. */
async function drag(page) {
  await page.locator(".photo-picture").waitFor();
  // The sheet has risen to where it stays.
  await dialog(page).evaluate((sheet) => Promise.all(sheet.getAnimations().map((it) => it.finished)));
  const box = await page.locator(".photo-picture").boundingBox();
  const [left, top, right, bottom] = SHEET;
  const corners = [
    ["Upper left", left, top],
    ["Upper right", right, top],
    ["Lower right", right, bottom],
    ["Lower left", left, bottom],
  ];
  for (const [name, x, y] of corners) {
    const handle = page.getByRole("button", { name: `${name} corner of the sheet` });
    const from = await handle.boundingBox();
    assert.ok(from.width >= 44 && from.height >= 44, "a thumb holds it");
    await page.mouse.move(from.x + from.width / 2, from.y + from.height / 2);
    await page.mouse.down();
    await page.mouse.move(
      box.x + (x / PICTURE[0]) * box.width,
      box.y + (y / PICTURE[1]) * box.height,
      { steps: 4 },
    );
    await page.locator(".photo-loupe").waitFor();
    await page.mouse.up();
  }
}

/** The colours in the middle of the quarters of a picture that is shown, or painted. */
const quarters = (image) =>
  image.evaluate(async (image) => {
    await image.decode?.();
    const canvas = document.createElement("canvas");
    [canvas.width, canvas.height] = [image.naturalWidth ?? image.width, image.naturalHeight ?? image.height];
    const on = canvas.getContext("2d");
    on.drawImage(image, 0, 0);
    return [[0.25, 0.25], [0.75, 0.25], [0.75, 0.75], [0.25, 0.75]].map(([x, y]) => {
      const { data } = on.getImageData(x * canvas.width, y * canvas.height, 1, 1);
      return `#${[...data.slice(0, 3)].map((part) => part.toString(16).padStart(2, "0")).join("")}`;
    });
  });

const parts = (colour) => [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16));

function near(found, wanted) {
  found.forEach((colour, number) => {
    const off = parts(colour).map((part, at) => Math.abs(part - parts(wanted[number])[at]));
    assert.ok(Math.max(...off) < 12, `${found} is not ${wanted}`);
  });
}

journey("a paper is photographed, and the card shows it", async (page, { address }) => {
  await begin(page, address, "book");
  // From the front the card shows the face of its paper.
  await look(page, "Closed");
  await openPapers(page);
  const file = await photograph(page);
  assert.equal((await exifr.parse(file, { gps: true })).Make, "Dry", "the camera told more");
  await ask(page);
  const input = dialog(page).locator("input[type=file]");
  await input.setInputFiles({ name: "no.jpg", mimeType: "image/jpeg", buffer: Buffer.from("no") });
  await dialog(page).getByRole("alert").getByText("no picture").waitFor();
  await input.setInputFiles({ name: "quay.jpg", mimeType: "image/jpeg", buffer: file });
  await page.locator(".photo-picture").waitFor();
  await accessible(page);
  await drag(page);
  await page.getByRole("button", { name: "Lay it flat" }).click();
  const flat = page.getByRole("img", { name: "As it will be shown" });
  await flat.waitFor();
  near(await quarters(flat), QUARTERS);
  await accessible(page);
  // A tap takes the colour under it.
  const box = await flat.boundingBox();
  await page.mouse.click(box.x + box.width * 0.75, box.y + box.height * 0.75);
  near([await dialog(page).getByLabel("Colour").inputValue()], [QUARTERS[2]]);
  await page.getByRole("button", { name: "Show the photograph" }).click();
  await dialog(page).waitFor({ state: "hidden" });
  await page.getByText("The card shows this paper as it was photographed.").waitFor();
  await eventually(page, () => document.querySelector(".drawn svg image")?.href.baseVal.startsWith("blob:"));
  near(await quarters(page.locator(".photo-kept img")), QUARTERS);
  // Whoever reads what was kept learns of no camera and no place.
  const told = await exifr.parse(await kept(page), { gps: true }).catch(() => undefined);
  assert.equal(told?.Make ?? told?.latitude, undefined);
  // It is there again after a reload, in every figure of the card.
  await page.reload();
  for (const figure of ["Standing", "Opening", "Closed"]) {
    await look(page, figure);
    await page.locator(".drawn svg image").first().waitFor({ state: "attached" });
  }
  // Taken off, the paper is drawn by its colour again, and Undo brings it back.
  await openPapers(page);
  await page.getByRole("button", { name: "Take it off" }).click();
  await eventually(page, () => !document.querySelector(".drawn svg image"));
  await page.getByRole("button", { name: "Undo" }).first().click();
  await eventually(page, () => document.querySelector(".drawn svg image"));
});

journey("the picture is turned until the print is upright", async (page, { address }) => {
  await begin(page, address, "book");
  await openPapers(page);
  await ask(page);
  const file = { name: "quay.jpg", mimeType: "image/jpeg", buffer: await photograph(page) };
  await dialog(page).locator("input[type=file]").setInputFiles(file);
  await drag(page);
  await page.getByRole("button", { name: "Turn to the right" }).click();
  // A key moves a corner, and the same key the other way moves it back.
  const corner = page.getByRole("button", { name: "Upper left corner of the sheet" });
  const place = () => corner.evaluate((handle) => [handle.style.left, handle.style.top]);
  const before = await place();
  await corner.focus();
  await page.keyboard.press("ArrowRight");
  assert.notDeepEqual(await place(), before);
  await page.keyboard.press("ArrowLeft");
  const after = await place();
  before.forEach((share, axis) => {
    assert.ok(Math.abs(Number.parseFloat(share) - Number.parseFloat(after[axis])) < 0.001);
  });
  await page.getByRole("button", { name: "Lay it flat" }).click();
  const flat = page.getByRole("img", { name: "As it will be shown" });
  await flat.waitFor();
  const [upperLeft, upperRight, lowerRight, lowerLeft] = QUARTERS;
  near(await quarters(flat), [lowerLeft, upperLeft, upperRight, lowerRight]);
  // Only its colour: nothing is kept of the picture.
  await page.getByRole("button", { name: "Take only colour and print" }).click();
  await dialog(page).waitFor({ state: "hidden" });
  assert.equal(await page.locator(".drawn svg image").count(), 0);
});

journey("what is cut is dragged to where the paper is best", async (page, { address }) => {
  await begin(page, address, "book");
  await turnTo(page, "Print direction");
  const grip = page.getByRole("button", { name: /^Place of .* on its sheet:/ });
  const name = async () => plain(await grip.getAttribute("aria-label"));
  const fromTop = page.getByLabel("From the upper edge of the sheet");
  await grip.waitFor();
  assert.match(await name(), /: 0 in from the left, 0 in from the top/);
  await page.getByText("Measure the card base from a square corner").waitFor();
  await page.getByText("Which part of the sheet").click();
  // A key moves it by a mark, a finger as far as it goes.
  await grip.focus();
  await page.keyboard.press("ArrowDown");
  await page.getByText("It then shows the part of the print you chose").waitFor();
  assert.equal(inches(shown(await fromTop.inputValue())), 1 / 16);
  await grip.scrollIntoViewIfNeeded();
  const box = await grip.boundingBox();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width / 2, box.y + 600, { steps: 5 });
  await page.mouse.up();
  // A base of 5 1/2 in on a sheet of 11 in (worked by hand).
  assert.equal(inches(shown(await fromTop.inputValue())), 5.5);
  await page.getByRole("button", { name: "Cut it from anywhere" }).click();
  await page.getByText("Measure the card base from a square corner").waitFor();
  await page.getByRole("button", { name: "Undo" }).first().click();
  await page.getByText("It then shows the part of the print you chose").waitFor();
});

test("the camera of the device takes the picture", async () => {
  const server = await startServer();
  const camera = ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream"];
  const browser = await openBrowser(PHONE, {}, camera);
  try {
    const page = await browser.context.newPage();
    await walked([browser], async () => {
      await begin(page, server.address, "book");
      await openPapers(page);
      await ask(page);
      await page.getByRole("button", { name: "Use the camera" }).click();
      await page.getByRole("button", { name: "Take the picture" }).click();
      await page.getByRole("button", { name: "Lay it flat" }).click();
      await page.getByRole("button", { name: "Show the photograph" }).click();
      await page.getByText("The card shows this paper as it was photographed.").waitFor();
    });
    assert.deepEqual(browser.complaints, []);
  } finally {
    await browser.close();
    await server.stop();
  }
});
