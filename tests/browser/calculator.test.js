// A recipe is changed by its numbers, its scores and its choices, and looked at
// from all sides.

import assert from "node:assert/strict";
import { test } from "node:test";
import { LAPTOP, PHONE, openBrowser, startServer } from "./harness.js";
import { AXE } from "./journey.js";
import { inches, plain, shown } from "./numbers.js";
import { PARTS, turnTo } from "./parts.js";


/** Runs a journey in a recipe begun from a starting fold. */
function journey(name, starter, walk, viewport = PHONE) {
  test(name, async (t) => {
    const server = await startServer();
    const browser = await openBrowser(viewport);
    try {
      const page = await browser.context.newPage();
      await begin(page, server.address, starter);
      await walk(page, t);
      assert.deepEqual(browser.complaints, []);
    } finally {
      await browser.close();
      await server.stop();
    }
  });
}

async function begin(page, address, starter) {
  await page.goto(`${address}/new`);
  await page.locator("main[data-ready]").waitFor();
  await page.locator(`[data-starter="${starter}"]`).click();
  await figure(page).waitFor();
}

const figure = (page) => page.locator(".drawn svg");
const drawn = (page) => page.locator(".drawn svg g").first().innerHTML();
const editor = (page) => page.getByRole("dialog");
const field = (page) => editor(page).getByRole("textbox", { name: "Length" });
const facts = async (page) => plain(await page.locator(".facts").innerText());
const spot = (page, name) => page.locator(`.spot[aria-label^="${name},"]`).first();

/** Opens the editor of a number in the figure and types. */
async function type(page, name, text) {
  await spot(page, name).click();
  await field(page).fill(text);
}

const done = (page) => editor(page).getByRole("button", { name: "Done", exact: true }).click();

journey("numbers are read as people write them, and others follow", "book", async (page) => {
  await type(page, "front width", "3-3/4");
  await editor(page).getByText(shown("= 3 3/4 in")).waitFor();
  await editor(page).locator(".moved li").first().waitFor();
  const moved = await editor(page).locator(".moved li").allInnerTexts().then((all) => all.map(plain));
  // Two panels of 3 3/4 in make a strip of 7 1/2 in (arithmetic).
  assert.ok(moved.includes(shown("card base length 8 1/2 → 7 1/2 in")), moved.join("; "));
  assert.ok(moved.includes(shown("back width 4 1/4 → 3 3/4 in")), moved.join("; "));

  // 95 mm is 1/4 mm short of 3 3/4 in of 25.4 mm each.
  await field(page).fill("95 mm");
  await editor(page).getByText(`= ${shown("3 3/4")}⁻ in`).waitFor();
  const exactly = editor(page).locator(".number-reads .exact");
  assert.equal(await exactly.isVisible(), false);
  const reads = editor(page).locator(".number-reads");
  await reads.getByRole("button", { name: "a little under three and three quarters inches" }).click();
  await exactly.getByText("exactly 95 mm").waitFor();
  await page.keyboard.press("Escape");
  assert.equal(await exactly.isVisible(), false);
  assert.ok(await field(page).isVisible(), "only the exact length is put away");
  await field(page).fill("3 3/");
  await editor(page).getByText("This fraction has nothing under the bar.").waitFor();
  assert.ok(await editor(page).getByRole("button", { name: "Done", exact: true }).isDisabled());
  await field(page).fill("4");
  await editor(page).getByRole("button", { name: "one sixteenth of an inch more" }).click();
  assert.equal(await field(page).inputValue(), "4 1/16 in");
  await done(page);
  assert.match(await facts(page), /^Closed 4¹⁄₁₆\s×\s5½\sin/);

  // All that was typed is one change.
  await page.getByRole("button", { name: "Undo" }).click();
  assert.match(await facts(page), /^Closed 4¼\s×\s5½\sin/);
  await page.getByRole("button", { name: "Redo" }).click();
  assert.match(await facts(page), /^Closed 4¹⁄₁₆\s×\s5½\sin/);
});

