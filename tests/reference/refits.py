"""Solves refits and clashes anew with CP-SAT (OR-tools) and compares.

Reads the lines that the engine's example `refits` prints: what a recipe says
that holds, what is asked for, and what the engine came to. From these it builds
a model of its own: marks, pins, limits, paper either way round, the envelope
either way round, and the closed strip by adding and taking away its panels, with
how far layers reach past it. That panels make up their strip, and that paper is
something, holds of any card and is no cause of a clash. A card has to satisfy
it, to keep what should hold in the order of the recipe, and to cost no more than
the cheapest. A clash has to be one, to be none without any of its causes, and to
be the smallest where it says so; each way out of it has to lead to a card, and
the nearest size that works has to be that.

A card whose measures have to leave the marks of the ruler is only checked for
what holds, and for having to. `--figures` prints what share of all is as it
should be as JSON, and ends well; otherwise it ends with an error where something
is not.
"""

import json
import re
import sys
from copy import deepcopy
from itertools import product
from multiprocessing import Pool

from ortools.sat.python import cp_model

# Enough for any of the cases; one that takes longer is told.
SECONDS = 20


def half_even(over, under):
    quotient, rest = divmod(over, under)
    return quotient + (2 * rest > under or (2 * rest == under and quotient % 2))


class Undecided(Exception):
    """The solver did not end in time."""


