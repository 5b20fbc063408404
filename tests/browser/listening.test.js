// The bench listens for single words, by a recogniser that stands in for the browser's
// own: a browser without a screen has none. Names and behaviour are those of the Web
// Speech API.

import assert from "node:assert/strict";
import { at, heading, journey } from "./at-bench.js";
import { accessible } from "./journey.js";

/** Puts a recogniser in place of the browser's, and a voice that reads until it is told
 * to end. */
async function hears(page) {
  await page.addInitScript(() => {
    const ears = { open: [], starts: 0 };
    globalThis.ears = ears;
    globalThis.SpeechRecognition = class {
      start() {
        ears.starts += 1;
        ears.open.push(this);
      }
      abort() {
        ears.open = ears.open.filter((it) => it !== this);
      }
    };
    ears.say = (transcript) => {
      const results = [[{ transcript }]];
      for (const it of [...ears.open]) it.onresult?.({ results, resultIndex: 0 });
    };
    ears.fail = (error) => {
      for (const it of [...ears.open]) it.onerror?.({ error });
    };
    ears.end = () => {
      const open = ears.open.splice(0);
      for (const it of open) it.onend?.();
    };
    globalThis.SpeechSynthesisUtterance = class {};
    const voice = { name: "near", lang: navigator.language, localService: true, default: true };
    const heard = { now: [] };
    globalThis.heard = heard;
    const speechSynthesis = {
      getVoices: () => [voice],
      speak: (utterance) => heard.now.push(utterance),
      cancel: () => (heard.now = []),
      onvoiceschanged: null,
    };
    Object.defineProperty(globalThis, "speechSynthesis", { value: speechSynthesis });
  });
  await page.reload();
  await heading(page).waitFor();
}

const open = (page) => page.evaluate(() => ears.open.length);
const opens = (page, count) => page.waitForFunction((count) => ears.open.length === count, count);
const say = (page, words) => page.evaluate((words) => ears.say(words), words);
const sheet = (page) => page.getByRole("dialog", { name: "Reading aloud, clocks, ruler" });
async function choose(page, on) {
  await page.getByRole("button", { name: "Reading aloud, clocks, ruler" }).click();
  const choice = sheet(page).getByRole("group", { name: "Listen for words" });
  await choice.getByRole("button", { name: on ? "On" : "Off", exact: true }).click();
}

journey("words turn the steps once that is switched on", "book", async (page) => {
  await hears(page);
  assert.equal(await open(page), 0);
  await choose(page, true);
  await sheet(page).getByText("Some browsers send what they hear to a service").waitFor();
  await accessible(page);
  await opens(page, 1);
  assert.equal(await page.evaluate(() => ears.open[0].lang.slice(0, 2)), "en");
  await page.keyboard.press("Escape");
  await say(page, "the next card is blue");
  await say(page, "next");
  await at(page, 2);
  await say(page, "Okay, next.");
  await at(page, 3);
  await say(page, "go back");
  await at(page, 2);

  // While a step is read nothing is listened to, and after that it is again.
  await say(page, "repeat");
  await page.waitForFunction(() => heard.now.length > 0);
  await opens(page, 0);
  await page.evaluate(() => heard.now.at(-1).onend());
  await opens(page, 1);

  // Browsers end by themselves after a silence.
  await page.evaluate(() => ears.end());
  await opens(page, 1);
  // It stays on over a reload, until it is switched off.
  await page.reload();
  await heading(page).waitFor();
  await opens(page, 1);
  await choose(page, false);
  await opens(page, 0);
});

journey("without the microphone it is switched off, and says so", "book", async (page) => {
  await hears(page);
  await choose(page, true);
  await opens(page, 1);
  await page.keyboard.press("Escape");
  await page.evaluate(() => ears.fail("not-allowed"));
  await page.getByText("may not use the microphone here").waitFor();
  await opens(page, 0);
  await page.getByRole("button", { name: "Understood" }).click();
  assert.equal(await page.getByText("may not use the microphone here").count(), 0);
});

journey(
  "in German it listens for German words",
  "book",
  async (page) => {
    await hears(page);
    await page.getByRole("button", { name: "Vorlesen, Uhren, Lineal" }).click();
    await page
      .getByRole("group", { name: "Auf Worte hören" })
      .getByRole("button", { name: "An", exact: true })
      .click();
    await opens(page, 1);
    assert.equal(await page.evaluate(() => ears.open[0].lang.slice(0, 2)), "de");
    await page.keyboard.press("Escape");
    await say(page, "next");
    await say(page, "Weiter");
    await page.getByText("Schritt 2 von").first().waitFor();
    await say(page, "zurück");
    await page.getByText("Schritt 1 von").first().waitFor();
  },
  undefined,
  { locale: "de-DE" },
);
