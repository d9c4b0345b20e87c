"""Compares what the answer tells of single readings: how they fit, how they are checked, the worst, one more."""

import math
from statistics import NormalDist

from numpy_oracle.datum import less, said_exact
from numpy_oracle.dense import SIGMAS, point_of
from numpy_oracle.judge import near, need
from numpy_oracle.notes import Sight

# a slip of so many deviations is seen in 80 of 100 cases where 1 in 1000 good readings is called bad
SEEN = 4.1321


def readings(job, told, solution):
    """Every residual, its share of control, and the least slip that is seen."""
    rows = [it for it in zip(solution.rows, solution.residuals, solution.checked) if it[0].reading is not None]
    need(len(told) == len(rows), f"{len(told)} readings in the answer, {len(rows)} are on the datum")
    for it, (row, residual, checked) in zip(told, rows):
        name = f"{it['file']} line {it['line']}"
        need(it["line"] in lines(job, row.reading), f"{name} stands where another reading does")
        deviation = row.half_width / SIGMAS
        near(f"the residual of {name}", it["residual_nm"], residual * deviation, 0.51)
        near(f"the control of {name}", it["checked"], checked, 0.0010001 if checked > 1e-9 else 1e-12)
        if checked <= 1e-9:
            need(it["seen_from_nm"] is None, f"{name}: nothing checks it")
        elif checked > 1e-6:
            near(f"what is seen of {name}", it["seen_from_nm"], SEEN * deviation / math.sqrt(checked), 1.01 + 1e-5 * deviation)


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


def extra(job, told, design, solution, heights, kept):
    """The reading more that would help most, and what it is known to beforehand."""
    pads = [mark for mark in job.columns if mark in kept]
    setups = [it for it in job.setups if ("line", it) in solution.unknowns]
    known_to, gain = {}, {}
    for setup, pad in ((setup, pad) for setup in setups for pad in pads):
        taped = [it.distance for it in job.sights if (it.setup, point_of(it)) == (setup, pad) and it.distance is not None]
        untaken = Sight(setup, pad, 0, taped[-1] if taped else None)
        line = design.line(untaken, design.length(untaken))
        terms = line and less(line, {it: -factor for it, factor in heights[pad].items()})
        if terms and solution.tells(terms):
            known_to[setup, pad] = solution.half_width(terms)
            gain[setup, pad] = known_to[setup, pad] / design.good_to(untaken)
    if not known_to or said_exact(job):
        need(told is None, "one reading more, though nothing can be told of it")
        return
    need(told is not None, "no reading more")
    which = told["setup"], told["point"]
    near("what one more reading is known to", told["known_to_nm"], math.ceil(known_to.get(which, 0)), 1)
    need(gain.get(which, 0) >= max(gain.values()) * (1 - 1e-6), f"one more reading: {told}, another tells more")
