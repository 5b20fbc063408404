// What is drawn is chosen by tapping it, by the keyboard, or from a problem;
// lines are moved whole; and the figure is told in words.

import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { LAPTOP, PHONE } from "./harness.js";
import { accessible, begin, journey } from "./journey.js";
import { inches, plain } from "./numbers.js";
import { turnTo } from "./parts.js";

/** A walk through a recipe begun from a starting fold. */
const looking = (name, starter, walk, viewport) =>
  journey(
    name,
    async (page, { address }) => {
      await begin(page, address, starter);
      await page.locator(".section").waitFor();
      await walk(page);
    },
    viewport,
  );

const figure = (page) => page.locator('.drawn svg[role="img"]');
const button = (page, name) => page.getByRole("button", { name, exact: true });
const told = async (page) => plain(await figure(page).getAttribute("aria-label"));
const focused = (page, selector) => page.locator(`${selector}:focus`).waitFor();

/** Taps the figure at shares of its width and height. */
async function tapAt(page, across, down) {
  const box = await page.locator(".drawn").boundingBox();
  await page.mouse.click(box.x + across * box.width, box.y + down * box.height);
}

/** Taps in the middle of what is drawn of a line. */
async function tapLine(page, line, off = 0) {
  const box = await page.locator(`.drawn [data-line="${line}"]`).last().boundingBox();
  await page.mouse.click(box.x + box.width / 2 + off, box.y + box.height / 2);
}

async function inView(page, row) {
  await page.waitForFunction(
    (row) => {
      const { top, bottom } = row.getBoundingClientRect();
      const figure = document.querySelector(".figure").getBoundingClientRect();
      const beside = figure.right < row.getBoundingClientRect().left;
      return top >= (beside ? 0 : figure.bottom) - 1 && Math.min(bottom, top + 44) <= innerHeight;
    },
    await row.elementHandle(),
  );
}

for (const [screen, viewport] of Object.entries({ phone: PHONE, laptop: LAPTOP })) {
  looking(`a line, a score and a panel are chosen by tapping on a ${screen}`, "book", async (page) => {
    await button(page, "Add crease").click();
    await page.locator(".line-end").nth(2).waitFor();
    await turnTo(page, "Print direction");
    // Up to 22 px beside the line is near enough.
    const name = await page.locator(".drawn [data-line]").last().getAttribute("data-line");
    await tapLine(page, name, 6);
    await focused(page, ".lines .layer");
    await inView(page, page.locator(".lines .layer"));
    await page.getByRole("tab", { name: "Card", exact: true, selected: true }).waitFor();
    await page.getByRole("button", { name: "Panels", exact: true, pressed: true }).waitFor();
    assert.equal(await page.locator(".line-end").count(), 3, "its ends and its middle can be held");
    await page.locator("path.chosen[d]").waitFor({ state: "attached" });

    await tapLine(page, 0);
    await focused(page, ".score-line");
    await inView(page, page.locator(".score-line"));
    await page.locator(".line-end").first().waitFor({ state: "detached" });

    await tapAt(page, 0.75, 0.6);
    await focused(page, ".panel");
    assert.equal(await page.locator(".panel:focus input").inputValue(), "back");
    await inView(page, page.locator(".panel:focus"));
  }, viewport);
}

looking(
  "what is touched again gives way to what lies beneath",
  "book",
  async (page) => {
    await turnTo(page, "Layers");
    await button(page, "Add mat").click();
    await button(page, "Add focal piece").click();
    await page.locator(".layer").nth(1).waitFor();
    await turnTo(page, "Panels");
    await button(page, "Turn over").click();
    // On the front, beside where the grips come.
    const touch = () => tapAt(page, 0.305, 0.515);
    const inFocus = (name) =>
      page.waitForFunction(
        (name) => document.querySelector(".layer:focus")?.innerText.toLowerCase().startsWith(name),
        name,
      );
    await touch();
    await inFocus("focal piece");
    await touch();
    await inFocus("mat 2");
    await touch();
    await inFocus("mat\n");
    await touch();
    await focused(page, ".panel");
    await touch();
    await inFocus("focal piece");
  },
  LAPTOP,
);

