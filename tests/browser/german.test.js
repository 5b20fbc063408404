// The app speaks the reader's language: from the empty list to the end of the
// bench in German, and from one language to the other, with and without a
// connection.

import assert from "node:assert/strict";
import { test } from "node:test";
import { eventually, PHONE, openBrowser, startServer } from "./harness.js";
import { accessible } from "./journey.js";
import { plain } from "./numbers.js";
import { turnTo } from "./parts.js";

/** What stands on which tab, in German. */
const TEILE = {
  Felder: "Karte",
  "Pop-ups & Taschen": "Karte",
  Papiere: "Papier",
  Druckrichtung: "Papier",
  Auflagen: "Schmücken",
  "Größe anpassen": "Anpassen",
  Umschlag: "Anpassen",
  Rillen: "Basteln",
  "Kurs & Post": "Basteln",
};

/** A journey in a browser that asks for a language and may complain of
 * `complains` alone. */
function speaking(name, locale, walk, complains = undefined) {
  test(name, async () => {
    const server = await startServer();
    const browser = await openBrowser(PHONE, { locale });
    try {
      const page = await browser.context.newPage();
      const asked = new Set();
      page.on("request", (request) => asked.add(new URL(request.url()).pathname));
      const fetched = (language) =>
        [...asked].some((path) => path.startsWith(`/assets/split_language_${language}-`));
      await walk(page, { address: server.address, server, fetched });
      assert.deepEqual(browser.complaints.filter((it) => !complains?.test(it)), []);
    } finally {
      await browser.close();
      await server.stop();
    }
  });
}

const ready = (page) => page.locator("main[data-ready]").waitFor();
const heading = (page, name) => page.getByRole("heading", { level: 1, name }).waitFor();
const lang = (page) => page.locator("html").getAttribute("lang");
const next = (page) => page.locator("button.turn-on");

/** Waits until the worker keeps the sentences of a language. */
async function kept(page, language) {
  await eventually(page, async (language) => {
    const names = await caches.keys();
    const found = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
    const paths = found.flat().map((request) => new URL(request.url).pathname);
    return paths.some((path) => path.startsWith(`/assets/split_language_${language}-`));
  }, language);
}

/** Words that no German sentence has, nor what starting folds call things. */
const ENGLISH = /\b(the|your|with|this|and)\b/i;

/** Asserts that the numbers in a text are written as the browser itself writes
 * them in German (CLDR, by ECMA-402 Intl). */
async function writtenInGerman(page, text) {
  const numbers = text.match(/\d[\d.,]*\d|\d/g) ?? [];
  assert.ok(numbers.length > 0, text);
  const right = await page.evaluate((numbers) => numbers.map((number) => {
    const decimals = number.split(",")[1]?.length ?? 0;
    const value = Number(number.replaceAll(".", "").replace(",", "."));
    const format = { minimumFractionDigits: decimals, maximumFractionDigits: decimals };
    return new Intl.NumberFormat("de", format).format(value);
  }), numbers);
  assert.deepEqual(numbers, right, text);
}

