// A photograph beside a step at the bench: taken or chosen, looked at, replaced and
// removed, also without the server and where there is no room.

import assert from "node:assert/strict";
import exifr from "exifr";
import { eventually } from "./harness.js";
import { at, back, heading, journey, next } from "./at-bench.js";
import { accessible } from "./journey.js";
import { kept, photograph } from "./photograph.js";

const NAME = "Your photograph of this step";
const place = (page) => page.getByRole("group", { name: NAME });
const sheet = (page) => page.getByRole("dialog", { name: NAME });
const look = (page) => place(page).getByRole("button", { name: "Look at the photograph large" });
const press = (page, name) => place(page).getByRole("button", { name, exact: true }).click();
const notice = (page, text) => page.locator(".notice").getByText(text);

async function choose(page, buffer, name = "Add a photograph") {
  await press(page, name);
  await sheet(page).locator("input[type=file]").setInputFiles({ name: "table.jpg", mimeType: "image/jpeg", buffer });
}

/** Chooses a photograph, which is then beside the step. */
async function add(page, buffer, name) {
  await choose(page, buffer, name);
  await sheet(page).waitFor({ state: "hidden" });
  await look(page).waitFor();
}

/** Width and height of the picture beside the step. */
const size = (page) =>
  look(page)
    .locator("img")
    .evaluate(async (image) => (await image.decode(), [image.naturalWidth, image.naturalHeight]));

/** What has the focus is in the page, and no more than the page itself. */
const focused = (page) => page.evaluate(() => document.activeElement?.textContent.trim());

journey("a photograph stands beside a step", "letter", async (page, { address }) => {
  await next(page).click();
  await next(page).click();
  await at(page, 3);
  const file = await photograph(page, 3);
  const told = await exifr.parse(file, { gps: true });
  assert.equal(told.Make, "Dry", "the camera told more");
  await press(page, "Add a photograph");
  await accessible(page);
  const input = sheet(page).locator("input[type=file]");
  await input.setInputFiles({ name: "no.jpg", mimeType: "image/jpeg", buffer: Buffer.from("no") });
  await sheet(page).getByRole("alert").getByText("no picture").waitFor();
  await input.setInputFiles({ name: "table.jpg", mimeType: "image/jpeg", buffer: file });
  await sheet(page).waitFor({ state: "hidden" });
  await look(page).waitFor();
  assert.equal(await focused(page), "Replace the photograph");
  await accessible(page);
  // Of 3600 × 2700 pixels 2048 × 1536 are kept, and neither camera nor place.
  assert.deepEqual(await size(page), [2048, 1536]);
  const read = await exifr.parse(await kept(page), { gps: true }).catch(() => undefined);
  assert.equal(read?.Make ?? read?.latitude, undefined);

  await look(page).click();
  await sheet(page).getByRole("img", { name: NAME }).waitFor();
  await accessible(page);
  await page.keyboard.press("Escape");
  await sheet(page).waitFor({ state: "hidden" });

  // It is this step's and no other's, and there again after a reload.
  await next(page).click();
  await at(page, 4);
  assert.equal(await look(page).count(), 0);
  await back(page).click();
  await at(page, 3);
  await page.goto(address);
  await at(page, 3);
  await look(page).waitFor();

  await add(page, await photograph(page), "Replace the photograph");
  await eventually(page, () => document.querySelector(".own-photo-look img")?.naturalWidth === 1200);
  await notice(page, "The photograph was replaced.").waitFor();
  await page.locator(".notice").getByRole("button", { name: "Undo" }).click();
  await eventually(page, () => document.querySelector(".own-photo-look img")?.naturalWidth === 2048);

  await press(page, "Remove the photograph");
  await notice(page, "The photograph was removed.").waitFor();
  assert.equal(await look(page).count(), 0);
  assert.equal(await focused(page), "Add a photograph");
  await page.locator(".notice").getByRole("button", { name: "Undo" }).click();
  await look(page).waitFor();
  await page.goto(address);
  await look(page).waitFor();
});

journey("without the server a step is photographed too", "letter", async (page, { address, server }) => {
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await next(page).click();
  await next(page).click();
  await at(page, 3);
  const file = await photograph(page);
  await server.stop();
  await page.reload();
  await at(page, 3);
  await add(page, file);
  await page.goto(address);
  await at(page, 3);
  await look(page).waitFor();
});

journey("no room for a photograph is said, and nothing else is lost", "letter", async (page, { address, server }) => {
  await next(page).click();
  await next(page).click();
  await at(page, 3);
  await page.getByRole("textbox", { name: "Your note for this step" }).fill("blue side down");
  const file = await photograph(page);
  const texts = () => page.evaluate(() => Object.entries(localStorage).filter(([key]) => key.startsWith("foldwright/recipe/")));
  const before = await texts();
  const session = await page.context().newCDPSession(page);
  await session.send("Storage.overrideQuotaForOrigin", { origin: server.address, quotaSize: 1 });
  await choose(page, file);
  await sheet(page).getByRole("alert").getByText("There is no room left in this browser for the photograph.").waitFor();
  await accessible(page);
  assert.deepEqual(await texts(), before);
  // Once there is room, the same picture is kept.
  await session.send("Storage.overrideQuotaForOrigin", { origin: server.address });
  await sheet(page).locator("input[type=file]").setInputFiles({ name: "table2.jpg", mimeType: "image/jpeg", buffer: file });
  await sheet(page).waitFor({ state: "hidden" });
  await look(page).waitFor();
  await page.goto(address);
  await heading(page).waitFor();
  assert.equal(await page.getByRole("textbox", { name: "Your note for this step" }).inputValue(), "blue side down");
});