looking("a layer is chosen in the closed card, and by the keyboard", "book", async (page) => {
  await turnTo(page, "Layers");
  await button(page, "Add mat").click();
  await button(page, "Add focal piece").click();
  await page.locator(".layer").nth(1).waitFor();
  await turnTo(page, "Panels");
  await button(page, "Closed").click();
  await tapAt(page, 0.5, 0.5);
  await focused(page, ".layer");
  assert.match(await page.locator(".layer:focus").innerText(), /^focal piece/i);
  await page.locator(".layer:focus .layer-body").waitFor();

  const parts = page.getByRole("group", { name: "Lines and parts in the figure" });
  const names = await parts.getByRole("button").evaluateAll((all) => all.map((it) => it.ariaLabel));
  assert.ok(names.includes("mat 2") && names.includes("the outside of the front"), names.join("; "));
  assert.equal(await parts.locator('[tabindex="0"]').count(), 1, "one of them is in the order of Tab");
  await parts.locator('[tabindex="0"]').focus();
  const now = () => page.evaluate(() => document.activeElement.ariaLabel);
  for (let tries = 0; (await now()) !== "mat 2" && tries < names.length; tries += 1) {
    await page.keyboard.press("ArrowRight");
  }
  assert.equal(await now(), "mat 2");
  await page.keyboard.press("Enter");
  await focused(page, ".layer");
  assert.match(await page.locator(".layer:focus").innerText(), /^mat 2/i);

  await button(page, "Flat").click();
  await page.getByRole("slider", { name: /^Score between/ }).focus();
  await page.keyboard.press("Enter");
  await focused(page, ".score-line");
});

looking("a problem at a score leads to that score", "letter", async (page) => {
  // Off the marks by a tenth of a millimetre.
  await page.locator(".spot").first().click();
  const editor = page.getByRole("dialog");
  await editor.getByRole("textbox", { name: "Length" }).fill("92.1 mm");
  await button(editor, "Done").click();
  await page.getByRole("button", { name: /problem/ }).click();
  const problem = page.locator(".problem", { hasText: "falls between two marks" }).first();
  const at = (await problem.innerText()).match(/at (.+) falls between/)[1];
  await problem.getByRole("button", { name: "Show where" }).click();
  await focused(page, ".score-line");
  const row = page.locator(".score-line:focus");
  assert.ok((await row.innerText()).includes(at), `${await row.innerText()} has ${at}`);
  await inView(page, row);
});

looking("a line is moved whole by dragging and by the arrow keys", "book", async (page) => {
  await button(page, "Add cut").click();
  await page.locator(".line-end").nth(2).waitFor();
  const whole = page.locator(".line-end.whole");
  const ends = page.locator(".line-end:not(.whole)");
  const numbers = async (end) =>
    [...(await end.getAttribute("aria-label")).matchAll(/(?:^|, | and )([^,]+?) from the/g)].map(([, text]) => inches(text));
  const course = async () => [await numbers(ends.first()), await numbers(ends.last())].flat();
  const [x, y, toX, toY] = await course();
  await whole.focus();
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowUp");
  const step = 1 / 16;
  assert.deepEqual(await course(), [x + step, y + step, toX + step, toY + step]);
  const box = await whole.boundingBox();
  assert.ok(box.width >= 44 && box.height >= 44, "a thumb can take hold of it");
  const [left, top] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(left, top);
  await page.mouse.down();
  await page.mouse.move(left + 40, top - 30, { steps: 6 });
  await page.mouse.up();
  const moved = await course();
  assert.ok(moved[0] > x + step && moved[1] > y + step, moved.join("; "));
  // It keeps its shape.
  const shape = ([x, y, toX, toY]) => [toX - x, toY - y].map((length) => Math.round(length * 64));
  assert.deepEqual(shape(moved), shape([x, y, toX, toY]));
  await button(page, "Undo").click();
  assert.deepEqual(await course(), [x + step, y + step, toX + step, toY + step]);
});

