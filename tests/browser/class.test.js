// A class is planned: how much paper, what it costs and what is short, what goes
// into each kit, what the cards weigh, and how posts take them; scraps are used.

import assert from "node:assert/strict";
import { LAPTOP } from "./harness.js";
import { accessible, begin, journey, textOf } from "./journey.js";
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

/** Opens what adds supplies: their rows by name, and how one is added. */
async function supplies(page) {
  await page.getByText("Add ribbon, gems, glue or anything else").click();
  const row = (name) => page.locator(".needed", { has: page.locator("b", { hasText: name }) });
  const add = async (name, how) => {
    await page.getByLabel("What it is").fill(name);
    await page.getByRole("button", { name: how }).click();
    await row(name).waitFor();
  };
  return { row, add };
}

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
  await page.getByRole("button", { name: "Take it off what is on hand" }).click();
  await page.goto(`${address}/recipe/${id}`);
  await turnTo(page, "Class & post");
  await letter.locator("summary").waitFor();
  assert.equal(await letter.locator(".paper", { hasText: "8½ × 6 in" }).count(), 0);
});

// By Poppler, what is printed: a label for each maker and each spare kit, the sheets that
// the page counts, and each setting of the fence.
planning("kits are printed as the page has planned them", "book", async (page) => {
  await page.getByLabel("Cards to make, 1 to 9999").fill("24");
  await page.getByRole("button", { name: "10 %", exact: true }).click();
  await paper(page, 0).getByText("14 sheets (0 on hand, 14 short)").waitFor();
  const saving = page.waitForEvent("download");
  await page.getByRole("button", { name: "Kits to print (Letter)" }).click();
  const saved = await saving;
  assert.match(saved.suggestedFilename(), /kits\.pdf$/);
  const text = await textOf(saved);
  for (let kit = 1; kit <= 24; kit += 1) assert.equal(text.split(`Kit ${kit} of 24`).length, 2, `${kit}`);
  for (let kit = 1; kit <= 3; kit += 1) assert.equal(text.split(`Spare kit ${kit} of 3`).length, 2, `${kit}`);
  assert.ok(text.includes("14 sheets") && text.includes("Set the fence"), text);
  await accessible(page);
});

// Three gems a card are 72 for 24. A ribbon once round the closed card of 4 1/4 in is
// twice that and its edges; ten inches for the bow come on top.
planning("what is not paper is counted for all cards", "book", async (page) => {
  await page.getByLabel("Cards to make, 1 to 9999").fill("24");
  const { row, add } = await supplies(page);
  await add("pearl gems", "Add by number");
  await type(row("pearl gems").getByLabel("How many a card takes"), "3");
  await row("pearl gems").getByText("3 a card, 72 in all").waitFor();
  await type(row("pearl gems").getByLabel("How many a card takes"), "none");
  await row("pearl gems").getByText("Type a whole number from 1 to 9999.").waitFor();
  await type(row("pearl gems").getByLabel("How many a card takes"), "3");
  // By hand: 72 of 100 for 4.50 are 3.24, and 0.135 a card; 12.5 g for 100 are 0.375 g a card.
  await type(row("pearl gems").getByLabel("Price of a pack"), "4.50");
  await type(row("pearl gems").getByLabel("Pieces in a pack"), "100");
  await row("pearl gems").getByText("(costs 3.24, packs to buy: 1 for 4.50)").waitFor();
  await page.getByText("Paper and all besides cost 3.24, which is 0.14 a card.").waitFor();
  await page.getByText("What is to buy costs 4.50, as far as its price is known.").waitFor();
  const grams = async () => Number(plain(await page.locator("#section").innerText()).match(/weighs about (\d+\.\d) g/)[1]);
  const before = await grams();
  // 1000 g for 100 are 30 g for three.
  await type(row("pearl gems").getByLabel("All pieces in it weigh, in grams"), "1000");
  await page.waitForFunction((least) => Number(document.querySelector("#section").innerText.match(/weighs about\s(\d+\.\d)/)?.[1]) > least, before + 29.8);
  await type(row("pearl gems").getByLabel("All pieces in it weigh, in grams"), "heavy");
  await row("pearl gems").getByText("Type grams, such as 12.5.").waitFor();
  await type(row("pearl gems").getByLabel("All pieces in it weigh, in grams"), "12.5");
  // Of the 72, 70 are on hand.
  await type(row("pearl gems").getByLabel("On hand"), "some");
  await row("pearl gems").getByText("Type a whole number.").waitFor();
  await type(row("pearl gems").getByLabel("On hand"), "70");
  await row("pearl gems").getByText("(70 on hand, 2 short, costs 3.24, packs to buy: 1 for 4.50)").waitFor();
  await type(row("pearl gems").getByLabel("On hand"), "72");
  await row("pearl gems").getByText("(72 on hand, costs 3.24)").waitFor();
  await type(row("pearl gems").getByLabel("On hand"), "70");
  await add("craft glue", "Add by what one lasts for");
  await type(row("craft glue").getByLabel("How many cards one lasts for"), "10");
  await row("craft glue").getByText("1/10 a card, 3 in all").waitFor();
  await add("satin ribbon", "Add as a ribbon");
  const inches = async () => {
    const told = plain(await row("satin ribbon").locator("p").first().innerText());
    return Number.parseInt(told.split(": ")[1], 10);
  };
  assert.equal(await inches(), 8);
  await type(row("satin ribbon").getByLabel("Its knot or bow takes"), "10");
  await page.waitForFunction(() => /ribbon: 18/.test(document.querySelector("#section").innerText));
  await accessible(page);
  await page.reload();
  await turnTo(page, "Class & post");
  await row("pearl gems").getByText("3 a card").or(row("pearl gems").getByText(": 3")).first().waitFor();
  await row("pearl gems").getByText("70 on hand, 2 short").waitFor();
  await row("pearl gems").getByRole("button", { name: "Remove pearl gems" }).click();
  await row("pearl gems").waitFor({ state: "detached" });
});

