"""Checks the areas of generated cards against Shapely (GEOS).

Reads the lines that the engine's example `cards` prints. From the numbers that
windows and edges are drawn by it cuts the strip again; from the outlines and the
order of the panels alone it works out again what shows of every panel and of a
layer from the front and from the back, and where glue may go on that layer; and
it compares the areas to one part in a million, and arcs to the tolerance they
are drawn with. It ends with an error where one differs.
"""

import json
import sys
from collections import Counter

from outlines import near, paper, rings
from shapely import make_valid
from shapely.geometry import LineString, Polygon
from shapely.ops import unary_union

# Areas are compared to one part in a million. Corners are rounded to whole
# units, so that slivers may be off by a unit along their outline.
RELATIVE = 1e-6
# Round a corner that points inwards the engine takes up to a fiftieth of the
# margin more.
ROUND_CORNERS = 1.02
# Most cards have no more panels than this; it only guards against a bad file.
MOST = 500


def shape(rings):
    """A polygon from its rings, of which the holes run clockwise."""
    whole = Polygon()
    for ring in rings:
        part = make_valid(Polygon(ring))
        area = sum(
            x * next_y - next_x * y
            for (x, y), (next_x, next_y) in zip(ring, ring[1:] + ring[:1])
        )
        whole = whole.union(part) if area > 0 else whole.difference(part)
    return whole


def same(found, wanted, of, what):
    """Compares an area with what is left of some shape."""
    if abs(found - wanted.area) > max(RELATIVE * wanted.area, wanted.length, of.length):
        sys.exit(f"{what}: the engine has {found}, Shapely {wanted.area}")


def is_convex(polygon):
    return polygon.convex_hull.area - polygon.area <= polygon.length


def inset(shape, margin):
    """A shape without what lies at most so far from its edge. Edge by edge: GEOS
    simplifies a longer line by up to a hundredth of the margin first."""
    near = []
    for ring in rings(shape):
        points = list(ring.coords)
        near += [LineString(two).buffer(margin, quad_segs=64) for two in zip(points, points[1:])]
    return shape.difference(unary_union(near))


def glue_fits(found, run, carried, margin, what):
    if carried.geom_type == "Polygon" and not carried.interiors and is_convex(carried):
        # Without corners that point inwards an inset is the same to everybody.
        least = inset(carried, margin)
        same(found, least, carried, what)
        # Each corner may be off by a unit either way.
        slack = RELATIVE * least.length + 4 * sum(len(ring.coords) for ring in rings(least))
        if run is not None and abs(run - least.length) > slack:
            sys.exit(f"{what}: the engine goes round it in {run}, Shapely in {least.length}")
        count["glue run round"] += run is not None
        return
    most, least = inset(carried, margin), inset(carried, margin * ROUND_CORNERS)
    slack = max(RELATIVE * carried.area, carried.length)
    if not least.area - slack <= found <= most.area + slack:
        sys.exit(f"{what}: the engine has {found}, Shapely {least.area} to {most.area}")


count = Counter()
for line in sys.stdin:
    card = json.loads(line)
    name = f"card {card['seed']} ({card['starter']})"
    count["cards"] += 1

    cut = card["cut"]
    if cut:
        if not near(shape(cut["paper"]), paper(cut)):
            sys.exit(f"{name}: the paper left is not what is not cut out")
        for taken in cut["taken"]:
            count["cut out " + taken["kind"]] += 1

    panels = [shape(rings) for rings in card["panels"]]
    if len(panels) > MOST:
        sys.exit(f"{name} has {len(panels)} panels")
    over = [tuple(pair) for pair in card["over"]]
    layer = card["layer"]
    on = shape(layer["at"]) if layer else Polygon()
    # What reaches past its panel may touch others in ways the panels do not.
    is_within = bool(layer) and on.difference(panels[layer["panel"]]).area <= on.length
    for view in (0, 1):
        side = ("front", "back")[view]
        hidden = []
        for place, panel in enumerate(panels):
            if view == 0:
                nearer = [front for front, back in over if back == place]
            else:
                nearer = [back for front, back in over if front == place]
            hidden.append(unary_union([panels[other] for other in nearer]))
            what = f"{name}, panel {place}, {side}"
            same(int(card[side][place]), panel.difference(hidden[place]), panel, what)
            count["panels seen"] += 1
        if not is_within:
            continue
        # Within its panel a layer hides that panel only, and only on its own
        # side.
        faces = layer["near"] == (view == 0)
        carrier = layer["panel"]
        seen = on.difference(hidden[carrier]) if faces else Polygon()
        same(int(layer["shows"][view]), seen, on, f"{name}, layer, {side}")
        for place, panel in enumerate(panels):
            left = panel.difference(hidden[place])
            if faces and place == carrier:
                left = left.difference(on)
            what = f"{name}, covered panel {place}, {side}"
            same(int(card["covered"][view][place]), left, panel, what)
        if faces:
            count["layers seen " + layer["kind"]] += 1

    glue = card["glue"]
    if glue:
        carried = shape(glue["layer"]).intersection(shape(glue["seat"]))
        glue_fits(int(glue["area"]), glue["run"], carried, glue["margin"], f"{name}, glue")
        count["glued"] += 1

least = {"cards": 500, "glued": 300, "glue run round": 100}
least |= {f"cut out {kind}": 10 for kind in ("straight", "rounded", "round", "arched", "die")}
least |= {f"cut out {kind}": 10 for kind in ("corners", "arch", "hollow", "scallops", "points")}
kinds = ("Straight", "Rounded", "Round", "Arched", "Cut", "Follows")
least |= {f"layers seen {kind}": 10 for kind in kinds}
for what, enough in least.items():
    if count[what] < enough:
        sys.exit(f"only {count[what]} of {what} were compared")
print(", ".join(f"{many} {what}" for what, many in sorted(count.items())) + " agree")