journey("a change that what is pinned rules out is refused in words", "book", async (page) => {
  await spot(page, "card base length").click();
  await editor(page).getByRole("checkbox").check();
  await done(page);
  const before = await drawn(page);
  await type(page, "front width", "4");
  await editor(page).getByText(/Pinned: card base length\./).waitFor();
  assert.equal(await drawn(page), before, "nothing has moved");
  await editor(page).getByRole("button", { name: "Free card base length" }).click();
  await field(page).fill("4");
  await editor(page).getByText(shown("card base length 8 1/2 → 8 in")).waitFor();
});

journey("a score is dragged from mark to mark and moved by the arrow keys", "own", async (page, t) => {
  const score = page.getByRole("slider", { name: /^Score between/ });
  const length = await spot(page, "card base length").getAttribute("aria-label");
  const inches = () => score.getAttribute("aria-valuenow").then((mm) => Number(mm) / 25.4);
  const first = await inches();
  const box = await score.boundingBox();
  assert.ok(box.width >= 44, "a thumb can take hold of it");
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 20, y, { steps: 4 });
  await page.mouse.move(x + 40, y, { steps: 4 });
  await page.mouse.up();
  const dragged = await inches();
  assert.ok(dragged > first, `${dragged} > ${first}`);
  // The ruler has marks at every 1/16 in.
  assert.ok(Math.abs(dragged * 16 - Math.round(dragged * 16)) < 1e-6, `${dragged} is a mark`);
  assert.equal(await spot(page, "card base length").getAttribute("aria-label"), length);

  // All of a drag is one change.
  await page.getByRole("button", { name: "Undo" }).click();
  assert.equal(await inches(), first);
  await page.getByRole("button", { name: "Redo" }).click();
  assert.equal(await inches(), dragged);

  await score.focus();
  await page.keyboard.press("ArrowLeft");
  assert.ok(Math.abs((await inches()) - (dragged - 1 / 16)) < 1e-6);
  assert.ok(await score.evaluate((handle) => handle === document.activeElement), "the focus stays");

  // From a key to the next paint, told but not judged: it depends on the machine.
  // The processor is slowed four times, to be like a simple phone's.
  const slowed = await page.context().newCDPSession(page);
  await slowed.send("Emulation.setCPUThrottlingRate", { rate: 4 });
  const times = await score.evaluate(async (handle) => {
    const frame = () => new Promise((painted) => requestAnimationFrame(painted));
    const times = [];
    for (let round = 0; round < 20; round += 1) {
      const key = round % 2 ? "ArrowLeft" : "ArrowRight";
      await frame();
      const start = performance.now();
      handle.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));
      // Changes reach the page in microtasks, before this goes on.
      await new Promise((settled) => setTimeout(settled));
      times.push(performance.now() - start);
    }
    return times.sort((a, b) => a - b);
  });
  t.diagnostic(`edit to new figure: median ${times[10].toFixed(1)} ms, slowest ${times[19].toFixed(1)} ms`);
});

journey("the slider folds the card", "letter", async (page) => {
  await page.emulateMedia({ reducedMotion: "reduce" });
  await page.getByRole("button", { name: "Closed", exact: true }).click();
  const front = await drawn(page);
  await page.getByRole("button", { name: "Turn over" }).click();
  assert.notEqual(await drawn(page), front);
  await page.getByRole("button", { name: "Opening", exact: true }).click();
  const slider = page.getByRole("slider", { name: "How far the card is open" });
  assert.equal(await slider.getAttribute("aria-valuetext"), "Closed");
  const seen = new Set([await drawn(page)]);
  await slider.focus();
  for (let round = 0; round < 10; round += 1) {
    await page.keyboard.press("ArrowRight");
    seen.add(await drawn(page));
  }
  assert.equal(seen.size, 11, "every step of the slider shows another picture");
  await page.getByRole("button", { name: "One fold further open" }).click();
  assert.match(await slider.getAttribute("aria-valuetext"), / opened$/);
  await page.getByRole("button", { name: "One fold further open" }).click();
  assert.equal(await slider.getAttribute("aria-valuetext"), "Flat");
});

