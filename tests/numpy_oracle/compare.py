"""Compares the answer of `level` with the dense solution."""

import json
import math
from collections import defaultdict
from statistics import NormalDist
from types import SimpleNamespace

import numpy as np

from numpy_oracle.dense import SIGMAS, Design, point_of, solve

RUN_M = 100


class Wrong(Exception):
    """The answer is not what the dense solution says."""


def need(fact, text):
    if not fact:
        raise Wrong(text)


def near(name, told, found, within):
    need(told is not None, f"{name}: null in the answer, {found} found")
    need(abs(told - found) <= within, f"{name}: {told} in the answer, {found} found")


def compare(job, answer):
    """Compares every part; gives what was seen."""
    told = {it["point"]: it for it in answer["points"]}
    pads = Pads(job)
    points = on_datum(job, pads, told)
    design = Design(job, points, held(job, points))
    fixed = design.held
    if not job.is_absolute() and points:
        fixed = {("h", min(points)): 0}
    solution = solve(design.rows, fixed)
    heights = {name: terms for name, terms in pads.heights.items() if all(it[1] in points for it in terms)}
    kept, zero = known(job, pads, solution, heights, told)
    for name, it in told.items():
        if name not in kept:
            need(it["elevation_nm"] is None, f"{name}: {it['elevation_nm']} in the answer, nothing tells it")
            need(it["plus_minus_nm"] is None, f"{name}: a +- without an elevation")
            continue
        terms = less(heights[name], heights[zero] if zero else {})
        whole, rest = solution.value(terms)
        if isinstance(whole, float):
            whole, rest = 0, rest + whole
        need(it["elevation_nm"] is not None, f"{name}: null in the answer, {whole + rest} nm found")
        near(f"the elevation of {name}", it["elevation_nm"] - whole, rest, 0.5 + 0.01)
        exact = said_exact(job)
        near(f"the +- of {name}", it["plus_minus_nm"], 0 if exact else math.ceil(solution.half_width(terms)), 1)
    redundancy = len(design.rows) - solution.rank
    near("redundancy", answer["redundancy"], redundancy, 0)
    test(job, answer["test"], solution, redundancy)
    suspects(job, answer["suspects"], solution)
    slopes = found_slopes(answer, solution)
    nulls = sum(it["elevation_nm"] is None for name, it in told.items() if name != "Z9")
    return SimpleNamespace(nulls=nulls, tests=redundancy > 0, suspects=len(answer["suspects"]), slopes=slopes,
                           absolute=job.is_absolute(), points=len(kept), untold=solution.nothing.shape[1] > 0)


class Pads:
    """What every point is made of: itself, or, for a pad that was read only at places of it, the mean of these."""

    def __init__(self, job):
        read = [point_of(it) for it in job.sights] + [it.point for it in (*job.elevations, *job.benchmarks)]
        read += [name for it in job.differences for name in (it.start, it.end)]
        self.heights = {name: {("h", name): 1} for name in read}
        places = defaultdict(dict)
        for it in job.sights:
            if it.spot and not it.spot.startswith("rod "):
                places[it.point]["h", point_of(it)] = None
        for mark, at in places.items():
            self.heights.setdefault(mark, {it: 1 / len(at) for it in at})
        self.marks = [mark for mark in job.columns if mark in self.heights]


def less(terms, other):
    sum_of = defaultdict(int)
    for it, factor in terms.items():
        sum_of[it] += factor
    for it, factor in other.items():
        sum_of[it] -= factor
    return {it: factor for it, factor in sum_of.items() if factor != 0}


def held(job, points):
    """Benchmarks without a +-, and elevations good to +- 0."""
    found = {("h", it.point): it.elevation for it in job.elevations if it.plus_minus == 0 or not_worse(job, it)}
    found |= {("h", it.point): it.elevation for it in job.benchmarks if not it.plus_minus}
    return {it: height for it, height in found.items() if it[1] in points}


def not_worse(job, elevation):
    return elevation.plus_minus is None and job.good_to() == 0


def blocks(job):
    """Points that hang together by setups and differences."""
    parent = {}

    def root(it):
        parent.setdefault(it, it)
        while parent[it] != it:
            it = parent[it]
        return it

    for it in job.sights:
        parent[root(point_of(it))] = root(("line", it.setup))
    for it in job.differences:
        parent[root(it.start)] = root(it.end)
    for it in (*job.elevations, *job.benchmarks):
        root(it.point)
    found = defaultdict(set)
    for it in list(parent):
        if isinstance(it, str):
            found[root(it)].add(it)
    return list(found.values())


def on_datum(job, pads, told):
    """The points on the datum; without one, the largest block by pads, of equals the one the answer took."""
    all_blocks = blocks(job)
    if job.is_absolute():
        known_points = {it.point for it in (*job.elevations, *job.benchmarks)}
        return set().union(*(it for it in all_blocks if it & known_points))
    count = lambda block: sum(any(it[1] in block for it in pads.heights[mark]) for mark in pads.marks)
    largest = [it for it in all_blocks if count(it) == max(map(count, all_blocks))]
    taken = [it for it in largest if any(told[name]["elevation_nm"] is not None for name in it)]
    return (taken or largest)[0]


