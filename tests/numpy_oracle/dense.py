"""The dense solution: every height, line of sight and slope is an unknown, every reading a row, solved by lstsq.

Peg tests are not made into a figure first: their pegs and their two lines of sight are unknowns like all others.
Heights are whole nanometres; each pass finds what is missing from them, so that the last digits are not lost.
"""

import math
from dataclasses import dataclass

import numpy as np

from numpy_oracle.notes import M

SIGMAS = 1.96
RADIUS_M = 6_371_000
NOTHING = 1e-9


@dataclass
class Row:
    terms: dict  # unknown: factor
    observed: int | float
    half_width: float
    reading: object = None  # the sight, difference, elevation or benchmark; none where a slope is known beforehand


@dataclass
class Solution:
    unknowns: list
    whole: dict  # unknown: whole nanometres
    rest: dict  # unknown: the rest
    rows: list
    residuals: np.ndarray  # computed less observed, in deviations
    checked: np.ndarray  # redundancy numbers
    covariance: np.ndarray
    nothing: np.ndarray  # a column for each direction that nothing tells
    rank: int
    held: dict

    def vector(self, terms):
        vector = np.zeros(len(self.unknowns))
        for unknown, factor in terms.items():
            if unknown in self.held:
                continue
            vector[self.unknowns.index(unknown)] += factor
        return vector

    def tells(self, terms):
        """Whether the readings tell a sum of unknowns."""
        return bool(np.all(np.abs(self.vector(terms) @ self.nothing) < 1e-7))

    def value(self, terms):
        """A sum of unknowns, in nanometres: whole, and the rest."""
        whole = sum(factor * self.whole[it] for it, factor in terms.items())
        return whole, sum(factor * self.rest[it] for it, factor in terms.items())

    def half_width(self, terms):
        vector = self.vector(terms)
        return SIGMAS * math.sqrt(max(0.0, vector @ self.covariance @ vector))


def curvature(length_m):
    """Curvature less refraction, whole nanometres, halves up."""
    exact = (1 - 1 / 7) * length_m**2 / (2 * RADIUS_M) * 1e9
    return math.floor(round(exact * 1e4) / 1e4 + 0.5)


class Design:
    """The rows of a job, for the points and setups that are on the datum."""

    def __init__(self, job, points, held):
        self.job, self.held = job, held
        self.at = job.positions()
        self.sighted = [self.at[it.point] for it in job.sights if it.point in self.at]
        self.middle = [self.half(axis) for axis in (0, 1)]
        self.rows = []
        setups = {it.setup for it in job.sights if point_of(it) in points}
        for it in job.sights:
            if it.setup in setups:
                self.sight(it)
        for it in job.differences:
            if it.start in points:
                terms = {("h", it.end): 1, ("h", it.start): -1}
                self.add(terms, it.difference, job.good_to() if it.plus_minus is None else it.plus_minus, it)
        for it in job.elevations:
            good_to = job.good_to() if it.plus_minus is None else it.plus_minus
            if good_to > 0 or self.held.get(("h", it.point)) != it.elevation:
                self.add({("h", it.point): 1}, it.elevation, good_to, it)
        for it in job.benchmarks:
            if it.plus_minus:
                self.add({("h", it.point): 1}, it.elevation, it.plus_minus, it)
        used = {id(it): it for it in (job.instrument(name) for name in setups) if it}
        for instrument in used.values():
            self.beforehand(instrument)
        for name in sorted(setups):
            self.level_to(job.setups[name].tilt, [("tilt", name, axis) for axis in "xy"])

    def half(self, axis):
        places = [at[axis] for at in self.sighted]
        return (min(places) + max(places)) / 2 if places else 0

    def add(self, terms, observed, half_width, reading=None):
        self.rows.append(Row(terms, observed, max(1.0, half_width), reading))

    def length(self, sight):
        """The length of a sight in metres; none where it is not known."""
        if sight.distance is not None:
            return sight.distance / M
        stands, at = self.job.setups[sight.setup].at, self.at.get(sight.point)
        if stands is None or at is None:
            return None
        return math.hypot((stands[0] - at[0]) / M, (stands[1] - at[1]) / M)

    def rise(self, reading, length):
        """The point above the line of sight; a line of sight rises over the level surface."""
        return (-reading if self.job.sense == "rod" else reading) + (0 if length is None else curvature(length))

    def sight(self, it):
        length = self.length(it)
        terms = {("h", point_of(it)): 1} | self.line(it, length)
        self.add(terms, self.rise(it.reading, length), self.good_to(it), it)

    def good_to(self, it):
        """What a sight is good to, in nanometres."""
        instrument = self.job.instrument(it.setup)
        good_to = reading_good_to(self.job, instrument, self.length(it)) if instrument else self.job.good_to()
        return max(1.0, good_to)

    def line(self, it, length):
        """What the line of sight at a point is made of, downward; none where a length or a place is not known."""
        setup, instrument = self.job.setups[it.setup], self.job.instrument(it.setup)
        terms = {("line", it.setup): -1}
        if instrument and instrument.finds_slope():
            if length is None:
                return None
            terms["slope", instrument.name] = -length
        if (setup.tilt is not None or (instrument and instrument.tilt is not None)) and it.point not in self.at:
            return None
        if it.point in self.at:
            x, y = ((it_at - middle) / M for it_at, middle in zip(self.at[it.point], self.middle))
            if setup.tilt is not None:
                terms["tilt", it.setup, "x"], terms["tilt", it.setup, "y"] = -x, -y
            if instrument and instrument.tilt is not None:
                turned = math.radians(setup.turned)
                terms["body", instrument.name, "x"] = -(x * math.cos(turned) + y * math.sin(turned))
                terms["body", instrument.name, "y"] = -(y * math.cos(turned) - x * math.sin(turned))
        return terms

    def beforehand(self, it):
        slope = ("slope", it.name)
        if isinstance(it.slope, tuple):
            # what is called exact is held to 10 nm over a metre
            self.add({slope: 1}, metre(it.slope), max(10.0, abs(metre(it.slope_plus_minus))))
        for number, test in enumerate(it.pegs):
            for place, (a, to_a, b, to_b) in enumerate(test):
                for peg, reading, to in (("a", a, to_a), ("b", b, to_b)):
                    # peg a of every test is at 0
                    terms = {("peg", it.name, number): 1} if peg == "b" else {}
                    terms |= {("peg line", it.name, number, place): -1, slope: -to / M}
                    self.add(terms, self.rise(reading, to / M), reading_good_to(self.job, it, to / M))
        self.level_to(it.tilt, [("body", it.name, axis) for axis in "xy"])

    def level_to(self, tilt, unknowns):
        if isinstance(tilt, tuple):
            for it in unknowns:
                self.add({it: 1}, 0, metre(tilt))


