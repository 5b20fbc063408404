"""Works out by itself, with Shapely (GEOS), how cards stand on a table.

Reads the lines that the engine's example `stands` prints. Of each card it takes
only the papers: what each covers in its own plane, what it weighs, and where it
is. Areas and centroids are Shapely's, the centre of mass follows from them, and
what the card rests on is the convex hull of the corners that touch the table. It
ends with an error where the centre, the hull or the margin differs, where
something lies below the table, or where what is said to stand does not.
"""

import json
import sys

from shapely.geometry import MultiPoint, Point, Polygon

# Regions are in whole units of 1/72 µm and turned in floating point.
WITHIN = 1e-3
# How near the table a corner touches it: half of a thin paper.
TOUCHES = 0.05


def in_space(leaf, x, y):
    """Where a place of a paper is above the table."""
    right, up, _ = leaf["turn"]
    return [leaf["shift"][i] + x * right[i] + y * up[i] for i in range(3)]


def papers(leaf):
    """The area of a paper with its centroid and its corners."""
    area = None
    for ring in leaf["rings"]:
        polygon = Polygon(ring)
        area = polygon if area is None else area.symmetric_difference(polygon)
    centroid = area.centroid
    corners = [in_space(leaf, x, y) for ring in leaf["rings"] for x, y in ring]
    return area.area, in_space(leaf, centroid.x, centroid.y), corners


def check(card):
    """What differs of a card."""
    mass, moment, corners = 0.0, [0.0] * 3, []
    for leaf in card["leaves"]:
        area, centroid, its_corners = papers(leaf)
        weight = area * leaf["weight"]
        mass += weight
        moment = [moment[i] + weight * centroid[i] for i in range(3)]
        corners += its_corners
    centre = [part / mass for part in moment]
    found = []
    if max(abs(centre[i] - card["centre"][i]) for i in range(3)) > WITHIN:
        found.append(f"centre {centre}, not {card['centre']}")
    if min(corner[2] for corner in corners) < -WITHIN:
        found.append("below the table")
    hull = MultiPoint([c[:2] for c in corners if c[2] <= TOUCHES]).convex_hull
    said = MultiPoint(card["rests_on"]).convex_hull
    if hull.hausdorff_distance(said) > WITHIN:
        found.append(f"rests on {hull.wkt}, not {said.wkt}")
    over = Point(centre[:2])
    edge = hull.exterior if hull.geom_type == "Polygon" else hull
    margin = over.distance(edge) * (1 if hull.contains(over) else -1)
    if abs(abs(margin) - abs(card["margin"])) > WITHIN:
        found.append(f"margin {margin}, not {card['margin']}")
    if card["firm"] and not hull.contains(over):
        found.append("said to stand, and tips")
    return found


def main():
    cards = [json.loads(line) for line in sys.stdin]
    wrong = [(card["id"], found) for card in cards for found in check(card)]
    for card, found in wrong:
        print(f"{card}: {found}")
    firm = sum(card["firm"] for card in cards)
    print(f"{len(cards)} cards, {firm} of them stand firm, {len(wrong)} differ")
    sys.exit(bool(wrong) or len(cards) < 200)


if __name__ == "__main__":
    main()
