// Something comes out different at the bench: it is told with a thumb, answered
// by ways to go on, and taken back to the plan; without a connection too.

import assert from "node:assert/strict";
import { LAPTOP, PHONE } from "./harness.js";
import { AXE, begin, journey } from "./journey.js";
import { plain, shown } from "./numbers.js";

/** A walk at the bench of a recipe begun from a starting fold. */
const rescuing = (name, starter, walk, viewport) =>
  journey(
    name,
    async (page, { address: served, server }) => {
      await begin(page, served, starter);
      const address = page.url().replace("/recipe/", "/bench/");
      await page.goto(address);
      await page.locator(".bench h1").waitFor();
      await walk(page, { address, server });
    },
    viewport,
  );

const next = (page) => page.locator("button.turn-on");
const dialog = (page) => page.locator("dialog[open]");
const offers = (page) => dialog(page).locator(".offer");
const offer = (page, title) => offers(page).filter({ has: page.getByRole("heading", { name: title }) });

/** Waits until the bench stands at a step. */
async function at(page, key) {
  await page.waitForFunction((key) => new URL(location.href).searchParams.get("step") === key, key);
  await page.locator(".bench h1").waitFor();
}

/** Goes on until the bench stands at a step. */
async function goOn(page, key) {
  const step = () => new URL(page.url()).searchParams.get("step");
  for (let before = step(); before !== key; before = step()) {
    assert.notEqual(before, "finish");
    await next(page).click();
    await page.waitForURL((url) => url.searchParams.get("step") !== before);
  }
  await at(page, key);
}

/** The large number of that label. */
async function number(page, label) {
  const value = page.locator(".big-number").filter({ hasText: label }).locator("dd");
  return (await value.innerText()).replaceAll("\u00a0", " ").trim();
}

async function waitForNumber(page, label, value) {
  await page.waitForFunction(
    ([label, value]) =>
      [...document.querySelectorAll(".big-number")].some(
        (big) =>
          big.querySelector("dt").textContent === label &&
          big.querySelector("dd").textContent.replaceAll("\u00a0", " ").trim() === value,
      ),
    [label, value],
  );
}

/** Sets a number in the figure of the recipe. */
async function set(page, name, text) {
  await page.locator(`.spot[aria-label^="${name},"]`).first().click();
  await dialog(page).getByRole("textbox", { name: "Length", exact: true }).fill(text);
  await dialog(page).getByRole("button", { name: "Done", exact: true }).click();
  await dialog(page).waitFor({ state: "detached" });
}

async function tap(page, label, times) {
  for (let tap = 0; tap < times; tap += 1) {
    await dialog(page).getByRole("button", { name: label }).click();
  }
}

async function tell(page) {
  await dialog(page).getByRole("button", { name: "See what can be saved" }).click();
  await offers(page).first().waitFor();
}

async function cameOut(page) {
  await page.locator(".came-out").click();
  await dialog(page).waitFor();
}

rescuing("a strip too low makes a lower card, and the plan comes back", "book", async (page, { address }) => {
  await goOn(page, "cut-strip");
  assert.equal(await number(page, "height"), shown("5 1/2 in"));
  await cameOut(page);
  await dialog(page).getByRole("button", { name: "See what can be saved" }).click();
  await dialog(page).getByText("That is as planned.").waitFor();
  await tap(page, "height: one sixteenth of an inch less", 2);
  assert.equal(await dialog(page).getByRole("textbox", { name: "height, as measured" }).inputValue(), "5 3/8 in");
  await tell(page);
  // The mat is not cut yet and follows: 5 3/8 in less two borders of 1/8 in.
  const keep = offers(page).first();
  assert.match(await keep.innerText(), /change the rest/);
  assert.match(await keep.innerText(), /No new paper/);
  assert.match(await keep.innerText(), /mat height\s+5¼\s*(→|becomes|\s)+5⅛\sin/i);
  assert.equal(await keep.locator(".closed").count(), 2);
  assert.match(await offers(page).last().innerText(), /Cut .*again[\s\S]*Paper for the card base: /i);
  await keep.getByRole("button", { name: /^Go on: / }).click();

  const mat = await page.waitForFunction(() => {
    const step = new URL(location.href).searchParams.get("step");
    return step.startsWith("cut-layer-") && step;
  });
  const matKey = await mat.jsonValue();
  await waitForNumber(page, "height", shown("5 1/8 in"));
  await page.locator(".notice").getByRole("button", { name: "Undo" }).click();
  await at(page, "cut-strip");
  await waitForNumber(page, "height", shown("5 1/2 in"));

  // The same again, and back to the plan after a reload.
  await cameOut(page);
  await tap(page, "height: one sixteenth of an inch less", 2);
  await tell(page);
  await offers(page).first().getByRole("button", { name: /^Go on: / }).click();
  await at(page, matKey);
  await page.goto(address);
  await at(page, matKey);
  await waitForNumber(page, "height", shown("5 1/8 in"));
  await cameOut(page);
  await dialog(page).getByRole("button", { name: "Go back to the plan" }).click();
  await at(page, "cut-strip");
  await waitForNumber(page, "height", shown("5 1/2 in"));
  await cameOut(page);
  await dialog(page).getByRole("textbox").first().waitFor();
  assert.equal(await dialog(page).getByText("Go back to the plan").count(), 0);
});

