// A card is made step by step at the bench: by thumb, swipe, keyboard and page
// turner, with and without a connection.

import assert from "node:assert/strict";
import { at, back, count, heading, journey, jump, listed, next, step, where } from "./at-bench.js";
import { LAPTOP, PHONE } from "./harness.js";
import { AXE } from "./journey.js";
import { plain, shown } from "./numbers.js";
import { turnTo } from "./parts.js";

const note = (page) => page.getByRole("textbox", { name: "Your note for this step" });

/** Draws a finger across the screen, as the browser itself would see it. */
async function finger(page, from, to) {
  const client = await page.context().newCDPSession(page);
  const touch = (type, points) =>
    client.send("Input.dispatchTouchEvent", {
      type,
      touchPoints: points.map(([x, y]) => ({ x, y })),
    });
  await touch("touchStart", [from]);
  for (const part of [0.25, 0.5, 0.75, 1]) {
    const on = from.map((start, axis) => start + (to[axis] - start) * part);
    await touch("touchMove", [on]);
  }
  await touch("touchEnd", []);
  await client.detach();
}

journey("every step is walked by thumb, and back", "letter", async (page, { address }) => {
  const all = await count(page);
  // Paper, strip, scores, two folds, envelope.
  assert.ok(all >= 6, `${all} steps`);
  const steps = [];
  for (let number = 1; number <= all; number += 1) {
    await at(page, number);
    steps.push(step(page));
    if (number > 1) {
      // The heading has the focus, so that a screen reader reads it.
      await page.waitForFunction(() => document.activeElement?.matches(".bench h1"));
    }
    await next(page).click();
  }
  assert.equal(new Set(steps).size, all);
  await heading(page).getByText("Your card is made").waitFor();
  assert.equal(step(page), "finish");
  assert.equal(await page.getByText("not counted as done").count(), 0);
  await page.getByText("The card goes into").waitFor();

  await back(page).click();
  await at(page, all);
  await page.goBack();
  await heading(page).getByText("Your card is made").waitFor();

  await page.getByRole("button", { name: "Start again" }).click();
  await at(page, 1);
  await page.getByRole("button", { name: "Undo" }).click();
  await heading(page).getByText("Your card is made").waitFor();
  assert.equal(await page.getByText("not counted as done").count(), 0);

  await page.getByRole("link", { name: "To the recipe" }).click();
  await page.waitForURL(address.replace("/bench/", "/recipe/"));
});

journey("keys of keyboards and page turners turn the steps", "book", async (page) => {
  // The names are those of W3C UI Events; which of them page turners send is
  // common practice.
  await page.keyboard.press("ArrowRight");
  await at(page, 2);
  await page.keyboard.press("PageDown");
  await at(page, 3);
  await page.keyboard.press("Space");
  await at(page, 4);
  await page.keyboard.press("Enter");
  await at(page, 5);
  await page.keyboard.press("ArrowLeft");
  await at(page, 4);
  await page.keyboard.press("PageUp");
  await at(page, 3);
  await page.keyboard.press("Shift+Space");
  await at(page, 2);
  // At a setting of the fence there is no field.
  assert.match(step(page), /^cut-at-\d+-0$/);
  assert.equal(await note(page).count(), 0);
  await page.keyboard.press("ArrowRight");
  await at(page, 3);

  // In a field they are for the field, and on a button for the button.
  await note(page).fill("cut two");
  await page.keyboard.press("Enter");
  await page.keyboard.press("ArrowLeft");
  await page.keyboard.press("Space");
  assert.equal(await where(page), `Step 3 of ${await count(page)}`);
  await back(page).focus();
  await page.keyboard.press("Enter");
  await at(page, 2);
  await page.locator(".bench-progress").focus();
  await page.keyboard.press("Enter");
  await listed(page).waitFor();
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Escape");
  assert.equal(await where(page), `Step 2 of ${await count(page)}`);
});

journey("a finger sideways turns the step, up and down it scrolls", "book", async (page) => {
  await finger(page, [320, 420], [90, 430]);
  await at(page, 2);
  await finger(page, [320, 600], [330, 250]);
  await page.waitForFunction(() => scrollY > 0);
  assert.match(step(page), /^cut-at-\d+-0$/);
  await finger(page, [90, 420], [320, 410]);
  await at(page, 1);
  // Too short, and too slanting.
  await finger(page, [200, 420], [170, 420]);
  await finger(page, [300, 300], [200, 500]);
  assert.equal(await where(page), `Step 1 of ${await count(page)}`);
});

