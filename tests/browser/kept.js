// What the app keeps in the browser, read without the app: packed texts are
// deflated (RFC 1951) after the preset dictionary that their version stands for,
// fifteen bits to a unit. Node's zlib unpacks them.

import { readFileSync } from "node:fs";
import { inflateRawSync } from "node:zlib";

const RECIPES = "foldwright/recipe/";
const ZERO = 0x3400;
const BITS = 15;

const DICTIONARIES = { 4: "first.txt", 5: "second.txt" };

function known(version) {
  const name = `../../app/src/store/packing/${DICTIONARIES[version]}`;
  return readFileSync(new URL(name, import.meta.url));
}

function unpacked(text) {
  const { foldwright, packed } = JSON.parse(text);
  if (packed === undefined) return text;
  const units = Array.from(packed, (letter) => letter.charCodeAt(0) - ZERO);
  const length = units[0] + units[1] * 2 ** BITS;
  const bytes = [];
  let held = 0;
  let count = 0;
  for (const unit of units.slice(2)) {
    held |= unit << count;
    count += BITS;
    for (; count >= 8; count -= 8) {
      bytes.push(held & 255);
      held >>>= 8;
    }
  }
  const plain = inflateRawSync(Buffer.from(bytes), { dictionary: known(foldwright) });
  if (plain.length !== length) throw new Error(`${plain.length} bytes, and ${length} were said`);
  return plain.toString();
}

/** The kept recipes: key, stamp and the file with the recipe. */
export async function keptRecipes(page) {
  const texts = await page.evaluate(
    (recipes) => Object.entries(localStorage).filter(([key]) => key.startsWith(recipes)),
    RECIPES,
  );
  return texts.map(([key, text]) => {
    const [stamp, file] = text.split(/\n(.*)/s);
    return { key, stamp, file: JSON.parse(unpacked(file)) };
  });
}

/** Keeps a recipe as earlier releases do, in a state after the last one. */
export async function keepRecipe(page, { key, stamp, file }) {
  const [revision, ...rest] = stamp.split(" ");
  const text = `${[Number(revision) + 1, ...rest].join(" ")}\n${JSON.stringify(file)}`;
  await page.evaluate(([key, text]) => localStorage.setItem(key, text), [key, text]);
}
