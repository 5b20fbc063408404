"""Checks the areas of generated cards against Shapely (GEOS).

Reads the lines that the engine's example `cards` prints. From the outlines and
the order of the panels alone it works out again what shows of every panel from
the front and from the back, and where glue may go on a layer, and compares the
areas to one part in a million. It ends with an error where one differs.
"""

import json
import sys

from shapely import make_valid
from shapely.geometry import Polygon
from shapely.ops import unary_union

# Areas are compared to one part in a million. Corners are rounded to whole
# units, so that slivers may be off by a unit along their outline.
RELATIVE = 1e-6
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


def same(found, wanted, what):
    if abs(found - wanted.area) > max(RELATIVE * wanted.area, wanted.length):
        sys.exit(f"{what}: the engine has {found}, Shapely {wanted.area}")


def is_convex(polygon):
    return polygon.convex_hull.area - polygon.area <= polygon.length


cards = visible = glued = 0
for line in sys.stdin:
    card = json.loads(line)
    panels = [shape(rings) for rings in card["panels"]]
    if len(panels) > MOST:
        sys.exit(f"card {card['seed']} has {len(panels)} panels")
    over = [tuple(pair) for pair in card["over"]]
    for view in ("front", "back"):
        for place, panel in enumerate(panels):
            if view == "front":
                nearer = [front for front, back in over if back == place]
            else:
                nearer = [back for front, back in over if front == place]
            seen = panel.difference(unary_union([panels[other] for other in nearer]))
            name = f"card {card['seed']} ({card['starter']}), panel {place}, {view}"
            same(int(card[view][place]), seen, name)
            visible += 1
    glue = card["glue"]
    # Without corners that point inwards an inset is the same to everybody.
    if glue and not glue["holes"]:
        carried = shape([glue["layer"]]).intersection(shape(glue["seat"]))
        if carried.geom_type == "Polygon" and is_convex(carried):
            safe = carried.buffer(-glue["margin"], join_style="mitre")
            same(int(glue["area"]), safe, f"card {card['seed']}, glue")
            glued += 1
    cards += 1

if cards < 500 or glued < 200:
    sys.exit(f"only {cards} cards and {glued} layers were compared")
print(f"{cards} cards: {visible} panels seen and {glued} glued layers agree")