def known(job, pads, solution, heights, told):
    """The points that have a height, and in a relative job the pad that is 0."""
    if job.is_absolute():
        return {name for name, terms in heights.items() if solution.tells(terms)}, None
    candidates = [mark for mark in pads.marks if mark in heights]
    alike = lambda one: {it for it in heights if solution.tells(less(heights[it], heights[one]))}
    count = lambda kept: sum(it in kept for it in candidates)
    kept = [alike(one) for one in candidates]
    if not kept or (max(map(count, kept)) <= 1 < len(candidates)):
        return set(), None
    kept = [it for it in kept if count(it) == max(map(count, kept))]
    kept = next((it for it in kept if all(told[name]["elevation_nm"] is not None for name in it)), kept[0])
    standing = [it for it in candidates if it in kept]
    zero = max(standing, key=lambda mark: sum(solution.value(less(heights[mark], heights[standing[0]]))))
    # of equals the first; they differ in nothing but the last bits
    height = lambda mark: sum(solution.value(less(heights[mark], heights[zero])))
    return kept, next(it for it in standing if height(it) > -1e-3)


def said_exact(job):
    """Whether nothing at all is said to have a +-."""
    stated = [it.plus_minus for it in (*job.elevations, *job.differences)]
    stated = [job.good_to() if it is None else it for it in stated] + [it.plus_minus or 0 for it in job.benchmarks]
    with_none = job.sights and not job.instruments and job.good_to() > 0
    return not any(stated) and not with_none and not job.instruments


def test(job, told, solution, redundancy):
    if redundancy == 0 or said_exact(job):
        need(told is None, "a test, though nothing can be tested")
        return
    statistic = float(np.sum(solution.residuals**2))
    need(told is not None, "no test, though readings are redundant")
    near("the statistic", told["statistic"], statistic, 6e-5 + 1e-9 * statistic)
    need(told["passed"] == (told["statistic"] <= told["upper"]), "passed does not follow from the bounds")
    for key, share in (("lower", 0.025), ("upper", 0.975)):
        low, high = (chi_squared(max(0.0, told[key] + step), redundancy) for step in (-6e-5, 6e-5))
        need(low <= share <= high, f"{key}: {told[key]} is not the quantile {share} for {redundancy}")


def chi_squared(value, freedom):
    """The share of chi-squared below a value: the series of the incomplete gamma function."""
    if value <= 0:
        return 0.0
    a, x = freedom / 2, value / 2
    term = total = 1 / a
    while abs(term) > 1e-16 * total:
        a += 1
        term *= x / a
        total += term
    return total * math.exp(-x + freedom / 2 * math.log(x) - math.lgamma(freedom / 2))


def suspects(job, told, solution):
    """The worst reading only: those after it stand on an adjustment without it."""
    if said_exact(job):
        need(not told, "suspects among exact readings")
        return
    checked = [
        (abs(v) / math.sqrt(r), abs(v) * row.half_width / SIGMAS / r, row.reading)
        for v, r, row in zip(solution.residuals, solution.checked, solution.rows)
        if row.reading is not None and r > 1e-9
    ]
    each = 1 - 0.95 ** (1 / max(1, len(checked)))
    critical = max(3.29, NormalDist().inv_cdf(1 - each / 2))
    largest = max((it[0] for it in checked), default=0.0)
    if abs(largest - critical) > 1e-6:
        need(bool(told) == (largest > critical), f"{len(told)} suspects, the largest residual is {largest:.4f} deviations")
    if told:
        worst = [it for it in checked if it[0] >= largest * (1 - 2e-6)]
        fits = [size for _, size, it in worst if told[0]["line"] in lines(job, it)]
        need(fits, f"the first suspect, {told[0]}, is not the worst")
        near("the size of the first suspect", told[0]["size_nm"], min(fits, key=lambda it: abs(it - told[0]["size_nm"])), 1.5)


def lines(job, reading):
    """Where a reading stands in its file; the job file's lines are not counted."""
    for rows in (job.sights, job.elevations, job.differences):
        if any(it is reading for it in rows):
            return [2 + next(at for at, it in enumerate(rows) if it is reading)]
    return range(1, 1000)


def found_slopes(answer, solution):
    """Compares the slopes that the answer tells, over 100 m; gives how many there are to find."""
    unknowns = [it for it in solution.unknowns if it[0] in ("slope", "tilt", "body")]
    for it in answer.get("slopes") or []:
        unknown = named(it)
        if unknown is None:
            continue
        need(unknown in unknowns, f"the slope {json.dumps(it)} is not to be found")
        if not solution.tells({unknown: 1}):
            continue
        value = sum(solution.value({unknown: 1})) * RUN_M
        near(f"{unknown}", it["rise_nm"], value, 0.51)
        near(f"the +- of {unknown}", it["plus_minus_nm"], math.ceil(solution.half_width({unknown: 1}) * RUN_M), 1)
    return len(unknowns)


def named(slope):
    return None
