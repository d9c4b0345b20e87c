"""Compares the answer of `level` with the dense solution."""

import math
from types import SimpleNamespace

import numpy as np

from numpy_oracle import readings
from numpy_oracle.datum import Pads, held, known, less, on_datum, said_exact
from numpy_oracle.dense import Design, solve
from numpy_oracle.judge import Wrong, near, need
from numpy_oracle.notes import M

__all__ = ["Wrong", "compare"]

RUN_M = 100


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
    readings.suspects(job, answer["suspects"], solution)
    readings.readings(job, answer["readings"], solution)
    if zero or job.is_absolute():
        lines_of_sight(answer["setups"], solution, heights[zero] if zero else {})
    readings.extra(job, answer["extra"], design, solution, heights, kept)
    found = slopes(answer["slopes"], solution)
    need(bool(answer["untold"]) == (solution.nothing.shape[1] > 0), f"untold: {answer['untold']}")
    nulls = sum(it["elevation_nm"] is None for name, it in told.items() if name != "Z9")
    return SimpleNamespace(nulls=nulls, tests=redundancy > 0, suspects=len(answer["suspects"]), slopes=found,
                           absolute=job.is_absolute(), points=len(kept), untold=solution.nothing.shape[1] > 0)


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


def lines_of_sight(told, solution, zero):
    """The height of every line of sight, over the middle of the plan."""
    on = {it[1] for it in solution.unknowns if it[0] == "line"}
    for it in told:
        line = less({("line", it["setup"]): 1}, zero)
        if it["setup"] not in on or not solution.tells(line):
            need(it["line_nm"] is None, f"the line of setup {it['setup']}: {it['line_nm']} in the answer, nothing tells it")
            continue
        need(it["line_nm"] is not None, f"the line of setup {it['setup']}: null in the answer")
        whole, rest = solution.value(line)
        near(f"the line of setup {it['setup']}", it["line_nm"] - whole, rest, 0.51)


def slopes(told, solution):
    """The slopes over 100 m; gives how many there are to find."""
    unknowns = {words(it): it for it in solution.unknowns if it[0] in ("slope", "tilt", "body")}
    need({it["slope"] for it in told} == set(unknowns), f"slopes: {told} in the answer, {list(unknowns)} are to be found")
    for it in told:
        unknown, name = unknowns[it["slope"]], it["slope"]
        if not solution.tells({unknown: 1}):
            need(it["rise_nm"] is None and it["plus_minus_nm"] is None, f"{name} is told, though nothing tells it")
            continue
        need(it["run_nm"] == RUN_M * M, f"{name} is over another run")
        near(name, it["rise_nm"], solution.rest[unknown] * RUN_M, 0.51)
        half_width = math.ceil(solution.half_width({unknown: 1}) * RUN_M)
        near(f"the +- of {name}", it["plus_minus_nm"], half_width, 1 + 1e-9 * half_width)
    return len(unknowns)


def words(unknown):
    """Names a slope as the answer does."""
    kind, name, *axis = unknown
    if kind == "slope":
        return f"the slope of the line of sight of {name}"
    return f"the tilt of {'setup ' if kind == 'tilt' else ''}{name} along {'its own ' if kind == 'body' else ''}{axis[0]}"
