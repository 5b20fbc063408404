import { LAPTOP, PHONE, openBrowser, startServer } from "./harness.js";
const only = process.argv[2];
const server = await startServer();
for (const [dev, vp] of Object.entries({ phone: PHONE, laptop: LAPTOP })) for (const scheme of ["light","dark"]) {
  if (only && !`${dev}-${scheme}`.match(only)) continue;
  const b = await openBrowser(vp); const page = await b.context.newPage();
  await page.emulateMedia({ colorScheme: scheme, reducedMotion: "reduce" });
  const shot = (n) => page.screenshot({ path: `/tmp/shots/${dev}-${scheme}-${n}.png` }).catch(()=>{});
  const full = (n) => page.screenshot({ path: `/tmp/shots/${dev}-${scheme}-${n}.png`, fullPage: true }).catch(()=>{});
  const begin = async (s) => { await page.goto(`${server.address}/new`); await page.locator("main[data-ready]").waitFor(); await page.locator(`[data-starter="${s}"]`).click(); await page.waitForURL("**/recipe/*"); await page.locator('.drawn svg[role="img"]').waitFor(); await page.waitForTimeout(300); };
  const tab = async (n) => { await page.getByRole("tab", { name: n }).first().click(); await page.waitForTimeout(300); };
  const step = async (n, f) => { try { await f(); } catch (e) { console.log(dev, scheme, n, String(e).slice(0,200)); } };
  await step("list", async () => { await page.goto(`${server.address}/list`); await page.locator("main[data-ready]").waitFor(); await page.locator("textarea").first().fill("base 11 x 5 1/2, score at 2 3/4 and 5 1/2\nlarge inside right 4 x 5\ncircle 70mm\nenv a2"); await page.waitForTimeout(800); await full("list"); });
  await step("resize", async () => { await begin("letter"); await tab(/Resize|Refit/); await full("resize"); });
  await step("panels", async () => { await begin("gate"); await tab("Panels"); await full("panels"); });
  await step("editor", async () => { await page.locator("#section .number-button").first().click(); await page.waitForTimeout(400); await shot("editor"); await page.getByRole("button",{name:"Done"}).click(); });
  await step("paper", async () => { await tab("Paper"); await full("paper"); });
  await step("print", async () => { await tab(/Print/); await full("print"); });
  await step("layers", async () => { await tab("Layers"); await page.waitForTimeout(200); await full("layers"); });
  await step("problems", async () => { await begin("z"); await tab("Layers"); await page.getByRole("button",{name:/focal|mat/i}).first().click(); await page.waitForTimeout(300); await full("layers-z"); await tab(/Problems/); await full("problems"); });
  await b.close();
}
await server.stop();
