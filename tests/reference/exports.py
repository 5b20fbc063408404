"""Reads files that leave for other programs: crease patterns by the rules of the FOLD
format, version 1.2 (https://github.com/edemaine/fold/blob/main/doc/spec.md), their
vertices by Kawasaki and Maekawa, their faces with Shapely; and lists with Python's own
reader of CSV (RFC 4180). What was read of a crease pattern and written again is the same
lines by Shapely.

The only argument is a folder, as the example `exports` of `foldwright-export` writes
it, each list with a JSON of the sizes that are to stand in it, each pattern with one that
was written again. It ends with an error where something is against these.
"""

import csv
import io
import json
import math
import sys
from pathlib import Path

from shapely import LineString, MultiLineString, Polygon, affinity, polygonize

UNITS_A_MM = 72_000
KINDS = {"B", "M", "V", "F", "C", "J"}
# Points that are meant to lie on a slanting line are rounded, and joined up to a
# micron, on lines of a centimetre at least.
ANGLES_WITHIN = 2e-4
# What is cut off is kept in shares of its size, and points that paper does not show apart
# are one.
LINES_WITHIN = 0.015
LENGTHS_WITHIN = {"in": 0.000_001, "mm": 0.001}


def check_frame(frame, found):
    """A crease pattern."""
    points, edges = frame["vertices_coords"], frame["edges_vertices"]
    kinds, angles = frame["edges_assignment"], frame["edges_foldAngle"]
    faces, of_edges = frame["faces_vertices"], frame["edges_faces"]
    if frame["frame_unit"] != "mm" or "creasePattern" not in frame["frame_classes"]:
        found.append("no crease pattern in millimetres")
    if not len(edges) == len(kinds) == len(angles) == len(of_edges):
        found.append("edges are told in lists of different lengths")
        return
    inside = range(len(points))
    if any(end not in inside for ends in edges + faces for end in ends):
        found.append("a vertex that is not there")
        return
    if len({frozenset(ends) for ends in edges}) != len(edges) or any(a == b for a, b in edges):
        found.append("an edge twice, or from a vertex to itself")
    if {end for ends in edges for end in ends} != set(inside):
        found.append("a vertex without edges")
    for kind, angle in zip(kinds, angles):
        due = {"M": -180, "V": 180}.get(kind, 0)
        if kind not in KINDS or angle != due:
            found.append(f"an edge {kind} of {angle} degrees")
    for name, kind in (("cuts", "C"), ("joins", "J")):
        told = name if kind in kinds else "no" + name.capitalize()
        if told not in frame["frame_attributes"]:
            found.append(f"it is not told that it has {told}")
    check_faces(points, edges, kinds, faces, of_edges, found)
    check_vertices(points, edges, kinds, found)


def check_faces(points, edges, kinds, faces, of_edges, found):
    """Each edge has as many faces as its kind says, and each face is one walk."""
    number = {frozenset(ends): index for index, ends in enumerate(edges)}
    walked = [[] for _ in edges]
    for face, round_it in enumerate(faces):
        for a, b in zip(round_it, round_it[1:] + round_it[:1]):
            index = number.get(frozenset((a, b)))
            if index is None:
                found.append(f"face {face} walks where no edge is")
                return
            walked[index].append((face, [a, b] == edges[index]))
        if Polygon([points[at] for at in round_it]).area <= 0 or signed(points, round_it) <= 0:
            found.append(f"face {face} is not anticlockwise")
    for index, (kind, by) in enumerate(zip(kinds, walked)):
        due = 1 if kind == "B" else 2
        if len(by) != due or due == 2 and by[0][1] == by[1][1]:
            found.append(f"edge {index}, {kind}, is walked by {by}")
            continue
        # The face at its left comes first.
        left_first = [face for face, _ in sorted(by, key=lambda it: not it[1])]
        if left_first != of_edges[index]:
            found.append(f"edge {index} has faces {of_edges[index]}, not {left_first}")
        if kind in "MVF" and left_first[0] == left_first[-1]:
            found.append(f"edge {index}, {kind}, has one face at both sides")
        if kind == "J" and left_first[0] != left_first[-1]:
            found.append(f"edge {index} joins what is two faces")
    # Euler: what lines enclose is paper or hole.
    enclosed = 1 - len(points) + len(edges)
    lines = [LineString([points[a], points[b]]) for a, b in edges]
    polygons = list(polygonize(lines).geoms)
    if len(polygons) != enclosed or len(faces) > enclosed:
        found.append(f"{len(polygons)} areas and {len(faces)} faces, {enclosed} by Euler")
    paper = sum(signed(points, face) for face in faces)
    outside = max(polygonize([it for it, kind in zip(lines, kinds) if kind == "B"]).geoms,
                  key=lambda it: it.area, default=None)
    if outside is not None and paper > Polygon(outside.exterior).area * (1 + 1e-9):
        found.append("its faces lie on each other")


