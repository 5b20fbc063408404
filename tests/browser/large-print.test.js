// Large letters and narrow screens: nothing is lost and nothing scrolls sideways.
// WCAG 2.2, 1.4.4 (text at 200 %) and 1.4.10 (320 pixels wide).

import assert from "node:assert/strict";
import { begin, journey } from "./journey.js";
import { PARTS, turnTo } from "./parts.js";

const HEIGHT = 844;

/** What stands past the edge of the screen, outside of what scrolls by itself. */
function pastTheEdge() {
  const width = document.documentElement.clientWidth;
  const past = document.scrollingElement.scrollWidth > width ? ["the page scrolls sideways"] : [];
  for (const element of document.querySelectorAll("body *")) {
    const { left, right, width: wide } = element.getBoundingClientRect();
    if (wide === 0 || (right <= width + 1 && left >= -1)) continue;
    if (element.closest(".visually-hidden, .skip, svg")) continue;
    const scrolls = (around) => getComputedStyle(around).overflowX !== "visible";
    let around = element.parentElement;
    while (around !== document.body && !scrolls(around)) around = around.parentElement;
    if (around === document.body) past.push(`${element.tagName}.${element.className}`);
  }
  return past;
}

function fits(name, width, percent) {
  const walk = async (page, { address }) => {
    await page.addInitScript((percent) => {
      addEventListener("DOMContentLoaded", () => {
        document.documentElement.style.fontSize = `${percent}%`;
      });
    }, percent);
    const check = async (what) => assert.deepEqual(await page.evaluate(pastTheEdge), [], what);
    const open = async (path) => {
      await page.goto(address + path);
      await page.locator("main[data-ready] h1").first().waitFor();
      await check(path);
    };
    await open("/");
    await open("/new");
    await page.locator("[data-starter]").first().waitFor();
    await check("the folds");
    await begin(page, address, "gate");
    const recipe = new URL(page.url()).pathname;
    for (const part of Object.keys(PARTS)) {
      // No figure lies over what is to be tapped.
      await turnTo(page, part);
      await check(part);
    }
    await page.locator(".problem-count").click();
    await page.getByRole("region", { name: "Problems" }).waitFor();
    await check("the problems");
    await open(recipe.replace("recipe", "bench"));
    const next = page.getByRole("button", { name: "Next" });
    while (await next.isVisible()) {
      await next.click();
      await check(await page.locator("h1").innerText());
    }
    for (const path of ["/", "/list", "/scrap", "/devices", "/settings", "/words", "/paper", recipe.replace("recipe", "earlier")]) {
      await open(path);
    }
  };
  journey(name, walk, { width, height: HEIGHT });
}

fits("everything fits with letters of twice the size", 390, 200);
fits("everything fits on a screen 320 pixels wide", 320, 100);
