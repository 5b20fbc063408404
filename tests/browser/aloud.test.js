// Steps are read aloud at the bench, by a voice that stands in for the browser's own:
// a browser without a screen has none. What it is handed, and when it is stopped, is
// seen here; names and behaviour are those of the Web Speech API.

import assert from "node:assert/strict";
import { at, count, heading, journey, next } from "./at-bench.js";
import { accessible } from "./journey.js";
import { inWords, plain } from "./numbers.js";

const NEAR = { name: "near", lang: "en-GB", localService: true, default: false };
const FAR = { name: "far", lang: "en-US", localService: false, default: true };
const FRENCH = { name: "french", lang: "fr-FR", localService: true, default: true };
const GERMAN = { name: "german", lang: "de_DE", localService: true, default: false };

/** Puts voices in place of the browser's. */
async function speaks(page, voices) {
  await page.addInitScript((voices) => {
    const heard = { said: [], stops: 0, now: [], voices };
    globalThis.heard = heard;
    globalThis.SpeechSynthesisUtterance = class {
      constructor(text) {
        this.text = text;
      }
    };
    const speechSynthesis = {
      getVoices: () => heard.voices,
      speak(utterance) {
        heard.now.push(utterance);
        heard.said.push({ text: utterance.text, voice: utterance.voice.name, lang: utterance.lang });
      },
      cancel() {
        heard.stops += 1;
        heard.now = [];
      },
      onvoiceschanged: null,
    };
    Object.defineProperty(globalThis, "speechSynthesis", { value: speechSynthesis });
  }, voices);
}

const button = (page) => page.locator(".bench-aid").first();
const said = (page) => page.evaluate(() => heard.said.map(({ text }) => text));
const forget = (page) => page.evaluate(() => void (heard.said = []));

/** What a screen reader hears of the step, part by part. */
function parts() {
  const heard = (element) => {
    let text = "";
    for (const node of element.childNodes) {
      if (node.nodeType === Node.TEXT_NODE) text += node.data;
      else if (node.matches?.(".figures")) text += node.getAttribute("aria-label");
      else if (node.nodeType === Node.ELEMENT_NODE && !node.matches(".exact")) text += heard(node);
    }
    return text;
  };
  const task = document.querySelector(".task");
  const all = (selector) => [...task.querySelectorAll(selector)];
  const numbers = all(".big-number").map((number) => {
    const [label, value] = ["dt", "dd"].map((part) => heard(number.querySelector(part)).trim());
    // A number and its unit stand in elements of their own.
    const unit = / and /.test(value) || !/(half|quarters?|eighths?|sixteenths?)\u00a0in$/.test(value) ? "inches" : "of an inch";
    return `${label}: ${value.replace(/(?<=[a-z])\u00a0in$/, ` ${unit}`)}`;
  });
  const cautions = all("details.caution").flatMap((caution) =>
    [...caution.querySelectorAll(caution.open ? "summary, p" : "summary")].map(heard));
  return [
    ...all(".task-kind, h1").map(heard),
    ...numbers,
    ...cautions,
    ...all(".task-words p, .task-tools").map(heard),
  ];
}

async function turnOn(page, label, on) {
  await page.locator(".bench-aid").last().click();
  await page.getByRole("dialog").getByRole("group", { name: label }).getByRole("button", { name: on, exact: true }).click();
  await page.keyboard.press("Escape");
}

journey("what is read is what a screen reader hears, with every length in words", "gate", async (page, { address }) => {
  await speaks(page, [FRENCH, FAR, NEAR]);
  await page.goto(address);
  await heading(page).waitFor();
  const all = await count(page);
  for (let number = 1; number <= all; number += 1) {
    await at(page, number);
    await forget(page);
    await page.getByRole("button", { name: "Read aloud", exact: true }).click();
    const expected = (await page.evaluate(parts)).map(inWords);
    assert.deepEqual((await said(page)).map(plain), expected, `step ${number}`);
    // The one of the device comes before one of the net, and before other languages.
    const voices = await page.evaluate(() => heard.said.map(({ voice, lang }) => `${voice} ${lang}`));
    assert.deepEqual([...new Set(voices)], ["near en-GB"]);
    await page.evaluate(() => heard.now.at(-1).onend());
    await page.getByRole("button", { name: "Read aloud", exact: true }).waitFor();
    await next(page).click();
  }
  // Nothing is left to read.
  await page.getByText("Your card is made").first().waitFor();
  assert.ok(await button(page).isDisabled());
});