rescuing("what came out right is kept, and the mat is trimmed for it", "book", async (page, { address }) => {
  // A card of 5 × 7 in: the strip is 10 × 7 in, the mat 4 3/4 × 6 3/4 in.
  await page.goto(address.replace("/bench/", "/recipe/"));
  await set(page, "front width", "5");
  await set(page, "card height", "7");
  await page.goto(address);
  await page.locator(".bench h1").waitFor();
  const all = page.getByRole("dialog", { name: "All steps" });
  await page.locator(".bench-progress").click();
  await all.getByRole("button", { name: /^\d+\s*Check the card base/ }).click();
  await at(page, "cut-strip");
  await waitForNumber(page, "length", "10 in");
  const cutMat = "cut-layer-1";
  await goOn(page, cutMat);
  await waitForNumber(page, "height", shown("6 3/4 in"));
  await next(page).click();
  await at(page, "score-0");

  await page.locator(".bench-progress").click();
  await all.getByRole("button", { name: /^\d+\s*Check the card base/ }).click();
  await at(page, "cut-strip");
  await cameOut(page);
  await tap(page, "height: one sixteenth of an inch less", 2);
  await tell(page);
  assert.equal(await offers(page).count(), 2);
  const keep = offers(page).first();
  assert.match(await keep.getByRole("heading").innerText(), /^Keep .*, trim the mat$/);
  assert.match(await keep.innerText(), /trim it to 4¾\s×\s6⅝\sin/);
  assert.match(await keep.innerText(), /No new paper/);
  await keep.getByRole("button", { name: /^Go on: / }).click();

  // A step of its own, after the one it is cut in, which stays done.
  const trimMat = cutMat.replace("cut-", "trim-");
  await at(page, trimMat);
  assert.equal(plain(await page.locator(".bench h1").innerText()), shown("Trim the mat to 4 3/4 × 6 5/8 in"));
  await waitForNumber(page, "height", shown("6 5/8 in"));
  await page.getByText(shown("Cut 1/8 in off the height of the mat.")).waitFor();
  await page.goto(address);
  await at(page, trimMat);
  await next(page).click();
  await at(page, "score-0");
  await page.locator(".bench-progress").click();
  await all.getByText("Trim the mat to").waitFor();
  await page.keyboard.press("Escape");

  // Back to the plan there is nothing to trim.
  await cameOut(page);
  await dialog(page).getByRole("button", { name: "Go back to the plan" }).click();
  await at(page, "cut-strip");
  await waitForNumber(page, "height", "7 in");
  await page.locator(".bench-progress").click();
  await all.waitFor();
  assert.equal(await all.getByText("Trim the mat to").count(), 0);
});

