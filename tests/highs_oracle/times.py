"""Times one job of a family: the program, its plan alone, and HiGHS in both forms, in one run on one core each.

All times are processor times, so that other work on the machine counts less; building the models is not counted for HiGHS.
HiGHS gets prices in place of an order of components, one solution instead of one a component, and no tie-break.
"""

import json
import os
import pathlib
import re
import resource
import subprocess
import tempfile
import time

from math import gcd

import highspy

from highs_oracle import jobs, limits, options as ways, write
from highs_oracle.judge import Wrong, cost, need, raises
from highs_oracle.milp import Milp, solver
from highs_oracle.order_lp import OrderLp

# refer, grind, grout, held, a piece, a sixteenth of an inch: as good as an order of components, and small enough for HiGHS
PRICES = (1_000_000, 10_000, 5_000, 1_000, 100, 1)
SIXTEENTH = 25_400_000 // 16


def run(program, kind, count, seed, bench, seconds):
    job = jobs.family(kind, count, seed)
    print(job.name)
    with tempfile.TemporaryDirectory() as temporary:
        folder = write.folder(job, pathlib.Path(temporary))
        answer, whole = checked(program, folder)
        plan_alone = planned(bench, folder) if bench else None
    all_ways = ways.ways(job)
    options = {i: ways.cheapest(job, job.columns[i], all_ways) for i in job.measured()}
    plan = raises(job, options, answer)
    told = cost(options, plan)
    print(f"refer, grind, grout, held, pieces, thickness: {told}; its price {price(told)}")
    print(f"check, the whole process: {whole * 1e3:.1f} ms")
    if plan_alone is not None:
        print(f"the plan alone: {plan_alone * 1e3:.1f} ms")
    order = by_order(job, options, told)
    mixed, finished = by_milp(job, options, told, seconds)
    for name, time_of in (("the whole process of check", whole), ("the plan alone", plan_alone)):
        if time_of is not None:
            more = "" if finished else "more than "
            print(f"against {name}: order program {order / time_of:.1f} times, ", end="")
            print(f"mixed-integer program {more}{mixed / time_of:.0f} times")
    return 0


def price(told):
    return sum(at * part for at, part in zip(PRICES, told[:5])) + PRICES[5] * told[5] // SIXTEENTH


def checked(program, folder):
    """The answer of `check` and the least processor time of three processes."""
    command = [program, "check", str(folder), "--format", "json"]
    times = []
    for _ in range(3):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        ran = subprocess.run(command, capture_output=True, text=True)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        need(ran.returncode in (0, 1), f"exit status {ran.returncode}: {ran.stderr}")
        times.append(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
    return json.loads(ran.stdout), min(times)


def planned(bench, folder):
    """The least time of the plan alone, as the bench tells it."""
    ran = subprocess.run([bench], env={**os.environ, "PLAN_JOB": str(folder)}, capture_output=True, text=True)
    found = re.search(r"plan (\d+) us", ran.stdout)
    need(found is not None, f"the bench told no time: {ran.stdout}{ran.stderr}")
    return int(found[1]) / 1e6


def timed(highs):
    start = time.process_time()
    highs.run()
    return time.process_time() - start


def by_order(job, options, told):
    """The least time of the order program, by simplex and by interior points, in its smallest form."""
    measured = list(options)
    number = {i: at for at, i in enumerate(measured)}
    pairs = [(number[i], number[j], it) for i, j, it in limits.neighbours(job) if i in number and j in number]
    groups = [([number[i] for i in members if i in number], it) for members, it in limits.groups(job)]
    of = [{job.departure(i) + raise_nm: price((0, *it.cost)) for raise_nm, it in options[i].items()} for i in measured]
    lp = OrderLp([sorted(it) for it in of], pairs, groups)
    if not lp.feasible:
        # columns must be referred: one can stand at every step of the common grid
        seats = [seat for it in of for seat in it]
        grid = gcd(*(it - seats[0] for it in seats), *(it for *_, it in pairs), *(it for _, it in groups))
        levels = range(min(seats), max(seats) + 1, grid)
        of = [{seat: it.get(seat, PRICES[0]) for seat in levels} for it in of]
        lp = OrderLp([levels] * len(measured), pairs, groups)
    prices = {at: {seat: of[at][seat] for seat in lp.labels[at]} for at in range(len(measured))}
    best = None
    for method in ("simplex", "ipm"):
        lp.start(solver=method)
        priced, constant = lp.priced(prices)
        columns = len(priced)
        lp.highs.changeColsCost(columns, list(range(columns)), priced)
        took = timed(lp.highs)
        need(lp.highs.getModelStatus() == highspy.HighsModelStatus.kOptimal, "the order program was not solved")
        value = round(lp.highs.getInfo().objective_function_value) + constant
        need(value <= price(told), f"the order program costs {value}, the plan {price(told)}")
        print(f"order program, {columns} variables, {method}: {took * 1e3:.1f} ms, price {value}")
        best = took if best is None else min(best, took)
    return best


def by_milp(job, options, told, seconds):
    """The time of the plain mixed-integer program, and whether it came to an end."""
    milp = Milp(job, options)
    unit = milp.thickness_unit()
    milp.highs = solver(seconds=seconds)
    milp.highs.passModel(milp.lp)
    priced = milp.cost((*PRICES[:5], PRICES[5] * unit / SIXTEENTH))
    milp.highs.changeColsCost(len(priced), list(range(len(priced))), priced)
    took = timed(milp.highs)
    finished = milp.highs.getModelStatus() == highspy.HighsModelStatus.kOptimal
    info = milp.highs.getInfo()
    if finished:
        value = round(info.objective_function_value)
        need(value <= price(told), f"the mixed-integer program costs {value}, the plan {price(told)}")
    how = f"price {info.objective_function_value:.0f}" if finished else f"not finished, gap {info.mip_gap:.1%}"
    print(f"mixed-integer program, {len(milp.chosen) + len(milp.referred)} binaries: {took:.1f} s, {how}")
    return took, finished


__all__ = ["Wrong", "run"]
