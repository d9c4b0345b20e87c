"""Compares what `rodreach detail` says of probability and of samples with scipy, on invented jobs.

Usage: python3 tests/detail_against_scipy.py PATH_TO_RODREACH [--packages FOLDER] [--jobs 60] [--from 0] [--keep FOLDER]
       python3 tests/detail_against_scipy.py PATH_TO_RODREACH [--packages FOLDER] --selftest

Each job has one kind of base with invented tolerances and some columns whose rods were measured, all pads alike, so that every plate
stands on its pad. scipy 1.17.1 and numpy 2.4.6 (both BSD) work out from the same numbers: the convolution of the terms on a grid 16
times as fine, root-sum-square, what each column needs, mean and deviation, the ranks, confidences and least samples of tolerance
intervals. The convolved projection must be no less than theirs and no more than the stated error of the grid above it.
With --selftest one band and one rod of theirs are moved by 2 mm, and every job must then differ.

Exit status 1 if anything differs; the job is printed and, with --keep, left in that folder.
"""

import argparse
import json
import math
import pathlib
import random
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True
FINER = 16
REACH = 9.0


class Wrong(Exception):
    """What the program says is not what scipy says."""


def arguments():
    parser = argparse.ArgumentParser(description="Compares detail with scipy.")
    parser.add_argument("program")
    parser.add_argument("--packages", help="a folder that holds scipy and numpy")
    parser.add_argument("--jobs", type=int, default=60)
    parser.add_argument("--from", dest="first", type=int, default=0)
    parser.add_argument("--keep", help="leave the jobs in this folder")
    parser.add_argument("--selftest", action="store_true", help="move a band and a rod: the comparison must see it")
    return parser.parse_args()


def invented(seed):
    """An invented job: lengths in hundredths of a millimetre."""
    dice = random.Random(seed)
    spread = lambda: dice.choice(["uniform", "normal", "worst"])
    band = lambda nominal: [nominal - dice.randint(0, 60), nominal, nominal + dice.randint(0, 150)]
    low, high = -dice.randint(0, 2000), dice.randint(100, 4500)
    # sample sizes around those from which something can be claimed
    columns = dice.choice([1, 2, 5, 21, 22, 28, 29, 45, 46, 58, 59, 60, 77, 92, 93, 94, 124, 130])
    drawn = 9000
    return {
        "plate": band(2500),
        "washer": band(400),
        "nut": band(2100),
        "rod_top": [low, high],
        "pad_top": [-dice.randint(0, 500), dice.randint(0, 500)],
        "beyond": dice.randint(0, 400),
        "reading": dice.randint(0, 200),
        "drawn": drawn,
        "rods": [[drawn + dice.randint(low, high) for _ in range(4)] for _ in range(columns)],
        "spreads": {"rod-tops": dice.choice(["uniform", "normal"]), "parts": spread(), "bearing": spread()},
        "probability": dice.choice(["50", "90", "99", "99.9", "99.99"]),
        "share": dice.choice(["90", "95", "99"]),
        "confidence": dice.choice(["90", "95", "99"]),
        "step": dice.choice([250, 500, 100]),
    }


def mm(hundredths):
    return f'"{hundredths / 100:.2f} mm"'


def write(job, folder):
    """Writes a job folder."""
    folder.mkdir(parents=True, exist_ok=True)
    lengths = lambda values: "[" + ", ".join(map(mm, values)) + "]"
    plate = job["plate"]
    tolerance = [plate[0] - plate[1], plate[2] - plate[1]]
    marks = [f"C{number}" for number in range(len(job["rods"]))]
    text = f"""
[job]
name = "Detail against scipy (invented)"
units = "mm"
limits = "low-rise"

[measure]
levels = "levels.csv"
levels_units = "mm"
levels_plus_minus = "0.5 mm"
rods = "rods.csv"
rods_plus_minus = {mm(job["reading"])}

[shims]
thicknesses = ["2 mm"]

[limits.rods]
top = {lengths(job["rod_top"])}
[limits.pad]
top = {lengths(job["pad_top"])}

[[base]]
mark = "P1"
plate = {{ thickness = {mm(plate[1])}, tolerance = {lengths(tolerance)} }}
rods = {{ diameter = "M24", count = 4, projection = {mm(job["drawn"])} }}
washers = [{{ thickness = {lengths(job["washer"])} }}]
nuts = [{{ height = {lengths(job["nut"])} }}]
beyond = {mm(job["beyond"])}
"""
    text += "".join(f'\n[[column]]\nmark = "{mark}"\nbase = "P1"\n' for mark in marks)
    (folder / "job.toml").write_text(text)
    (folder / "levels.csv").write_text("point,reading\n" + "".join(f"{mark},1000\n" for mark in marks))
    rows = [
        f"{mark},{number},{projection / 100:.2f}\n"
        for mark, rods in zip(marks, job["rods"])
        for number, projection in enumerate(rods, 1)
    ]
    (folder / "rods.csv").write_text("column,rod,projection\n" + "".join(rows))


