"""Spells lengths anew with num2words and compares what a voice is given.

Reads lines of a language, a length as it is shown and the same in words, as the
example `voiced` of `foldwright-words` prints them, and ends with an error where
the words are others than those that `num2words` spells and the rules of the
language join: English fractions as makers say them, "three and three sixteenths
inches" (common practice); German ones in small letters before a measure and
"einhalb" at the end of a number (Duden, from memory).
"""

import re
import sys
from fractions import Fraction

from num2words import num2words

RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹", "0123456789")
LOWERED = str.maketrans("₀₁₂₃₄₅₆₇₈₉", "0123456789")
SINGLE = {"¼": (1, 4), "½": (1, 2), "¾": (3, 4), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8)}
SHOWN = re.compile(r"(\d*)(?:([¼½¾⅛⅜⅝⅞])|([⁰¹²³⁴-⁹]+)⁄([₀-₉]+)|[.,](\d+))?\u00a0(in|mm)")


def english(number):
    """A whole number; the library sets commas behind thousands, which are not heard."""
    return num2words(number, lang="en").replace(",", "")


def in_english(whole, part, decimals, unit):
    inches = unit == "in"
    if decimals:
        digits = " ".join(english(int(digit)) for digit in decimals)
        return f"{english(whole)} point {digits} {'inches' if inches else 'millimetres'}"
    if part:
        over, under = part
        # The library counts "sixteenth"; a half and a quarter have words of their own.
        name = {2: "half", 4: "quarter"}.get(under) or num2words(under, lang="en", to="ordinal")
        spoken = f"{english(over)} {name}{'' if over == 1 else 's'}"
        if whole is None:
            return f"{spoken} of an inch"
        return f"{english(whole)} and {spoken} inches"
    if whole == 1:
        return "one inch" if inches else "one millimetre"
    return f"{english(whole)} {'inches' if inches else 'millimetres'}"


def german(number):
    return num2words(number, lang="de")


def before_measure(number):
    """The same before what it counts: "ein Zoll" and not "eins Zoll"."""
    return re.sub("eins$", "ein", german(number))


def in_german(whole, part, decimals, unit):
    measure = "Zoll" if unit == "in" else "Millimeter"
    if decimals:
        digits = " ".join(german(int(digit)) for digit in decimals)
        return f"{german(whole)} Komma {digits} {measure}"
    if part:
        over, under = part
        if (over, under) == (1, 2):
            return f"ein halber {measure}" if whole is None else f"{before_measure(whole)}einhalb {measure}"
        # "der sechzehnte" and "der zwanzigste" have "ein sechzehntel", "ein zwanzigstel".
        name = num2words(under, lang="de", to="ordinal") + "l"
        spoken = f"{before_measure(over)} {name} {measure}"
        return spoken if whole is None else f"{german(whole)} und {spoken}"
    return f"{before_measure(whole)} {measure}"


def main():
    seen = {"en": 0, "de": 0}
    parts = set()
    wrong = []
    for line in sys.stdin:
        language, shown, said = line.rstrip("\n").split("\t")
        found = SHOWN.fullmatch(shown)
        if not found:
            wrong.append(f"{shown}: not a length")
            continue
        whole, single, over, under, decimals, unit = found.groups()
        part = SINGLE.get(single)
        if over:
            part = (int(over.translate(RAISED)), int(under.translate(LOWERED)))
        if part:
            parts.add(Fraction(*part))
        whole = int(whole) if whole else None
        spell = in_english if language == "en" else in_german
        expected = spell(whole, part, decimals, unit)
        if said != expected:
            wrong.append(f"{shown}: {said!r} and not {expected!r}")
        seen[language] += 1
    if wrong:
        sys.exit("\n".join(wrong))
    if min(seen.values()) < 200 or len(parts) < 40:
        sys.exit(f"too few: {seen}, {len(parts)} fractions")
    print(f"{seen['en']} lengths in English and {seen['de']} in German, {len(parts)} fractions")


main()