def signed(points, round_it):
    """The area inside a walk, more than nothing where it is anticlockwise."""
    steps = zip(round_it, round_it[1:] + round_it[:1])
    return sum(points[a][0] * points[b][1] - points[b][0] * points[a][1] for a, b in steps) / 2


def check_vertices(points, edges, kinds, found):
    """Round each vertex within the paper (Kawasaki 1989; Maekawa, told by Kasahara)."""
    around = {}
    for (a, b), kind in zip(edges, kinds):
        for at, to in ((a, b), (b, a)):
            angle = math.atan2(points[to][1] - points[at][1], points[to][0] - points[at][0])
            around.setdefault(at, []).append((angle, kind))
    for at, spokes in around.items():
        kinds_here = [kind for _, kind in spokes]
        if set(kinds_here) & set("BCF"):
            continue
        folds = sorted((angle, kind) for angle, kind in spokes if kind in "MV")
        if not folds:
            continue
        turns = [angle for angle, _ in folds]
        gaps = [b - a for a, b in zip(turns, turns[1:] + [turns[0] + math.tau])]
        mountains = sum(kind == "M" for _, kind in folds)
        if len(folds) % 2 or abs(sum(gaps[::2]) - math.pi) > ANGLES_WITHIN:
            found.append(f"vertex {at} does not fold flat: {gaps}")
        if abs(2 * mountains - len(folds)) != 2:
            found.append(f"vertex {at} has {mountains} mountains of {len(folds)} creases")


def check_fold(file):
    found = []
    told = json.loads(file.read_text())
    if told["file_spec"] != 1.2 or told["file_classes"] != ["singleModel"]:
        found.append("another format")
    frames = [told, *told.get("file_frames", [])]
    if any(not frame["frame_title"] for frame in frames):
        found.append("a frame without a title")
    for frame in frames:
        check_frame(frame, found)
    return found, len(frames)


def lines_of(file):
    """The lines of the first frame by their letters, its border's corner at the origin."""
    frame = json.loads(file.read_text())
    points = frame["vertices_coords"]
    by_kind = {kind: [] for kind in "BMVC"}
    for (a, b), kind in zip(frame["edges_vertices"], frame["edges_assignment"]):
        by_kind.get(kind, []).append((points[a], points[b]))
    left, bottom, _, _ = MultiLineString(by_kind["B"]).bounds
    return {
        kind: affinity.translate(MultiLineString(lines), -left, -bottom)
        for kind, lines in by_kind.items()
    }


def check_again(file):
    """What was read and written again is as it was."""
    before, after = lines_of(file.with_name(file.name.replace(".again.", "."))), lines_of(file)
    return [
        f"lines {kind} differ"
        for kind in before
        for one, other in ((before[kind], after[kind]), (after[kind], before[kind]))
        if one.difference(other.buffer(LINES_WITHIN)).length > LINES_WITHIN
    ]


def check_csv(file):
    found = []
    text = file.read_bytes().decode("utf-8")
    if "\r\n" not in text or text.replace("\r\n", "").count("\n") or not text.endswith("\r\n"):
        found.append("its lines do not end as RFC 4180 has it")
    head, *rows = csv.reader(io.StringIO(text, newline=""), strict=True)
    beside = json.loads(file.with_suffix(".json").read_text())
    german = "-de" in file.stem
    if head[:4] != (["Zeile", "Name", "Breite", "Höhe"] if german else ["Row", "Name", "Width", "Height"]):
        found.append(f"its head is {head}")
    if any(len(row) != len(head) for row in rows):
        found.append("rows of different lengths")
    for row, size in zip(rows, beside["parts"]):
        a_unit = 25.4 if row[4] == "in" else 1.0
        if row[4] != beside["unit"] or not row[5].isdigit():
            found.append(f"{row[5]} in {row[4]}")
        for cell, units in zip(row[2:4], size):
            if german and "." in cell or not german and "," in cell:
                found.append(f"the decimal mark of {cell}")
            due = units / UNITS_A_MM / a_unit
            if abs(float(cell.replace(",", ".")) - due) > LENGTHS_WITHIN[row[4]]:
                found.append(f"{cell} is {due}")
    if len(rows) < len(beside["parts"]) + 1:
        found.append("rows are missing")
    return found


def main():
    folder, wrong = Path(sys.argv[1]), 0
    folds, tables, frames = sorted(folder.glob("*.fold")), sorted(folder.glob("*.csv")), 0
    for file in folds:
        found, count = check_fold(file)
        frames += count
        if file.name.endswith(".again.fold"):
            found += check_again(file)
        if found:
            wrong += 1
            print(f"{file.name}: {found}")
    for file in tables:
        if found := check_csv(file):
            wrong += 1
            print(f"{file.name}: {found}")
    print(f"{len(folds)} crease patterns in {frames} frames, {len(tables)} lists, {wrong} faults")
    sys.exit(bool(wrong) or min(len(folds) // 2, len(tables)) < 60)


if __name__ == "__main__":
    main()