journey("each step is read as it opens, and stops as it is left", "letter", async (page, { address }) => {
  await speaks(page, [NEAR]);
  await page.goto(address);
  await heading(page).waitFor();
  assert.deepEqual(await said(page), []);
  // Without the setting a letter does nothing.
  await page.keyboard.press("r");
  assert.deepEqual(await said(page), []);

  await turnOn(page, "Read steps aloud", "On");
  const first = await said(page);
  assert.ok(first.includes(await heading(page).innerText()), first.join("\n"));
  await forget(page);
  await page.keyboard.press("r");
  assert.deepEqual(await said(page), first);

  await forget(page);
  const stops = () => page.evaluate(() => heard.stops);
  const before = await stops();
  await page.keyboard.press("PageDown");
  await at(page, 2);
  await page.waitForFunction(() => heard.said.length > 0);
  assert.ok((await stops()) > before);
  const second = await said(page);
  assert.notDeepEqual(second, first);
  await page.keyboard.press("PageUp");
  await at(page, 1);
  await page.waitForFunction((first) => heard.said.some(({ text }) => text === first), first[1]);

  // The button stops it, and the setting stays.
  await page.getByRole("button", { name: "Stop reading" }).click();
  assert.deepEqual(await page.evaluate(() => heard.now), []);
  await page.getByRole("button", { name: "Read aloud", exact: true }).click();
  await page.evaluate(() => {
    Object.defineProperty(document, "hidden", { value: true, configurable: true });
    document.dispatchEvent(new Event("visibilitychange", { bubbles: true }));
  });
  assert.deepEqual(await page.evaluate(() => heard.now), []);
  await page.evaluate(() => delete document.hidden);

  await page.reload();
  await at(page, 1);
  await page.waitForFunction(() => heard.said.length > 0);
  // A browser that wants a tap first says so by an error.
  await page.evaluate(() => heard.now[0].onerror({ error: "not-allowed" }));
  await page.getByText("reads only after a tap").waitFor();
  await page.getByRole("button", { name: "Read aloud", exact: true }).click();
  assert.equal(await page.getByText("reads only after a tap").count(), 0);
  await page.evaluate(() => heard.now[0].onerror({ error: "network" }));
  await page.getByText("It may need a connection").waitFor();
  await page.getByRole("button", { name: "Read aloud", exact: true }).click();
  const running = await stops();
  await page.locator(".bench-leave").click();
  await page.waitForURL("**/recipe/*");
  assert.ok((await stops()) > running);
  assert.deepEqual(await page.evaluate(() => heard.now), []);
});

journey("without a voice the bench says so and stays as it is", "letter", async (page, { address }) => {
  await speaks(page, [FRENCH]);
  await page.goto(address);
  await heading(page).waitFor();
  const words = await page.locator(".task").innerText();
  await page.getByRole("button", { name: "Read aloud", exact: true }).click();
  await page.getByText("This browser has no English voice").waitFor();
  await accessible(page);
  assert.equal(await page.locator(".task").innerText(), words);
  assert.deepEqual(await said(page), []);
  // It begins once there is one.
  await page.evaluate((voice) => {
    heard.voices = [voice];
    speechSynthesis.onvoiceschanged();
  }, FAR);
  await page.waitForFunction(() => heard.said.length > 0);
  assert.equal(await page.getByText("This browser has no English voice").count(), 0);
  await page.locator(".bench-aid").last().click();
  await page.getByText("What is read goes to whoever runs it").waitFor();
});

journey("a browser that knows no voices says so", "letter", async (page, { address }) => {
  await page.addInitScript(() => {
    Object.defineProperty(globalThis, "speechSynthesis", { value: undefined });
  });
  await page.goto(address);
  await heading(page).waitFor();
  await page.getByRole("button", { name: "Read aloud", exact: true }).click();
  await page.getByText("This browser can't read aloud.").waitFor();
  await page.getByRole("button", { name: "Understood" }).click();
  await next(page).click();
  await at(page, 2);
});

journey(
  "steps are read in German by a German voice",
  "letter",
  async (page, { address }) => {
    await speaks(page, [NEAR, GERMAN]);
    await page.goto(address);
    await heading(page).waitFor();
    await next(page).click();
    await page.getByText("Schritt 2 von").first().waitFor();
    await page.getByRole("button", { name: "Schritt vorlesen" }).click();
    const told = await page.evaluate(() => heard.said);
    assert.ok(told.length > 3);
    assert.deepEqual([...new Set(told.map(({ voice }) => voice))], ["german"]);
    const text = told.map(({ text }) => plain(text)).join("\n");
    assert.match(text, /Millimeter/);
    assert.doesNotMatch(text, /\d mm|\d,\d|[½¼¾⅛⅜⅝⅞⁄×]/);
    // Without its voice nothing is read by a foreign one.
    await page.evaluate((voice) => void (heard.voices = [voice]), NEAR);
    await page.getByRole("button", { name: "Nicht weiterlesen" }).click();
    await page.getByRole("button", { name: "Schritt vorlesen" }).click();
    await page.getByText("hat keine deutsche Stimme").waitFor();
  },
  undefined,
  { locale: "de-DE" },
);
