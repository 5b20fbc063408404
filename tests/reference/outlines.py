"""Outlines drawn anew from their numbers, with Shapely (GEOS).

Arcs are drawn with so many corners that these count as the arc; the engine's own
may lie a fiftieth of a millimetre away from it.
"""

import math

from shapely import make_valid
from shapely.affinity import scale
from shapely.geometry import LineString, Point, Polygon, box
from shapely.ops import unary_union

# Corners of a quarter of a circle.
FINE = 400
# How far the engine's outlines may lie from an arc, in units of 1/72 µm, with
# the rounding of corners to whole units.
FLAT_WITHIN = 0.02 * 72_000 + 2
# Past the edge, so that nothing of it is left standing.
BEYOND = 72_000


def way(start, end, rise):
    """The points from one to another along an arc that lies so far to the right
    of the straight way in its middle."""
    (ax, ay), (bx, by) = start, end
    chord = math.hypot(bx - ax, by - ay)
    if chord == 0 or rise == 0:
        return [start, end]
    # The circle through both ends and the point in the middle.
    ux, uy = (bx - ax) / chord, (by - ay) / chord
    middle = ((ax + bx) / 2 + uy * rise, (ay + by) / 2 - ux * rise)
    radius = (chord * chord / 4 + rise * rise) / (2 * abs(rise))
    inwards = -math.copysign(radius, rise)
    cx, cy = middle[0] + uy * inwards, middle[1] - ux * inwards
    first = math.atan2(ay - cy, ax - cx)
    over = 4 * math.atan(2 * abs(rise) / chord) * math.copysign(1, rise)
    points = []
    for step in range(2 * FINE + 1):
        turn = first + over * step / (2 * FINE)
        points.append((cx + radius * math.cos(turn), cy + radius * math.sin(turn)))
    return points


def ellipse(at):
    low_x, low_y, high_x, high_y = at
    circle = Point((low_x + high_x) / 2, (low_y + high_y) / 2).buffer(1, quad_segs=FINE)
    return scale(circle, (high_x - low_x) / 2, (high_y - low_y) / 2)


def rounded(at, radius):
    low_x, low_y, high_x, high_y = at
    across, up = (low_x + radius, high_x - radius), (low_y + radius, high_y - radius)
    circles = [Point(x, y).buffer(radius, quad_segs=FINE) for x in across for y in up]
    bars = [box(across[0], low_y, across[1], high_y), box(low_x, up[0], high_x, up[1])]
    return unary_union(circles + bars)


def arched(at, rise):
    low_x, low_y, high_x, high_y = at
    top = way((high_x, high_y - rise), (low_x, high_y - rise), rise)
    return Polygon([(low_x, low_y), (high_x, low_y), *top])


def die(at, bends):
    low_x, low_y, high_x, high_y = at

    def corner(bend):
        return (
            low_x + (high_x - low_x) * bend[0] / 1000,
            low_y + (high_y - low_y) * bend[1] / 1000,
        )

    points = []
    for bend, after in zip(bends, bends[1:] + bends[:1]):
        start, end = corner(bend), corner(after)
        points += way(start, end, math.dist(start, end) * bend[2] / 1000)[:-1]
    return make_valid(Polygon(points)).intersection(box(*at))


def corners(cut):
    low_x, low_y, high_x, high_y = cut["at"]
    radius = cut["number"]
    taken = []
    for x, inwards in [(low_x, radius)] * cut["left"] + [(high_x, -radius)] * cut["right"]:
        for y, up in [(high_y, -radius)] * cut["upper"] + [(low_y, radius)] * cut["lower"]:
            square = box(min(x, x + inwards), min(y, y + up), max(x, x + inwards), max(y, y + up))
            circle = Point(x + inwards, y + up).buffer(radius, quad_segs=FINE)
            taken.append(square.difference(circle))
    return unary_union(taken)


def edge(cut):
    """What is taken between an edge and the line it is cut along."""
    low_x, low_y, high_x, high_y = cut["at"]
    upright = cut["side"] in ("Left", "Right")
    long = high_y - low_y if upright else high_x - low_x
    across = high_x - low_x if upright else high_y - low_y
    depth, count = min(cut["number"], across), cut["count"]
    # Along the edge to the right, with the paper above.
    if cut["kind"] == "arch":
        rise = min(depth, long // 2)
        line = way((0, rise), (long, rise), rise)
    elif cut["kind"] == "hollow":
        line = way((0, 0), (long, 0), -min(depth, long // 2))
    elif cut["kind"] == "scallops":
        rise = min(depth, round(long / (2 * count)))
        line = []
        for number in range(count):
            begin, end = long * number / count, long * (number + 1) / count
            line += way((begin, rise), (end, rise), rise)
    else:
        line = [
            (long * number / (2 * count), 0 if number % 2 else depth)
            for number in range(2 * count + 1)
        ]
    line = [*line, (long, -BEYOND), (0, -BEYOND)]
    place = {
        "Left": lambda x, y: (low_x + y, low_y + x),
        "Right": lambda x, y: (high_x - y, low_y + x),
        "Bottom": lambda x, y: (low_x + x, low_y + y),
        "Top": lambda x, y: (low_x + x, high_y - y),
    }[cut["side"]]
    return make_valid(Polygon([place(x, y) for x, y in line]))


def drawn(cut):
    """What is cut out, from its numbers."""
    kind, at = cut["kind"], cut["at"]
    if kind == "straight":
        return box(*at)
    if kind == "rounded":
        return rounded(at, cut["number"])
    if kind == "round":
        return ellipse(at)
    if kind == "arched":
        return arched(at, cut["number"])
    if kind == "die":
        return die(at, cut["bends"])
    if kind == "corners":
        return corners(cut)
    return edge(cut)


def paper(cut):
    """The strip without all that is cut out of it."""
    return box(*cut["sheet"]).difference(unary_union([drawn(it) for it in cut["taken"]]))


def near(found, wanted):
    """Whether two shapes are the same but for what arcs may be off by: what is
    in one of them only lies that near the other's edge."""
    apart = found.symmetric_difference(wanted)
    return apart.is_empty or apart.difference(
        unary_union([LineString(ring.coords) for ring in rings(wanted)]).buffer(FLAT_WITHIN)
    ).area <= wanted.length


def rings(shape):
    for part in getattr(shape, "geoms", [shape]):
        if part.geom_type == "Polygon":
            yield part.exterior
            yield from part.interiors
