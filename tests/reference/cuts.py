"""Plans cuts anew with CP-SAT (OR-tools) and compares.

Reads the lines that the example `plans` of the cutting crate prints: a small job
and what the planner came to. Every set of pieces that edge-to-edge cuts can part
is listed by joining two smaller ones beside or on top of each other, each with
the sizes of the rectangles that hold it; which sheets are cut into which sets is
left to the solver: first as few pieces missing as can be, then the least cost.
The planner has to come to the same, and may not claim a bound above it.
"""

import json
import sys

from ortools.sat.python import cp_model


def fronts(job, stock_number):
    """For each set of pieces, as bits, the smallest rectangles that hold it."""
    stock = job["stocks"][stock_number]
    kerf = job["kerf"]
    width, height = (side - 2 * stock["margin"] for side in stock["size"])
    pieces = [piece for piece in job["pieces"] for _ in range(piece["count"])]
    found = {}
    for at, piece in enumerate(pieces):
        lies = [lie for source, lie in piece["sources"] if source == stock_number]
        w, h = piece["size"]
        boxes = set()
        if lies and lies[0] in ("Upright", "Either"):
            boxes.add((w, h))
        if lies and lies[0] in ("Turned", "Either"):
            boxes.add((h, w))
        found[1 << at] = least(box for box in boxes if box[0] <= width and box[1] <= height)
    for all_of in range(1, 1 << len(pieces)):
        if all_of & (all_of - 1) == 0:
            continue
        boxes = set()
        part = (all_of - 1) & all_of
        while part:
            other = all_of ^ part
            if part > other:
                for a, b in found[part]:
                    for c, d in found[other]:
                        boxes.add((a + kerf + c, max(b, d)))
                        boxes.add((max(a, c), b + kerf + d))
            part = (part - 1) & all_of
        found[all_of] = least(box for box in boxes if box[0] <= width and box[1] <= height)
    return len(pieces), [bits for bits, boxes in found.items() if boxes]


def least(boxes):
    kept = []
    for box in sorted(set(boxes)):
        if not kept or box[1] < kept[-1][1]:
            kept.append(box)
    return kept


def best(job):
    """Pieces missing and cost of the best plan."""
    model = cp_model.CpModel()
    covered, cost, count = [], 0, 0
    columns = []
    for number, stock in enumerate(job["stocks"]):
        count, sets = fronts(job, number)
        limit = count if stock["supply"] is None else min(count, stock["supply"])
        used = [model.new_int_var(0, limit, "used") for _ in sets]
        model.add(sum(used) <= limit)
        columns += list(zip(sets, used))
        cost += stock["cost"] * sum(used)
    for at in range(count):
        covering = [used for bits, used in columns if bits >> at & 1]
        is_there = model.new_bool_var("there")
        model.add(sum(covering) >= is_there)
        covered.append(is_there)
    dearest = sum(stock["cost"] for stock in job["stocks"]) * count + 1
    model.minimize((count - sum(covered)) * dearest + cost)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    if solver.solve(model) != cp_model.OPTIMAL:
        raise SystemExit("CP-SAT did not end")
    return divmod(round(solver.objective_value), dearest)


def main():
    cases, proven, wrong = 0, 0, 0
    for line in sys.stdin:
        job = json.loads(line)
        wanted = best(job)
        plan, bound = tuple(job["plan"]), tuple(job["bound"])
        cases += 1
        proven += plan == bound
        if plan != wanted or bound > wanted:
            wrong += 1
            print(f"case {job['seed']}: {plan}, bound {bound}; the reference has {wanted}")
    print(f"{cases} plans, {proven} proven, {wrong} other than the reference")
    if wrong or not cases:
        raise SystemExit(1)


main()
