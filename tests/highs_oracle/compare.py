"""Solves a job by HiGHS and compares every component of the answer."""

from math import gcd
from types import SimpleNamespace

from highs_oracle import limits, options as ways
from highs_oracle.judge import Wrong, cost, judge, need, off_beds, ranges
from highs_oracle.milp import COMPONENTS, Milp, NotProven
from highs_oracle.order_lp import OrderLp

__all__ = ["NotProven", "Wrong", "compare"]

MOST_LABELS = 450


def compare(job, answer, seconds):
    """Compares an answer with both programs; raises Wrong where they disagree.

    The mixed-integer program may run out of time. The order program chooses the referred columns itself where all
    lengths stand on a grid that is not too fine; otherwise it takes them from the answer, and only the mixed-integer
    program speaks to them.
    """
    options = ways.options(job)
    plan = judge(job, options, answer)
    told = cost(options, plan)
    chosen = by_order(job, options, plan, told, answer["totals"]["steps_nm"])
    unproven = None
    try:
        by_milp(job, options, plan, told, seconds)
    except NotProven as reason:
        unproven = str(reason)
    if unproven and not chosen:
        raise NotProven(f"neither program chose the referred columns: {unproven}")
    text = unproven and f"{job.name}: {unproven}"
    return SimpleNamespace(kinds=kinds(job, options, plan, told), unsettled=False, unproven=text)


def kinds(job, options, plan, told):
    """What the answer of a job has met."""
    on_bed = {i: raise_nm for i, raise_nm in plan.items() if job.bed(i) is not None and raise_nm is not None}
    every = {
        "refer": told[0],
        "held": told[3],
        "grout": told[2],
        "designed beds": on_bed,
        "beds of both sorts of base": on_bed and len(on_bed) < len([it for it in plan.values() if it is not None]),
        "beds where elevations are absolute": on_bed and job.absolute,
        "beds in a relative job": on_bed and not job.absolute,
        "beds without a design seat": on_bed and job.seat is None,
        "beds in inches": on_bed and job.units == "in",
        "beds in millimetres": on_bed and job.units == "mm",
        "beds that are not the designed ones": off_beds(options, plan),
        "beds that are held": any(options[i][it].held for i, it in on_bed.items()),
        "a referred column over a bed": any(it is None and job.bed(i) is not None for i, it in plan.items()),
    }
    return {name for name, met in every.items() if met}


def by_milp(job, options, plan, told, seconds):
    """All components; then which columns are referred."""
    milp = Milp(job, options)
    milp.start(seconds)
    # counts that cannot reach the weight before them are solved at once
    count, pieces = len(job.columns) + 1, job.pieces * len(job.columns) + 1
    stages = ((count * count, count, 1), (0, 0, 0, pieces, 1), (0, 0, 0, 0, 0, 1))
    for weights in stages:
        priced = milp.cost(weights)
        value, other = milp.least(priced)
        proven(value is not None, "no plan is found at all")
        milp.fix(priced, value)
        found, here = cost(options, other)[: len(weights)], told[: len(weights)]
        # the answer's plan was judged: where it costs less, the optimum claimed here is none
        proven(found <= here, f"{found} is claimed to be the optimum, and {here} can be had")
        # and so is this one before it counts
        ranges(job, other)
        for name, one, best in zip(COMPONENTS, here, found):
            need(one == best, f"{name}: {one} in the answer, {best} by the mixed-integer program")
    if told[0]:
        referred_set(job, options, plan, milp)


def proven(fact, text):
    if not fact:
        raise NotProven(text)


