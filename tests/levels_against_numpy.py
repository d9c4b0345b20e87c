"""Compares the reduced level notes with a dense least-squares solution by numpy, on invented networks.

Usage: python3 tests/levels_against_numpy.py PATH_TO_RODREACH [--packages FOLDER] [--jobs 161] [--from 0] [--keep FOLDER]
       python3 tests/levels_against_numpy.py PATH_TO_RODREACH [--packages FOLDER] --selftest

Each network is written as a job folder and reduced by `rodreach level`. This script's own reading of it becomes a whitened
design matrix with a row a reading, which `numpy.linalg.lstsq` (numpy 2.4.6, BSD) solves. Elevations must agree to their last
nanometre, each +- to 1 nm, and so must slopes, lines of sight, every residual with its control, redundancy, test statistic and its
bounds, the worst reading and the one more that would help most; what nothing tells must be null.
With --selftest one reading of each job is moved by 3 mm before this script solves it: each of these must then differ.

Exit status 1 if anything differs; the job is printed and, with --keep, left in that folder.
"""

import argparse
import copy
import json
import pathlib
import subprocess
import sys
import tempfile
from types import SimpleNamespace

sys.dont_write_bytecode = True
# networks that once came out wrong, since singular values were wrong where one of them is nothing
ONCE_WRONG = (658, 1508, 1555, 1738)
HERE = pathlib.Path(__file__).resolve().parent


def arguments():
    parser = argparse.ArgumentParser(description="Compares reduced level notes with numpy.")
    parser.add_argument("program")
    parser.add_argument("--packages", help="a folder that holds numpy")
    parser.add_argument("--jobs", type=int, default=161)
    parser.add_argument("--from", dest="first", type=int, default=0)
    parser.add_argument("--keep", help="leave the jobs in this folder")
    parser.add_argument("--selftest", action="store_true", help="move a reading: the comparison must see it")
    return parser.parse_args()


def one(given, seed):
    """Compares one job; gives what was seen, or a text that says what is wrong."""
    from numpy_oracle import compare, jobs, write

    job, kind = jobs.job(seed)
    with tempfile.TemporaryDirectory() as temporary:
        folder = write.folder(job, pathlib.Path(given.keep or temporary) / f"job-{seed}")
        command = [given.program, "level", str(folder), "--format", "json"]
        ran = subprocess.run(command, capture_output=True, text=True)
        try:
            if ran.returncode not in (0, 1):
                raise compare.Wrong(f"exit status {ran.returncode}: {ran.stderr}")
            answer = json.loads(ran.stdout)
            if given.selftest:
                job = moved(job, answer)
                if job is None:
                    return SimpleNamespace(points=0)
            seen = compare.compare(job, answer)
            seen.kind = f"{seed} ({kind})"
            return seen
        except compare.Wrong as wrong:
            files = "\n".join(f"--- {it.name}\n{it.read_text()}" for it in sorted(folder.iterdir()))
            return f"JOB {seed} ({kind}): {wrong}\n{files}"


def moved(job, answer):
    """The job with one reading 3 mm off, on a point that has its height from readings; none where there is no such point."""
    job = copy.deepcopy(job)
    given = [it.point for it in (*job.benchmarks, *job.elevations)]
    told = [it["point"] for it in answer["points"] if it["elevation_nm"] is not None and it["point"] not in given]
    for it in job.sights:
        if it.point in told and not it.spot:
            it.reading += 3_000_000
            return job
    for it in job.differences:
        if it.end in told:
            it.difference += 3_000_000
            return job
    return None


def main():
    given = arguments()
    sys.path[:0] = [str(HERE)] + ([given.packages] if given.packages else [])
    try:
        import numpy  # noqa: F401
    except ImportError as missing:
        sys.exit(f"numpy cannot be imported, so nothing was compared: {missing}")
    seeds = range(given.first, given.first + given.jobs)
    seen = [one(given, seed) for seed in [*seeds, *(it for it in ONCE_WRONG if it not in seeds)]]
    wrong = [it for it in seen if isinstance(it, str)]
    right = [it for it in seen if not isinstance(it, str)]
    if given.selftest:
        blind = [it.kind for it in right if it.points]
        print(f"{len(seen) - len(right) + len(blind)} jobs with one reading moved: {len(wrong)} differ", end="")
        print(f", {len(blind)} do NOT: {', '.join(blind)}" if blind else "")
        sys.exit(1 if blind or len(wrong) * 2 < len(seen) else 0)
    for text in wrong:
        print(text)
    counts = {
        "tested": sum(it.tests for it in right),
        "with a slope found": sum(it.slopes > 0 for it in right),
        "with suspects": sum(it.suspects > 0 for it in right),
        "with heights that nothing tells": sum(it.untold and it.nulls > 0 for it in right),
        "with points off the datum": sum(it.nulls > 0 and not it.untold for it in right),
        "relative": sum(not it.absolute for it in right),
    }
    told = ", ".join(f"{count} {words}" for words, count in counts.items())
    print(f"{len(seen)} jobs ({told}): {len(wrong)} differ" if wrong else f"{len(seen)} jobs ({told}): all agree")
    # a comparison that never met these is none
    few = given.jobs >= 60 and min(counts.values()) * 20 < given.jobs
    if few:
        print("too few of the jobs are of each sort")
    sys.exit(1 if wrong or few or not right else 0)


if __name__ == "__main__":
    main()