def terms(job):
    """The bands of what is asked for, in nanometres, with how each varies."""
    nm = lambda hundredths: hundredths * 10_000
    part, spreads = job["spreads"]["parts"], job["spreads"]
    band = lambda it: (nm(it[0]), nm(it[2]), part)
    low, high = job["rod_top"]
    pad_low, pad_high = job["pad_top"]
    exact = lambda it: (nm(it), nm(it), "worst")
    return [
        band(job["plate"]),
        band(job["washer"]),
        band(job["nut"]),
        exact(job["beyond"]),
        (nm(-high), nm(-low), spreads["rod-tops"]),
        (nm(pad_low), nm(pad_high), spreads["bearing"]),
        exact(job["reading"]),
    ]


def convolved(bands, probability, step):
    """The quantile of the sum of independent bands, on a grid that fine, and the most it may be off."""
    import numpy
    from scipy import signal, stats

    fixed = sum(most for least, most, spread in bands if spread == "worst" or least == most)
    masses, start, varying = numpy.ones(1), 0.0, 0
    for least, most, spread in bands:
        if spread == "worst" or least == most:
            continue
        varying += 1
        width, middle = most - least, (least + most) / 2
        if spread == "uniform":
            law, low, high = stats.uniform(least, width), least, most
        else:
            deviation = width / 2 / 1.96
            law, low, high = stats.norm(middle, deviation), middle - REACH * deviation, middle + REACH * deviation
        edges = low + step * numpy.arange(math.ceil((high - low) / step) + 1)
        # each cell at its middle: off by half a step at most
        masses = signal.fftconvolve(masses, numpy.diff(law.cdf(edges)), mode="full") if masses.size > 1 else numpy.diff(law.cdf(edges))
        start += low + step / 2
    below = numpy.cumsum(numpy.clip(masses, 0, None))
    at = int(numpy.searchsorted(below, float(probability) / 100))
    return fixed + start + step * at, step * (varying + 1)


def root_sum_square(bands, probability):
    """Means and so many deviations."""
    from scipy import stats

    mean, variance = 0.0, 0.0
    for least, most, spread in bands:
        if spread == "worst" or least == most:
            mean += most
        else:
            mean += (least + most) / 2
            variance += ((most - least) / (math.sqrt(12) if spread == "uniform" else 2 * 1.96)) ** 2
    return mean + stats.norm.ppf(float(probability) / 100) * math.sqrt(variance)


def alike(what, said, wanted, off=0.0):
    if said is None or wanted is None:
        if said is not wanted:
            raise Wrong(f"{what}: {said}, scipy has {wanted}")
    elif abs(said - wanted) > off:
        raise Wrong(f"{what}: {said}, scipy has {wanted}")


