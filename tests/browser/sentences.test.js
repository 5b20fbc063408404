// Whether a phone shows each sentence, or what stands between two semicolons of a
// list, in three lines: all of both languages, as the files of wording hold them,
// in the letters and the width a page gives them on a phone of 390 pixels.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { journey } from "./journey.js";

const MOST_LINES = 3;

for (const language of ["en", "de"]) {
  journey(`each sentence takes three lines of a phone at most, ${language}`, async (page, app) => {
    const file = new URL(`../../app/words/tests/wording.${language}.txt`, import.meta.url);
    const sentences = readFileSync(file, "utf8")
      .split("\n")
      .flatMap((line) => line.trim().split(/(?<=[.!?]|[.!?][”“]|[:;]) (?=[\p{L}“„])/u))
      .filter((sentence) => sentence !== "");
    assert.ok(sentences.length > 500, `${sentences.length} sentences`);
    await page.goto(app.address);
    await page.locator("main[data-ready] h1").waitFor();
    const long = await page.evaluate(longer, [sentences, MOST_LINES]);
    assert.deepEqual(long, []);
  });
}

// Runs in the page.
function longer([sentences, most]) {
  const paragraph = document.createElement("p");
  document.querySelector("main").append(paragraph);
  const lineHeight = () => {
    paragraph.textContent = "a";
    return paragraph.getBoundingClientRect().height;
  };
  const line = lineHeight();
  const long = sentences.filter((sentence) => {
    paragraph.textContent = sentence;
    return Math.round(paragraph.getBoundingClientRect().height / line) > most;
  });
  paragraph.remove();
  return long;
}
