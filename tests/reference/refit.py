"""Random systems of relations with the answer of an independent solver.

Each system is measures, limits, pins and relations as a recipe has them, on
marks of 1 mm. scipy.optimize.milp (HiGHS) decides whether there are whole
numbers that satisfy it, which of the relations that should hold can be kept,
the most important first, and what the nearest change costs. Its numbers are
floating point, so each answer is rounded and checked in whole numbers.

    python -m venv .venv && .venv/bin/pip install -r refit-requirements.txt
    .venv/bin/python refit.py > ../../app/engine/tests/refit/systems.jsonl

One line a system: the values in quarter millimetres, the least and the most
of each measure in millimetres or null, the pinned places, the relations as
[sort, should, constant in quarter millimetres, [place, times, ...]] with sort
0 for equal, 1 for at least, -1 for at most, and the answer: null, or [kept,
cost] with a 1 or a 0 for each relation that should hold.
"""

import json
import random
import sys

import numpy
import scipy
from scipy.optimize import Bounds, LinearConstraint, milp

SEED = 20261125
SYSTEMS = 2500
LIMIT = 10_000
# The strip that each recipe has besides: measures that stay out of it.
BESIDES = 4


def half_even(over, under):
    quotient, rest = divmod(over, under)
    return quotient + (2 * rest > under or (2 * rest == under and quotient % 2))


def random_system(chance):
    sort = chance.random()
    if sort < 0.45:
        return random_sums(chance, chance.randint(2, 10))
    if sort < 0.9:
        return random_relations(chance, chance.randint(2, 9))
    return random_sums(chance, chance.randint(15, 40))


def random_values(chance, count):
    quarters = chance.random() < 0.5
    values = []
    for _ in range(count):
        value = 4 * chance.randint(1, 120)
        if chance.random() < 0.1:
            value = -value // 8
        values.append(value + (chance.randint(0, 3) if quarters else 0))
    return values


def limits(chance, values, often):
    least, most = [], []
    for value in values:
        near = value // 4
        least.append(near + chance.randint(-30, 4) if chance.random() < often else None)
        most.append(near + chance.randint(-4, 30) if chance.random() < often else None)
        if None not in (least[-1], most[-1]) and least[-1] > most[-1]:
            most[-1] = least[-1]
    return least, most