def point_of(sight):
    """A place on a pad that has a name of its own is a point of its own."""
    return f"{sight.point} {sight.spot}" if sight.spot else sight.point


def metre(slope):
    return slope[0] / (slope[1] / M)


def reading_good_to(job, instrument, length):
    """In nanometres; without a figure of its own an instrument is as good as the job says."""
    good_to = job.good_to() if instrument.plus_minus is None else instrument.plus_minus
    if instrument.per_sight is None or length is None:
        return max(1.0, good_to)
    return max(1.0, math.hypot(good_to, metre(instrument.per_sight) * length))


def solve(rows, held):
    """Solves the rows; `held` gives the heights that do not move."""
    unknowns = sorted({it for row in rows for it in row.terms if it not in held}, key=str)
    number = {it: column for column, it in enumerate(unknowns)}
    design = np.zeros((len(rows), len(unknowns)))
    deviations = np.array([row.half_width / SIGMAS for row in rows])
    for at, row in enumerate(rows):
        for it, factor in row.terms.items():
            if it in number:
                design[at, number[it]] += factor
    white = design / deviations[:, None]
    sizes = np.linalg.norm(white, axis=0)
    sizes[sizes == 0] = 1
    scaled = white / sizes
    fitted, values, directions = np.linalg.svd(scaled) if unknowns else (white, np.zeros(0), np.zeros((0, 0)))
    rank = int(np.sum(values > NOTHING * max(values, default=0)))
    whole = {it: 0 for it in unknowns} | held
    rest = {it: 0.0 for it in (*unknowns, *held)}
    for _ in range(4):
        missing = np.array([lacking(row, whole, rest) for row in rows]) / deviations
        found = np.linalg.lstsq(scaled, missing, rcond=NOTHING)[0] / sizes if unknowns else np.zeros(0)
        for it, more in zip(unknowns, found):
            more = rest[it] + float(more)
            step = 0 if it[0] in ("slope", "tilt", "body") else math.floor(more + 0.5)
            whole[it], rest[it] = whole[it] + step, more - step
    residuals = -np.array([lacking(row, whole, rest) for row in rows]) / deviations
    told = directions[:rank] / values[:rank, None] if rank else np.zeros((0, len(unknowns)))
    covariance = (told.T @ told) / np.outer(sizes, sizes)
    checked = 1 - np.sum(fitted[:, :rank] ** 2, axis=1)
    nothing = directions[rank:].T / sizes[:, None]
    nothing = nothing / np.linalg.norm(nothing, axis=0) if nothing.size else np.zeros((len(unknowns), 0))
    return Solution(unknowns, whole, rest, rows, residuals, checked, covariance, nothing, rank, held)


def lacking(row, whole, rest):
    """Observed less computed: whole numbers first."""
    exact = row.observed
    for it, factor in row.terms.items():
        if isinstance(factor, int):
            exact -= factor * whole[it]
    return exact - sum(factor * rest[it] for it, factor in row.terms.items())