journey("steps and pictures are chosen by tapping them", "book", async (page) => {
  await jump(page, "Fold at");
  const shown = page.locator(".album-picture svg:visible");
  assert.equal(await shown.getAttribute("aria-label"), "On the way");
  await page.locator(".album-picture").click();
  assert.equal(await shown.getAttribute("aria-label"), "Folded");
  await page.getByRole("button", { name: "On the way" }).click();
  assert.equal(await shown.getAttribute("aria-label"), "On the way");

  // A caution is open when it is first met, and one line after that.
  await jump(page, "Cut at");
  const caution = page.locator("details.caution").first();
  assert.ok(await caution.evaluate((details) => details.open));
  await next(page).click();
  await at(page, 3);
  await heading(page).getByText("Check the card base").waitFor();
  await next(page).click();
  await at(page, 4);
  await heading(page).getByText("Cut at").waitFor();
  assert.ok(!(await caution.evaluate((details) => details.open)));
  await caution.locator("summary").click();
  await page.getByText("Hold the paper well away from the rail").waitFor();

  // The browser's own back and forward go through the steps.
  await page.goBack();
  await at(page, 3);
  await page.goForward();
  await at(page, 4);
});

journey(
  "on a laptop the words stand beside a picture as high as the room",
  "letter",
  async (page) => {
    const boxes = async () => {
      const box = (selector) => page.locator(selector).first().boundingBox();
      const [picture, heading, words, numbers, turns] = await Promise.all(
        [".album-picture svg:visible", ".task-head", ".task-words", ".big-numbers", ".turns"].map(box),
      );
      return { picture, beside: [heading, words, numbers], turns };
    };
    for (const title of ["Score the card base", "Fold at"]) {
      await jump(page, title);
      const { picture, beside, turns } = await boxes();
      assert.ok(picture.height > LAPTOP.height * 0.6, `${title}: ${picture.height}`);
      assert.ok(picture.y + picture.height < turns.y, `${title}: all of it is seen`);
      for (const { x, y, height } of beside) {
        assert.ok(x > picture.x + picture.width, `${title}: beside the picture`);
        assert.ok(y + height < turns.y, `${title}: seen without scrolling`);
      }
      assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
    }
  },
  LAPTOP,
);

journey("the scores of a step have letters, in the picture and beside their numbers", "letter", async (page) => {
  await jump(page, "Score the card base");
  const labels = await page.locator(".big-number dt").allInnerTexts();
  assert.deepEqual(labels.map((label) => label.slice(0, 3)), ["A: ", "B: "]);
  const picture = page.locator(".album-picture svg:visible");
  assert.deepEqual(await picture.locator("text.label").allTextContents(), ["A", "B"]);
  const lengths = await picture.locator("text.length").allTextContents();
  const numbers = await page.locator(".big-number dd").allInnerTexts();
  assert.deepEqual(lengths, numbers.map((number) => number.split(/\s/)[0]));
});

// A base of 8 1/2 × 5 1/2 in is half a sheet of Letter, and the mat of 4 × 5 1/4 in
// fits the other half.
journey("parts share a sheet, and it is said how to cut it", "book", async (page, { address }) => {
  await page.goto(address.replace("/bench/", "/recipe/"));
  await turnTo(page, "Layers");
  await page.locator(".layer-head").first().click();
  await page.getByLabel("Cut from").first().selectOption({ index: 0 });
  await page.goto(address);
  await heading(page).waitFor();
  await page.getByText("Sheets are shared where that saves paper.").waitFor();
  assert.match(await page.locator(".big-number dd").first().innerText(), /^1\s*sheet$/);
  assert.equal(await page.locator(".big-number").count(), 1);
  const told = [];
  for (let number = 2; number <= 6; number += 1) {
    await next(page).click();
    await at(page, number);
    told.push(plain(await heading(page).innerText()));
    if (step(page).startsWith("cut-at-")) {
      await page.getByText("Measure from the edge against the fence.").waitFor();
      await page.locator(".album-picture svg:visible").waitFor();
    }
  }
  assert.deepEqual(told, [
    shown("Cut at 5 1/2 in"),
    "Check the card base",
    shown("Cut at 4 in"),
    shown("Cut at 5 1/4 in"),
    "Check the mat",
  ]);
  const last = step(page);
  await back(page).click();
  await at(page, 5);
  const place = step(page);
  await page.reload();
  await at(page, 5);
  assert.equal(step(page), place);
  assert.ok(last.startsWith("cut-layer-"));

  // What is cut stays cut when more cards are wanted, and the rest is cut by itself.
  await page.locator(".bench-progress").click();
  await listed(page).getByRole("button", { name: "Take out your paper" }).click();
  await at(page, 1);
  await page.getByRole("button", { name: "One card more" }).click();
  await page.getByText("It takes no more sheets than these").waitFor();
  await page.locator(".bench-progress").click();
  await listed(page).getByRole("button", { name: "Cut the card base" }).getByText("Cut, 1 of 2 done").waitFor();
  assert.equal(await listed(page).getByText("Cut at").count(), 0);
});

