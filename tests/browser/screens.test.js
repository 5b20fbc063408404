// Every screen in each language, theme and size: nothing on it keeps people from
// using it, and all that is written can be read. Rules by axe; what it leaves undecided
// of contrast is computed here, by WCAG 2.2, 1.4.3.

import assert from "node:assert/strict";
import { test } from "node:test";
import { LAPTOP, PHONE, openBrowser, startServer, walked } from "./harness.js";
import { AXE, begin } from "./journey.js";

const JOIN = { "en-US": "Bring it in", "de-DE": "Hereinholen" };
const SIZES = { phone: PHONE, laptop: LAPTOP };
const THEMES = ["light", "dark"];

for (const [locale, join] of Object.entries(JOIN)) {
  for (const [size, viewport] of Object.entries(SIZES)) {
    test(`every screen can be used and read, ${locale}, ${size}`, async () => {
      const server = await startServer();
      const browser = await openBrowser(viewport, { locale });
      try {
        const page = await browser.context.newPage();
        await walked([browser], () => walk(page, server, join));
        assert.deepEqual(browser.complaints, []);
      } finally {
        await browser.close();
        await server.stop();
      }
    });
  }
}

async function walk(page, { address, code }, join) {
  const open = async (path) => {
    await page.goto(`${address}${path}`);
    await page.locator("main[data-ready] h1").first().waitFor();
    await free(page, path);
  };
  await open("/");
  await page.locator(".samples [data-sample] svg").nth(5).waitFor();
  await free(page, "the finished cards");
  await open("/new");
  await page.locator("[data-starter] svg").first().waitFor();
  await begin(page, address, "gate");
  const recipe = new URL(page.url()).pathname;
  await free(page, "a recipe");
  await open(recipe.replace("recipe", "bench"));
  await open(recipe.replace("recipe", "earlier"));
  for (const path of ["/list", "/scrap", "/paper", "/settings", "/words", "/devices", "/nowhere"]) await open(path);
  await page.goto(`${address}/devices#code=${code}`);
  await page.getByRole("button", { name: join, exact: true }).click();
  await page.locator(".status-link").waitFor();
  for (const path of ["/devices", "/"]) await open(path);
}

/** Asserts that a screen is free of barriers in each theme. */
async function free(page, where) {
  for (const colorScheme of THEMES) {
    await page.emulateMedia({ colorScheme });
    // Half faded in, nothing has its contrast yet. What goes by scrolling never ends.
    await page.evaluate(() => {
      const timed = document.getAnimations().filter((it) => it.timeline === document.timeline);
      return Promise.all(timed.map((it) => it.finished.catch(() => {})));
    });
    await page.evaluate(AXE);
    const { violations, incomplete } = await page.evaluate(() => globalThis.axe.run());
    const told = violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)]);
    assert.deepEqual(told, [], `${where}, ${colorScheme}`);
    const undecided = incomplete.filter(({ id }) => id === "color-contrast").flatMap(({ nodes }) => nodes);
    const targets = undecided.map(({ target }) => target.flat().join(" "));
    assert.deepEqual(await page.evaluate(faint, targets), [], `${where}, ${colorScheme}`);
  }
}

// Runs in the page: what of these is too near in lightness to the ground behind it.
function faint(targets) {
  const channels = (colour) => colour.match(/[\d.]+/g).map(Number);
  const lightness = (colour) => {
    const linear = channels(colour).slice(0, 3).map((channel) => {
      const part = channel / 255;
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2];
  };
  const isOpaque = (colour) => (channels(colour)[3] ?? 1) === 1;
  const ground = (element) => {
    for (let at = element; at; at = at.parentElement) {
      const { backgroundColor } = getComputedStyle(at);
      if (isOpaque(backgroundColor)) return backgroundColor;
    }
    return "rgb(255, 255, 255)";
  };
  return targets.flatMap((target) => {
    const element = document.querySelector(target);
    if (!element) return [];
    const style = getComputedStyle(element);
    const ink = element instanceof SVGElement ? style.fill : style.color;
    if (!/^rgba?\(/.test(ink) || !isOpaque(ink)) return [];
    const [dark, light] = [lightness(ink), lightness(ground(element))].sort((a, b) => a - b);
    const ratio = (light + 0.05) / (dark + 0.05);
    const size = parseFloat(style.fontSize);
    const isLarge = size >= 24 || (size >= 18.66 && Number(style.fontWeight) >= 700);
    return ratio < (isLarge ? 3 : 4.5) ? [`${target}: ${ratio.toFixed(2)}`] : [];
  });
}