/** What is beside the figure follows it by a frame. */
async function there(what, count) {
  await what.nth(count - 1).waitFor({ state: "attached" });
  await what.nth(count).waitFor({ state: "detached" });
}

journey("panels are added, flipped and removed", "own", async (page) => {
  const rows = page.locator(".panel");
  await there(rows, 2);
  await page.getByRole("button", { name: /^Add a panel after/ }).last().click();
  await there(rows, 3);
  await there(page.locator(".score-handle"), 2);
  await there(page.locator(".score-line"), 2);
  const before = await drawn(page);
  const other = page.locator(".score-line [aria-pressed=false]").last();
  await other.click();
  assert.notEqual(await drawn(page), before);
  await page.getByRole("button", { name: /^Remove / }).last().click();
  await there(rows, 2);
});

journey("a crease at an angle is drawn, dragged, flipped and taken back", "book", async (page) => {
  const before = await drawn(page);
  await page.getByRole("button", { name: "Add crease" }).click();
  await there(page.locator(".lines .layer"), 1);
  // Its ends, and the whole of it.
  await there(page.locator(".line-end"), 3);
  assert.notEqual(await drawn(page), before);

  // Along the lower edge to the right, onto which it stays.
  const end = page.locator(".line-end").last();
  const at = async () => plain(await end.getAttribute("aria-label"));
  assert.match(await at(), /^End of crease 1, 2⅛\sin from the left and 0\sin from the bottom/);
  await end.focus();
  await page.keyboard.press("ArrowRight");
  assert.match(await at(), /two and three sixteenths inches from the left and 0\sin/);
  const box = await end.boundingBox();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width / 2 - 30, box.y + box.height / 2 + 3, { steps: 4 });
  await page.mouse.up();
  assert.match(await at(), /from the left and 0\sin from the bottom/);
  assert.doesNotMatch(await at(), /two and three sixteenths inches from the left/);
  const dragged = await at();
  await page.getByRole("button", { name: "Undo" }).click();
  assert.match(await at(), /two and three sixteenths inches from the left/);
  await page.getByRole("button", { name: "Redo" }).click();
  assert.equal(await at(), dragged);

  // The corner folds over, the mat across it; a cut there takes it off.
  await page.getByText("No problems").waitFor({ state: "detached" });
  await page.locator(".lines").getByRole("button", { name: "Cut" }).click();
  await page.locator(".drawn .waste").waitFor({ state: "attached" });
  await page.getByRole("button", { name: "Remove crease 1" }).click();
  await page.locator(".line-end").first().waitFor({ state: "detached" });
  assert.equal(await drawn(page), before);
});

journey("a step stands up as the card opens", "step", async (page) => {
  await page.getByText("No problems").waitFor();
  await page.getByRole("button", { name: "Opening", exact: true }).click();
  const slider = page.locator('.opening input[type="range"]');
  const seen = new Set();
  for (const share of [0.25, 0.5, 0.75]) {
    await slider.evaluate((slider, share) => {
      slider.value = slider.max * share;
      slider.dispatchEvent(new Event("input", { bubbles: true }));
    }, share);
    seen.add(await drawn(page));
  }
  assert.equal(seen.size, 3);
});

journey("glue that reaches past its panel is refused", "own", async (page) => {
  await type(page, "panel 1 width", "1 3/4");
  await done(page);
  await turnTo(page, "Layers");
  await page.getByRole("button", { name: "Add mat" }).click();
  await page.getByRole("button", { name: "Add focal piece" }).click();
  const layer = page.locator(".layer").last();
  for (const [name, text] of [["Width", "4"], ["Height", "2 1/2"]]) {
    await layer.getByRole("button", { name }).first().click();
    await field(page).fill(text);
    await done(page);
  }
  assert.equal(await layer.getByText("Glue refused").count(), 0);
  await layer.getByRole("button", { name: "Where I set it" }).click();
  for (const edge of ["Left", "Right", "Top", "Bottom"]) {
    await layer.getByRole("textbox", { name: edge, exact: true }).fill("0");
    await layer.getByRole("textbox", { name: edge, exact: true }).press("Tab");
  }
  // A piece wider than its panel is glued on that panel only (common practice).
  await layer.getByText("Glue refused").waitFor();
  await layer.getByText(/^The glue of the focal piece/).first().waitFor();
  await page.getByRole("button", { name: /problem/ }).click();
  await page.getByText(/^The glue of the focal piece/).first().waitFor();
  await page.getByRole("button", { name: "Show where" }).first().click();
  await layer.getByRole("button", { name: "Where it is safe" }).click();
  await layer.getByText("Glue refused").waitFor({ state: "detached" });
});