def random_sums(chance, count):
    """Wholes of parts, equal parts, parts less borders, as on a card."""
    values = random_values(chance, count)
    least, most = limits(chance, values, 0.3)
    relations = []
    for _ in range(chance.randint(1, max(2, count * 2 // 3))):
        sort = chance.choice([0, 0, 0, 1, -1])
        parts = chance.sample(range(count), chance.randint(2, min(count, 5)))
        kind = chance.random()
        if kind < 0.4:
            terms = [(parts[0], 1)] + [(part, -1) for part in parts[1:]]
        elif kind < 0.6:
            terms = [(parts[0], 1), (parts[1], -1)]
        elif kind < 0.8 and len(parts) > 2:
            terms = [(parts[0], 1), (parts[1], 2), (parts[2], -1)]
        else:
            terms = [(parts[0], 1), (parts[1], -chance.randint(1, 4))]
        if sort == 0:
            constant = 4 * chance.choice([0, 0, 0, chance.randint(-20, 20)])
        else:
            constant = chance.randint(-200, 200)
        relations.append([sort, int(chance.random() < 0.3), constant, terms])
    return finish(chance, values, least, most, relations)


def random_relations(chance, count):
    """Anything goes."""
    values = random_values(chance, count)
    least, most = limits(chance, values, 0.5)
    relations = []
    for _ in range(chance.randint(1, count)):
        sort = chance.choice([0, 0, 1, -1])
        parts = chance.sample(range(count), chance.randint(1, min(count, 4)))
        terms = [(part, chance.choice([-3, -2, -1, 1, 2, 3])) for part in parts]
        here = sum(times * values[part] // 4 for part, times in terms)
        constant = 4 * (here + chance.randint(-25, 25))
        if sort:
            constant += chance.randint(-3, 3)
        relations.append([sort, int(chance.random() < 0.3), constant, terms])
    return finish(chance, values, least, most, relations)


def finish(chance, values, least, most, relations):
    pins = []
    for place in range(len(values)):
        if chance.random() < 0.12:
            values[place] -= values[place] % 4
            pins.append(place)
    return values, least, most, pins, relations


def rows(relations, columns):
    matrix = numpy.zeros((len(relations), columns))
    low, high = [], []
    for row, (sort, _, constant, terms) in enumerate(relations):
        for part, times in terms:
            matrix[row, part] += times
        low.append(constant / 4 if sort >= 0 else -numpy.inf)
        high.append(constant / 4 if sort <= 0 else numpy.inf)
    return matrix, low, high


def satisfied(values, relations):
    for sort, _, constant, terms in relations:
        off = sum(times * values[part] for part, times in terms) * 4 - constant
        if (sort == 0 and off) or (sort > 0 and off < 0) or (sort < 0 and off > 0):
            return False
    return True


def nearest(system, relations, price=True):
    """The cheapest measures, or None. Columns: measures, then what each is off."""
    values, least, most, pins, _ = system
    count = len(values)
    marks = [half_even(value, 4) for value in values]
    weights = [2 * (count + BESIDES) - place for place in range(count)]
    low, high = [], []
    for place, value in enumerate(values):
        bottom, top = (0 if value >= 0 else -LIMIT), LIMIT
        if least[place] is not None:
            bottom = max(bottom, least[place])
        if most[place] is not None:
            top = min(top, most[place])
        if place in pins:
            bottom, top = max(bottom, value // 4), min(top, value // 4)
        if bottom > top:
            return None
        low.append(bottom)
        high.append(top)
    matrix, sums_low, sums_high = rows(relations, 2 * count)
    off = numpy.zeros((2 * count, 2 * count))
    for place in range(count):
        off[2 * place, [place, count + place]] = [1, -1]
        off[2 * place + 1, [place, count + place]] = [-1, -1]
    most_off = [sign * mark for mark in marks for sign in (1, -1)]
    answer = milp(
        [0] * count + (weights if price else [0] * count),
        integrality=[1] * count + [0] * count,
        bounds=Bounds(low + [0] * count, high + [2 * LIMIT] * count),
        constraints=[
            LinearConstraint(numpy.vstack([matrix, off]), sums_low + [-numpy.inf] * (2 * count), sums_high + most_off)
        ],
        options={"mip_rel_gap": 0},
    )
    if answer.status == 2:
        return None
    assert answer.status == 0, answer.message
    found = [round(float(value)) for value in answer.x[:count]]
    assert satisfied(found, relations)
    assert all(bottom <= value <= top for bottom, value, top in zip(low, found, high))
    return sum(weight * abs(mark - value) for weight, mark, value in zip(weights, marks, found))


def solve(system):
    held = [relation for relation in system[4] if not relation[1]]
    if nearest(system, held) is None:
        return None
    kept = []
    for relation in system[4]:
        if relation[1]:
            keeps = nearest(system, held + [relation], price=False) is not None
            kept.append(int(keeps))
            if keeps:
                held.append(relation)
    return [kept, nearest(system, held)]


def main():
    chance = random.Random(SEED)
    solved = 0
    print(
        f"Python {sys.version.split()[0]}, scipy {scipy.__version__}, numpy {numpy.__version__}, "
        f"seed {SEED}, {SYSTEMS} systems",
        file=sys.stderr,
    )
    for _ in range(SYSTEMS):
        system = random_system(chance)
        answer = solve(system)
        solved += answer is not None
        values, least, most, pins, relations = system
        relations = [
            [sort, should, constant, [number for term in terms for number in term]]
            for sort, should, constant, terms in relations
        ]
        print(json.dumps([values, least, most, pins, relations, answer], separators=(",", ":")))
    print(f"{solved} have an answer", file=sys.stderr)


main()
