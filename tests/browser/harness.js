// What every journey needs: the real server, a real browser, and an eye on
// everything the browser complains about.

import { spawn } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { chromium } from "playwright-core";

/** Screen of a phone held upright. */
export const PHONE = { width: 390, height: 844 };
/** Screen of a laptop. */
export const LAPTOP = { width: 1440, height: 900 };

/** What a browser says where a page is left while code for later is on its way. */
const LEFT = /Response body loading was aborted|^TypeError: Failed to fetch\n.*\/assets\/link-/;

const BINARY = process.env.FOLDWRIGHT;
const BROWSER = process.env.CHROMIUM ?? "/usr/bin/chromium";

/**
 * Starts the server on a free port, or on `port` again after a stop, over the
 * workshops in the folder `data`; without one it gets a folder of its own that
 * goes with it. `more` are further options. `address` is the first it printed
 * for plain HTTP, or where it printed none, as when `more` tells it where it is
 * found, the one on `port`; `said` all that it printed, `code` the one to claim it with.
 */
export async function startServer(port = 0, data = undefined, more = []) {
  if (!BINARY) throw new Error("Set FOLDWRIGHT to the server's binary.");
  const folder = data ?? (await mkdtemp(join(tmpdir(), "foldwright-data-")));
  const place = join(folder, "workshops.db");
  const child = spawn(BINARY, ["--port", String(port), "--data", place, ...more], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  const lines = createInterface({ input: child.stdout });
  const said = [];
  await new Promise((ready, failed) => {
    child.once("exit", (code) => failed(new Error(`The server ended with ${code}.`)));
    lines.on("line", (line) => {
      said.push(line);
      if (line.includes("Ctrl+C")) ready();
    });
  });
  const printed = said.join("\n").match(/http:\/\/[^\s/]+/);
  const address = printed?.[0] ?? `http://localhost:${port}`;
  return {
    address,
    said: said.join("\n"),
    code: said.join("\n").match(/[0-9A-Z]{4}-[0-9A-Z]{4}/)?.[0],
    async stop() {
      try {
        await this.halt();
      } finally {
        if (data === undefined) await rm(folder, { recursive: true, force: true });
      }
    },
    /** Stops it and leaves its workshops. */
    async halt() {
      if (child.exitCode !== null || child.signalCode !== null) return;
      const ended = new Promise((resolve) => child.once("exit", resolve));
      child.kill("SIGTERM");
      await ended;
    },
  };
}

/**
 * Opens a browser with a profile of its own; `complaints` fills as it runs.
 * After `restart()` its `context` is another, with all that was kept.
 * `options` are more of what the browser is told, such as its language, and `more`
 * what it is told as it is started.
 */
export async function openBrowser(viewport = PHONE, options = {}, more = []) {
  const profile = await mkdtemp(join(tmpdir(), "foldwright-"));
  const complaints = [];
  return {
    context: await launch(profile, viewport, complaints, options, more),
    complaints,
    async restart() {
      await this.context.close();
      this.context = await launch(profile, viewport, complaints, options, more);
    },
    async close() {
      await this.context.close();
      await rm(profile, { recursive: true, force: true });
    },
  };
}

async function launch(profile, viewport, complaints, options, more) {
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: BROWSER,
    viewport,
    ...options,
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      ...more,
    ],
  });
  const listen = (page) => {
    page.on("console", (message) => {
      if (message.type() === "error" && !LEFT.test(message.text())) complaints.push(message.text());
    });
    page.on("pageerror", (error) => {
      if (!LEFT.test(error.stack)) complaints.push(error.stack ?? String(error));
    });
  };
  context.pages().forEach(listen);
  context.on("page", listen);
  return context;
}

/**
 * Waits until a page gives something true. Unlike the page's own way to wait,
 * this waits for what is only promised: there, a promise itself counts as true.
 */
export async function eventually(page, told, argument) {
  const until = Date.now() + 30_000;
  while (!(await page.evaluate(told, argument))) {
    if (Date.now() > until) throw new Error(`never came true: ${told}`);
    await page.waitForTimeout(50);
  }
}

/**
 * Takes a walk in browsers; where it fails, says what their pages show and keep by
 * then, and what the browsers have complained of.
 */
export async function walked(browsers, walk) {
  try {
    await walk();
  } catch (failure) {
    for (const { context, complaints } of browsers) {
      for (const page of context.pages()) {
        const shown = page.evaluate(() => [document.body.innerText, ...Object.keys(localStorage)].join("\n"));
        console.error(`${page.url()}\n${await shown.catch(String)}`);
      }
      console.error(complaints.join("\n"));
    }
    throw failure;
  }
}
