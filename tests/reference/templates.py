"""Measures printed templates with pypdf, by the operators of their paths, and reads
their structure as `sheets.py` does.

The first argument is a folder, as the example `templates` of `foldwright-print`
writes it: of each PDF a JSON of what is to be measured in it. It ends with an error
where a length is more than a hundredth of a millimetre from what the recipe has;
where a cut, a mountain or a valley is missing or drawn with another pen than its own;
where the pages of a part do not cover it, or two that are joined have their crosses
in different places; where a ruler is not as long as it says. Pens are told apart by
width and dashes alone. With `--figures` it prints what it found as JSON.
"""

import json
import sys
from pathlib import Path

from pypdf import PdfReader
from pypdf.generic import ContentStream
from shapely import box, union_all

import sheets

MM = 25.4 / 72
UNITS_A_MM = 72_000
WITHIN = 0.01
# Widths and dashes in millimetres; a pen that is none of these means nothing here.
PENS = {
    (0.5, ()): "cut",
    (0.7, (2.8, 1.0, 0.7, 1.0)): "mountain",
    (0.5, (2.0, 1.2)): "valley",
    (0.25, ()): "thin",
}
ARM = 8.0


def times(a, b):
    """The matrix that does one after the other (ISO 32000-1, 8.3.4)."""
    return (
        a[0] * b[0] + a[1] * b[2], a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2], a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4], a[4] * b[1] + a[5] * b[3] + b[5],
    )


class Drawn:
    """What one part of the structure draws: its frame and its chains by pen."""

    def __init__(self):
        self.frame = None
        self.chains = []

    def of(self, pen, closed=None):
        return [
            chain for name, is_closed, chain in self.chains
            if name == pen and closed in (None, is_closed)
        ]


def drawn(reader, page):
    """Of a page all that is drawn in a frame, in order, in millimetres."""
    found, now, within = [], None, 0
    matrix, width, dashes, kept = (1, 0, 0, 1, 0, 0), 1.0, (), []
    chains, chain = [], None
    for operands, operator in ContentStream(page.get_contents(), reader).operations:
        numbers = [float(it) for it in operands if isinstance(it, (int, float))]
        if operator == b"q":
            kept.append((matrix, width, dashes))
        elif operator == b"Q":
            matrix, width, dashes = kept.pop()
        elif operator == b"cm":
            matrix = times(numbers, matrix)
        elif operator == b"w":
            width = numbers[0]
        elif operator == b"d":
            dashes = tuple(float(it) for it in operands[0])
        elif operator in (b"BDC", b"BMC"):
            now, within = Drawn(), within + 1
        elif operator == b"EMC":
            if now and now.frame:
                found.append(now)
            now, within = None, within - 1
        elif operator in (b"m", b"l"):
            x, y = numbers
            at = (
                (x * matrix[0] + y * matrix[2] + matrix[4]) * MM,
                (x * matrix[1] + y * matrix[3] + matrix[5]) * MM,
            )
            if operator == b"m":
                chain = [False, [at]]
                chains.append(chain)
            else:
                chain[1].append(at)
        elif operator == b"h":
            chain[0] = True
        elif operator in (b"W", b"W*") and now and not now.frame:
            xs, ys = zip(*chains[0][1])
            now.frame = (min(xs), min(ys), max(xs), max(ys))
        elif operator in (b"n", b"f", b"f*", b"B", b"B*"):
            chains = []
        elif operator == b"S":
            key = (round(width * MM, 3), tuple(round(it * MM, 3) for it in dashes))
            if now and key in PENS:
                now.chains += [(PENS[key], closed, points) for closed, points in chains]
            chains = []
    return found


def expected(part, turned):
    """What is to be drawn of a part, in millimetres, perhaps a quarter turned."""
    def at(point):
        x, y = (it / UNITS_A_MM for it in point)
        return (-y, x) if turned else (x, y)
    return {
        "cut closed": [[at(it) for it in edge] for edge in part["edges"]],
        "cut open": [[at(it) for it in cut] for cut in part["cuts"]],
        "mountain": [[at(it) for it in fold] for fold in part["mountains"]],
        "valley": [[at(it) for it in fold] for fold in part["valleys"]],
    }


def matched(leaf, part):
    """By how much a drawing misses a part, where the part's origin is on the page, and
    whether it is turned; nothing where it is another part."""
    have = {
        "cut closed": leaf.of("cut", True),
        "cut open": leaf.of("cut", False),
        "mountain": leaf.of("mountain"),
        "valley": leaf.of("valley"),
    }
    for turned in (False, True):
        due = expected(part, turned)
        shape = {name: [len(chain) for chain in due[name]] for name in due}
        if shape != {name: [len(chain) for chain in have[name]] for name in have}:
            continue
        pairs = [
            (is_at, due_at) for name in due
            for is_chain, due_chain in zip(have[name], due[name])
            for is_at, due_at in zip(is_chain, due_chain)
        ]
        origin = [pairs[0][0][i] - pairs[0][1][i] for i in (0, 1)]
        worst = max(
            abs(is_at[i] - origin[i] - due_at[i]) for is_at, due_at in pairs for i in (0, 1)
        )
        if worst < 1:
            return worst, origin, turned
    return None