// The bench says beforehand what is short, and at the end books out what the cards took:
// of six gems that three cards take, five are on hand; of ribbon, 40 in are more than
// three times round the card, 8 1/2 in and its edges.
planning("supplies on hand are told short and booked out at the bench", "book", async (page, address) => {
  await page.getByLabel("Cards to make, 1 to 9999").fill("3");
  const { row, add } = await supplies(page);
  await add("pearl gems", "Add by number");
  await type(row("pearl gems").getByLabel("How many a card takes"), "2");
  await type(row("pearl gems").getByLabel("On hand"), "5");
  await row("pearl gems").getByText("5 on hand, 1 short").waitFor();
  await add("satin ribbon", "Add as a ribbon");
  await type(row("satin ribbon").getByLabel("Length on hand"), "40");
  await row("satin ribbon").getByText("40 in on hand").waitFor();
  const id = new URL(page.url()).pathname.split("/").pop();
  await page.goto(`${address}/bench/${id}`);
  await page.getByRole("textbox", { name: "Cards to make" }).fill("3");
  await page.keyboard.press("Tab");
  const task = page.locator(".task");
  await task.locator(".callout", { hasText: "pearl gems" }).getByText("5 on hand, 1 short").waitFor();
  assert.equal(await task.locator(".callout", { hasText: "satin ribbon" }).count(), 0);
  await accessible(page);
  await page.goto(`${address}/bench/${id}?step=finish`);
  await task.getByText("6 of pearl gems: 5 on hand").waitFor();
  await page.getByRole("button", { name: "Take it off what is on hand" }).click();
  await task.getByText("6 of pearl gems: 0 on hand").waitFor();
  await accessible(page);
  await page.getByRole("button", { name: "Taken off. Put it back" }).click();
  await task.getByText("6 of pearl gems: 5 on hand").waitFor();
});

planning("an envelope made for the card is weighed by its own paper", "book", async (page) => {
  const section = page.locator("#section");
  assert.match(plain(await section.innerText()), /An envelope of 90 g/);
  await page.getByLabel("Its envelope").selectOption({ index: 1 });
  await section.getByText(/In an envelope made for it of/).waitFor();
  await section.getByText("The envelope is counted by its own pattern and paper.").waitFor();
  const american = plain(await post(page, "United States").innerText());
  assert.match(american, /does not bend easily[\s\S]*9 July 2023/);
  await accessible(page);
  await page.reload();
  await turnTo(page, "Class & post");
  await section.getByText(/In an envelope made for it of/).waitFor();
});