speaking("a card is made in German, from the empty list to the end of the bench", "de-DE", async (page, { address, fetched }) => {
  await page.goto(address);
  await heading(page, "Rezepte");
  assert.equal(await lang(page), "de");
  assert.equal(await page.title(), "Rezepte · Foldwright");
  await accessible(page);
  // The finished cards are told in the language in use, and no other.
  await page.locator(".samples .tile-name", { hasText: "Leuchtturm" }).waitFor();
  assert.ok(fetched("de") && !fetched("en"));
  await accessible(page);

  await page.getByRole("link", { name: "Einen Falz wählen" }).click();
  await heading(page, "Einen Falz wählen");
  assert.ok(!fetched("en"));
  assert.equal(await page.title(), "Neues Rezept · Foldwright");
  await accessible(page);
  await page.locator('[data-starter="gate"]').click();
  await page.waitForURL("**/recipe/*");
  await page.locator('.drawn svg[role="img"]').waitFor();
  // What the fold and its parts are called is the maker's own from here on.
  await heading(page, "Altarfalz");
  assert.equal(await page.locator(".panel input").first().inputValue(), "linker Flügel");

  // Germany measures in millimetres, with a comma before the decimals.
  const facts = plain(await page.locator(".facts").innerText());
  assert.match(facts, /^Geschlossen .* mm, .* dick, .* g/);
  await writtenInGerman(page, facts);
  for (const part of Object.keys(TEILE)) {
    await turnTo(page, part, TEILE);
    await accessible(page);
  }
  await page.locator(".problem-count").click();
  await page.getByRole("region", { name: "Probleme" }).waitFor();
  await accessible(page);
  await turnTo(page, "Papiere", TEILE);
  assert.match(await page.getByRole("combobox", { name: "Bogen", exact: true }).first().locator("option:checked").innerText(), /A4/);

  await page.getByRole("link", { name: "An den Werktisch" }).click();
  await page.getByText("Schritt 1 von").first().waitFor();
  assert.match(await page.title(), /am Werktisch · Foldwright$/);
  await page.getByRole("button", { name: "Eine Karte mehr" }).click();
  const where = await page.locator(".bench-where span").first().innerText();
  const all = Number(where.match(/von (\d+)$/)[1]);
  assert.ok(all >= 6, where);
  for (let number = 1; number <= all; number += 1) {
    await page.getByText(`Schritt ${number} von`).first().waitFor();
    const told = await page.locator(".bench").innerText();
    assert.doesNotMatch(told, ENGLISH);
    const numbers = await page.locator(".big-numbers").allInnerTexts();
    for (const text of numbers) {
      if (/\d/.test(text)) await writtenInGerman(page, text);
    }
    await accessible(page);
    await next(page).click();
  }
  await heading(page, "2 Karten sind fertig");
  // The words of one and of many are chosen as CLDR's rules have it.
  assert.deepEqual(
    await page.evaluate(() => [1, 2].map((count) => new Intl.PluralRules("de").select(count))),
    ["one", "other"],
  );
  await accessible(page);
  await page.getByRole("link", { name: "Zum Rezept" }).last().click();
  await page.waitForURL("**/recipe/*");
  assert.ok(!fetched("en"));
});

speaking("another language is chosen, and both open without a connection", "en-US", async (page, { address, server, fetched }) => {
  await page.goto(`${address}/settings`);
  await heading(page, "Settings");
  assert.equal(await lang(page), "en");
  assert.ok(fetched("en") && !fetched("de"));
  await page.getByRole("button", { name: "As the browser says", pressed: true }).waitFor();
  await page.getByRole("button", { name: "Inches", pressed: true }).waitFor();
  await kept(page, "en");

  await page.getByRole("button", { name: "Deutsch", exact: true }).click();
  await heading(page, "Einstellungen");
  assert.equal(await lang(page), "de");
  assert.equal(await page.title(), "Einstellungen · Foldwright");
  // The heading is read out, and all stands in German around it.
  await page.waitForFunction(() => document.activeElement?.matches("main h1"));
  assert.ok(await page.getByRole("link", { name: "Neu", exact: true }).isVisible());
  // Nobody had chosen how to measure.
  await page.getByRole("button", { name: "Millimeter", pressed: true }).waitFor();
  await page.getByRole("button", { name: "1,5", pressed: true }).waitFor();
  await page.locator(".notices").getByText("Neue Rezepte haben jetzt Teilstriche").waitFor();
  await accessible(page);
  await kept(page, "de");
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));

  await server.halt();
  await page.reload();
  await heading(page, "Einstellungen");
  assert.equal(await lang(page), "de");
  await page.getByRole("button", { name: "English", exact: true }).click();
  await heading(page, "Settings");
  await page.getByRole("button", { name: "As the browser says", exact: true }).click();
  await page.reload();
  await heading(page, "Settings");
  assert.equal(await lang(page), "en");
  await page.getByRole("button", { name: "Inches", pressed: true }).waitFor();
});

speaking("a language that can't be fetched is not spoken, which is said", "en-GB", async (page, { address }) => {
  await page.goto(`${address}/settings`);
  await heading(page, "Settings");
  await page.route("**/split_language_de-*", (route) => route.abort());
  // It may have gone back before anybody sees it chosen.
  await page.getByRole("button", { name: "Deutsch", exact: true }).click();
  await page.locator(".notices").getByText("could not be fetched").waitFor();
  assert.equal(await lang(page), "en");
  await page.getByRole("button", { name: "As the browser says", pressed: true }).waitFor();
  await page.getByRole("button", { name: "Millimetres", pressed: true }).waitFor();
}, /ERR_FAILED|Failed to fetch/);
