// What a device does in a workshop.

/** A button by its whole name. */
export const button = (page, name) => page.getByRole("button", { name, exact: true });

/** Waits until all of a device is on the others too. */
export const synced = (page) => page.locator('.status-link[data-status="everywhere"]').waitFor();

/** Opens an address, and waits until its page is there. */
export async function visit(page, address) {
  await page.goto(address);
  await page.locator("main[data-ready]").waitFor();
}

/** Brings a device in by an address with a code. */
export async function join(page, address, name) {
  await visit(page, address);
  await page.getByLabel("Name of this device").fill(name);
  await button(page, "Bring it in").click();
  await page.getByText("In the workshop").first().waitFor();
}
