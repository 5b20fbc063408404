"""Reads kits to print with pypdf, and holds them against their plans.

The only argument is a folder of kits, as the example `kits` of `foldwright-print`
writes them, each with a file beside it that says in 1/72 µm where the plan sets its
fence and how large each part is, and how many of it a card takes. Each file has to be
structured as `sheets.py` asks; to have a label for each kit, once; to set the fence
where the plan does, in its order; and to say of each part how many there are in a kit
and in all, which is the first times the kits.
"""

import json
import re
import sys
import unicodedata
from fractions import Fraction
from pathlib import Path

from pypdf import PdfReader
from sheets import check

UNIT = {"in": Fraction(25_400 * 72), "mm": Fraction(1_000 * 72)}
# How far a number that is marked as a little more or less may be from what it is: half
# of the coarsest mark that a starting fold is made with, 1/16 in or 1 mm.
NEAR = {"in": Fraction(1, 32), "mm": Fraction(1, 2)}
NUMBER = r"([0-9¼½¾⅛⅜⅝⅞⁰¹²³⁴⁵⁶⁷⁸⁹⁄₀₁₂₃₄₅₆₇₈₉.,]+)([⁺⁻]?)"
WORDS = {
    "en": ("Kit {} of {}", "Spare kit {} of {}", "Set the fence "),
    "de": ("Päckchen {} von {}", "Reservepäckchen {} von {}", "Stell den Anschlag "),
}


def number(text):
    """A number as it is printed: whole, with a decimal mark, or with a fraction."""
    raised = "⁰¹²³⁴⁵⁶⁷⁸⁹"
    lowered = "₀₁₂₃₄₅₆₇₈₉"
    match = re.fullmatch(f"([0-9]*)([{raised}]+)⁄([{lowered}]+)", text)
    if match:
        whole, over, under = match.groups()
        over = int("".join(str(raised.index(it)) for it in over))
        under = int("".join(str(lowered.index(it)) for it in under))
        return int(whole or 0) + Fraction(over, under)
    if text and unicodedata.category(text[-1]) == "No":
        share = Fraction(unicodedata.numeric(text[-1])).limit_denominator(64)
        return int(text[:-1] or 0) + share
    return Fraction(text.replace(",", "."))


def is_that(found, tick, units, unit):
    """Whether a printed number is a length, or nearly so where it says so."""
    off = abs(number(found) - Fraction(units) / UNIT[unit])
    return off <= NEAR[unit] if tick else off == 0


def wrong(file):
    said = json.loads(file.with_suffix(".json").read_text())
    language = "de" if "-de-" in file.name else "en"
    kit, spare, fence = WORDS[language]
    found = check(file, least=4)
    pages = [page.extract_text() for page in PdfReader(file).pages]
    text = re.sub(r"\s+", " ", " ".join(pages))
    for words, count in ((kit, said["makers"]), (spare, said["spare"])):
        for label in range(1, count + 1):
            # Not within another word, nor before another digit.
            times = len(re.findall(rf"(?<!\w){words.format(label, count)}(?!\d)", text))
            if times != 1:
                found.append(f"{words.format(label, count)} is there {times} times")
    unit = "in" if said["inches"] else "mm"
    set_to = re.findall(re.escape(fence) + NUMBER + f" ?{unit}", text)
    if len(set_to) != len(said["fences"]):
        found.append(f"the fence is set {len(set_to)} times, planned {len(said['fences'])}")
    for (length, tick), units in zip(set_to, said["fences"]):
        if not is_that(length, tick, units, unit):
            found.append(f"the fence is set to {length}{tick} {unit} and not to {units}")
    kits = said["makers"] + said["spare"]
    size = re.compile(NUMBER + " × " + NUMBER + f" {unit} ")
    # Each size with what stands behind it, up to the next.
    sizes = list(size.finditer(text))
    ends = [after.start() for after in sizes[1:]] + [len(text)]
    for piece in said["pieces"]:
        each, together = piece["each"], piece["each"] * kits
        for at, end in zip(sizes, ends):
            wide, wide_tick, high, high_tick = at.groups()
            sides = zip((wide, high), (wide_tick, high_tick), piece["sides"])
            counts = re.search(rf" {each} {together} ", text[at.end() : end] + " ")
            if counts and all(is_that(*side, unit) for side in sides):
                break
        else:
            found.append(f"{piece} is not there as {each} and {together}")
    return found


def main():
    files = sorted(Path(sys.argv[1]).glob("*.pdf"))
    found = [(file.name, what) for file in files if (what := wrong(file))]
    for file, what in found:
        print(f"{file}: {what}")
    print(f"{len(files)} kits, {len(found)} faults")
    sys.exit(bool(found) or len(files) < 100)


if __name__ == "__main__":
    main()
