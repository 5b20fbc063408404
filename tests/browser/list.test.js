// A list of measurements is typed, read beside its lines, and made into a recipe.
// The names come from an invented paper workshop at a harbour town's library.

import assert from "node:assert/strict";
import { LAPTOP, PHONE } from "./harness.js";
import { AXE, journey } from "./journey.js";
import { keptRecipes } from "./kept.js";
import { shown } from "./numbers.js";

const LIST = [
  "Lighthouse card",
  "base 5 1/2 x 8 1/2, score at 4 1/4",
  "mat 4 x 5 1/4",
  "ribbon $2.50, page 12",
].join("\n");

/** A walk that begins at the empty list of recipes. */
const listing = (name, walk, viewport) =>
  journey(
    name,
    async (page, served) => {
      await go(page, `${served.address}/`);
      await walk(page, served);
    },
    viewport,
  );

async function go(page, address) {
  await page.goto(address);
  await page.locator("main[data-ready] h1").waitFor();
}

const list = (page) => page.getByRole("textbox", { name: "Your list" });
const line = (page, number) => page.locator(`.read-line[value="${number}"]`);
const make = (page) => page.getByRole("button", { name: "Make it a recipe" });

/** The kept recipe, as the text of its file. */
const kept = async (page) => JSON.stringify((await keptRecipes(page))[0].file);

listing("a list becomes a recipe with the relations that are taken", async (page) => {
  await page.getByRole("link", { name: "Type in measurements you have" }).click();
  await page.waitForURL("**/list");
  await list(page).fill(LIST);
  await line(page, 2).getByText(shown("piece 5 1/2 × 8 1/2 in · score at 4 1/4 in")).waitFor();
  await line(page, 4).getByText("“2.50” Taken for a price").waitFor();
  await line(page, 4).getByText("“12” Taken for a number in a sequence").waitFor();

  // By hand: 5 1/2 − 2/8 = 5 1/4 and 4 1/4 − 2/8 = 4.
  const border = page.getByRole("checkbox", { name: /The mat leaves an even border on the front/ });
  await page.getByText(shown("4 1/4 − 2 × 1/8 = 4, and 5 1/2 − 2 × 1/8 = 5 1/4")).waitFor();
  assert.equal(await border.isChecked(), true);
  const equal = page.getByRole("checkbox", { name: /The front and the back are equally wide/ });
  await equal.focus();
  await page.keyboard.press("Space");
  assert.equal(await equal.isChecked(), false);

  // An answer outlasts typing.
  await list(page).press("End");
  await list(page).pressSequentially("\nmat 3 3/4 x 5");
  await line(page, 5).getByText(shown("piece 3 3/4 × 5 in")).waitFor();
  assert.equal(await equal.isChecked(), false);

  await page.locator(".list-card").getByText(shown("4 1/4 × 5 1/2 in closed")).waitFor();
  await make(page).click();
  await page.waitForURL("**/recipe/*");
  await page.getByRole("heading", { name: "Lighthouse card" }).waitFor();
  const text = await kept(page);
  assert.match(text, /mat border/);
  assert.match(text, /mat 2 border/);
});

// Worked by hand: panels of 2 3/4, 2 3/4 and 5 1/2; the widest stays as the back.
const STEPPED = [
  "base 11 x 5 1/2, score at 2 3/4 and 5 1/2",
  "5 1/4 x 5 1/4 large inside right",
].join("\n");

listing("two pictures ask which way it folds", async (page, { address }) => {
  await go(page, `${address}/list`);
  await list(page).fill(STEPPED);
  const asks = page.getByRole("group", { name: "Which way does it fold?" });
  await asks.waitFor();
  const back = asks.getByRole("radio", { name: /The front folds back over itself/ });
  const inside = asks.getByRole("radio", { name: /The front folds in/ });
  assert.equal(await asks.getByRole("radio").count(), 2);
  assert.equal(await back.isChecked(), true);
  assert.equal(await asks.locator(".fold-edge .section").count(), 6);
  await line(page, 2).getByText(shown("lies on the inside of the back. It leaves an even border of 1/8 in.")).waitFor();

  // By keyboard; the choice keeps the focus and outlasts typing.
  await back.focus();
  await page.keyboard.press("ArrowDown");
  assert.equal(await inside.isChecked(), true);
  assert.equal(await inside.evaluate((it) => it === document.activeElement), true);
  await list(page).press("End");
  await list(page).pressSequentially("\nlabel 1 x 2");
  await line(page, 3).getByText("piece 1 × 2 in").waitFor();
  assert.equal(await inside.isChecked(), true);
  await make(page).click();
  await page.waitForURL("**/recipe/*");
  const [recipe] = JSON.parse(await kept(page)).recipes;
  assert.deepEqual(recipe.base.folds, ["valley", "valley"]);
});

listing("nothing is asked where the list tells how it folds", async (page, { address }) => {
  await go(page, `${address}/list`);
  await list(page).fill(`z-fold ${STEPPED}`);
  await make(page).waitFor();
  assert.equal(await page.locator(".fold-choice").count(), 0);
});

listing("what cannot be stands beside its line", async (page, { address }) => {
  await go(page, `${address}/list`);
  await list(page).fill("base 5 1/2 x 8 1/2 in, score at 9 in\nfinished size 3 x 3 in");
  await line(page, 1).getByText("The score at 9 in is not on the piece.").waitFor();
  await line(page, 2).getByText("The list says 3 × 3 in.").waitFor();
});

listing("what is typed stays, without the server too, and can be brought back", async (page, { address, server }) => {
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await server.stop();
  await go(page, `${address}/list`);
  assert.equal(await make(page).count(), 0);
  await list(page).fill(LIST);
  await make(page).waitFor();
  await page.reload();
  await make(page).waitFor();
  assert.equal(await list(page).inputValue(), LIST);
  await page.getByRole("button", { name: "Clear the list" }).click();
  await make(page).waitFor({ state: "detached" });
  await page.locator(".notice").getByRole("button", { name: "Undo" }).click();
  await make(page).waitFor();
  assert.equal(await list(page).inputValue(), LIST);
  await page.reload();
  await make(page).waitFor();
});

for (const [device, viewport] of Object.entries({ phone: PHONE, laptop: LAPTOP })) {
  listing(`is in reach of everybody on a ${device}`, async (page, { address }) => {
    await go(page, `${address}/list`);
    await list(page).fill(`${STEPPED}\nribbon $2.50, page 12\nstrip 1 x 2, score at 9`);
    await page.locator(".read-wrong").first().waitFor();
    await page.locator(".fold-choice").first().waitFor();
    for (const scheme of ["light", "dark"]) {
      await page.emulateMedia({ colorScheme: scheme, reducedMotion: "reduce" });
      await page.evaluate(AXE);
      const found = await page.evaluate(async () => {
        const { violations } = await globalThis.axe.run();
        const seen = (element) => element.getClientRects().length > 0;
        const size = (element) => element.getBoundingClientRect();
        const targets = [
          ...document.querySelectorAll("main a, main button, main textarea, main label.suggestion, main label.fold-choice"),
        ].filter(seen);
        const small = targets.filter((target) => size(target).width < 44 || size(target).height < 44);
        return {
          barriers: violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)]),
          small: small.map((element) => element.outerHTML.slice(0, 120)),
          wide: document.documentElement.scrollWidth > document.documentElement.clientWidth,
        };
      });
      assert.deepEqual(found, { barriers: [], small: [], wide: false }, scheme);
    }
  }, viewport);
}
