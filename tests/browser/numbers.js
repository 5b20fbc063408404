// Lengths as people see and hear them.

const CHARACTERS = { "1/2": "½", "1/4": "¼", "3/4": "¾", "1/8": "⅛", "3/8": "⅜", "5/8": "⅝", "7/8": "⅞" };
const RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹";
const LOWERED = "₀₁₂₃₄₅₆₇₈₉";

/** What is typed as "4 3/16 × 5 1/2 in", as it is shown: "4³⁄₁₆ × 5½ in". */
export function shown(typed) {
  const set = (digits, figures) => [...digits].map((digit) => figures[digit]).join("");
  return typed.replace(/(\d+ )?(\d+)\/(\d+)/g, (_, whole = "", over, under) => {
    const part = CHARACTERS[`${over}/${under}`] ?? `${set(over, RAISED)}⁄${set(under, LOWERED)}`;
    return `${whole.trim()}${part}`;
  });
}

/** A text with the spaces that do not break as plain ones. */
export const plain = (text) => text.replaceAll("\u00a0", " ");

const BELOW_TWENTY =
  "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split(" ");
const TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split(" ");
const OF_ONE = {
  "½": "one half",
  "¼": "one quarter",
  "¾": "three quarters",
  "⅛": "one eighth",
  "⅜": "three eighths",
  "⅝": "five eighths",
  "⅞": "seven eighths",
};
const PARTS = { half: 2, halve: 2, quarter: 4, eighth: 8, sixteenth: 16, "thirty-second": 32, "sixty-fourth": 64 };

/** A whole number below a hundred, in figures or words. */
function whole(word) {
  if (/^\d+$/.test(word)) return Number(word);
  const [tens, ones = ""] = word.split("-");
  const below = BELOW_TWENTY.indexOf(word);
  return below >= 0 ? below : 10 * (TENS.indexOf(tens) + 2) + Math.max(0, BELOW_TWENTY.indexOf(ones));
}

/**
 * The inches that a text tells, as it is seen ("2⅛ in") or heard ("two and three
 * sixteenths inches").
 */
export function inches(text) {
  const told = plain(text).trim().replace(/ (in|inch|inches|of an inch)$/, "");
  const seen = told.match(/^(\d*)([½¼¾⅛⅜⅝⅞]|[⁰¹²³⁴-⁹]+⁄[₀-₉]+)?$/);
  if (seen) {
    const [over, under] = (
      Object.keys(CHARACTERS).find((key) => CHARACTERS[key] === seen[2]) ??
      (seen[2] ?? "0/1")
        .replace("⁄", "/")
        .replace(/[^/\d]/g, (figure) => String(Math.max(RAISED.indexOf(figure), LOWERED.indexOf(figure))))
    ).split("/");
    return Number(seen[1]) + over / under;
  }
  return told
    .split(" and ")
    .map((part) => part.split(" "))
    .map(([number, of]) => whole(number) / (of ? PARTS[of.replace(/s$/, "")] : 1))
    .reduce((sum, part) => sum + part);
}

/** A whole number below a hundred, spelled. */
function spelled(number) {
  if (number < 20) return BELOW_TWENTY[number];
  const ones = number % 10 ? `-${BELOW_TWENTY[number % 10]}` : "";
  return `${TENS[Math.floor(number / 10) - 2]}${ones}`;
}

/**
 * A text that a screen reader hears, with the lengths in inches that it still has in
 * figures in words, as makers say them (common practice).
 */
export function inWords(text) {
  const said = (whole, part) => [whole && spelled(Number(whole)), OF_ONE[part]].filter(Boolean).join(" and ");
  return plain(
    text
      .replace(/(\d*)([½¼¾⅛⅜⅝⅞]?)\u00a0in\b/g, (told, whole, part) => {
        if (!whole && !part) return told;
        return `${said(whole, part)} ${!whole ? "of an inch" : whole === "1" && !part ? "inch" : "inches"}`;
      })
      .replace(/(\d*)([½¼¾⅛⅜⅝⅞])/g, (_, whole, part) => said(whole, part))
      .replaceAll("×", "by"),
  );
}
