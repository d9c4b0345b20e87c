"""Invents level notes, each kind with what its name says and the rest by the dice."""

import math
import random

from numpy_oracle.dense import curvature
from numpy_oracle.notes import (
    M, MM, READ_IN, TAPED_IN, Benchmark, Difference, Elevation, Instrument, Job, Setup, Sight,
)

KINDS = (
    "one setup", "shared pads", "turning points", "benchmarks with +-", "elevations", "differences", "per sight, taped",
    "per sight, from the plan", "slope free", "slope stated", "slope by peg tests", "one tilt free", "tilts within",
    "all tilts free", "all tilts free on benchmarks", "tilt of the body", "not connected", "two instruments",
    "everything", "no level notes", "spots", "slope free from one setup", "said to be exact",
)


def job(seed):
    """Gives a job and its kind."""
    kind = KINDS[seed % len(KINDS)]
    return Maker(seed, kind).made(), kind


class Maker:
    def __init__(self, seed, kind):
        self.dice = dice = random.Random(f"{seed} {kind}")
        self.kind = kind
        units = dice.choice(("in", "mm"))
        levels_units = dice.choice(("in", "ft", "mm", "m"))
        self.job = Job(f"{kind}, {seed}", units, levels_units, dice.choice(("rod", "height")))
        self.job.plus_minus = dice.choice((None, 600_000, 1_000_000, 2 * MM))
        if kind == "said to be exact":
            self.job.plus_minus = 0
        # readings worse or better than they are said to be
        self.noise = dice.choice((0.6, 1, 1, 1, 1.5, 3))
        self.truth = {}  # height of every point
        self.places = {}
        self.slopes = {}
        self.tilts = {}

    def step(self, nm):
        return round(nm / READ_IN[self.job.levels_units]) * READ_IN[self.job.levels_units]

    def taped(self, nm):
        return round(nm / TAPED_IN[self.job.levels_units]) * TAPED_IN[self.job.levels_units]

    def made(self):
        kind, dice = self.kind, self.dice
        along, across = dice.randint(2, 5), dice.randint(2, 3)
        placed = kind != "not connected" or dice.random() < 0.5
        for y in range(across):
            for x in range(along):
                mark = f"{chr(65 + y)}{x + 1}"
                at = tuple(round(it / MM) * MM for it in (x * 7.5e9 + dice.uniform(0, 5e8), y * 9e9))
                self.point(mark, at)
                self.job.columns[mark] = at if placed else None
        self.job.columns["Z9"] = None  # nobody reads it
        self.datum()
        self.instruments()
        if kind != "no level notes":
            self.read()
        if kind in ("elevations", "everything", "no level notes") or dice.random() < 0.15:
            self.elevations()
        if kind in ("differences", "everything", "no level notes") or dice.random() < 0.2:
            self.differences()
        if kind not in ("no level notes", "said to be exact") and dice.random() < 0.25:
            sight = dice.choice(self.job.sights)
            sight.reading += self.step(dice.choice((-1, 1)) * dice.uniform(6, 60) * MM)
        return self.job

    def point(self, name, at, bump=6 * MM):
        self.truth[name] = round(96 * M + self.dice.gauss(0, bump))
        self.places[name] = at

    def datum(self):
        dice, kind = self.dice, self.kind
        count = {"one setup": 0, "shared pads": 0, "turning points": 2, "benchmarks with +-": dice.choice((1, 2, 3)),
                 "all tilts free": 0, "all tilts free on benchmarks": dice.choice((1, 3, 4)), "everything": 2}
        count = count.get(kind, dice.choice((0, 0, 1, 2)))
        for number in range(count):
            at = tuple(round(dice.uniform(-15, 35) * 1000) * MM for _ in "xy")
            name = f"BM{number + 1}"
            self.point(name, at, 400 * MM)
            good_to = None
            if kind == "benchmarks with +-" or dice.random() < 0.25:
                good_to = dice.choice((0, MM // 2, MM, 3 * MM))
            if kind == "said to be exact":
                good_to = None
            elevation = round((self.truth[name] + dice.gauss(0, (good_to or 0) / 1.96)) / 100_000) * 100_000
            self.job.benchmarks.append(Benchmark(name, elevation, good_to, at if dice.random() < 0.6 else None))

    def instruments(self):
        dice, kind = self.dice, self.kind
        one = Instrument("level 1")
        if dice.random() < 0.7:
            one.plus_minus = dice.choice((500_000, 800_000, 1_200_000))
        per_sight = (dice.choice((200_000, 500_000)), 10 * M)
        if kind.startswith("per sight") or (kind.startswith(("slope", "two", "every")) and dice.random() < 0.5):
            one.per_sight = per_sight
        if kind in ("slope free", "slope free from one setup", "two instruments"):
            one.slope = "free"
        if kind == "slope stated" or (kind == "slope by peg tests" and dice.random() < 0.3):
            one.slope = (dice.choice((0, 300_000, -MM)), 10 * M)
            one.slope_plus_minus = (dice.choice((100_000, 500_000)), 10 * M)
        self.slopes[one.name] = dice.gauss(0, 40_000)
        if kind in ("slope by peg tests", "everything"):
            one.pegs = [self.peg(one) for _ in range(dice.choice((1, 1, 2)))]
        if kind == "tilt of the body":
            one.tilt = dice.choice(("free", (MM, 10 * M)))
        plain = not (one.needs_length() or one.tilt or one.plus_minus)
        if not plain and kind != "said to be exact":
            self.job.instruments.append(one)
        if kind in ("two instruments", "everything"):
            other = Instrument("level 2", dice.choice((700_000, 1_500_000)), dice.choice((None, per_sight)))
            self.slopes[other.name] = 0.0
            self.job.instruments.append(other)

    def peg(self, instrument):
        heights = (0, round(self.dice.gauss(0, 200 * MM)))
        places = []
        for sights in ((30 * M, 30 * M), (5 * M, 65 * M)):
            line = round(1.5 * M + self.dice.gauss(0, 50 * MM))
            place = []
            for height, to in zip(heights, sights):
                to = self.taped(to)
                place += [self.reading(height, line + self.slopes[instrument.name] * to / M, to / M, 500_000), to]
            places.append(tuple(place))
        return tuple(places)

    def reading(self, height, line, length, good_to):
        """Reads a height against a line; the line rises over the level surface."""
        off = height - line - curvature(length) + self.dice.gauss(0, self.noise * good_to / 1.96)
        return self.step(-off if self.job.sense == "rod" else off)

    def tilted(self, number, count):
        kind, dice = self.kind, self.dice
        within = (dice.choice((500_000, 2 * MM)), 10 * M)
        if kind in ("one tilt free", "two instruments", "everything"):
            return dice.choice(("free", within)) if number == count - 1 else None
        if kind == "tilts within":
            return within
        return "free" if kind.startswith("all tilts free") else None

    def read(self):
        kind, dice, job = self.kind, self.dice, self.job
        count = {"one setup": 1, "slope free from one setup": 1}.get(kind, dice.randint(2, 4))
        run = kind in ("turning points", "everything") or (kind == "shared pads" and dice.random() < 0.4)
        lengths = dice.choice(("none", "taped", "plan", "some"))
        if kind == "per sight, from the plan":
            lengths = "plan"
        if kind == "per sight, taped":
            lengths = "taped"
        if any(it.needs_length() for it in job.instruments) and lengths in ("none", "some"):
            lengths = dice.choice(("taped", "plan", "both"))
        benchmarks = [it.point for it in job.benchmarks]
        pads = [mark for mark in job.columns if mark != "Z9"]
        if kind == "not connected":
            half = len(pads) // 2
            groups = [pads[:half], pads[half:]]
        for number in range(count):
            name = str(number + 1)
            stands = tuple(round(dice.uniform(-12, 32) * 1000) * MM for _ in "xy")
            tilt = self.tilted(number, count)
            setup = Setup(name, tilt=tilt, at=stands if lengths in ("plan", "both", "some") else None)
            if len(job.instruments) > 1:
                setup.instrument = job.instruments[1 if number == count - 1 else 0].name
            if kind == "tilt of the body":
                setup.turned = dice.choice((0, 90, 180, 180, -30, 270))
            job.setups[name] = setup
            if kind == "not connected":
                some = dice.sample(groups[number % 2], max(1, len(groups[number % 2]) - dice.randint(0, 2)))
            else:
                some = dice.sample(pads, max(2, len(pads) - dice.choice((0, 0, 1, 3))))
            marks = [it for it in benchmarks if dice.random() < 0.8]
            if kind == "turning points":
                # a run from the first benchmark to the last, few pads at each setup
                some = dice.sample(pads, min(len(pads), 2))
                marks = [benchmarks[0]] if number == 0 else []
                marks += [benchmarks[-1]] if number == count - 1 else []
            if kind == "all tilts free on benchmarks":
                marks = benchmarks
            if kind == "not connected" and dice.random() < 0.5:
                marks = []
            points = some + marks
            points += [it for it in points if dice.random() < 0.1]
            dice.shuffle(points)
            run_on = run and tilt is None and not any(it.tilt for it in job.instruments)
            if run_on and number > 0 and job.setups[str(number)].tilt is None:
                points.insert(0, f"TP{number}")
            if run_on and number < count - 1 and self.tilted(number + 1, count) is None:
                points.append(f"TP{number + 1}")
            for point in points:
                self.sight(setup, point, stands, lengths)
        for it in job.benchmarks:
            read_by = [job.setups[sight.setup] for sight in job.sights if sight.point == it.point]
            instruments = [job.instrument(setup.name) for setup in read_by]
            if any(setup.tilt for setup in read_by) or any(it and it.tilt for it in instruments):
                it.at = self.places[it.point]

    def sight(self, setup, point, stands, lengths):
        dice, job = self.dice, self.job
        if point not in self.truth:
            self.point(point, tuple(round(dice.uniform(-12, 32) * 1000) * MM for _ in "xy"), 200 * MM)
        at = self.places[point]
        length = math.dist(stands, at)
        instrument = job.instrument(setup.name)
        x, y = at[0] / M, at[1] / M
        if setup.name not in self.tilts:
            tilted = setup.tilt or (instrument and instrument.tilt)
            self.tilts[setup.name] = [dice.gauss(0, 100_000 if tilted else 0) for _ in "xy"]
            self.truth["line", setup.name] = round(97.4 * M + dice.gauss(0, 100 * MM))
        a, b = self.tilts[setup.name]
        line = self.truth["line", setup.name] + a * x + b * y
        if instrument:
            line += self.slopes[instrument.name] * length / M
        reading = self.reading(self.truth[point], line, length / M, 800_000)
        in_plan = job.columns.get(point) or point.startswith("BM")
        wanted = {"none": False, "plan": False, "taped": True, "both": dice.random() < 0.5, "some": dice.random() < 0.5}
        needed = instrument is not None and instrument.needs_length()
        for it in job.benchmarks:
            if it.point == point and needed and not wanted[lengths] and it.at is None:
                it.at = at
        distance = self.taped(length) if wanted[lengths] or (needed and not in_plan) else None
        kind = "FS" if point == f"TP{setup.name}" else "BS" if point.startswith("TP") else dice.choice(("", "", "IS"))
        spot = ""
        if self.kind == "spots" and point in job.columns and dice.random() < 0.5:
            spot = dice.choice(("north", "south", "rod 2"))
        job.sights.append(Sight(setup.name, point, reading, distance, kind, spot))

    def good_to(self):
        return self.dice.choice((None, self.taped_good_to(MM), self.taped_good_to(2 * MM)))

    def taped_good_to(self, nm):
        return max(READ_IN[self.job.levels_units], self.step(nm))

    def elevations(self):
        for mark in self.dice.sample([it for it in self.job.columns if it != "Z9"], 3):
            good_to = None if self.kind == "said to be exact" else self.dice.choice((0, self.good_to(), self.good_to()))
            elevation = self.step(self.truth[mark] + self.dice.gauss(0, (good_to or 0) / 1.96))
            if self.kind == "no level notes" and good_to != 0 and self.dice.random() < 0.5:
                self.job.elevations.append(Elevation(mark, elevation + self.step(MM), self.taped_good_to(MM)))
            self.job.elevations.append(Elevation(mark, elevation, good_to))

    def differences(self):
        points = [it for it in self.job.columns if it != "Z9"] + [it.point for it in self.job.benchmarks]
        few = self.dice.randint(3, 8) if self.kind != "no level notes" else len(points) + 3
        for _ in range(few):
            start, end = self.dice.sample(points, 2)
            good_to = None if self.kind == "said to be exact" else self.good_to()
            difference = self.truth[end] - self.truth[start] + self.dice.gauss(0, self.noise * (good_to or MM) / 1.96)
            self.job.differences.append(Difference(start, end, self.step(difference), good_to))