looking("the figure is told in words, as it is shown", "book", async (page) => {
  assert.match(await told(page), /^Inside up\. The card base is 8½\s×\s5½\sin\. From the left: the front 4¼\sin; the back 4¼\sin\. The score at 4¼\sin, valley\.$/);
  await button(page, "Turn over").click();
  await page.locator('.drawn svg[aria-label*="mountain"]').waitFor();
  assert.match(await told(page), /^Outside up\. /);
  await button(page, "Closed").click();
  await page.locator('.drawn svg[aria-label^="Front. It measures 4¼"]').waitFor();
  assert.match(await told(page), /From the nearest: the mat 4\s×\s5¼\sin; the outside of the front 4¼\s×\s5½\sin\.$/);
  await button(page, "Opening").click();
  await page.locator('.drawn svg[aria-label*="Closed."]').waitFor();
  await page.emulateMedia({ reducedMotion: "reduce" });
  await page.getByRole("button", { name: "One fold further open" }).click();
  await page.locator('.drawn svg[aria-label*="8½\u{a0}× 5½"]').waitFor();
});

looking("arrows show which way the print runs while that is looked after", "book", async (page) => {
  assert.equal(await page.locator(".drawn .arrow").count(), 0);
  await turnTo(page, "Papers");
  await page.getByLabel("Add another paper").selectOption({ label: "Shore both sides 12 × 12, head to foot" });
  await page.getByLabel("The card base is cut from").selectOption({ label: "Shore both sides 12 × 12, head to foot" });
  await turnTo(page, "Print direction");
  await page.locator(".drawn .arrow").first().waitFor({ state: "attached" });
});

looking("a printed paper is drawn in its own repeat and runs as it is said to", "book", async (page) => {
  await button(page, "Closed").click();
  await turnTo(page, "Papers");
  const print = page.getByLabel("Face, print").first();
  await print.selectOption("Lighthouses, one way up");
  await page.locator('.drawn pattern[width="24"][height="36"]').first().waitFor({ state: "attached" });
  await page.locator(".stock .swatch path.motif").first().waitFor();
  await turnTo(page, "Print direction");
  await page.locator(".drawn .arrow").first().waitFor({ state: "attached" });
  await turnTo(page, "Papers");
  await print.selectOption("Nets, no direction");
  await page.locator('.drawn pattern[width="12"][height="12"]').first().waitFor({ state: "attached" });
});

looking("what is looked at is kept as a drawing as large as the card", "book", async (page) => {
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    button(page, "Download this drawing, as large as the card").click(),
  ]);
  assert.match(download.suggestedFilename(), /\.svg$/);
  const file = await readFile(await download.path(), "utf8");
  const read = await page.evaluate((file) => {
    const svg = new DOMParser().parseFromString(file, "image/svg+xml").documentElement;
    document.body.append(svg);
    const [fold] = [...svg.querySelectorAll(".valley, .mountain")].map((it) => it.getBBox());
    const { unitType, valueInSpecifiedUnits } = svg.width.baseVal;
    const inMillimetres = unitType === SVGLength.SVG_LENGTHTYPE_MM;
    svg.remove();
    return { fold: fold.height, inMillimetres, scale: valueInSpecifiedUnits / svg.viewBox.baseVal.width };
  }, file);
  assert.ok(read.inMillimetres);
  assert.ok(Math.abs(read.scale - 1) < 1e-4, `${read.scale}`);
  // Its fold is 5 1/2 in long.
  assert.ok(Math.abs(read.fold - 5.5 * 25.4) < 0.02, `${read.fold} mm`);
});