def referred_set(job, options, plan, milp):
    """The least sum of the other seats over all plans of that cost; then no set whose first referred column stands later.

    The answer itself may stand higher: of the plans with these columns referred it is the flattest.
    """
    seats = {(i, raise_nm): job.columns[i].pad + raise_nm for i in milp.measured for raise_nm in options[i]}
    if not seats:
        return
    base = min(seats.values())
    unit = gcd(*(it - base for it in seats.values())) or 1
    priced = milp.cost([0] * 6)
    for at, seat in seats.items():
        priced[milp.chosen[at]] = (seat - base) // unit
    own = sum((seats[at] - base) // unit for at in plan.items() if at[1] is not None)
    value, other = milp.least(priced)
    proven(value is not None and value <= own, "the answer's plan is not found")
    ranges(job, other)
    milp.fix(priced, value)
    if value < own:
        for i in milp.measured:
            fixed = int(plan[i] is None)
            milp.highs.changeColBounds(milp.referred[i], fixed, fixed)
        same, _ = milp.least(milp.cost([0] * 6))
        need(same is not None, f"refers {marks(job, plan)}, and {marks(job, other)} have the others stand lower")
        for i in milp.measured:
            milp.highs.changeColBounds(milp.referred[i], 0, 1)
    # every earlier column as in the answer, and one that the answer refers is not: no such plan may be left
    for i in milp.measured:
        column = milp.referred[i]
        milp.highs.changeColBounds(column, 0, 0)
        if plan[i] is None:
            value, other = milp.least(milp.cost([0] * 6))
            if other is not None:
                ranges(job, other)
            need(value is None, f"{job.columns[i].mark} need not be referred: {marks(job, other)} in its place")
            milp.highs.changeColBounds(column, 1, 1)


def marks(job, plan):
    return [job.columns[i].mark for i, raise_nm in (plan or {}).items() if raise_nm is None]


def by_order(job, options, plan, told, steps):
    """All components, then steps, then every single seat; tells whether the referred columns were chosen here too."""
    chosen = True
    free = Ordered(job, options, [])
    if free.lp.feasible:
        need(told[0] == 0, f"refer: {told[0]} in the answer, none is needed by the order program")
    else:
        need(told[0] > 0, "refer: none in the answer, the order program finds no plan without")
        referred = [i for i, raise_nm in plan.items() if raise_nm is None]
        chosen = on_grid(job, options, referred, told)
        free = Ordered(job, options, referred)
        need(free.lp.feasible, "the order program finds no plan with these columns referred")
    if free.standing:
        free.flat(told, steps, plan)
    return chosen


class Ordered:
    """The order program of the columns that are not referred, whose seats are options; the others are free."""

    def __init__(self, job, options, referred):
        self.job, self.options = job, options
        self.standing = [i for i in options if i not in referred]
        self.of = {i: {job.departure(i) + raise_nm: it for raise_nm, it in options[i].items()} for i in self.standing}
        self.number = {i: at for at, i in enumerate(self.standing)}
        through = limits.through(limits.every_pair(job), len(job.columns), referred)
        labels = []
        for i in self.standing:
            windows = [(limits.window(job, i), 0), *((limits.window(job, r), through[r][i]) for r in referred)]
            reach = [window + over for window, over in windows if None not in (window, over)]
            labels.append([it for it in sorted(self.of[i]) if all(abs(it) <= most for most in reach)])
        # what the building limits anyhow is one group, and no pairs
        over_all = limits.in_force(job, job.building) if job.building else None
        narrower = lambda limit: limit is not None and (over_all is None or limit < over_all)
        pairs = [
            (self.number[i], self.number[j], through[i][j])
            for i in self.standing
            for j in self.standing
            if i < j and narrower(through[i][j])
        ]
        groups = [(range(len(self.standing)), over_all)] if over_all is not None and self.standing else []
        self.lp = OrderLp(labels, pairs, groups)

    def flat(self, told, steps, plan):
        lp, of, job = self.lp, self.of, self.job
        pairs = limits.distinct_neighbours(job)
        pairs = [(self.number[i], self.number[j]) for i, j in pairs if i in self.number and j in self.number]
        flat = lp.steps(pairs)
        lp.start()
        components(lp, told, {self.number[i]: {it: (0, *way.cost) for it, way in of[i].items()} for i in of}, 1)
        seats = [seat for i in of for seat in of[i]]
        unit = gcd(*(it - seats[0] for it in seats)) or 1
        priced, _ = lp.priced({})
        for column, nm in flat.items():
            priced[column] = nm // unit
        value = lp.least(priced) * unit
        need(value == steps, f"steps: {steps} in the answer, {value} by the order program")
        beds = {self.number[i]: {it: way.off_bed for it, way in of[i].items()} for i in of}
        own, value = off_beds(self.options, plan), whole(lp, beds)
        need(own == value, f"off the designed beds: {own} in the answer, {value} by the order program")
        # the lowest of all of them has the least sum of seats, and there is only one such
        every = range(len(self.standing))
        lp.least(lp.priced({at: {it: (it - lp.labels[at][0]) // unit for it in lp.labels[at]} for at in every})[0])
        for i, seat in zip(self.standing, lp.plan(every)):
            own, mark = job.departure(i) + plan[i], job.columns[i].mark
            need(own == seat, f"{mark} stands at {own} from its design, {seat} is the lowest of equal plans")


def components(lp, told, of, first):
    """Solves component by component; `of` holds the cost of every label."""
    for part in range(first, 6):
        value = whole(lp, {i: {it: way[part] for it, way in of[i].items()} for i in of})
        need(value == told[part], f"{COMPONENTS[part]}: {told[part]} in the answer, {value} by the order program")


def whole(lp, prices):
    """The least sum of prices, counted in their common divisor."""
    unit = gcd(*(it for of in prices.values() for it in of.values())) or 1
    priced, constant = lp.priced({i: {label: it // unit for label, it in of.items()} for i, of in prices.items()})
    return (lp.least(priced) + constant) * unit


def on_grid(job, options, referred, told):
    """Chooses the referred columns where every length stands on one grid; False where that is too fine.

    On a common grid a referred column, which is free, can stand on the grid too.
    """
    measured = list(options)
    windows = [limits.window(job, i) for i in measured]
    kept = [limit for _, _, limit in limits.neighbours(job)] + [limit for _, limit in limits.groups(job)]
    seats = [job.departure(i) + raise_nm for i in measured for raise_nm in options[i]]
    if not seats:
        return False
    ends = [side * it for it in windows if it is not None for side in (-1, 1)]
    grid = gcd(*(it - seats[0] for it in seats + ends), *kept) or 1
    low, high = min(seats), max(seats)
    if ends and None not in windows:
        low, high = max(low, min(ends)), min(high, max(ends))
        if low > high:
            low = high = max(ends)
    elif ends:
        low, high = min(low, *ends), max(high, *ends)
    if (high - low) // grid > MOST_LABELS:
        return False
    levels = range(low, high + 1, grid)
    of = {at: {it: (1, 0, 0, 0, 0, 0) for it in levels} for at in range(len(measured))}
    price = {at: {it: 0 for it in levels} for at in range(len(measured))}
    lowest = min(it.pad for it in job.columns if it.pad is not None)
    for at, i in enumerate(measured):
        for raise_nm, option in options[i].items():
            seat = job.departure(i) + raise_nm
            if low <= seat <= high:
                of[at][seat] = (0, *option.cost)
                price[at][seat] = job.columns[i].pad + raise_nm - lowest
    number = {i: at for at, i in enumerate(measured)}
    pairs = [(number[i], number[j], it) for i, j, it in limits.neighbours(job) if i in number and j in number]
    groups = [([number[i] for i in of_group if i in number], it) for of_group, it in limits.groups(job)]
    labels = [[it for it in levels if window is None or abs(it) <= window] for window in windows]
    lp = OrderLp(labels, pairs, [it for it in groups if len(it[0]) > 1])
    need(lp.feasible, "the order program finds no plan at all")
    lp.start()
    of = {at: {it: of[at][it] for it in lp.labels[at]} for at in of}
    components(lp, told, of, 0)
    # the least sum of the other seats, then the later set: every column in turn is not referred if it can be
    unit = gcd(*(it for seats in price.values() for it in seats.values())) or 1
    lp.least(lp.priced({at: {it: price[at][it] // unit for it in lp.labels[at]} for at in price})[0])
    found = []
    for at, i in enumerate(measured):
        priced, constant = lp.priced({at: {it: of[at][it][0] for it in lp.labels[at]}})
        if lp.least(priced) + constant:
            found.append(i)
    name = lambda columns: [job.columns[i].mark for i in columns]
    need(found == referred, f"refers {name(referred)}, the order program {name(found)}")
    return True
