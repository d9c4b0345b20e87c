"""The plan as a plain mixed-integer program: one binary an option, a referred column at a free elevation.

Nothing of the program's method is in it: no order of labels, no cut, no bounds worked out beforehand.
"""

from math import gcd

import highspy
import numpy as np

from highs_oracle import limits

COMPONENTS = ("refer", "grind", "grout", "held", "pieces", "thickness_nm")


class NotProven(Exception):
    """The time limit came first."""


class Rows:
    """Rows of a matrix, gathered one by one."""

    def __init__(self):
        self.start, self.index, self.value, self.low, self.high = [0], [], [], [], []

    def add(self, entries, low, high):
        for column, value in entries:
            self.index.append(column)
            self.value.append(value)
        self.start.append(len(self.index))
        self.low.append(low)
        self.high.append(high)


def solver(threads=1, seconds=None, **options):
    highs = highspy.Highs()
    highs.setOptionValue("output_flag", False)
    highs.setOptionValue("threads", threads)
    # the default gap of 1e-4 is not an optimum
    highs.setOptionValue("mip_rel_gap", 0.0)
    highs.setOptionValue("mip_abs_gap", 0.0)
    if seconds is not None:
        highs.setOptionValue("time_limit", float(seconds))
    for key, value in options.items():
        highs.setOptionValue(key, value)
    return highs


def model(columns, rows):
    """Makes a model of columns (cost, low, high, whole) and rows."""
    cost, low, high, whole = (np.array(it, dtype=float) for it in zip(*columns))
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(columns), len(rows.low)
    lp.col_cost_, lp.col_lower_, lp.col_upper_ = cost, low, high
    lp.row_lower_, lp.row_upper_ = np.array(rows.low, dtype=float), np.array(rows.high, dtype=float)
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = np.array(rows.start, dtype=np.int32)
    lp.a_matrix_.index_ = np.array(rows.index, dtype=np.int32)
    lp.a_matrix_.value_ = np.array(rows.value, dtype=float)
    if whole.any():
        kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
        lp.integrality_ = [kinds[int(it)] for it in whole]
    return lp


class Milp:
    """The program of one job; `options` holds the cheapest option of every raise, column by column."""

    def __init__(self, job, options):
        self.job, self.options, self.measured = job, options, job.measured()
        kept = list(limits.neighbours(job)) + [(0, 0, it) for _, it in limits.groups(job)]
        windows = {i: limits.window(job, i) for i in self.measured}
        ends = sorted({side * it for it in windows.values() if it is not None for side in (-1, 1)})
        seats = [job.departure(i) + raise_nm for i in self.measured for raise_nm in options[i]]
        pads = [job.departure(i) for i in self.measured]
        # all lengths in units of their common divisor, counted from one pad, so that numbers stay small
        self.zero = pads[0]
        lengths = [it - self.zero for it in seats + pads] + [limit for _, _, limit in kept]
        lengths += [it - self.zero for it in ends]
        self.unit = gcd(*lengths) or 1
        scaled = lambda nm: (nm - self.zero) // self.unit
        free = [scaled(it) for it in (seats or pads) + ends]
        low, high = min(free), max(free)
        self.columns, self.names, rows = [], [], Rows()
        self.chosen, self.referred, self.seat = {}, {}, {}
        for i in self.measured:
            for raise_nm, option in options[i].items():
                self.chosen[i, raise_nm] = self.new(0, 1, True)
            self.referred[i] = self.new(0, 1, True)
            self.seat[i] = self.new(low, high, False)
            own = self.new(min(low, 0), max(high, 0), False)
            chosen = [(self.chosen[i, it], scaled(job.departure(i) + it)) for it in options[i]]
            rows.add([(it, 1) for it, _ in chosen] + [(self.referred[i], 1)], 1, 1)
            rows.add([(self.seat[i], 1), (own, -1)] + [(it, -value) for it, value in chosen], 0, 0)
            # a referred column stands anywhere between the bounds, any other at its option
            least, most = low, high
            if windows[i] is not None:
                least, most = scaled(-windows[i]), scaled(windows[i])
                rows.add([(self.seat[i], 1)], least, most)
            rows.add([(own, 1), (self.referred[i], -least)], 0, np.inf)
            rows.add([(own, 1), (self.referred[i], -most)], -np.inf, 0)
        for i, j, limit in limits.neighbours(job):
            if i in self.seat and j in self.seat:
                limit //= self.unit
                rows.add([(self.seat[i], 1), (self.seat[j], -1)], -limit, limit)
        for members, limit in limits.groups(job):
            members = [it for it in members if it in self.seat]
            if len(members) > 1:
                lowest = self.new(low, high, False)
                for it in members:
                    rows.add([(self.seat[it], 1), (lowest, -1)], 0, limit // self.unit)
        self.highs = None
        self.lp = model(self.columns, rows)

    def new(self, low, high, whole):
        self.columns.append((0, low, high, whole))
        return len(self.columns) - 1

    def cost(self, weights):
        """Costs of the columns for weights of the components; thickness in units of the lengths."""
        cost, thick = np.zeros(len(self.columns)), self.thickness_unit()
        for (i, raise_nm), column in self.chosen.items():
            of = (0, *self.options[i][raise_nm].cost)
            of = of[:5] + (of[5] // thick,)
            cost[column] = sum(weight * part for weight, part in zip(weights, of))
        for column in self.referred.values():
            cost[column] = weights[0]
        return cost

    def thickness_unit(self):
        return gcd(*(self.options[i][raise_nm].cost[4] for i, raise_nm in self.chosen)) or 1

    def least(self, cost):
        """The least of a cost, proven, and the plan that has it: raises by column, None where referred."""
        highs = self.highs
        highs.changeColsCost(len(cost), np.arange(len(cost), dtype=np.int32), cost)
        highs.run()
        info, status = highs.getInfo(), highs.getModelStatus()
        if status == highspy.HighsModelStatus.kInfeasible:
            return None, None
        if status != highspy.HighsModelStatus.kOptimal:
            raise NotProven(f"{highs.modelStatusToString(status)}, gap {info.mip_gap}")
        value = round(info.objective_function_value)
        if info.mip_dual_bound <= value - 1 + 1e-6:
            raise NotProven(f"bound {info.mip_dual_bound} of {value}")
        x = np.asarray(highs.getSolution().col_value)
        plan = {i: None for i in self.measured}
        for (i, raise_nm), column in self.chosen.items():
            if x[column] > 0.5:
                plan[i] = raise_nm
        whole = np.rint(x)
        if round(float(cost @ whole)) != value:
            raise NotProven(f"the rounded plan costs {cost @ whole}, not {value}")
        return value, plan

    def fix(self, cost, value):
        """Keeps a cost that was reached: whole costs of binaries, so half a unit is no slack."""
        used = np.nonzero(cost)[0].astype(np.int32)
        if len(used):
            self.highs.addRow(-np.inf, value + 0.5, len(used), used, cost[used])

    def start(self, seconds=None):
        # with its presolve, HiGHS 1.16.0 proves plans that are not the best: 16 pieces of 15 in job 3
        self.highs = solver(seconds=seconds, presolve="off")
        self.highs.passModel(self.lp)