journey("place, notes and counts outlast a reload and a restart", "gate", async (page, { address, browser }) => {
  const more = page.getByRole("button", { name: "One card more" });
  const cards = page.getByRole("textbox", { name: "Cards to make, 1 to 9999" });
  await more.click();
  assert.equal(await cards.inputValue(), "2");
  await cards.fill("24");
  await page.getByText("This is for 24 cards.").waitFor();
  await cards.fill("0");
  await cards.blur();
  assert.equal(await cards.inputValue(), "24");

  await jump(page, "Check the card base");
  await page.getByRole("button", { name: "One more done" }).click();
  await page.getByRole("button", { name: "One more done" }).click();
  await page.getByRole("button", { name: "One fewer done" }).click();
  assert.equal(await page.locator(".count-now").innerText(), "1 of 24");
  await note(page).fill("blue side down");
  // The page is left while the field still has the focus.
  await page.goto(address);
  await heading(page).getByText("Check the card base").waitFor();
  assert.equal(step(page), "cut-strip");
  assert.equal(await note(page).inputValue(), "blue side down");
  assert.equal(await page.locator(".count-now").innerText(), "1 of 24");
  await page.getByRole("button", { name: "All done" }).click();
  assert.equal(await page.locator(".count-now").innerText(), "24 of 24");

  await page.getByRole("button", { name: "24 cards" }).click();
  await page.getByRole("dialog", { name: "How many cards" }).getByRole("textbox").fill("30");
  await page.keyboard.press("Escape");
  // What is cut is cut; the others have no plan of their own.
  await heading(page).getByText("Cut the card base").waitFor();
  assert.equal(await page.locator(".count-now").innerText(), "24 of 30");

  await browser.restart();
  const again = await browser.context.newPage();
  await again.goto(address);
  await at(again, 2);
  assert.equal(await again.locator(".count-now").innerText(), "24 of 30");
  await again.locator(".bench-progress").click();
  await listed(again).getByText("Cut, 24 of 30 done").waitFor();
});

journey("goes on without the server", "letter", async (page, { address, server }) => {
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await next(page).click();
  await next(page).click();
  await at(page, 3);
  await server.stop();
  await page.reload();
  await at(page, 3);
  await note(page).fill("no signal in the shed");
  await next(page).click();
  await at(page, 4);
  await page.goto(address);
  await at(page, 4);
  await back(page).click();
  await at(page, 3);
  assert.equal(await note(page).inputValue(), "no signal in the shed");
});

journey("a step that is gone leads to the nearest before it", "letter", async (page, { address }) => {
  const all = await count(page);
  await next(page).click();
  await next(page).click();
  await at(page, 3);
  await page.goto(`${address}?step=fold-99`);
  await page.getByText("The recipe has changed").waitFor();
  await at(page, 3);
  assert.notEqual(step(page), "fold-99");
  assert.equal(await count(page), all);
  await next(page).click();
  await at(page, 4);
  assert.equal(await page.getByText("The recipe has changed").count(), 0);
});