def up(length, step):
    return -(-length // step) * step


def samples(job, said):
    """Compares what the sample of columns says."""
    import numpy
    from scipy import stats

    nm = lambda hundredths: hundredths * 10_000
    parts = sum(job[part][2] for part in ("plate", "washer", "nut")) + job["beyond"] + job["reading"]
    needs = sorted(nm(max(parts - (rod - job["drawn"]) for rod in rods)) for rods in job["rods"])
    off = numpy.array([nm(rod - job["drawn"]) for rods in job["rods"] for rod in rods], dtype=float)
    count, step = len(needs), nm(job["step"])
    share, sure = float(job["share"]) / 100, float(job["confidence"]) / 100
    alike("mean", said["projections"]["mean_nm"], off.mean(), 1)
    alike("deviation", said["projections"]["deviation_nm"], off.std(ddof=1), 1)
    alike("least", said["projections"]["least_nm"], off.min())
    alike("most", said["projections"]["most_nm"], off.max())
    alike("clears all", said["clears_all_nm"], up(needs[-1], step))
    alike("clears a share", said["clears_share_nm"], up(needs[math.ceil(round(count * share, 9)) - 1], step))
    claim = said["claim"]
    ranks = [rank for rank in range(1, count + 1) if stats.binom.cdf(rank - 1, count, share) >= sure]
    rank = ranks[0] if ranks else None
    alike("sample", claim["sample"], count)
    alike("rank", claim["rank"], rank)
    alike("claim", claim["projection_nm"], up(needs[rank - 1], step) if rank else None)
    if rank:
        alike("confidence", claim["confidence_ppm"], 1e6 * stats.binom.cdf(rank - 1, count, share), 1)
    alike("largest covers", claim["largest_covers_ppm"], 1e6 * (1 - sure) ** (1 / count), 1)
    needed = next(n for n in range(1, 2000) if stats.binom.cdf(n - 1, n, share) >= sure)
    alike("sample needed", claim["sample_needed"], needed)
    between = said["projections_between"]
    both = lambda n, content: stats.beta.sf(content, n - 1, 2) if n > 1 else 0.0
    alike("sample needed between", between["sample_needed"], next(n for n in range(2, 2000) if both(n, share) >= sure))
    enough = both(count, share) >= sure
    alike("lower end", between["ends_nm"] and between["ends_nm"][0], off.min() if enough else None)
    alike("upper end", between["ends_nm"] and between["ends_nm"][1], off.max() if enough else None)
    covers = 1e6 * stats.beta.isf(sure, count - 1, 2) if count > 1 else None
    # nothing of a millionth is told as none
    if covers is None or covers >= 1:
        alike("ends cover", between["ends_cover_ppm"], covers, 1)


def one(given, seed):
    """Compares one job; gives nothing, or a text that says what is wrong."""
    job = invented(seed)
    with tempfile.TemporaryDirectory() as temporary:
        folder = pathlib.Path(given.keep or temporary) / f"job-{seed}"
        write(job, folder)
        command = [given.program, "detail", str(folder), "--format", "json", "--step", f"{job['step'] / 100} mm"]
        for flag in ("probability", "share", "confidence"):
            command += [f"--{flag}", job[flag]]
        for flag, spread in job["spreads"].items():
            command += [f"--{flag}", spread]
        ran = subprocess.run(command, capture_output=True, text=True)
        try:
            if ran.returncode not in (0, 1):
                raise Wrong(f"exit status {ran.returncode}: {ran.stderr}")
            base = json.loads(ran.stdout)["bases"][0]
            if given.selftest:
                return blind(job, base)
            distribution(job, base)
            samples(job, base["measured"])
        except Wrong as wrong:
            return f"JOB {seed}: {wrong}\n{' '.join(command)}\n{(folder / 'job.toml').read_text()}"
    return None


def distribution(job, base):
    bands = terms(job)
    alike("worst case", base["worst_nm"], sum(most for _, most, _ in bands))
    likely = base["likely"]
    fine = likely["grid_nm"] / FINER
    exact, off = convolved(bands, job["probability"], fine)
    said = likely["convolved_nm"]
    if not exact - off <= said <= exact + off + likely["grid_error_nm"]:
        raise Wrong(f"convolved: {said}, scipy has {exact} +- {off}, the grid {likely['grid_error_nm']}")
    alike("root-sum-square", likely["root_sum_square_nm"], root_sum_square(bands, job["probability"]), 2)


def blind(job, base):
    """Moves a band and a rod by 2 mm: gives a text if one of them is not seen."""
    seen = []
    low, high = job["rod_top"]
    moved = {**job, "rod_top": [low - 200, high - 200]}
    longer = {**job, "rods": [[rod - 200 for rod in rods] for rods in job["rods"]]}
    for compare in (lambda: distribution(moved, base), lambda: samples(longer, base["measured"])):
        try:
            compare()
        except Wrong:
            seen.append(True)
    return None if len(seen) == 2 else "what was moved was not seen"


def main():
    given = arguments()
    if given.packages:
        sys.path.insert(0, given.packages)
    try:
        import scipy  # noqa: F401
    except ImportError as missing:
        sys.exit(f"scipy cannot be imported, so nothing was compared: {missing}")
    wrong = [told for seed in range(given.first, given.first + given.jobs) if (told := one(given, seed))]
    for text in wrong:
        print(text)
    what = "with a band and a rod moved: " if given.selftest else ""
    good = "all seen" if given.selftest else "all agree"
    print(f"{given.jobs} jobs {what}{f'{len(wrong)} wrong' if wrong else good}")
    sys.exit(1 if wrong or not given.jobs else 0)


if __name__ == "__main__":
    main()
