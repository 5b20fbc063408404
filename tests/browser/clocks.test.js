// Clocks run beside the steps of the bench: several at once, over a reload, out of
// sight, and while the time of the device is changed. Time is that of Playwright's
// clock, which stands in for the browser's.

import assert from "node:assert/strict";
import { at, heading, journey, jump, next } from "./at-bench.js";
import { eventually } from "./harness.js";
import { accessible } from "./journey.js";

const NOON = new Date("2026-03-02T12:00:00Z");

/** When the bench was opened, by the clock outside. */
let began;

/** Puts what tells the end of a clock under observation. */
async function observed(page) {
  await page.addInitScript(() => {
    globalThis.told = { tones: 0, buzzes: 0, asked: 0, messages: [] };
    const make = AudioContext.prototype.createOscillator;
    AudioContext.prototype.createOscillator = function () {
      told.tones += 1;
      return make.call(this);
    };
    navigator.vibrate = () => (told.buzzes += 1) > 0;
    globalThis.Notification = class {
      static permission = "default";
      static async requestPermission() {
        told.asked += 1;
        return (Notification.permission = "granted");
      }
      constructor(words) {
        told.messages.push(words);
      }
    };
  });
}

const strip = (page) => page.getByRole("region", { name: "Clocks" });
const clock = (page, of) => strip(page).getByRole("listitem").filter({ hasText: of });
const told = (page) => page.evaluate(() => told);

/** The seconds that a clock shows. */
async function left(page, of) {
  const shown = await clock(page, of).getByRole("timer").innerText();
  return shown.split(":").reduce((sum, part) => 60 * sum + Number(part), 0);
}

/** Asserts what a clock shows, within what the journey has taken. */
async function near(page, of, minutes) {
  const seconds = await left(page, of);
  const taken = (Date.now() - began) / 1000 + 1;
  assert.ok(seconds <= minutes * 60 && seconds >= minutes * 60 - taken, `${of}: ${seconds} s of ${minutes} min`);
}

async function hide(page, hidden) {
  await page.evaluate((hidden) => {
    if (hidden) Object.defineProperty(document, "hidden", { value: true, configurable: true });
    else delete document.hidden;
    document.dispatchEvent(new Event("visibilitychange", { bubbles: true }));
  }, hidden);
}

async function open(page, address) {
  began = Date.now();
  await observed(page);
  await page.clock.install({ time: NOON });
  await page.goto(address);
  await heading(page).waitFor();
}

async function set(page, minutes) {
  await page.locator(".bench-aid").last().click();
  const sheet = page.getByRole("dialog", { name: "Reading aloud, clocks, ruler" });
  await sheet.getByRole("textbox", { name: "Minutes, 1 to 1440" }).fill(String(minutes));
  await sheet.getByRole("button", { name: "Start" }).click();
  await sheet.waitFor({ state: "hidden" });
}