journey("envelopes are offered tightest first, and the choice is kept", "book", async (page) => {
  await turnTo(page, "Envelope");
  const envelopes = page.getByRole("radiogroup", { name: "Envelope", exact: true });
  await envelopes.locator(".option").first().waitFor();
  const offered = await envelopes.locator(".option").allInnerTexts();
  // Metric ones are off the marks of an inch ruler and written longer.
  const sizes = offered.flatMap((option) => plain(option).match(/^[^ ]+ ×\s[^ ]+(?= in$)/m) ?? []);
  const areas = sizes.map((size) => size.split(" × ").map(inches).reduce((one, other) => one * other));
  assert.ok(areas.length > 1, offered.join("; "));
  assert.deepEqual(areas, [...areas].sort((a, b) => a - b), "the least first");
  const tightest = envelopes.getByRole("radio").nth(1);
  await tightest.check();
  await page.reload();
  await figure(page).waitFor();
  await turnTo(page, "Envelope");
  assert.ok(await tightest.isChecked());
  await page.getByRole("combobox", { name: "Envelope" }).selectOption({ label: "A1 announcement" });
  await page.getByText(/^A1 announcement is .* too (short|low)/).waitFor();
});

journey("marked faces decide how the paper lies", "book", async (page) => {
  await turnTo(page, "Papers");
  await page.getByLabel("Add another paper").selectOption({ label: "Shore both sides 12 × 12, head to foot" });
  await page.getByLabel("The card base is cut from").selectOption({ label: "Shore both sides 12 × 12, head to foot" });
  await turnTo(page, "Print direction");
  const face = (name) => page.getByRole("checkbox", { name: new RegExp(`^${name}`) });
  await face("the outside of the front").check();
  assert.equal(await page.locator(".problems").count(), 0);
  await page.getByText(/^The print's feet point away from you\./).waitFor();
  // Head to foot, one side of a book is upside down (common practice).
  await face("the inside of the back").check();
  await page.locator(".problems .problem-what").first().waitFor();
});

for (const [name, viewport] of Object.entries({ phone: PHONE, laptop: LAPTOP })) {
  for (const colorScheme of ["light", "dark"]) {
    journey(`has no barrier on a ${name} in the ${colorScheme}`, "gate", async (page) => {
      await page.emulateMedia({ colorScheme });
      await page.evaluate(AXE);
      const barriers = async (where) => {
        // Half faded in, nothing has its contrast yet.
        await page.evaluate(() => Promise.all(document.getAnimations().map((it) => it.finished.catch(() => {}))));
        const { violations } = await page.evaluate(() => globalThis.axe.run());
        const told = violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)]);
        assert.deepEqual(told, [], where);
      };
      for (const section of Object.keys(PARTS)) {
        await turnTo(page, section);
        if (section === "Layers") await page.getByRole("button", { name: "Add mat" }).click();
        await barriers(section);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        assert.ok(wide <= 0, `${section} is ${wide} px too wide`);
      }
      await page.locator(".problem-count").click();
      await page.getByRole("region", { name: "Problems" }).waitFor();
      await barriers("problems");
      await page.locator(".problem-count").click();
      await page.getByRole("button", { name: "Opening", exact: true }).click();
      await barriers("opening");
      await page.getByRole("button", { name: "Flat", exact: true }).click();
      await page.locator(".spot").first().click();
      await barriers("number");
    }, viewport);
  }
}
