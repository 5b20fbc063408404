"""Photographs of sheets, made and looked at by OpenCV.

    photos.py make FOLDER    draws sheets, photographs them aslant
    photos.py check FOLDER   holds what was laid flat against them; what each tells
                             of itself is read from standard input

A chessboard is seen under a random perspective map (cv2.warpPerspective) and laid flat
by the program under test; its inner corners, found by cv2.findChessboardCornersSB, must
lie within 0.3 % of the sheet of where they were drawn. Drawn prints must be told apart:
plain, one way, both ways, whichever way.
"""

import random
import sys
from pathlib import Path

import cv2
import numpy as np

SEED = 20261130
# In millimetres; 10 pixels a millimetre would be finer than any camera is here.
SHEETS = [(304.8, 304.8), (215.9, 279.4), (210.0, 297.0), (152.4, 152.4)]
BOARDS = 24
# Of the sheet's longer side (the bound the project sets itself).
WITHIN = 0.003


def board(across, down, fine):
    """A chessboard with a white rim, and its inner corners in shares of the sheet."""
    columns, rows = 8, 10
    image = np.full((round(down * fine), round(across * fine), 3), 255, np.uint8)
    height, width = image.shape[:2]
    left, top, square_x, square_y = (
        width // 12,
        height // 12,
        (width - width // 6) // columns,
        (height - height // 6) // rows,
    )
    for row in range(rows):
        for column in range(columns):
            if (row + column) % 2 == 0:
                x, y = left + column * square_x, top + row * square_y
                image[y : y + square_y, x : x + square_x] = (40, 40, 40)
    inner = [
        ((left + column * square_x) / width, (top + row * square_y) / height)
        for row in range(1, rows)
        for column in range(1, columns)
    ]
    return image, inner, (columns - 1, rows - 1)


def motif(kind, fine, dice):
    """A sheet of 12 in with a print of that kind, its ground a light blue."""
    side = round(304.8 * fine)
    image = np.full((side, side, 3), (214, 226, 240), np.uint8)
    pitch = round(dice.uniform(24, 40) * fine)
    ink = (40, 70, 120)
    if kind == "TwoWay":
        for x in range(0, side, pitch):
            cv2.rectangle(image, (x, 0), (x + pitch // 3, side), ink, -1)
    for y in range(pitch // 2, side + pitch, pitch):
        for x in range(pitch // 2, side + pitch, pitch):
            if kind == "AllOver":
                cv2.circle(image, (x, y), pitch // 4, ink, -1)
            if kind == "OneWay":
                r = pitch // 3
                points = np.array([(x, y - r), (x + r, y + r), (x - r, y + r)])
                cv2.fillPoly(image, [points], ink)
    return image


def seen(image, dice):
    """A photograph of a sheet, aslant, on a dark table, and the sheet's corners there."""
    height, width = image.shape[:2]
    table = (1600, 1200)
    rim = lambda size: dice.uniform(0.06, 0.22) * size
    corners = [
        (rim(table[0]), rim(table[1])),
        (table[0] - rim(table[0]), rim(table[1])),
        (table[0] - rim(table[0]), table[1] - rim(table[1])),
        (rim(table[0]), table[1] - rim(table[1])),
    ]
    # OpenCV counts from the middle of the first pixel, we from its corner.
    edges = [(-0.5, -0.5), (width - 0.5, -0.5), (width - 0.5, height - 0.5), (-0.5, height - 0.5)]
    there = [(x - 0.5, y - 0.5) for x, y in corners]
    way = cv2.getPerspectiveTransform(np.float32(edges), np.float32(there))
    photo = cv2.warpPerspective(
        image, way, table, flags=cv2.INTER_AREA, borderValue=(30, 40, 30)
    )
    return photo, corners


def keep(folder, name, photo, sides, corners):
    height, width = photo.shape[:2]
    numbers = [width, height, *sides, *[part for corner in corners for part in corner]]
    (folder / f"{name}.txt").write_text(" ".join(repr(float(it)) for it in numbers))
    rgba = cv2.cvtColor(photo, cv2.COLOR_RGB2RGBA)
    (folder / f"{name}.rgba").write_bytes(rgba.tobytes())


def make(folder):
    dice = random.Random(SEED)
    for number in range(BOARDS):
        sides = SHEETS[number % len(SHEETS)]
        image, *_ = board(*sides, 4)
        photo, corners = seen(image, dice)
        keep(folder, f"board-{number:02}", photo, sides, corners)
    for kind in ["Plain", "AllOver", "TwoWay", "OneWay"]:
        for number in range(6):
            photo, corners = seen(motif(kind, 4, dice), dice)
            grain = np.random.default_rng(SEED + number).normal(0, 4, photo.shape)
            photo = np.clip(photo + grain, 0, 255).astype(np.uint8)
            keep(folder, f"print-{kind}-{number}", photo, (304.8, 304.8), corners)


def flat(path):
    bytes_ = path.read_bytes()
    width, height = (int.from_bytes(bytes_[at : at + 4], "little") for at in (0, 4))
    pixels = np.frombuffer(bytes_, np.uint8, offset=8)
    return pixels.reshape(height, width, 4)[:, :, :3]


def check(folder):
    # All of it first: the flat sheets are there once it has ended.
    told = dict(line.split(maxsplit=1) for line in sys.stdin if line.startswith("print-"))
    faults, worst, looked = [], 0.0, 0
    for path in sorted(folder.glob("board-*.flat")):
        sides = SHEETS[int(path.stem[-2:]) % len(SHEETS)]
        sheet = flat(path)
        height, width = sheet.shape[:2]
        if abs(width / height - sides[0] / sides[1]) > 0.002:
            faults.append(f"{path.stem}: {width} x {height} is not as wide as the sheet")
        _, inner, pattern = board(*sides, 4)
        grey = cv2.cvtColor(sheet, cv2.COLOR_RGB2GRAY)
        found, corners = cv2.findChessboardCornersSB(grey, pattern)
        if not found:
            faults.append(f"{path.stem}: no chessboard is seen")
            continue
        corners = corners.reshape(-1, 2)
        longer = max(width, height)
        for u, v in inner:
            at = np.array([u * width - 0.5, v * height - 0.5])
            off = float(np.min(np.linalg.norm(corners - at, axis=1))) / longer
            worst = max(worst, off)
            looked += 1
            if off > WITHIN:
                faults.append(f"{path.stem}: a corner is off by {100 * off:.2f} %")
    for name, (colour, kind) in ((name, it.split()) for name, it in told.items()):
        drawn = name.split("-")[1]
        if kind != drawn:
            faults.append(f"{name}: told {kind}")
        channels = [int(colour[at : at + 2], 16) for at in (1, 3, 5)]
        if drawn != "TwoWay" and max(abs(a - b) for a, b in zip(channels, (214, 226, 240))) > 12:
            faults.append(f"{name}: told {colour}")
    print(f"seed {SEED}: {looked} corners of chessboards by OpenCV {cv2.__version__}, ", end="")
    print(f"worst {100 * worst:.3f} % of the sheet; {len(told)} prints told; {len(faults)} faults")
    if looked < BOARDS * 60 or len(told) != 24:
        faults.append("too little was looked at")
    print("\n".join(faults))
    return 1 if faults else 0


if __name__ == "__main__":
    doing, folder = sys.argv[1], Path(sys.argv[2])
    if doing == "make":
        make(folder)
    else:
        sys.exit(check(folder))