journey("two clocks run on while other steps are worked, and over a reload", "letter", async (page, { address }) => {
  await open(page, address);
  // Three times are a tap away.
  await jump(page, "Fold at");
  assert.equal(await page.getByRole("button", { name: "Set a clock" }).count(), 0);
  await page.locator(".bench-aid").last().click();
  await accessible(page);
  assert.equal((await told(page)).asked, 0);
  await page.getByRole("button", { name: "5 min", exact: true }).click();
  await near(page, "Fold at", 5);
  // Asked for by the first tap, and not again.
  assert.equal((await told(page)).asked, 1);

  await jump(page, "Score the card base");
  await page.locator(".bench-aid").last().click();
  await page.getByRole("button", { name: "Start" }).click();
  await page.getByText("Give whole minutes from 1 to 1440.").waitFor();
  await page.getByRole("textbox", { name: "Minutes, 1 to 1440" }).fill("12");
  await page.keyboard.press("Enter");
  await near(page, "Score the card base", 12);
  assert.equal((await told(page)).asked, 1);
  for (const colorScheme of ["light", "dark"]) {
    await page.emulateMedia({ colorScheme });
    await accessible(page);
  }

  await next(page).click();
  await page.clock.fastForward("02:00");
  await near(page, "Fold at", 3);
  await near(page, "Score the card base", 10);

  await page.reload();
  await heading(page).waitFor();
  await near(page, "Fold at", 3);
  await near(page, "Score the card base", 10);
  assert.equal((await told(page)).tones, 0);
  // Somebody goes on, and the first has run down.
  await next(page).click();
  await page.clock.fastForward("03:01");
  await clock(page, "Fold at").getByText("Time is up: ").waitFor();
  await near(page, "Score the card base", 7);
  const once = await told(page);
  assert.ok(once.tones > 0 && once.buzzes === 1, JSON.stringify(once));
  // In sight the system has nothing to tell.
  assert.deepEqual(once.messages, []);
  await accessible(page);

  // The line stays until it is dismissed, and rings once.
  await next(page).click();
  await page.reload();
  await heading(page).waitFor();
  await clock(page, "Fold at").getByText("Time is up: ").waitFor();
  assert.equal((await told(page)).tones, 0);
  await clock(page, "Fold at").getByRole("button", { name: "Dismiss" }).click();
  assert.equal(await strip(page).getByRole("listitem").count(), 1);

  // Out of sight the system tells the end.
  await page.evaluate(() => void (Notification.permission = "granted"));
  await hide(page, true);
  await page.clock.fastForward("07:00");
  await page.waitForFunction(() => told.messages.length === 1);
  assert.match((await told(page)).messages[0], /^Time is up: Score the card base \(/);
  await hide(page, false);
  await clock(page, "Score the card base").getByRole("button", { name: "Dismiss" }).click();
  await strip(page).waitFor({ state: "detached" });
  await page.reload();
  await heading(page).waitFor();
  assert.equal(await strip(page).count(), 0);
});

journey("a bench that is kept as it was seen shows no clocks, which would stand still", "letter", async (page, { address }) => {
  await open(page, address);
  await set(page, 5);
  await clock(page, "Take out your paper").waitFor();
  await page.evaluate(() => caches.delete("foldwright-seen"));
  await hide(page, true);
  const seen = async () => {
    const kept = await (await caches.open("foldwright-seen")).match(`/seen${location.pathname}`);
    return (await kept?.text()) ?? "";
  };
  await eventually(page, seen);
  const shown = await page.evaluate(seen);
  assert.match(shown, /Take out your paper/);
  assert.doesNotMatch(shown, /class="clocks"/);
});

journey("a clock is right whatever becomes of the device's time", "letter", async (page, { address }) => {
  await open(page, address);
  await set(page, 20);
  // Put back while the page is open, the steady count goes on.
  await page.clock.setSystemTime(new Date(NOON.getTime() - 3_600_000));
  await page.clock.fastForward("04:00");
  await near(page, "Take out your paper", 16);
  await page.reload();
  await heading(page).waitFor();
  await near(page, "Take out your paper", 16);
  assert.equal(await page.getByText("is uncertain").count(), 0);

  // While no page was open, the device's time decides.
  await page.goto("about:blank");
  await page.clock.fastForward("05:00");
  await page.goto(address);
  await heading(page).waitFor();
  await near(page, "Take out your paper", 11);

  // Put back meanwhile, it is not known how long it has run, and that is said.
  await page.goto("about:blank");
  await page.clock.setSystemTime(new Date(NOON.getTime() - 9 * 3_600_000));
  await page.goto(address);
  await heading(page).waitFor();
  await page.getByText("what is left is uncertain").waitFor();
  await clock(page, "Take out your paper").getByRole("button", { name: /^Stop the clock/ }).click();
  await strip(page).waitFor({ state: "detached" });
});

journey("a step at which glue dries has a button for a clock", "book", async (page) => {
  await jump(page, "Let it dry");
  await page.getByRole("button", { name: "Set a clock" }).click();
  await page.getByRole("button", { name: "30 min", exact: true }).click();
  await near(page, "Let it dry (", 30);
});

journey("clocks are the device's and seen in another tab", "letter", async (page, { address, browser }) => {
  await set(page, 30);
  const other = await browser.context.newPage();
  await other.goto(address);
  await heading(other).waitFor();
  await clock(other, "Take out your paper").waitFor();
  await set(other, 7);
  await page.waitForFunction(() => document.querySelectorAll(".clock").length === 2);
  await clock(page, "Take out your paper").first().getByRole("button").click();
  await other.waitForFunction(() => document.querySelectorAll(".clock").length === 1);
  await next(other).click();
  await at(other, 2);
  assert.equal(await strip(other).getByRole("listitem").count(), 1);
});
