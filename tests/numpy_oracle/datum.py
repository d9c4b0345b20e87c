"""Which points are on the datum, which of them the readings tell, and what is held."""

from collections import defaultdict

from numpy_oracle.dense import point_of


class Pads:
    """What every point is made of: itself, or, for a pad that was read only at places of it, the mean of these."""

    def __init__(self, job):
        read = [point_of(it) for it in job.sights] + [it.point for it in (*job.elevations, *job.benchmarks)]
        read += [name for it in job.differences for name in (it.start, it.end)]
        self.heights = {name: {("h", name): 1} for name in read}
        places = defaultdict(dict)
        for it in job.sights:
            if it.spot and not it.spot.startswith("rod "):
                places[it.point]["h", point_of(it)] = None
        for mark, at in places.items():
            self.heights.setdefault(mark, {it: 1 / len(at) for it in at})
        self.marks = [mark for mark in job.columns if mark in self.heights]


def less(terms, other):
    sum_of = defaultdict(int)
    for it, factor in terms.items():
        sum_of[it] += factor
    for it, factor in other.items():
        sum_of[it] -= factor
    return {it: factor for it, factor in sum_of.items() if factor != 0}


def held(job, points):
    """Benchmarks without a +-, and elevations good to +- 0."""
    found = {("h", it.point): it.elevation for it in job.elevations if it.plus_minus == 0 or not_worse(job, it)}
    found |= {("h", it.point): it.elevation for it in job.benchmarks if not it.plus_minus}
    return {it: height for it, height in found.items() if it[1] in points}


def not_worse(job, elevation):
    return elevation.plus_minus is None and job.good_to() == 0


def blocks(job):
    """Points that hang together by setups and differences."""
    parent = {}

    def root(it):
        parent.setdefault(it, it)
        while parent[it] != it:
            it = parent[it]
        return it

    for it in job.sights:
        parent[root(point_of(it))] = root(("line", it.setup))
    for it in job.differences:
        parent[root(it.start)] = root(it.end)
    for it in (*job.elevations, *job.benchmarks):
        root(it.point)
    found = defaultdict(set)
    for it in list(parent):
        if isinstance(it, str):
            found[root(it)].add(it)
    return list(found.values())


def on_datum(job, pads, told):
    """The points on the datum; without one, the largest block by pads, of equals the one the answer took."""
    all_blocks = blocks(job)
    if job.is_absolute():
        known_points = {it.point for it in (*job.elevations, *job.benchmarks)}
        return set().union(*(it for it in all_blocks if it & known_points))
    count = lambda block: sum(any(it[1] in block for it in pads.heights[mark]) for mark in pads.marks)
    largest = [it for it in all_blocks if count(it) == max(map(count, all_blocks))]
    taken = [it for it in largest if any(told[name]["elevation_nm"] is not None for name in it)]
    return (taken or largest)[0]


def known(job, pads, solution, heights, told):
    """The points that have a height, and in a relative job the pad that is 0."""
    if job.is_absolute():
        return {name for name, terms in heights.items() if solution.tells(terms)}, None
    candidates = [mark for mark in pads.marks if mark in heights]
    alike = lambda one: {it for it in heights if solution.tells(less(heights[it], heights[one]))}
    count = lambda kept: sum(it in kept for it in candidates)
    kept = [alike(one) for one in candidates]
    if not kept or (max(map(count, kept)) <= 1 < len(candidates)):
        return set(), None
    kept = [it for it in kept if count(it) == max(map(count, kept))]
    kept = next((it for it in kept if all(told[name]["elevation_nm"] is not None for name in it)), kept[0])
    standing = [it for it in candidates if it in kept]
    zero = max(standing, key=lambda mark: sum(solution.value(less(heights[mark], heights[standing[0]]))))
    # of equals the first; they differ in nothing but the last bits
    height = lambda mark: sum(solution.value(less(heights[mark], heights[zero])))
    return kept, next(it for it in standing if height(it) > -1e-3)


def said_exact(job):
    """Whether nothing at all is said to have a +-."""
    stated = [it.plus_minus for it in (*job.elevations, *job.differences)]
    stated = [job.good_to() if it is None else it for it in stated] + [it.plus_minus or 0 for it in job.benchmarks]
    with_none = job.sights and not job.instruments and job.good_to() > 0
    return not any(stated) and not with_none and not job.instruments
