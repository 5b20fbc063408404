// Where things stand in the calculator.

/** The tab of the calculator that each of its parts is on. */
export const PARTS = {
  Panels: "Card",
  "Pop-ups & pockets": "Card",
  Papers: "Paper",
  "Print direction": "Paper",
  Layers: "Decorate",
  Resize: "Fit",
  Envelope: "Fit",
  Scores: "Make",
  "Class & post": "Make",
};

/** Turns to a part of the calculator: to its tab, and there to itself where it is one of several. */
export async function turnTo(page, part, parts = PARTS) {
  const tab = parts[part];
  await page.getByRole("tab", { name: tab, exact: true }).click();
  const alone = Object.values(parts).filter((other) => other === tab).length === 1;
  if (!alone) await page.locator("#section > .choice").getByRole("button", { name: part, exact: true }).click();
}
