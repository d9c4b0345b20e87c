"""Times one job of a family: the program, its plan alone, and HiGHS in both forms, in one run on one core each.

All times are processor times, so that other work on the machine counts less; building the models is not counted for HiGHS.
HiGHS gets prices in place of an order of components, one solution instead of one a component, and no tie-break. The least of
its times counts.
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
from highs_oracle.judge import cost, need, raises
from highs_oracle.milp import Milp, solver
from highs_oracle.order_lp import OrderLp

# refer, grind, grout, held, a piece, a sixteenth of an inch: money, which HiGHS solves faster, and nearly the order
MONEY = (10_000, 60, 30, 20, 5, 1)
RANKED = (1_000_000, 10_000, 5_000, 1_000, 100, 1)
SIXTEENTH = 25_400_000 // 16


def run(program, kind, count, seed, bench, seconds):
    job = jobs.family(kind, count, seed)
    print(job.name)
    with tempfile.TemporaryDirectory() as temporary:
        folder = write.folder(job, pathlib.Path(temporary))
        answer, whole = checked(program, folder)
        alone = planned(bench, folder) if bench else None
    options = ways.options(job)
    told = cost(options, raises(job, options, answer))
    print(f"refer, grind, grout, held, pieces, thickness_nm: {told}")
    print(f"check, the whole process: {whole * 1e3:.1f} ms")
    if alone is not None:
        print(f"the plan alone: {alone * 1e3:.1f} ms")
    order = by_order(job, options, told)
    mixed, finished = by_milp(job, options, told, seconds)
    for name, took in (("the whole process of check", whole), ("the plan alone", alone)):
        if took is not None:
            more = "" if finished else "more than "
            print(f"{name} is faster {order / took:.1f} times than the order program, ", end="")
            print(f"{more}{mixed / took:.0f} times than the mixed-integer program")


def price(prices, told):
    return sum(at * part for at, part in zip(prices, told[:5])) + prices[5] * told[5] // SIXTEENTH


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
    """The least time of the order program in its smallest form, by simplex and by interior points."""
    measured = list(options)
    number = {i: at for at, i in enumerate(measured)}
    pairs = [(number[i], number[j], it) for i, j, it in limits.neighbours(job) if i in number and j in number]
    groups = [([number[i] for i in members if i in number], it) for members, it in limits.groups(job)]
    of = [{job.departure(i) + raise_nm: (0, *it.cost) for raise_nm, it in options[i].items()} for i in measured]
    lp = OrderLp([sorted(it) for it in of], pairs, groups)
    if not lp.feasible:
        # columns must be referred: one can stand at every step of the common grid
        seats = [seat for it in of for seat in it]
        grid = gcd(*(it - seats[0] for it in seats), *(it for *_, it in pairs), *(it for _, it in groups))
        levels = range(min(seats), max(seats) + 1, grid)
        of = [{seat: it.get(seat, (1, 0, 0, 0, 0, 0)) for seat in levels} for it in of]
        lp = OrderLp([levels] * len(measured), pairs, groups)
    best, limit = None, None
    for name, prices in (("money", MONEY), ("ranked", RANKED)):
        priced, constant = lp.priced(
            {at: {seat: price(prices, of[at][seat]) for seat in lp.labels[at]} for at in range(len(measured))}
        )
        for method in ("simplex", "ipm"):
            lp.start(limit, solver=method)
            lp.highs.changeColsCost(len(priced), list(range(len(priced))), priced)
            start = time.monotonic()
            took = timed(lp.highs)
            what = f"order program, {len(priced)} variables, {name} prices, {method}"
            if lp.highs.getModelStatus() != highspy.HighsModelStatus.kOptimal:
                need(best is not None, f"{what}: not solved")
                print(f"{what}: slower")
                continue
            value = round(lp.highs.getInfo().objective_function_value) + constant
            same = compared(value, price(prices, told))
            print(f"{what}: {took * 1e3:.1f} ms, {same}")
            if best is None or took < best:
                best, limit = took, time.monotonic() - start
    return best


def compared(value, own):
    """Tells how an optimum stands to the plan's price, which cannot be less."""
    need(value <= own, f"HiGHS's optimum costs {value}, the plan {own}")
    return "the plan's price" if value == own else f"price {value}, the plan's {own}: prices are no order"


def by_milp(job, options, told, seconds):
    """The time of the plain mixed-integer program, and whether it came to an end."""
    milp = Milp(job, options)
    unit = milp.thickness_unit()
    milp.highs = solver(seconds=seconds)
    milp.highs.passModel(milp.lp)
    priced = milp.cost((*MONEY[:5], MONEY[5] * unit / SIXTEENTH))
    milp.highs.changeColsCost(len(priced), list(range(len(priced))), priced)
    took = timed(milp.highs)
    finished = milp.highs.getModelStatus() == highspy.HighsModelStatus.kOptimal
    info = milp.highs.getInfo()
    how = f"not finished after {seconds:.0f} s, gap {info.mip_gap:.1%}"
    if finished:
        how = compared(round(info.objective_function_value), price(MONEY, told))
    print(f"mixed-integer program, {len(milp.chosen) + len(milp.referred)} binaries: {took:.1f} s, {how}")
    return took, finished
