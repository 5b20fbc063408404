// Takes the pictures of the README: two cards of the harbour library's
// paper workshop, on a phone and on a laptop, and how another device comes in. Run it with FOLDWRIGHT set to the
// server's binary.

import { fileURLToPath } from "node:url";
import { LAPTOP, PHONE, openBrowser, startServer } from "./harness.js";
import { turnTo } from "./parts.js";

const FOLDER = fileURLToPath(new URL("../pictures/", import.meta.url));

const server = await startServer();
const browser = await openBrowser(PHONE);
try {
  const page = await browser.context.newPage();
  await page.goto(`${server.address}/new`);
  await page.locator('[data-starter="gate"]').click();
  await page.waitForURL("**/recipe/*");
  await turnTo(page, "Layers");
  await picture(page, "flat-phone");
  const gate = page.url();
  await page.goto(`${server.address}/new`);
  await page.locator('[data-starter="stairs"]').click();
  await page.waitForURL("**/recipe/*");
  await page.getByRole("button", { name: "Opening" }).click();
  const slider = page.locator('.opening input[type="range"]');
  await slider.evaluate((slider) => {
    slider.value = slider.max * 0.62;
    slider.dispatchEvent(new Event("input", { bubbles: true }));
  });
  await picture(page, "opening-phone");
  await page.setViewportSize(LAPTOP);
  await turnTo(page, "Print direction");
  await page.emulateMedia({ colorScheme: "dark" });
  await picture(page, "print-laptop");
  await page.emulateMedia({ colorScheme: "light" });
  await page.setViewportSize(PHONE);
  await page.goto(gate.replace("/recipe/", "/bench/"));
  // The first setting of the fence shows the cautions whole, the next one by name.
  for (const step of [2, 3]) {
    await page.getByRole("button", { name: "Next" }).click();
    await page.getByText(`Step ${step} of`).first().waitFor();
  }
  await picture(page, "bench-phone");
  await page.goto(`${server.address}/devices#code=${server.code}`);
  await page.getByRole("button", { name: "Bring it in" }).click();
  await page.getByRole("button", { name: "Show a code" }).click();
  await page.locator(".pairing-picture").waitFor();
  await page.locator(".notice button").click();
  await page.emulateMedia({ colorScheme: "dark" });
  await picture(page, "devices-phone");
} finally {
  await browser.close();
  await server.stop();
}

async function picture(page, name) {
  await page.evaluate(() => document.activeElement?.blur());
  await page.waitForTimeout(400);
  await page.screenshot({ path: `${FOLDER}${name}.png` });
}
