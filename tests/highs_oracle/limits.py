"""The limits of a job as differences of departures that must be kept."""

from highs_oracle.job import Limit


def in_force(job, limit):
    """The value of a table that a plan keeps."""
    return min(limit.desired, limit.accept) if job.to == "desired" else limit.accept


def neighbours(job):
    """Pairs of next columns on a line, each with its limit; a pair may come twice."""
    for line in job.lines:
        limit = job.neighbours
        if line.accept is not None:
            # a line's own limit stands instead of the table's, and only a narrower desired goes below it
            limit = Limit(line.accept, limit.desired if limit else line.accept)
        for pair in zip(line.columns, line.columns[1:]):
            if limit is not None:
                yield (*pair, in_force(job, limit))


def stretches(job):
    """The columns of every stretch of a wall that is as long as it may be, and the limit over it."""
    if job.wall is None:
        return
    for line in job.lines:
        if line.kind != "wall":
            continue
        reach = job.wall_length // line.spacing
        for start in range(max(1, len(line.columns) - reach)):
            members = line.columns[start : start + reach + 1]
            if len(members) > 1:
                yield members, in_force(job, job.wall)


def groups(job):
    """Sets of columns that must stay within a limit high to low: stretches of walls, and the building."""
    yield from stretches(job)
    if job.building is not None:
        yield list(range(len(job.columns))), in_force(job, job.building)


def window(job, index):
    """How far a column's departure may be from 0, or None; without a design seat there is nothing to be held from."""
    given = job.seat is not None or job.columns[index].seat is not None
    return in_force(job, job.design) if job.design is not None and job.absolute and given else None


def every_pair(job):
    """The least limit between any two measured columns, as {(i, j): limit} both ways round."""
    measured, found = set(job.measured()), {}

    def keep(i, j, limit):
        if i in measured and j in measured:
            for pair in ((i, j), (j, i)):
                found[pair] = min(limit, found.get(pair, limit))

    for i, j, limit in neighbours(job):
        keep(i, j, limit)
    for members, limit in groups(job):
        for at, i in enumerate(members):
            for j in members[at + 1 :]:
                keep(i, j, limit)
    return found


def through(pairs, count, referred):
    """Limits between columns with what follows through referred ones, whose seats are free."""
    table = [[None] * count for _ in range(count)]
    for (i, j), limit in pairs.items():
        table[i][j] = limit
    for r in range(count):
        table[r][r] = 0
    for r in referred:
        for i in range(count):
            if table[i][r] is None:
                continue
            for j in range(count):
                if table[r][j] is not None:
                    over = table[i][r] + table[r][j]
                    if table[i][j] is None or over < table[i][j]:
                        table[i][j] = over
    return table


def distinct_neighbours(job):
    return sorted({tuple(sorted(pair)) for line in job.lines for pair in zip(line.columns, line.columns[1:])})
