// A class is planned: how much paper, what it costs and what is short, what goes
// into each kit, what the cards weigh, and how posts take them; scraps are used.

import assert from "node:assert/strict";
import { LAPTOP } from "./harness.js";
import { accessible, begin, journey } from "./journey.js";
import { plain } from "./numbers.js";
import { turnTo } from "./parts.js";

/** A walk through the class of a recipe begun from a starting fold. */
const planning = (name, starter, walk, viewport) =>
  journey(
    name,
    async (page, { address }) => {
      await begin(page, address, starter);
      await turnTo(page, "Class & post");
      await page.locator(".posts").waitFor();
      await walk(page, address);
    },
    viewport,
  );

const paper = (page, number) => page.locator(".needed").nth(number);
const post = (page, country) => page.locator(".post", { hasText: country });

async function type(field, text) {
  await field.fill(text);
  await field.press("Tab");
}

// Two bases of 8 1/2 × 5 1/2 in come from a sheet of Letter: 24 cards take 12 sheets,
// and 27, with a tenth to spare, take 14. 25 sheets for 11.50 are 0.46 a sheet.
planning("paper for a class is counted, priced and short", "book", async (page) => {
  await page.getByLabel("Cards to make, 1 to 9999").fill("24");
  const letter = paper(page, 0);
  await letter.getByText("12 sheets (0 on hand, 12 short)").waitFor();
  await type(letter.getByLabel("Price of a pack"), "11,50");
  await type(letter.getByLabel("Sheets in a pack"), "25");
  await letter.getByText("costs 5.52").waitFor();
  await page.getByText("The paper costs 5.52 in all, which is 0.23 a card.").waitFor();
  await page.getByText("Paper without a price is not counted.").waitFor();
  // Behind the mat of 4 × 5 1/4 in glue stays 1/8 in from its edges: 3 3/4 × 5 in.
  await page.getByText("Adhesive covers about 18.8 in² behind the layers of a card, 450.0 in² in all.").waitFor();
  // What is no amount is not taken, and stays to be mended.
  await type(letter.getByLabel("Price of a pack"), "cheap");
  await letter.getByText("Type an amount, such as 12.50.").waitFor();
  await letter.getByText("costs 5.52").waitFor();
  assert.equal(await letter.getByLabel("Price of a pack").inputValue(), "cheap");
  await type(letter.getByLabel("Price of a pack"), "11.50");
  await type(letter.getByLabel("Sheets in a pack"), "100000");
  await letter.getByText("Type a whole number from 1 to 99999.").waitFor();
  await type(letter.getByLabel("Sheets in a pack"), "25");
  await page.getByRole("button", { name: "10 %", exact: true }).click();
  await letter.getByText("14 sheets (0 on hand, 14 short)").waitFor();
  await letter.getByText("costs 6.44").waitFor();
  await accessible(page);
  // Prices are of the paper, and so there after a reload.
  await page.reload();
  await turnTo(page, "Class & post");
  assert.equal(await letter.getByLabel("Price of a pack").inputValue(), "11.50");
});

// By the posts' published limits A2, 4 3/8 × 5 3/4 in, is a letter in the United
// States (1.31 times as long as high) and none of the smallest in Germany (1.4).
planning(
  "each post takes the card by its own rules",
  "book",
  async (page) => {
    const weighs = plain(await page.locator("#section").innerText());
    assert.match(weighs, /In A2 announcement, the card weighs about \d+\.\d g/);
    await post(page, "United States").getByText("letter", { exact: true }).waitFor();
    const german = plain(await post(page, "Germany").innerText());
    assert.match(german, /Großbrief[\s\S]*less than 1\.4 times as long as high[\s\S]*12 February 2025/);
    await accessible(page);
  },
  LAPTOP,
);

// A scrap of 8 1/2 × 6 in gives a base of 8 1/2 × 5 1/2 in: of three cards one is cut
// from it, and two from a sheet of Letter. At the bench it is fetched and cut, and at
// the end it is booked out with the sheets.
planning("scraps are used first, and offcuts put by", "book", async (page, address) => {
  const letter = paper(page, 0);
  await page.getByLabel("Cards to make, 1 to 9999").fill("3");
  await letter.getByText("2 sheets").waitFor();
  await letter.getByText("Add a scrap of it").click();
  await type(letter.getByLabel("Width"), "8 1/2");
  await type(letter.getByLabel("Height"), "6");
  await letter.getByRole("button", { name: "Put it on the shelf" }).click();
  await letter.getByText("1 sheet (0 on hand, 1 short) and 1 scrap").waitFor();
  await accessible(page);
  const id = new URL(page.url()).pathname.split("/").pop();
  await page.goto(`${address}/bench/${id}`);
  const task = page.locator(".task");
  await task.getByText("1 scrap of").waitFor();
  await page.getByRole("button", { name: "Next", exact: true }).click();
  await task.getByText("Take one scrap of").waitFor();
  await accessible(page);
  await page.goto(`${address}/bench/${id}?step=finish`);
  await task.getByText("1 scrap of").waitFor();
  await page.getByRole("button", { name: "Take it off the paper on hand" }).click();
  await page.goto(`${address}/recipe/${id}`);
  await turnTo(page, "Class & post");
  await letter.locator("summary").waitFor();
  assert.equal(await letter.locator(".paper", { hasText: "8½ × 6 in" }).count(), 0);
});
