"""The plan as a linear program in order variables: y(i, k) tells that column i stands at its label k or higher.

Every row is a difference of two variables, so that the corners of the program are whole. The best plan of a cost is kept
for the next one by complementary slackness: a variable with a price off its bound, a row with a price, stay where they are;
duals are whole too, and nothing is kept to within a tolerance.
"""

from bisect import bisect_left, bisect_right

import highspy
import numpy as np

from highs_oracle.milp import NotProven, Rows, model, solver


class OrderLp:
    """Labels rise; `pairs` are (i, j, limit) both ways round, `groups` (members, limit) high to low."""

    def __init__(self, labels, pairs, groups):
        self.labels = [list(it) for it in labels]
        self.pairs = list(pairs)
        self.groups = []
        for members, limit in groups:
            self.lowest(members, limit)
        self.feasible = self.prune()
        self.rows, self.number = Rows(), []
        if self.feasible:
            count = 0
            for chain in self.labels:
                self.number.append(count - 1)
                count += len(chain) - 1
            self.columns = [[0, 0, 1, False] for _ in range(count)]
            self.build()

    def lowest(self, members, limit):
        """Adds a lowest level of a group: at most every member, and every member at most the limit above it."""
        union = sorted({it for i in members for it in self.labels[i]})
        self.labels.append(union)
        self.groups.append((members, len(self.labels) - 1, limit))

    def differences(self):
        """Every e(i) - e(j) <= limit."""
        for i, j, limit in self.pairs:
            yield i, j, limit
            yield j, i, limit
        for members, lowest, limit in self.groups:
            for i in members:
                yield lowest, i, 0
                yield i, lowest, limit

    def prune(self):
        """Drops labels that no plan can reach; False where nothing is left."""
        links = list(self.differences())
        low = [it[0] if it else None for it in self.labels]
        high = [it[-1] if it else None for it in self.labels]
        if None in low:
            return False
        touching = {}
        for link in links:
            touching.setdefault(link[0], []).append(link)
            touching.setdefault(link[1], []).append(link)
        waiting, queued = list(range(len(low))), set(range(len(low)))
        while waiting:
            queued.discard(at := waiting.pop())
            for i, j, limit in touching.get(at, ()):
                # e(j) >= e(i) - limit, and e(i) <= e(j) + limit
                chain = self.labels[j]
                if low[j] < low[i] - limit:
                    k = bisect_left(chain, low[i] - limit)
                    if k == len(chain):
                        return False
                    low[j] = chain[k]
                    if j not in queued:
                        queued.add(j)
                        waiting.append(j)
                chain = self.labels[i]
                if high[i] > high[j] + limit:
                    k = bisect_right(chain, high[j] + limit)
                    if k == 0:
                        return False
                    high[i] = chain[k - 1]
                    if i not in queued:
                        queued.add(i)
                        waiting.append(i)
                if low[i] > high[i] or low[j] > high[j]:
                    return False
        self.labels = [
            chain[bisect_left(chain, low[i]) : bisect_right(chain, high[i])] for i, chain in enumerate(self.labels)
        ]
        return all(self.labels)

    def at(self, i, k):
        """The variable of label k of column i; label 0 always holds and has none."""
        return self.number[i] + k

    def build(self):
        rows = self.rows
        for i, chain in enumerate(self.labels):
            for k in range(1, len(chain) - 1):
                rows.add([(self.at(i, k + 1), 1), (self.at(i, k), -1)], -np.inf, 0)
        for i, j, limit in self.differences():
            one, other, last = self.labels[i], self.labels[j], 0
            for k, label in enumerate(one):
                b = bisect_left(other, label - limit)
                if b > last and k > 0:
                    rows.add([(self.at(i, k), 1), (self.at(j, b), -1)], -np.inf, 0)
                last = max(last, b)

    def steps(self, pairs):
        """Adds variables whose costs sum to the steps over pairs; gives {variable: cost}."""
        found = {}
        for i, j in pairs:
            levels = sorted({*self.labels[i], *self.labels[j]})
            for low, high in zip(levels, levels[1:]):
                ends = []
                for column in (i, j):
                    chain = self.labels[column]
                    k = bisect_left(chain, high)
                    # stands at `high` or above: always, never, or as the variable says
                    ends.append(1 if k == 0 else 0 if k == len(chain) else ("y", self.at(column, k)))
                self.step(found, ends, high - low)
        return found

    def step(self, found, ends, cost):
        if ends[0] == ends[1]:
            return
        column = len(self.columns)
        self.columns.append([0, 0, 1, False])
        found[column] = cost
        for one, other in (ends, ends[::-1]):
            # u >= one - other
            entries, constant = [(column, 1)], 0
            for end, sign in ((one, -1), (other, 1)):
                if isinstance(end, tuple):
                    entries.append((end[1], sign))
                else:
                    constant -= sign * end
            self.rows.add(entries, constant, np.inf)

    def start(self, seconds=None, **options):
        self.highs = solver(seconds=seconds, **options)
        self.lp = model(self.columns, self.rows) if self.columns else None
        if self.lp is not None:
            self.highs.passModel(self.lp)

    def priced(self, prices):
        """The costs of the variables and the constant, for prices[i][label] of the columns that have any."""
        cost, constant = np.zeros(len(self.columns)), 0
        for i, of in prices.items():
            chain = self.labels[i]
            constant += of[chain[0]]
            for k in range(1, len(chain)):
                cost[self.at(i, k)] += of[chain[k]] - of[chain[k - 1]]
        return cost, constant

    def least(self, cost):
        """The least of whole costs; keeps every plan that has it, and no other, for the next cost."""
        if self.lp is None:
            return 0
        highs, count = self.highs, len(self.columns)
        every = np.arange(count, dtype=np.int32)
        highs.changeColsCost(count, every, cost)
        highs.run()
        if highs.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            raise NotProven(highs.modelStatusToString(highs.getModelStatus()))
        solution = highs.getSolution()
        x = np.rint(np.asarray(solution.col_value))
        if np.abs(x - np.asarray(solution.col_value)).max() > 1e-6:
            raise NotProven("the program is not whole")
        value = int(round(float(cost @ x)))
        if abs(value - highs.getInfo().objective_function_value) > 1e-3:
            raise NotProven("the rounded plan has another cost")
        self.x = x
        prices = np.asarray(solution.col_dual)
        low, high = np.array(highs.getLp().col_lower_), np.array(highs.getLp().col_upper_)
        stays = np.abs(prices) > 0.5
        low[stays] = high[stays] = x[stays]
        highs.changeColsBounds(count, every, low, high)
        duals, lp = np.asarray(solution.row_dual), highs.getLp()
        low, high = np.array(lp.row_lower_), np.array(lp.row_upper_)
        tight = np.abs(duals) > 0.5
        # a row with a price stays at the side it stands on: one side is infinite
        side = np.where(np.isfinite(low), low, high)
        for row in np.nonzero(tight)[0]:
            highs.changeRowBounds(int(row), side[row], side[row])
        return value

    def plan(self, columns):
        """The label every column stands at."""
        found = []
        for i in columns:
            chain = self.labels[i]
            held = [self.x[self.at(i, k)] > 0.5 for k in range(1, len(chain))] if self.lp is not None else []
            found.append(chain[sum(held)])
        return found
