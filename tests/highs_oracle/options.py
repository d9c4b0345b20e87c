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
    bed: int | None = None
    """The designed bed it stands on, which does not count as grout."""
    counts: int = 0
    """What it counts in the total thickness."""

    @property
    def cost(self):
        """Grind, grout, held, pieces, thickness."""
        grind, grout = int(self.action == "grind"), int(self.action == "grout" and self.bed is None)
        return (grind, grout, self.held, len(self.stack), self.counts)

    @property
    def off_bed(self):
        """How far its bed is from the designed one."""
        return 0 if self.bed is None else abs(self.raise_nm - self.bed)


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


def opened(job, index, action, raise_nm, stack):
    """An option with whether it is held, or None where a rod closes it."""
    column = job.columns[index]
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
    return Option(action, raise_nm, int(held), stack, base.bed, thickness(job, index, raise_nm))


def thickness(job, index, raise_nm):
    """What a raise counts: its height; on a designed bed how far the seat is from its design, or in a relative job nothing."""
    if job.bed(index) is None:
        return abs(raise_nm)
    return abs(job.departure(index) + raise_nm) if job.absolute else 0


def ways(job, bed):
    """Every action, raise and stack (thickest piece first) whatever the rods; with a designed bed grout alone."""
    if bed is not None:
        return beds(job)
    found = [("no-shim", 0, ())]
    thicknesses = sorted((it.nominal for it in job.shims), reverse=True)
    for count in range(1, job.pieces + 1):
        for stack in combinations_with_replacement(thicknesses, count):
            if sum(stack) <= job.shim_tall:
                found.append(("shim", sum(stack), stack))
    found += beds(job)
    if job.grind:
        found += [("grind", -cut, ()) for cut in range(job.grind.step, job.grind.most + 1, job.grind.step)]
    return found


def beds(job):
    """Grout from the least to the most on its step, or none."""
    steps = job.grout
    return [("grout", bed, ()) for bed in range(steps.least, steps.most + 1, steps.step)] if steps else []


def options(job):
    """The cheapest open option of every raise, by raise, of every measured column."""
    of = {bed: ways(job, bed) for bed in {base.bed for base in job.bases}}
    return {i: cheapest(job, i, of[job.bed(i)]) for i in job.measured()}


def cheapest(job, index, all_ways):
    """The cheapest open option of every raise, by raise; of equal ones the thickest piece first."""
    best = {}
    for action, raise_nm, stack in all_ways:
        option = opened(job, index, action, raise_nm, stack)
        if option is None:
            continue
        key = (option.cost, tuple(-it for it in stack))
        if raise_nm not in best or key < best[raise_nm][0]:
            best[raise_nm] = (key, option)
    return {raise_nm: option for raise_nm, (_, option) in sorted(best.items())}