class Case:
    """A recipe and a wish."""

    def __init__(self, told):
        self.told = told
        self.measures = told["measures"]
        self.step = told["step"]

    def freed(self, frees):
        """The case with some things let go of or asked for instead."""
        told = deepcopy(self.told)
        for kind, *what in frees:
            if kind == "stock":
                stock, size = what
                if told["sheet"] and told["sheet"]["stock"] == stock:
                    told["sheet"]["size"] = size
                else:
                    told["papers"][str(stock)] = size
            elif kind == "finished":
                told["finished"] = what[0]
            elif kind == "step":
                told["step"] = what[0]
            else:
                let_go(told, what[0])
        return Case(told)

    def start(self, at, pinned=True):
        """Where the marks of a measure begin: what is pinned is on one."""
        measure = self.measures[at]
        return measure["value"] % self.step if measure["pinned"] and pinned else 0

    def leaves_marks(self):
        """Whether measures may leave the marks: something that is fixed is no whole
        number of them, or something is centred, and may lie halfway."""
        pins = any(self.start(at) for at in range(len(self.measures)))
        fixed = any(held["plus"] % self.step and held["is"] == "=" for held in self.told["held"])
        centred = any(
            held["cause"].startswith(("Layer", "Window"))
            and any(abs(times) == 2 for _, times in held["terms"])
            for held in self.told["held"]
        )
        return pins or fixed or centred

    def lies(self):
        ways = [False, True] if self.told["envelope"] else [False]
        return list(product([True, False], ways))

    def paper(self, stock):
        sheet = self.told["sheet"]
        if sheet and sheet["stock"] == stock:
            return "Sheet", sheet["size"]
        return f"Paper(StockId({stock}))", self.told["papers"][str(stock)]

    def hard(self, lie):
        """What must hold: a cause, terms, and the least and the most of their sum.
        How far the closed card reaches is told by a word in place of terms. What
        holds of anything made of paper has no cause."""
        along, turned = lie
        told = self.told
        for at, measure in enumerate(self.measures):
            name = f"(MeasureId({measure['id']}))"
            own = [[at, 1]]
            if measure["pinned"]:
                yield "Pinned" + name, own, measure["value"], measure["value"]
            if at in told["sizes"]:
                yield None, own, 1, None
            elif measure["value"] >= 0:
                yield None, own, 0, None
            if measure["least"] is not None:
                yield "Least" + name, own, measure["least"], None
            if measure["most"] is not None:
                yield "Most" + name, own, None, measure["most"]
        for held in told["held"]:
            if not held["should"]:
                given = held["cause"].startswith("Strip")
                yield None if given else held["cause"], *bounds(held)
        for piece in told["pieces"]:
            cause, (width, height) = self.paper(piece["stock"])
            a, b = (self.measures[at]["value"] for at in piece["sides"])
            sides = [width, height]
            if not (a <= width and b <= height):
                if a <= height and b <= width:
                    sides = [height, width]
                elif cause != "Sheet":
                    continue
                elif (a > b) != (width > height):
                    sides = [height, width]
            for at, most in zip(piece["sides"], sides):
                yield cause, [[at, 1]], None, most
        yield from self.base(along)
        side = 1 if told["down"] else 0
        if told["finished"]:
            size = told["finished"]
            yield "Finished", "over", size[1 - side], size[1 - side]
            yield "Finished", "along", size[side], size[side]
        if told["envelope"]:
            room = told["envelope"][::-1] if turned else told["envelope"]
            yield "Envelope", "over", None, room[1 - side]
            yield "Envelope", "along", None, room[side]

    def base(self, along):
        base = self.told["base"]
        cause, sides = self.paper(base["stock"])
        strip = [self.measures[at]["value"] for at in base["sides"]]
        paper = self.told["papers"][str(base["stock"])]
        ways = [
            [max(side // of, 0) for side, of in zip(way, strip)]
            for way in (paper, paper[::-1])
        ]
        most = max(ways, key=lambda way: way[0] * way[1])
        if cause != "Sheet" and 0 in most:
            return
        for at, side in zip(base["sides"], sides if along else sides[::-1]):
            yield cause, [[at, 1]], None, side

    def soft(self):
        for at, held in enumerate(self.told["held"]):
            if held["should"]:
                yield int(re.search(r"\d+", held["cause"]).group()), bounds(held)

    def targets(self):
        return [
            self.start(at) + self.step * half_even(measure["value"] - self.start(at), self.step)
            for at, measure in enumerate(self.measures)
        ]

    def cost(self, values):
        count = len(values)
        return sum(
            (2 * count - at) * (abs(value - target) // self.step)
            for at, (value, target) in enumerate(zip(values, self.targets()))
        )

    def corners(self, way, values):
        """Where the corners of the closed card lie, along its strip or over it.
        Each fold turns what follows over. A layer is measured from the left edge
        of its panel as seen: on the outside that is the other one."""
        told = self.told
        if way == "over":
            yield from (0, values[told["base"]["sides"][1]])
            for layer in told["layers"]:
                low = values[layer["from"][1]]
                yield from (low, low + values[layer["sides"][1]])
            return
        at = 0
        yield at
        for number, panel in enumerate(told["panels"]):
            sign = 1 if number % 2 == 0 else -1
            beyond = at + sign * values[panel]
            for layer in (it for it in told["layers"] if it["panel"] == number):
                edge, inward = (beyond, -sign) if layer["outside"] else (at, sign)
                near = edge + inward * values[layer["from"][0]]
                yield from (near, near + inward * values[layer["sides"][0]])
            at = beyond
            yield at

    def reach(self, way, values):
        """How far the closed card reaches along its strip or over it."""
        corners = list(self.corners(way, values))
        return max(corners) - min(corners)

    def breaks(self, lie, values):
        """The causes that some values do not satisfy."""
        for cause, terms, least, most in self.hard(lie):
            is_so = self.reach(terms, values) if is_way(terms) else total(terms, values)
            if (least is not None and is_so < least) or (most is not None and is_so > most):
                yield cause


def is_way(terms):
    return isinstance(terms, str)


def let_go(told, cause):
    plain = {"Envelope": "envelope", "Finished": "finished", "Sheet": "sheet"}
    if cause in plain:
        told[plain[cause]] = None
        return
    number = int(re.search(r"\d+", cause).group())
    kind = cause.split("(")[0]
    if kind == "Relation":
        next(held for held in told["held"] if held["cause"] == cause)["should"] = True
    elif kind in ("Layer", "Window"):
        told["held"] = [held for held in told["held"] if held["cause"] != cause]
    else:
        measure = next(measure for measure in told["measures"] if measure["id"] == number)
        field = {"Pinned": "pinned", "Least": "least", "Most": "most"}[kind]
        measure[field] = False if kind == "Pinned" else None


def bounds(held):
    least = held["plus"] if held["is"] in "=>" else None
    most = held["plus"] if held["is"] in "=<" else None
    return held["terms"], least, most


def total(terms, values):
    return sum(times * values[at] for at, times in terms)


class Model:
    """Whole marks under what is added."""

    def __init__(self, case, step=None, pins=lambda at: True):
        self.case = case
        self.model = cp_model.CpModel()
        self.limit = case.told["limit"]
        step = step or case.step
        self.values = []
        for at in range(len(case.measures)):
            start = case.start(at, pins(at)) % step
            most = self.limit // step
            self.values.append(start + step * self.model.new_int_var(-most, most, f"m{at}"))
        self.reaches = {}

    def sum(self, terms):
        if not is_way(terms):
            return sum(times * self.values[at] for at, times in terms)
        if terms not in self.reaches:
            far = self.limit * (len(self.case.told["panels"]) + 2)
            corners = []
            for at in self.case.corners(terms, self.values):
                corner = self.model.new_int_var(-far, far, "corner")
                self.model.add(corner == at)
                corners.append(corner)
            low, high = (self.model.new_int_var(-far, far, name) for name in ("low", "high"))
            self.model.add_min_equality(low, corners)
            self.model.add_max_equality(high, corners)
            self.reaches[terms] = high - low
        return self.reaches[terms]

    def add(self, terms, least, most, when=None):
        is_so = self.sum(terms)
        held = []
        if least is not None and least == most:
            held.append(self.model.add(is_so == least))
        else:
            if least is not None:
                held.append(self.model.add(is_so >= least))
            if most is not None:
                held.append(self.model.add(is_so <= most))
        if when is not None:
            for constraint in held:
                constraint.only_enforce_if(when)

    def solve(self):
        """The solver with an answer; none where there is none."""
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.max_time_in_seconds = SECONDS
        status = solver.solve(self.model)
        if status == cp_model.INFEASIBLE:
            return None
        if status == cp_model.OPTIMAL:
            return solver
        raise Undecided(solver.status_name(status))

    def found(self, solver):
        return [solver.value(value) for value in self.values]

    def price(self):
        """Asks for the least change."""
        costs = []
        count = len(self.values)
        for at, (value, target) in enumerate(zip(self.values, self.case.targets())):
            off = self.model.new_int_var(0, 2 * self.limit // self.case.step, "off")
            self.model.add(self.case.step * off >= value - target)
            self.model.add(self.case.step * off >= target - value)
            costs.append((2 * count - at) * off)
        self.model.minimize(sum(costs))


def under(case, lie, some=None, step=None):
    """A model of some causes, or of all."""
    pinned = lambda at: some is None or f"Pinned(MeasureId({case.measures[at]['id']}))" in some
    model = Model(case, step, pinned)
    for cause, *held in case.hard(lie):
        if some is None or cause is None or cause in some:
            model.add(*held)
    return model


def is_possible(case, some=None, step=None):
    return any(under(case, lie, some, step).solve() for lie in case.lies())


def best(case):
    """What is given up and what the change costs, the least of all ways; none
    where there is no card."""
    answers = []
    for lie in case.lies():
        if under(case, lie).solve() is None:
            continue
        kept, flags = [], []
        for _, held in case.soft():
            model = under(case, lie)
            for other in kept + [held]:
                model.add(*other)
            gives_way = model.solve() is None
            flags.append(gives_way)
            if not gives_way:
                kept.append(held)
        model = under(case, lie)
        for held in kept:
            model.add(*held)
        model.price()
        answers.append((flags, round(model.solve().objective_value)))
    return min(answers, default=None)


def check_card(case, answer):
    """What is wrong with a card, and whether it is as good as can be."""
    values = answer["values"]
    broken = [set(case.breaks(lie, values)) for lie in case.lies()]
    if all(broken):
        return [f"it breaks {min(broken, key=len)}"], False
    wanted = best(case)
    if answer["between_marks"] and any(
        value % case.step and not measure["pinned"] for value, measure in zip(values, case.measures)
    ):
        return (["it leaves the marks, and need not"] if wanted else []), True
    if wanted is None:
        return ["CP-SAT finds no card"], False
    flags = [number in answer["given_up"] for number, _ in case.soft()]
    for (number, (terms, least, most)), gone in zip(case.soft(), flags):
        is_so = total(terms, values)
        holds = (least is None or is_so >= least) and (most is None or is_so <= most)
        if holds == gone:
            return [f"relation {number} is told wrongly"], False
    ours = (flags, case.cost(values))
    if ours < wanted:
        return [f"CP-SAT has {wanted}, and it is only {ours}"], False
    if ours > wanted and answer["nearest"]:
        return [f"it is called nearest with {ours}, and CP-SAT has {wanted}"], False
    return [], ours == wanted


def smallest(case, below):
    """The size of the smallest clash, up to a number: the fewest causes with one
    of each set that has to go for the rest to be possible (implicit hitting
    sets)."""
    causes = sorted({cause for lie in case.lies() for cause, *_ in case.hard(lie) if cause})
    gone = []
    while True:
        choice = cp_model.CpModel()
        chosen = {cause: choice.new_bool_var(cause) for cause in causes}
        for left in gone:
            choice.add_bool_or([chosen[cause] for cause in left])
        choice.minimize(sum(chosen.values()))
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.solve(choice)
        some = {cause for cause in causes if solver.value(chosen[cause])}
        if len(some) >= below:
            return below
        left = min((what_goes(case, lie, some, causes) for lie in case.lies()), key=len_or_all)
        if left is None:
            return len(some)
        gone.append(left)


def len_or_all(left):
    return float("inf") if left is None else len(left)


def what_goes(case, lie, some, causes):
    """The fewest causes that have to go where some stay; none where they can't."""
    model = Model(case)
    stays = {cause: model.model.new_bool_var(cause) for cause in causes}
    for cause, *held in case.hard(lie):
        model.add(*held, when=stays.get(cause))
    for cause in some:
        model.model.add(stays[cause] == 1)
    model.model.maximize(sum(stays.values()))
    solver = model.solve()
    return solver and [cause for cause in causes if not solver.value(stays[cause])]


def nearest_size(case):
    """By how much the worse side of the nearest finished size is off; none where
    no size works."""
    offs = []
    for lie in case.lies():
        model = Model(case)
        off = model.model.new_int_var(0, case.told["limit"], "off")
        for cause, terms, least, most in case.hard(lie):
            if cause != "Finished" or least != most:
                model.add(terms, least, most)
                continue
            is_so = model.sum(terms)
            model.model.add(off >= is_so - least)
            model.model.add(off >= least - is_so)
        model.model.minimize(off)
        solver = model.solve()
        if solver:
            offs.append(round(solver.objective_value))
    return min(offs, default=None)


def check_clash(case, answer):
    """What is wrong with a clash, and how many of its ways out work."""
    wrong, ways = [], 0
    named = answer["clash"]
    loose = case.leaves_marks()
    if is_possible(case, set(named)):
        wrong.append(f"{named} can hold together")
    for spare in named:
        fewer = set(named) - {spare}
        if not is_possible(case, fewer) and not (loose and is_possible(case, fewer, 1)):
            wrong.append(f"{named} clash without {spare}")
    if answer["smallest"] and not loose:
        least = smallest(case, len(named))
        if least < len(named):
            wrong.append(f"{named}: {least} causes clash")
    for way in answer["ways"]:
        freed = case.freed(way["frees"])
        if is_possible(freed) or (freed.leaves_marks() and is_possible(freed, step=1)):
            ways += 1
        else:
            wrong.append(f"{way['frees']} leads to no card")
        kind, *what = way["frees"][0]
        if kind == "finished" and not loose:
            asked = case.told["finished"]
            off = max(abs(a - b) for a, b in zip(asked, what[0]))
            nearer = nearest_size(case)
            if off != nearer:
                wrong.append(f"the nearest size is {off} off, and CP-SAT has {nearer}")
    return wrong, ways


def check(line):
    """What is wrong with a case, and what it adds to the figures: whether it is
    as the reference has it, ways out that work and ways out."""
    told = json.loads(line)
    case, answer = Case(told), told["answer"]
    try:
        if "unknown" in answer:
            return told["name"], [], (0, 0, 0), "not found out"
        if "values" in answer:
            wrong, equal = check_card(case, answer)
            kind = "card" if equal else "card, perhaps not the nearest"
            return told["name"], wrong, (int(equal and not wrong), 0, 0), kind
        wrong, ways = check_clash(case, answer)
        kind = "clash" if answer["smallest"] else "clash, perhaps not the smallest"
        return told["name"], wrong, (int(not wrong), ways, len(answer["ways"])), kind
    except Undecided as undecided:
        # Where the reference does not end, what the engine has proven stands.
        proven = answer.get("nearest", answer.get("smallest", False))
        return told["name"], [], (int(proven), 0, 0), f"{undecided} in {SECONDS} s"


def main():
    kinds, sums, faults, count = {}, [0, 0, 0], 0, 0
    with Pool(2) as pool:
        for count, (name, wrong, figures, kind) in enumerate(pool.imap(check, sys.stdin), 1):
            kinds[kind] = kinds.get(kind, 0) + 1
            sums = [a + b for a, b in zip(sums, figures)]
            for what in wrong:
                faults += 1
                print(f"case {count}, {name}: {what}", file=sys.stderr)
    if "--figures" in sys.argv:
        alike, work, ways = sums
        print(json.dumps({"cases": count, "alike": alike, "ways": ways, "work": work}))
        return
    told = ", ".join(f"{count} {kind}" for kind, count in sorted(kinds.items()))
    print(f"{count} cases: {told}; {sums[1]} of {sums[2]} ways out work")
    if faults or not count:
        sys.exit(f"{faults} are wrong")


if __name__ == "__main__":
    main()
