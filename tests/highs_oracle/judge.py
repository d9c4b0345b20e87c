"""Judges the answer of `check --format json`: every rod, every stack, every difference, worked out afresh in whole numbers."""

from highs_oracle import limits


class Wrong(Exception):
    """The answer disagrees with this reading of the job."""


def need(fact, text):
    if not fact:
        raise Wrong(text)


def raises(job, options, answer):
    """Judges every column by itself; gives raises by column, None where referred."""
    found = {}
    need([it["mark"] for it in answer["columns"]] == [it.mark for it in job.columns], "the columns or their order")
    pads = [it.pad for it in job.columns if it.pad is not None]
    zero = 0 if job.absolute else max(pads)
    for i, (column, told) in enumerate(zip(job.columns, answer["columns"])):
        mark, action = column.mark, told["action"]
        need(told.get("bed_design_nm") == job.bed(i), f"{mark}: designed bed {told.get('bed_design_nm')}")
        if column.pad is None:
            need(action == "unmeasured" and told["seat_nm"] is None, f"{mark}: unmeasured, and planned {action}")
            continue
        need(told["pad_nm"] == column.pad - zero, f"{mark}: pad {told['pad_nm']}, read {column.pad - zero}")
        if action == "refer":
            need(told["raise_nm"] is None and told["seat_nm"] is None, f"{mark}: referred with a raise")
            found[i] = None
            continue
        option = options[i].get(told["raise_nm"])
        need(option is not None, f"{mark}: no open option raises by {told['raise_nm']}")
        stack = tuple(it["thickness_nm"] for it in told["stack"] for _ in range(it["count"]))
        need(
            (option.action, option.stack) == (action, stack),
            f"{mark}: {action} {stack}, the cheapest way there is {option.action} {option.stack}",
        )
        need(told["seat_nm"] == column.pad - zero + option.raise_nm, f"{mark}: seat {told['seat_nm']}")
        held = {"rod-scant", "rod-unsure", "tall-stack"} & set(told["hold"])
        need(bool(held) == bool(option.held), f"{mark}: held {option.held}, hold {told['hold']}")
        need(("grout" in told["hold"]) == bool(option.cost[1]), f"{mark}: {action} {option}, hold {told['hold']}")
        found[i] = option.raise_nm
    return found


def cost(options, plan):
    """The components of a plan, refer first."""
    chosen = [options[i][raise_nm].cost for i, raise_nm in plan.items() if raise_nm is not None]
    return (sum(it is None for it in plan.values()), *(sum(it[part] for it in chosen) for part in range(5)))


def off_beds(options, plan):
    """How far all beds together are from the designed ones."""
    return sum(options[i][raise_nm].off_bed for i, raise_nm in plan.items() if raise_nm is not None)


def ranges(job, plan):
    """Keeps every limit, or raises; gives the departures referred columns could stand at."""
    seat = {i: job.departure(i) + raise_nm for i, raise_nm in plan.items() if raise_nm is not None}
    referred = [i for i, raise_nm in plan.items() if raise_nm is None]
    window, pairs = {i: limits.window(job, i) for i in plan}, limits.every_pair(job)
    for i in seat:
        mark = job.columns[i].mark
        need(window[i] is None or abs(seat[i]) <= window[i], f"{mark} is {seat[i]} from its design seat")
    table = limits.through(pairs, len(job.columns), referred)
    for i in seat:
        for j in seat:
            limit = table[i][j]
            text = f"{job.columns[i].mark} stands {seat[i] - seat[j]} above {job.columns[j].mark}, at most {limit}"
            need(limit is None or seat[i] - seat[j] <= limit, text)
    found = {}
    for r in referred:
        highest = [seat[i] + table[i][r] for i in seat if table[i][r] is not None]
        lowest = [seat[i] - table[i][r] for i in seat if table[i][r] is not None]
        reached = [table[i][r] + window[i] for i in referred if None not in (table[i][r], window[i])]
        highest += reached
        lowest += [-it for it in reached]
        low, high = max(lowest, default=None), min(highest, default=None)
        need(low is None or low <= high, f"{job.columns[r].mark} has no elevation that fits: {low} to {high}")
        found[r] = (low, high)
    return found


def steps(job, plan):
    """The sum of steps over next columns that both have a seat."""
    seat = {i: job.departure(i) + raise_nm for i, raise_nm in plan.items() if raise_nm is not None}
    return sum(abs(seat[i] - seat[j]) for i, j in limits.distinct_neighbours(job) if i in seat and j in seat)


def judge(job, options, answer):
    """Judges an answer against the job; gives its plan."""
    plan = raises(job, options, answer)
    zero = 0 if job.absolute else max(it.pad for it in job.columns if it.pad is not None)
    for i, (low, high) in ranges(job, plan).items():
        column = job.columns[i]
        seat = job.design_seat(column) - zero
        own = [None if it is None else it + seat for it in (low, high)]
        told = answer["columns"][i].get("seat_range_nm")
        need(told == own, f"{column.mark}: referred to {told}, could stand at {own}")
    totals = answer["totals"]
    told = tuple(totals[it] for it in ("refer", "grind", "grout", "held", "pieces", "thickness_nm"))
    counted = list(cost(options, plan))
    # the totals count every bed as grout, the cost only those that are not designed
    counted[2] = sum(options[i][raise_nm].action == "grout" for i, raise_nm in plan.items() if raise_nm is not None)
    need(told == tuple(counted), f"the totals say {told}, the plan has {counted}")
    need(totals["steps_nm"] == steps(job, plan), f"steps {totals['steps_nm']}, counted {steps(job, plan)}")
    need(answer["optimum"] == {"proven": True, "gap": None}, f"optimum {answer['optimum']}")
    return plan
