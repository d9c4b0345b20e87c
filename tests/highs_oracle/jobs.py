"""Invents jobs: halls of columns on a grid, from a seed. No such buildings, no such readings.

Two families of rods: A stands so that a column can be raised by 1/2 to 1-1/4 in and has stacks of 3 pieces, B by 2 to
2-1/2 in with stacks of 4. Walls stand around the hall, frames on the lines between. Half of the mixed jobs have bases on
designed beds of grout, with concrete about the bed below the seat and rods that stand so much higher.
"""

import random
from dataclasses import replace

from highs_oracle.job import INCH, MILLIMETRE, THIRTY_SECOND, Base, Column, Job, Limit, Line, Part, Rod, Steps


class Dice:
    """Whole numbers from a seed, the same on every machine."""

    def __init__(self, seed):
        self.random = random.Random(seed).random

    def whole(self, low, high):
        return low + int(self.random() * (high - low + 1))

    def chance(self, share):
        return self.random() < share

    def scatter(self, deviation):
        """About normal: twelve uniform numbers."""
        return round((sum(self.random() for _ in range(12)) - 6) * deviation)


def exact(nm):
    return Part(nm, nm, nm)


def hall(count):
    """Rows and columns of a grid that holds so many."""
    across = 1
    while across * across * 5 < count * 3:
        across += 1
    along = -(-count // across)
    return along, across


def lines(count, along, spacing):
    """Lines both ways over a grid that is filled row by row; the outer ones are walls."""
    at = lambda x, y: y * along + x
    across = -(-count // along)
    found = []
    for y in range(across):
        members = [at(x, y) for x in range(along) if at(x, y) < count]
        kind = "wall" if y in (0, across - 1) else "frame"
        found.append((f"y{y + 1}", kind, members))
    for x in range(along):
        members = [at(x, y) for y in range(across) if at(x, y) < count]
        kind = "wall" if x in (0, along - 1) else "frame"
        found.append((f"x{x + 1}", kind, members))
    return [Line(name, kind, members, spacing) for name, kind, members in found if len(members) > 1]


def family(kind, count, seed):
    """A job of a family with exact parts and nothing on hold: what the times are measured on."""
    dice, step = Dice(f"{kind} {count} {seed}"), THIRTY_SECOND
    along, _ = hall(count)
    low, high, grind, pieces = {"A": (16, 40, 8, 3), "B": (64, 80, 16, 4)}[kind]
    parts = Base("B1", "3/4", exact(INCH // 2), [exact(INCH // 4)], [exact(INCH * 3 // 4)], 0)
    stack = INCH * 3 // 2
    columns = []
    for i in range(count):
        slope = 16 * (i % along) // max(1, along - 1)
        columns.append(Column(f"C{i + 1}", 0, INCH * 1200 + (slope + dice.scatter(6)) * step, None))
        governs = dice.whole(1, 4)
        reach = dice.whole(low, high)
        for number in range(1, 5):
            more = 0 if number == governs else dice.whole(0, 16)
            projection = stack + (reach + more) * step
            # enough thread for the deepest grinding
            thread = projection - INCH * 3 // 4 + grind * step + INCH // 4
            columns[-1].rods.append(Rod(number, projection, thread))
    shims = [exact(it * INCH // 16) for it in (2, 3, 4, 6, 8, 12)]
    limit = lambda sixteenths: Limit(sixteenths * INCH // 16, sixteenths * INCH // 16)
    return Job(
        name=f"family {kind}, {count} columns, seed {seed} (invented)", units="in", absolute=True, seat=INCH * 1200,
        columns=columns, bases=[parts], lines=lines(count, along, 240 * INCH), shims=shims, pieces=pieces,
        shim_most=INCH * 3, shim_tall=INCH * 3, grout=Steps(INCH, 2 * INCH, INCH // 16),
        grind=Steps(0, grind * step, INCH // 16), neighbours=limit(2), wall=limit(4), wall_length=INCH * 100_000,
        building=limit(8), design=None, clear=INCH // 10, extra=0, rods_plus_minus=0,
    )  # fmt: skip


def mixed(seed):
    """A job of 20 to 60 columns with whatever a job can have."""
    dice = Dice(f"mixed {seed}")
    kind, units = "AAB"[seed % 3], ("in", "mm")[seed // 3 % 2]
    inch = units == "in"
    count = dice.whole(20, 60) if kind == "A" else dice.whole(20, 40)
    along, _ = hall(count)
    step = THIRTY_SECOND if inch else MILLIMETRE // 10
    # a sixteenth of an inch, or 1.5 mm: what limits and grinding are given in
    coarse = INCH // 16 if inch else MILLIMETRE * 3 // 2
    low, high, grind, pieces = {"A": (8, 20, 4, 3), "B": (32, 40, 8, 4)}[kind]
    seat = (INCH * 12 if inch else MILLIMETRE * 1000) * dice.whole(-2, 100)
    job = Job(
        name=f"generated job {seed} (invented)", units=units, absolute=dice.chance(0.5), seat=seat, columns=[],
        bases=bases(dice, inch), lines=lines(count, along, 240 * INCH if inch else 6000 * MILLIMETRE), shims=[],
        pieces=pieces, shim_most=coarse * 64, shim_tall=coarse * 64,
        grout=Steps(coarse * 16, coarse * 32, coarse) if dice.chance(0.8) else None,
        grind=Steps(0, grind * coarse, coarse) if dice.chance(0.8) else None,
        neighbours=limit(dice, 2 * coarse, 0.9), wall=limit(dice, 4 * coarse, 0.9), wall_length=INCH * 100_000,
        building=limit(dice, 8 * coarse, 0.9), design=limit(dice, 5 * coarse, 0.4),
        clear=INCH // 10 if inch else 3 * MILLIMETRE, extra=dice.whole(0, 2), rods_plus_minus=0,
        sense=("rod", "height")[dice.whole(0, 1)], to="desired" if dice.chance(0.25) else "accept",
    )  # fmt: skip
    deviation = (0, 0) if dice.chance(0.4) else (coarse // 6, coarse // 2)
    sizes = [it * INCH // 16 for it in (2, 3, 4, 6, 8, 12)] if inch else [it * MILLIMETRE for it in (2, 3, 5, 10, 15, 20)]
    job.shims = [Part(it - deviation[0], it, it + deviation[1]) for it in sizes]
    if dice.chance(0.6):
        # tall stacks are on hold
        job.shim_most, job.shim_tall = coarse * dice.whole(3, 6), coarse * dice.whole(8, 24)
    if dice.chance(0.6):
        job.rods_plus_minus = coarse if inch else MILLIMETRE
    if dice.chance(0.5):
        job.wall_length = dice.whole(1, 3) * 240 * INCH if inch else dice.whole(2, 4) * 6000 * MILLIMETRE
    if not inch and dice.chance(0.4):
        # limits that no step of the survey divides
        job.neighbours = Limit(3_330_000, 2_770_000)
    if dice.chance(0.3) and job.neighbours and job.neighbours.desired <= job.neighbours.accept:
        job.lines[dice.whole(0, len(job.lines) - 1)].accept = coarse * dice.whole(1, 4)
    scatter, slope = dice.whole(2, 3) * coarse, dice.whole(0, 8) * coarse
    far = dice.chance(0.5)
    # dice of their own, so that the other jobs stay what they are
    bedding = Dice(f"beds {seed}")
    if bedding.chance(0.5):
        on_beds(job, bedding, coarse, step)
    for i in range(count):
        add(job, dice, i, along, step, (scatter, slope, far), (low * coarse, high * coarse))
        if job.bed(i) is not None:
            onto_bed(job, bedding, i, coarse, step, low * coarse)
    return job


def on_beds(job, dice, coarse, step):
    """Puts one of the bases on a designed bed, or both, and opens grout for it."""
    least = dice.whole(8, 16) * coarse
    job.grout = Steps(least, least + dice.whole(12, 20) * coarse, coarse * dice.whole(1, 2))
    if len(job.bases) == 1 and dice.chance(0.5):
        job.bases.append(replace(job.bases[0], mark="B2"))
    mixed = len(job.bases) > 1 and dice.chance(0.6)
    for base in [job.bases[dice.whole(0, 1)]] if mixed else job.bases:
        base.bed = job.grout.least + dice.whole(1, 12) * coarse
        if dice.chance(0.25):
            # on no step
            base.bed -= step
    if dice.chance(0.4):
        # elevation 0 stands for the design seat, but no limit from it holds but where a column has its own
        job.seat = None


def onto_bed(job, dice, i, coarse, step, shorter):
    """Lowers the pad of a column by its bed, as rough as concrete is left under grout, and stands its rods so much higher.

    They stand on their thread as before, but for what they are shorter above a bed than above a pad.
    """
    column, bed = job.columns[i], job.bed(i) // step * step
    if column.pad is not None:
        column.pad -= bed + dice.whole(-3, 3) * coarse
    shorter += dice.whole(-3, 2) * coarse
    for rod in column.rods:
        if rod.projection is not None:
            rod.projection = max(0, rod.projection + bed - shorter)
        if rod.thread is not None:
            rod.thread = max(0, rod.thread - shorter)


def limit(dice, accept, share):
    if not dice.chance(share):
        return None
    # desired is narrower as a rule; where it is looser it does not count
    return Limit(accept, accept * 2 if dice.chance(0.1) else accept * 3 // 4)


def bases(dice, inch):
    """One or two kinds of base, exact or with tolerances."""
    found = []
    for mark in ("B1", "B2")[: dice.whole(1, 2)]:
        spread = dice.whole(0, 1)
        unit = INCH // 64 if inch else MILLIMETRE // 2
        part = lambda nominal, more: Part(nominal - spread * more, nominal, nominal + spread * more)
        plate, washer, nut = (INCH // 2, INCH // 4, INCH * 3 // 4) if inch else (25 * MILLIMETRE, 4 * MILLIMETRE, 21 * MILLIMETRE)
        washers = [part(washer, unit)] * dice.whole(0, 2)
        nuts = [part(nut, unit)] * dice.whole(1, 2)
        beyond = 0 if dice.chance(0.5) else (INCH // 10 if inch else 3 * MILLIMETRE)
        found.append(Base(mark, "3/4" if inch else "M24", part(plate, unit), washers, nuts, beyond, dice.whole(2, 4)))
    return found


def add(job, dice, i, along, step, spread, reach):
    """Adds one column with its pad and its rods."""
    scatter, slope, far = spread
    seat = (job.seat or 0) - 48 * INCH if dice.chance(0.06) else None
    base = dice.whole(0, len(job.bases) - 1)
    column = Column(f"C{i + 1}", base, None, seat)
    departure = slope * (i % along) // max(1, along - 1) // step + dice.scatter(scatter / step)
    if far and dice.chance(0.08):
        # a pad that is off by far, low as a rule
        departure += dice.whole(-4, 1) * reach[0] // 2 // step
    if not dice.chance(0.03):
        column.pad = job.design_seat(column) + departure * step
    kind = job.bases[base]
    parts = sum(it.nominal for it in [kind.plate, *kind.washers, *kind.nuts])
    own = dice.whole(reach[0] // step, reach[1] // step) * step
    for number in range(1, kind.count + 1):
        more = dice.whole(0, 16) * step if number > 1 else 0
        projection = max(0, (parts + own + more) // step * step)
        thread = None
        if dice.chance(0.5):
            # the thread ends where the column is lowered so far, or already above its pad
            lowest = dice.whole(-12, 2) * step * 2
            washers = sum(it.least for it in kind.washers)
            thread = projection + job.clear + job.rods_plus_minus - kind.plate.least - washers - lowest
            thread = max(0, -(-thread // step) * step)
        column.rods.append(Rod(number, None if dice.chance(0.03) else projection, thread, not dice.chance(0.03)))
    job.columns.append(column)
