"""What can be done at a column: the stack-up at its rods, and the cheapest way to every raise.

Written from the contract of the program (its README and the words of `rodreach explain`), not from its code.
"""

from dataclasses import dataclass
from itertools import combinations_with_replacement

from highs_oracle.job import Part


@dataclass(frozen=True)
class Option:
    """One way to one raise."""

    action: str
    raise_nm: int
    held: int
    stack: tuple = ()

    @property
    def cost(self):
        """Grind, grout, held, pieces, thickness."""
        grind, grout = int(self.action == "grind"), int(self.action == "grout")
        return (grind, grout, self.held, len(self.stack), abs(self.raise_nm))


def total(parts):
    return Part(sum(it.least for it in parts), sum(it.nominal for it in parts), sum(it.most for it in parts))


def rod_state(job, base, rod, least, nominal, most):
    """The state of one rod at a raise that is at least, nominally and at most so much."""
    if rod.projection is None:
        return "unmeasured"
    margin = job.rods_plus_minus
    more = base.washers[-1:]
    used = None
    for k in range((job.extra if more else 0) + 1):
        washers = total(base.washers + more * k)
        used = washers
        if rod.thread is None:
            break
        left = rod.thread - job.clear - (rod.projection - least - base.plate.least - washers.least)
        if left - margin >= 0:
            break
    else:
        return "runs-out"
    nuts = total(base.nuts)
    beyond = rod.projection - nominal - base.plate.nominal - used.nominal - nuts.nominal
    worst = rod.projection - most - base.plate.most - used.most - nuts.most
    if worst - base.beyond - margin >= 0:
        return "full"
    if worst - margin >= 0:
        return "scant"
    return "short" if beyond + margin < 0 else "unsure"


def opened(job, column, action, raise_nm, stack):
    """An option with whether it is held, or None where a rod closes it."""
    if stack:
        of = {it.nominal: it for it in job.shims}
        sum_of = total([of[it] for it in stack])
    else:
        sum_of = Part(raise_nm, raise_nm, raise_nm)
    held = bool(stack) and raise_nm > job.shim_most
    base = job.bases[column.base]
    for rod in column.rods:
        if not rod.sound:
            continue
        state = rod_state(job, base, rod, sum_of.least, sum_of.nominal, sum_of.most)
        if state in ("short", "runs-out"):
            return None
        held = held or state in ("scant", "unsure")
    return Option(action, raise_nm, int(held), stack)


def ways(job):
    """Every action, raise and stack (thickest piece first) whatever the rods."""
    found = [("no-shim", 0, ())]
    thicknesses = sorted((it.nominal for it in job.shims), reverse=True)
    for count in range(1, job.pieces + 1):
        for stack in combinations_with_replacement(thicknesses, count):
            if sum(stack) <= job.shim_tall:
                found.append(("shim", sum(stack), stack))
    if job.grout:
        found += [("grout", bed, ()) for bed in range(job.grout.least, job.grout.most + 1, job.grout.step)]
    if job.grind:
        found += [("grind", -cut, ()) for cut in range(job.grind.step, job.grind.most + 1, job.grind.step)]
    return found


def cheapest(job, column, all_ways):
    """The cheapest open option of every raise, by raise; of equal ones the thickest piece first."""
    best = {}
    for action, raise_nm, stack in all_ways:
        option = opened(job, column, action, raise_nm, stack)
        if option is None:
            continue
        key = (option.cost, tuple(-it for it in stack))
        if raise_nm not in best or key < best[raise_nm][0]:
            best[raise_nm] = (key, option)
    return {raise_nm: option for raise_nm, (_, option) in sorted(best.items())}