def check_scores(leaf, part, origin, turned, found):
    """The scores of a strip where its measures have them, and its length and height."""
    scores = part["scores"]
    if not scores or turned:
        return
    def along(chain):
        return {round((x - origin[0]) / WITHIN) for x, _ in chain}
    folds = [along(chain) for pen in ("mountain", "valley") for chain in leaf.of(pen)]
    for score in scores["at"]:
        due = score / UNITS_A_MM / WITHIN
        if not any(all(abs(at - due) <= 1 for at in fold) for fold in folds):
            found.append(f"no fold at {score / UNITS_A_MM}")
    edge = leaf.of("cut", True)[0]
    if len(edge) == 4:
        for i, name in enumerate(("length", "height")):
            side = max(at[i] for at in edge) - min(at[i] for at in edge)
            if abs(side - scores[name] / UNITS_A_MM) > WITHIN:
                found.append(f"{name} is {side}")


def crosses(leaf, origin):
    """The middles of crosses, from the part's origin: of two arms of one length."""
    middles, found = [], []
    for chain in leaf.of("thin"):
        (x, y), (to_x, to_y) = chain[0], chain[-1]
        if abs(abs(to_x - x) + abs(to_y - y) - ARM) < WITHIN:
            at = ((x + to_x) / 2 - origin[0], (y + to_y) / 2 - origin[1])
            (found if any(near(at, it) for it in middles) else middles).append(at)
    return found


def near(at, other):
    """Whether two places are the same on paper."""
    return max(abs(at[0] - other[0]), abs(at[1] - other[1])) <= WITHIN


def windows_of(leaves):
    """What is seen on each page of a part, from the part's origin."""
    windows = []
    for leaf, origin, _ in leaves:
        low_x, low_y, high_x, high_y = leaf.frame
        windows.append(box(
            low_x - origin[0], low_y - origin[1], high_x - origin[0], high_y - origin[1]
        ))
    return windows


def is_whole(part, leaves):
    """Whether the pages of a part cover it."""
    if not leaves:
        return False
    xs, ys = zip(*expected(part, leaves[0][2])["cut closed"][0])
    all_of_it = box(min(xs), min(ys), max(xs), max(ys))
    return union_all(windows_of(leaves)).buffer(1e-6).covers(all_of_it)


def check_joined(part, leaves, found):
    """All pages of a part together: they cover it, and what joins them is in one place."""
    windows, marks = windows_of(leaves), {}
    for window, (leaf, origin, _) in zip(windows, leaves):
        for at in crosses(leaf, origin):
            same = [it for it in marks if near(at, it)]
            marks.setdefault(same[0] if same else at, []).append(window)
    if not is_whole(part, leaves):
        found.append("its pages do not cover it")
    if len(windows) > 1 and len(marks) < 2 * (len(windows) - 1):
        found.append(f"{len(marks)} crosses on {len(windows)} pages")
    for at, on in marks.items():
        if len(on) != 2:
            found.append(f"a cross at {at} is on {len(on)} pages")


def check(file):
    """What is wrong with a file, its worst error, and how many drawings were measured."""
    beside = json.loads(file.with_suffix(".json").read_text())
    found = sheets.check(file, least=1)
    reader, worst, count = PdfReader(file), 0.0, 0
    leaves = [[] for _ in beside["parts"]]
    for number, page in enumerate(reader.pages):
        *parts, ruler, legend = drawn(reader, page)
        edge = max((chain for chain in ruler.of("thin")), key=lambda it: abs(it[-1][0] - it[0][0]))
        off = abs(abs(edge[-1][0] - edge[0][0]) - beside["ruler"] / UNITS_A_MM)
        worst = max(worst, off)
        if {"cut", "mountain", "valley"} - {pen for pen, _, _ in legend.chains}:
            found.append(f"page {number + 1} does not say how lines look")
        for leaf in parts:
            fits = [(matched(leaf, part), index) for index, part in enumerate(beside["parts"])]
            fits = [(fit, index) for fit, index in fits if fit]
            if not fits:
                found.append(f"page {number + 1} has what is no part")
                continue
            # Of parts that are alike, one is drawn after the other.
            (error, origin, turned), index = next(
                (fit for fit in fits if not is_whole(beside["parts"][fit[1]], leaves[fit[1]])),
                fits[0],
            )
            worst, count = max(worst, error), count + 1
            check_scores(leaf, beside["parts"][index], origin, turned, found)
            leaves[index].append((leaf, origin, turned))
    for part, pages in zip(beside["parts"], leaves):
        if not pages:
            found.append("a part is missing")
        else:
            check_joined(part, pages, found)
    if worst > WITHIN:
        found.append(f"a length misses by {worst} mm")
    return found, worst, count


def main():
    files = sorted(Path(sys.argv[1]).glob("*.pdf"))
    worst, measured, wrong = 0.0, 0, 0
    for file in files:
        found, error, count = check(file)
        worst, measured = max(worst, error), measured + count
        if found:
            wrong += 1
            print(f"{file.name}: {found}", file=sys.stderr)
    if "--figures" in sys.argv:
        said = {"files": len(files), "drawings": measured, "worst": worst, "wrong": wrong}
        print(json.dumps(said))
    else:
        print(f"{len(files)} files, {measured} drawings, worst {worst:.6f} mm, {wrong} faults")
    sys.exit(bool(wrong) or len(files) < 200)


if __name__ == "__main__":
    main()
