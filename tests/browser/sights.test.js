// Where the sides of a card are seen: what is put on them goes by that.

import assert from "node:assert/strict";
import { LAPTOP, PHONE } from "./harness.js";
import { accessible, begin, journey } from "./journey.js";
import { turnTo } from "./parts.js";

const button = (page, name) => page.getByRole("button", { name, exact: true });

/** The choice of that name, and what it offers once it is tapped. */
const choice = (page, name) => page.getByRole("group", { name, exact: true });

for (const [where, viewport] of Object.entries({ phone: PHONE, laptop: LAPTOP })) {
  journey(
    `a mat goes where it is seen, on a ${where}`,
    async (page, { address }) => {
      await begin(page, address, "gate");
      await turnTo(page, "Layers");
      const on = choice(page, "On");
      // Both leaves are the front of a gate (common practice).
      const now = on.getByRole("button", { expanded: false });
      assert.equal(
        await now.innerText().then((words) => words.replace(/\s+/g, " ").trim()),
        "Seen on the front of the closed card. The outside of the left leaf",
      );
      await now.click();
      const offered = on.locator("li");
      assert.equal(await offered.count(), 6);
      assert.equal(await on.locator("li svg").count(), 6);
      assert.equal(await on.locator("li", { hasText: "Seen on the front" }).count(), 2);
      await accessible(page);
      for (const box of await Promise.all((await offered.getByRole("button").all()).map((it) => it.boundingBox()))) {
        assert.ok(box.height >= 44, "a thumb finds it");
      }
      await on.getByRole("button", { name: /^Seen on the back of the closed card\./ }).click();
      assert.equal(await offered.count(), 0);
      await on.getByRole("button", { name: /The outside of the middle$/, expanded: false }).waitFor();
      await button(page, "Add mat").click();
      await page.locator(".layer-head", { hasText: "on the outside of the middle" }).waitFor();
      // And from there to another side.
      const lies = choice(page, "Lies on");
      await lies.getByRole("button", { expanded: false }).click();
      await lies.getByRole("button", { name: /^Seen at the first opening \(left leaf\)\. The inside of the middle$/ }).click();
      await page.locator(".layer-head", { hasText: "on the inside of the middle" }).waitFor();
      await button(page, "Undo").click();
      await page.locator(".layer-head", { hasText: "on the outside of the middle" }).waitFor();
    },
    viewport,
  );
}

journey("a white back gets a mat with one tap", async (page, { address }) => {
  await begin(page, address, "tent");
  await turnTo(page, "Layers");
  await page.getByText("Nothing is put on yet.").waitFor();
  assert.equal(await page.getByRole("heading", { name: "White backs" }).count(), 0);
  await turnTo(page, "Papers");
  await page.getByLabel("Add another paper").selectOption({ label: "Speckle 12 × 12, white back" });
  await page.getByLabel("The card base is cut from").selectOption({ label: "Speckle 12 × 12, white back" });
  await turnTo(page, "Layers");
  await page.getByRole("heading", { name: "White backs" }).waitFor();
  const white = page.locator(".white-back");
  assert.equal(await white.count(), 2);
  await accessible(page);
  const one = await white.first().getByRole("button").getAttribute("aria-label");
  await white.first().getByRole("button").click();
  await page.waitForFunction(() => document.querySelectorAll(".white-back").length === 1);
  const row = page.locator(".layers .layer");
  assert.equal(await row.count(), 1);
  assert.ok(one.startsWith("Add a mat on the "));
  await page.locator(".layer-head", { hasText: one.slice("Add a mat ".length) }).waitFor();
  // The focus is on what has come.
  await page.waitForFunction(() => document.activeElement?.classList.contains("layer"));
  await button(page, "Undo").click();
  await page.waitForFunction(() => document.querySelectorAll(".white-back").length === 2);
  assert.equal(await row.count(), 0);
});
