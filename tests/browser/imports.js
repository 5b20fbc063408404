// Times the taking in of a file of many recipes on a slowed processor, from the
// choice of the file until it says that they are there, with the longest task
// until everything has come to rest; and the refusal of a file far too large.
// Prints { added, longest, refused } as JSON.

import { open, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { openBrowser } from "./harness.js";

const SLOWED = 4;
/** How long nothing may take long before everything has come to rest. */
const REST = 3000;
const TOO_LARGE = 200e6;

const [, , address, file] = process.argv;
const large = join(tmpdir(), `large-${process.pid}.json`);
const browser = await openBrowser();
try {
  const page = await browser.context.newPage();
  const session = await browser.context.newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate: SLOWED });

  const sparse = await open(large, "w");
  await sparse.truncate(TOO_LARGE);
  await sparse.close();
  const refused = await chosen(page, large, "and no file of recipes has more than");
  const added = await chosen(page, file, "Added ");
  console.log(
    JSON.stringify({ added: added.time, longest: added.longest, refused: refused.time }),
  );
} finally {
  await browser.close();
  await rm(large, { force: true });
}

/** Chooses a file on a page that says nothing yet, and waits for the notice that says so. */
async function chosen(page, path, said) {
  await page.goto(address);
  await page.locator("main[data-ready] h1").waitFor();
  await page.evaluate(watch, [said, REST]);
  await page.locator("input[type=file]").setInputFiles(path);
  return page.evaluate(() => globalThis.watched);
}

// Runs in the page.
function watch([said, rest]) {
  globalThis.watched = new Promise((done, failed) => {
    let longest = 0;
    let last = 0;
    const observer = new PerformanceObserver((list) => {
      for (const { startTime, duration } of list.getEntries()) {
        longest = Math.max(longest, duration);
        last = startTime + duration;
      }
    });
    observer.observe({ type: "longtask" });
    const field = document.querySelector("input[type=file]");
    field.addEventListener(
      "change",
      () => {
        const start = performance.now();
        const look = () => {
          const notices = [...document.querySelectorAll(".notices p")].map((it) => it.textContent);
          if (notices.some((text) => text.includes(said))) {
            const time = performance.now() - start;
            const settle = () => {
              if (performance.now() - Math.max(last, start + time) < rest) {
                setTimeout(settle, rest / 10);
                return;
              }
              observer.disconnect();
              done({ time, longest });
            };
            settle();
          } else if (notices.length > 0 && !document.querySelector(".importing")) {
            failed(new Error(notices.join(" ")));
          } else {
            requestAnimationFrame(look);
          }
        };
        requestAnimationFrame(look);
      },
      { once: true, capture: true },
    );
  });
  // Whoever waits for it hears of a failure.
  globalThis.watched.catch(() => {});
}
