"""Folds cards by itself, with Shapely (GEOS), and compares their closed sizes.

Reads the lines that the engine's example `cards` prints. Of each card it takes
only what is drawn on the flat pieces, what is cut out of them, how a piece is
laid on another and where layers lie on their faces. The lines are divided into
panels with `polygonize`, each panel is reflected in the creases between it and
the one that rests, and the bounds of all are compared with the size the engine
gives. It ends with an error where one differs.
"""

import json
import math
import sys
from collections import Counter

from outlines import FLAT_WITHIN, paper
from shapely.affinity import affine_transform
from shapely.geometry import LineString, Point, box
from shapely.ops import polygonize, unary_union

# Corners are rounded to whole units of 1/72 µm; on their way through some
# creases at a slant these roundings add up.
WITHIN = 40
# How near to a line a point lies on it.
ON_LINE = 4
# How much of a crease two panels share that hang together by it: where another
# line leaves it at a small angle, what lies beyond is on it for a little too.
HINGE = 250 * ON_LINE


def reflected(line):
    """The affine matrix that mirrors in a line."""
    (ax, ay), (bx, by) = line
    turn = 2 * math.atan2(by - ay, bx - ax)
    cos, sin = math.cos(turn), math.sin(turn)
    return [cos, sin, sin, -cos, ax - cos * ax - sin * ay, ay - sin * ax + cos * ay]


def after(first, then):
    """One affine matrix after another."""
    a, b, d, e, x, y = first
    p, q, r, s, u, v = then
    return [
        p * a + q * d, p * b + q * e, r * a + s * d, r * b + s * e,
        p * x + q * y + u, r * x + s * y + v,
    ]


STILL = [1, 0, 0, 1, 0, 0]


def laid(line, along, mirrored):
    """What lays one line along another, their beginnings together."""
    (ax, ay), (bx, by) = line
    flip = [-1 if mirrored else 1, 0, 0, 1, 0, 0]
    x, y = (bx - ax) * flip[0], by - ay
    (cx, cy), (dx, dy) = along
    turn = math.atan2(dy - cy, dx - cx) - math.atan2(y, x)
    turned = after(flip, [math.cos(turn), -math.sin(turn), math.sin(turn), math.cos(turn), 0, 0])
    begin = affine_transform(Point(ax, ay), turned)
    return after(turned, [1, 0, 0, 1, cx - begin.x, cy - begin.y])


class Strip:
    """A flat piece divided into panels."""

    def __init__(self, told):
        self.ends = told["ends"]
        length, height = self.ends[-1], told["height"]
        whole = paper(told["cut"]) if told["cut"] else box(0, 0, length, height)
        scores = [
            {"line": [[x, 0], [x, height]], "crease": True, "flat": flat}
            for x, flat in zip(self.ends, told["scores_flat"])
        ]
        self.lines = scores + told["lines"]
        drawn = [LineString(it["line"]) for it in self.lines]
        edges = unary_union([whole.boundary, *drawn])
        facets = [facet for facet in polygonize(edges) if whole.contains(facet.representative_point())]
        self.facets = sorted(facets, key=first_corner)
        # Two panels hang together by the stretch of a crease that bounds both.
        self.hinges = []
        for number, line in enumerate(self.lines):
            if not line["crease"]:
                continue
            course = LineString(line["line"]).buffer(ON_LINE, cap_style="flat")
            along = [facet.boundary.intersection(course).length for facet in self.facets]
            touching = [at for at, length in enumerate(along) if length > HINGE]
            for place, one in enumerate(touching):
                for other in touching[place + 1 :]:
                    shared = self.facets[one].boundary.intersection(
                        self.facets[other].buffer(ON_LINE, cap_style="flat")
                    ).intersection(course)
                    if shared.length > HINGE:
                        self.hinges.append((one, other, number))

    def joined(self, facet):
        """The panels that hang on one."""
        found = [facet]
        for at in found:
            for one, other, _ in self.hinges:
                if at in (one, other) and (beyond := one + other - at) not in found:
                    found.append(beyond)
        return found

    def panel(self, facet):
        left = first_corner(self.facets[facet])[0]
        return next(at for at, end in enumerate(self.ends) if left < end - ON_LINE)

    def largest(self, facets):
        """The largest; of equals the last."""
        return max(sorted(facets), key=lambda at: (round(self.facets[at].area / 1e6), at))

    def part(self, panel, number, kept):
        """A part of a panel: the largest is number 0, the others are counted."""
        parts = [at for at in sorted(kept) if self.panel(at) == panel]
        largest = self.largest(parts)
        others = [at for at in parts if at != largest]
        return largest if number == 0 else others[number - 1]

    def placed(self, root, place):
        """Where each panel comes to lie with all creases shut."""
        places = {root: place}
        waiting = [root]
        while waiting:
            at = waiting.pop()
            for one, other, number in self.hinges:
                if at not in (one, other) or (beyond := one + other - at) in places:
                    continue
                line = self.lines[number]
                over = STILL if line.get("flat") else reflected(line["line"])
                places[beyond] = after(over, places[at])
                waiting.append(beyond)
        return places

    def crease(self, facet):
        """The line a panel is laid by."""
        for one, other, number in self.hinges:
            if facet in (one, other):
                return self.lines[number]["line"]
        low_x, low_y, _, high_y = self.facets[facet].bounds
        return [[low_x, low_y], [low_x, high_y]]