// A tent stands on both of its edges (common practice); a book lies flat on its back,
// but stands on its lower edge once it is half open.
for (const starter of ["tent", "book"]) {
  looking(`it is said that a ${starter} stands, and it is turned about`, starter, async (page) => {
    await button(page, "Standing").click();
    const footing = page.locator(".facts");
    await footing.getByText(/^Partly open it stands by itself, .* from tipping over\.$/).waitFor();
    assert.match(await told(page), /^Standing\. Partly open it stands by itself/);
    const shown = () => figure(page).innerHTML();
    const first = await shown();
    const changed = async (from) => {
      for (let tries = 0; (await shown()) === from; tries += 1) {
        assert.ok(tries < 100, "the figure changes");
        await page.waitForTimeout(50);
      }
      return shown();
    };
    const back = button(page, "As at first");
    assert.ok(await back.isDisabled());
    const box = await page.locator(".drawn").boundingBox();
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2 + 60, box.y + box.height / 2 - 20, { steps: 4 });
    await page.mouse.up();
    const dragged = await changed(first);
    const turner = page.getByRole("button", { name: /^Turn it/ });
    await turner.focus();
    await page.keyboard.press("ArrowLeft");
    const pressed = await changed(dragged);
    await back.click();
    await changed(pressed);
    assert.equal(await shown(), first);
    await accessible(page);
  });
}

looking("a layer is moved, stretched and turned by hand", "book", async (page) => {
  await button(page, "Closed").click();
  await tapAt(page, 0.5, 0.5);
  const grip = page.locator(".layer-grip:not(.corner)");
  await grip.waitFor();
  const name = async () => plain(await grip.getAttribute("aria-label"));
  const corner = (which) => page.getByRole("button", { name: new RegExp(`: ${which} corner`) });
  const size = async () => plain(await corner("upper right").getAttribute("aria-label")).split(":")[0];
  const pull = async (handle, right, down) => {
    const box = await handle.boundingBox();
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + right, y + down, { steps: 4 });
    await page.mouse.up();
  };
  const [first, large] = [await name(), await size()];
  await pull(grip, 40, 25);
  assert.notEqual(await name(), first, "it was moved");
  assert.equal(await size(), large, "and kept its size");
  // Undone in one, however many moves the drag had.
  await button(page, "Undo").first().click();
  for (let tries = 0; (await name()) !== first && tries < 100; tries += 1) {
    await page.waitForTimeout(50);
  }
  assert.equal(await name(), first);
  await pull(corner("upper right"), -60, 40);
  assert.notEqual(await size(), large, "it is smaller");
  assert.equal(await name(), first, "and its lower left corner stays");
  const small = await size();
  await page.getByRole("button", { name: /^Turn .* by a quarter$/ }).click();
  assert.notEqual(await size(), small);
  await page.getByRole("button", { name: /^Turn .* by a quarter$/ }).click();
  assert.equal(await size(), small, "twice a quarter is as large as before");
  // The arrow keys do the same, a mark at a time.
  await grip.focus();
  await page.keyboard.press("ArrowLeft");
  await accessible(page);
  // On the card as it stands too, which is turned by a drag beside the layer.
  await button(page, "Standing").click();
  await page.locator(".drawn.turnable").waitFor();
  await grip.waitFor();
  const [lay, as_large] = [await name(), await size()];
  await pull(grip, 30, 20);
  assert.notEqual(await name(), lay, "it was moved");
  assert.equal(await size(), as_large);
  await grip.focus();
  const moved = await name();
  await page.keyboard.press("ArrowUp");
  assert.notEqual(await name(), moved);
  await accessible(page);
  // Its back is turned to whoever has gone round the table.
  for (let times = 0; times < 40 && (await grip.count()) > 0; times += 1) {
    await page.getByRole("button", { name: /^Turn it/ }).press("ArrowLeft");
  }
  assert.equal(await grip.count(), 0);
});
