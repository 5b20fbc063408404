// A walk through the app in a browser and on a server of its own.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { test } from "node:test";
import { PHONE, openBrowser, startServer, walked } from "./harness.js";
import { plain } from "./numbers.js";

/** Finds what keeps people from using a page; to be evaluated in it, so that
 * the page's own policy stays as it is. */
export const AXE = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** Tests a walk, and that the browser complains of nothing on the way. */
export function journey(name, walk, viewport = PHONE) {
  test(name, async () => {
    const server = await startServer();
    const browser = await openBrowser(viewport);
    try {
      const page = await browser.context.newPage();
      await walked([browser], () => walk(page, { address: server.address, server }));
      assert.deepEqual(browser.complaints, []);
    } finally {
      await browser.close();
      await server.stop();
    }
  });
}

/** Begins a recipe from a starting fold. */
export async function begin(page, address, starter) {
  await page.goto(`${address}/new`);
  await page.locator("main[data-ready]").waitFor();
  await page.locator(`[data-starter="${starter}"]`).click();
  await page.waitForURL("**/recipe/*");
  await page.locator('.drawn svg[role="img"]').waitFor();
}

/** The text of a PDF, which is sound: qpdf finds no fault with its structure. */
export async function textOf(download) {
  const file = await download.path();
  execFileSync("qpdf", ["--check", file], { stdio: "pipe" });
  return plain(execFileSync("pdftotext", ["-raw", file, "-"], { encoding: "utf8" }));
}

/** Asserts that nothing on the page keeps people from using it. */
export async function accessible(page) {
  // A colour on its way to another is neither.
  await page.evaluate(() => {
    const all = document.getAnimations().filter((it) => it instanceof CSSTransition);
    return Promise.allSettled(all.map((it) => it.finished));
  });
  await page.evaluate(AXE);
  const { violations } = await page.evaluate(() => globalThis.axe.run());
  assert.deepEqual(
    violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)]),
    [],
  );
  assert.deepEqual(await page.evaluate(UNREAD), []);
}

/**
 * Numbers that screen readers would spell: fractions of raised and lowered figures,
 * ticks, and marks of what stands behind a number, in texts and names. Drawings have
 * words of their own, and what is typed is as it was typed.
 */
const UNREAD = () => {
  const hard = /[⁰-₉⁄]|[¹³][⁄\d]|<[\d¹¼½¾⅛⅜⅝⅞]|[\ufff9-\ufffb]/;
  const read = ".figures, svg, option[aria-label], input, textarea, script, style, noscript, .ticks";
  const found = [];
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    const { data, parentElement } = texts.currentNode;
    if (hard.test(data) && !parentElement.closest(read)) found.push(data);
  }
  for (const named of document.querySelectorAll("[aria-label], [aria-valuetext], [title], [alt]")) {
    for (const name of ["aria-label", "aria-valuetext", "title", "alt"]) {
      if (hard.test(named.getAttribute(name) ?? "")) found.push(`${name} ${named.getAttribute(name)}`);
    }
  }
  return found;
};