def first_corner(facet):
    """The corner farthest left, the lowest of these."""
    return min((round(x), round(y)) for x, y in facet.exterior.coords)


def closed(card):
    """All that lies in the closed card."""
    base = Strip(card["base"])
    rests = [at for at in range(len(base.facets)) if base.panel(at) == card["rests"]]
    root = base.largest(rests)
    turn = [0, 1, -1, 0, 0, 0] if card["down"] else STILL
    kept = base.joined(root)
    strips = [(base, kept, base.placed(root, turn))]
    for piece in card["pieces"]:
        strip = Strip(piece)
        every = range(len(strip.facets))
        area = lambda at: sum(strip.facets[it].area for it in strip.joined(at))
        hangs = strip.joined(max(every, key=area))
        part = strip.part(piece["panel"], piece["part"], hangs)
        carrier, carried, places = strips[piece["on"]["strip"]]
        on = carrier.part(piece["on"]["panel"], piece["on"]["part"], carried)
        lie = laid(strip.crease(part), piece["along"], piece["mirrored"])
        strips.append((strip, hangs, strip.placed(part, after(lie, places[on]))))
    lying = []
    for strip, hangs, places in strips:
        lying += [affine_transform(strip.facets[at], places[at]) for at in hangs]
    for layer in card["layers"]:
        at = base.part(layer["panel"], 0, kept)
        low_x, low_y, high_x, _ = base.facets[at].bounds
        left, bottom, width, height = layer["at"]
        # A reader of the outside sees the panel the other way round.
        x = high_x - left - width if layer["outside"] else low_x + left
        rectangle = box(x, low_y + bottom, x + width, low_y + bottom + height)
        lying.append(affine_transform(rectangle, strips[0][2][at]))
    return lying


count = Counter()
for line in sys.stdin:
    told = json.loads(line)
    card, name = told["closed"], told["name"]
    if not card:
        continue
    bounds = unary_union([box(*it.bounds) for it in closed(card)]).bounds
    size = [bounds[2] - bounds[0], bounds[3] - bounds[1]]
    for found, wanted in zip(card["size"], size):
        if abs(found - wanted) > (FLAT_WITHIN if card["base"]["cut"] else WITHIN):
            sys.exit(f"{name}: the engine closes it to {card['size']}, Shapely to {size}")
    count[told["kind"]] += 1
    count["with pieces glued in"] += bool(card["pieces"])
    count["with lines"] += bool(card["base"]["lines"])
    count["cut out"] += bool(card["base"]["cut"])
    count["with layers"] += bool(card["layers"])

least = {"starters": 62, "envelopes": 62, "refitted": 100, "generated": 400}
least |= {"with pieces glued in": 50, "with lines": 300, "cut out": 100, "with layers": 100}
for what, enough in least.items():
    if count[what] < enough:
        sys.exit(f"only {count[what]} of {what} were folded")
print(", ".join(f"{many} {what}" for what, many in sorted(count.items())) + " close alike")