rescuing("a score in the wrong place, without the server", "book", async (page, { server }) => {
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await server.stop();
  await page.locator(".bench-progress").click();
  await page.getByRole("dialog", { name: "All steps" }).getByRole("button", { name: /^\d+\s*Score/ }).click();
  await at(page, "score-0");
  await cameOut(page);
  const field = dialog(page).getByRole("textbox");
  await field.fill("4 1/");
  await dialog(page).getByRole("button", { name: "See what can be saved" }).click();
  assert.notEqual(await dialog(page).getByRole("alert").innerText(), "");
  await field.fill("4 3/8");
  await tell(page);
  // The halves have to be equal.
  await dialog(page).getByText("It can't stay as it is.").waitFor();
  await page.locator(".rescue-lead").getByText("front width = back width").waitFor();
  assert.match(await offer(page, /^Score .* again/).innerText(), /stays visible/);
  const trim = offer(page, /^Trim .* to /);
  assert.match(await trim.innerText(), /Cut ¼\sin off the edge of the front: the panel stays 4⅛\sin wide/);
  // The length came out right, and it is said what forces it.
  assert.match(await trim.innerText(), /The length of .* can't stay 8½\sin\.[\s\S]*front width = back width/i);
  await offer(page, /^Score .* again/).getByRole("button", { name: /^Go on: / }).click();
  await at(page, "score-0");
  assert.equal(await number(page, "valley"), shown("4 1/4 in"));
});

rescuing("afterwards too, and some of a batch", "book", async (page, { address }) => {
  await page.getByRole("textbox", { name: "Cards to make, 1 to 9999" }).fill("24");
  await page.getByText("This is for 24 cards.").waitFor();
  assert.equal(await page.locator(".came-out").count(), 0);
  await goOn(page, "cut-strip");
  for (let tap = 0; tap < 10; tap += 1) await page.getByRole("button", { name: "One more done" }).click();
  await goOn(page, "score-0");
  await next(page).click();
  await page.getByRole("button", { name: "Something came out different" }).click();
  await dialog(page).getByRole("button", { name: /^Check the card base/ }).click();
  await tap(page, "height: one sixteenth of an inch less", 2);
  await dialog(page).getByRole("button", { name: "One more" }).click();
  await tell(page);
  assert.match(await offers(page).last().innerText(), /Cut these 2 pieces again/);
  const keep = offers(page).first();
  assert.match(await keep.innerText(), /The other 22 cards stay as planned/);
  await keep.getByRole("button", { name: /^Go on: / }).click();
  await page.getByText("is a recipe of its own now.").waitFor();
  await page.getByRole("link", { name: "To its bench" }).click();
  await page.waitForURL((url) => !url.href.startsWith(address));
  await page.getByRole("button", { name: "2 cards" }).waitFor();
  // Both strips are cut, and so are all others, counted or not.
  const base = page.getByRole("dialog", { name: "All steps" }).getByRole("button", { name: /the card base/ }).first();
  await page.locator(".bench-progress").click();
  await base.getByText("Cut, done").waitFor();
  await page.goto(address);
  await page.locator(".bench h1").waitFor();
  await page.locator(".bench-progress").click();
  await base.getByText("Cut, done").waitFor();
  await page.keyboard.press("Escape");
  await page.locator(".came-out").click();
  await dialog(page).getByRole("button", { name: "Go back to the plan" }).click();
  await page.locator(".bench-progress").click();
  await base.getByText("Cut, 10 of 24 done").waitFor();
  const kept = await page.evaluate(
    () => Object.keys(localStorage).filter((key) => key.startsWith("foldwright/recipe/")).length,
  );
  assert.equal(kept, 1);
});

rescuing("scores that are yet to come may follow", "gate", async (page) => {
  await page.locator(".bench-progress").click();
  await page.getByRole("dialog", { name: "All steps" }).getByRole("button", { name: /^\d+\s*Score/ }).click();
  await at(page, "score-0");
  await cameOut(page);
  const made = dialog(page).getByRole("checkbox");
  assert.equal(await made.count(), 2);
  await made.nth(1).uncheck();
  assert.ok(await dialog(page).getByRole("textbox").nth(1).isDisabled());
  await dialog(page).getByRole("button", { name: /one sixteenth of an inch less$/ }).first().click();
  await tell(page);
  // The gap between the leaves is a quarter inch at most, so the strip is cut
  // down with what was scored.
  await offer(page, /^Trim .* to /).getByRole("button", { name: /^Go on: / }).click();
  await page.locator("dialog[open]").waitFor({ state: "detached" });
  await page.getByText("The bench goes on from here.").waitFor();
});

for (const [device, viewport] of Object.entries({ phone: PHONE, laptop: LAPTOP })) {
  rescuing(`is in reach of everybody on a ${device}`, "gate", async (page) => {
    await page.getByRole("button", { name: "One card more" }).click();
    await goOn(page, "cut-strip");
    for (const scheme of ["light", "dark"]) {
      await page.emulateMedia({ colorScheme: scheme, reducedMotion: "reduce" });
      await page.evaluate(AXE);
      await cameOut(page);
      await judge(page, `${scheme}, what was measured`);
      await tap(page, "length: one sixteenth of an inch less", 1);
      await tell(page);
      // What was found has the focus, so that a screen reader reads it.
      await page.waitForFunction(() => document.activeElement?.matches(".rescue-lead"));
      await judge(page, `${scheme}, what can be saved`);
      await dialog(page).getByRole("button", { name: "Measure again" }).click();
      await dialog(page).getByRole("textbox").first().waitFor();
      await page.keyboard.press("Escape");
      await dialog(page).waitFor({ state: "hidden" });
    }
  }, viewport);
}

/** Barriers, targets too small, and what runs out of the page. */
async function judge(page, place) {
  const found = await page.evaluate(async () => {
    const { violations } = await globalThis.axe.run();
    const open = document.querySelector("dialog[open]");
    const seen = (element) => element.getClientRects().length > 0;
    const size = (element) => (element.closest("label") ?? element).getBoundingClientRect();
    const targets = [...open.querySelectorAll("a, button, input, textarea, summary")].filter(seen);
    const small = targets.filter((target) => size(target).width < 44 || size(target).height < 44);
    return {
      barriers: violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)]),
      small: small.map((element) => element.outerHTML.slice(0, 120)),
      wide: open.scrollWidth > open.clientWidth,
    };
  });
  assert.deepEqual(found, { barriers: [], small: [], wide: false }, place);
}

rescuing("a spoiled piece goes back on the list of what is cut", "book", async (page) => {
  await goOn(page, "score-0");
  await page.getByRole("button", { name: "This came out different" }).click();
  await dialog(page).getByRole("button", { name: "It is spoiled: make another" }).click();
  assert.equal(await offers(page).count(), 1);
  await offer(page, "again").getByRole("button", { name: /^Go on/ }).click();
  await at(page, "cut-strip");
  await page.getByRole("button", { name: "Undo" }).click();
  await at(page, "score-0");
});