journey("a card that can't be made says so before anything is cut", "book", async (page, { address }) => {
  await page.goto(address.replace("/bench/", "/recipe/"));
  await page.locator('.spot[aria-label^="card base length,"]').first().click();
  const editor = page.getByRole("dialog");
  await editor.getByRole("textbox", { name: "Length" }).fill("30 in");
  await editor.locator(".said").first().waitFor();
  await page.goto(address);
  await heading(page).getByText("Don't cut yet").waitFor();
  assert.ok((await page.locator(".stops li").count()) > 0);
  await page.keyboard.press("ArrowRight");
  await heading(page).getByText("Don't cut yet").waitFor();
  assert.equal(
    await page.getByRole("link", { name: "Put the recipe right" }).getAttribute("href"),
    new URL(address).pathname.replace("/bench/", "/recipe/"),
  );
  await page.getByRole("button", { name: "Show the steps all the same" }).click();
  await at(page, 1);
});

journey("the screen is kept awake, or it is said", "book", async (page, { address, browser }) => {
  // The browser's answer is given here, since a hidden one has no screen.
  const asked = await browser.context.newPage();
  await asked.addInitScript(() => {
    globalThis.locks = [];
    const request = async (kind) => {
      const lock = { kind, released: false, release: async () => void (lock.released = true) };
      locks.push(lock);
      return lock;
    };
    Object.defineProperty(navigator, "wakeLock", { value: { request } });
  });
  await asked.goto(address);
  await heading(asked).waitFor();
  await asked.waitForFunction(() => locks.length === 1 && locks[0].kind === "screen");
  await asked.evaluate(() => document.dispatchEvent(new Event("visibilitychange", { bubbles: true })));
  await asked.waitForFunction(() => locks.length === 2);
  assert.equal(await asked.getByText("keep the screen on").count(), 0);
  await asked.locator(".bench-leave").click();
  await asked.waitForURL("**/recipe/*");
  await asked.waitForFunction(() => locks.at(-1).released);

  for (const [value, words] of [
    ["undefined", "This browser can't keep the screen on."],
    ["{ request: async () => { throw new Error('battery'); } }", "The browser will not keep the screen on"],
  ]) {
    const refused = await browser.context.newPage();
    await refused.addInitScript(`Object.defineProperty(navigator, "wakeLock", { value: ${value} })`);
    await refused.goto(address);
    await refused.getByText(words).waitFor();
    await refused.getByRole("button", { name: "Understood" }).click();
    assert.equal(await refused.getByText(words).count(), 0);
  }
});

for (const [device, viewport] of Object.entries({ phone: PHONE, sideways: { width: 844, height: 390 }, laptop: LAPTOP })) {
  journey(`is in reach of everybody on a ${device}`, "gate", async (page) => {
    await page.getByRole("button", { name: "One card more" }).click();
    const all = await count(page);
    for (const scheme of ["light", "dark"]) {
      await page.emulateMedia({ colorScheme: scheme, reducedMotion: "reduce" });
      await page.evaluate(AXE);
      for (let number = 1; number <= all + 1; number += 1) {
        await judge(page, `${scheme}, ${step(page)}`);
        if (number <= all) await next(page).click();
        if (number < all) await at(page, number + 1);
      }
      await heading(page).getByText("2 cards are made").waitFor();
      await page.locator(".bench-progress").click();
      await listed(page).waitFor();
      await judge(page, `${scheme}, all steps`);
      await listed(page).getByRole("button", { name: "Take out your paper" }).click();
      await at(page, 1);
    }
  }, viewport);
}

/** Barriers, targets too small, numbers too small, and what runs out of the page. */
async function judge(page, place) {
  const found = await page.evaluate(async () => {
    const { violations } = await globalThis.axe.run();
    const open = document.querySelector("dialog[open]") ?? document.querySelector(".bench");
    const seen = (element) => element.getClientRects().length > 0;
    const size = (element) => element.getBoundingClientRect();
    // A field is as large as the label that gives it the focus.
    const targets = [...open.querySelectorAll("a, button, input, textarea, summary")].filter(seen);
    const small = targets.filter((target) => size(target).width < 44 || size(target).height < 44);
    const turns = [...open.querySelectorAll("button.turn-on")].filter((turn) => size(turn).height < 64);
    const numbers = [...open.querySelectorAll(".big-number dd")];
    const faint = numbers.filter((number) => parseFloat(getComputedStyle(number).fontSize) < 40);
    return {
      barriers: violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)]),
      small: [...small, ...turns, ...faint].map((element) => element.outerHTML.slice(0, 120)),
      wide: document.documentElement.scrollWidth > document.documentElement.clientWidth,
    };
  });
  assert.deepEqual(found, { barriers: [], small: [], wide: false }, place);
}
