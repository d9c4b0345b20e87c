"""Compares the exact plan with HiGHS, on generated jobs, and times both.

Usage: python3 tests/plan_against_highs.py PATH_TO_RODREACH [--packages FOLDER] [--jobs 60] [--from 0] [--keep FOLDER]
       python3 tests/plan_against_highs.py PATH_TO_RODREACH [--packages FOLDER] --times 1000 [--family A] [--bench PATH]

The jobs are invented: halls of 20 to 60 columns, in inches and millimetres, with rods that limit the raises, limits of
neighbours, walls, building and design seat, columns that must be referred, options on hold and tall stacks; half of them
have bases on designed beds of grout, some beside bases without. Each is written as a job folder and solved by `rodreach check`. HiGHS (`highspy` 1.16.0, MIT) solves it twice from this script's own
reading of the job: as a plain mixed-integer program, and as a linear program in order variables. Every component of the
totals must be equal, and so must the referred columns, the flatness, how far beds are from the designed ones and every seat; the answer's rods and differences are judged afresh.

Exit status 1 if anything differs; the job is printed and, with --keep, left in that folder.
"""

import argparse
import concurrent.futures
import json
import pathlib
import subprocess
import sys
import tempfile
from types import SimpleNamespace

sys.dont_write_bytecode = True
HERE = pathlib.Path(__file__).resolve().parent

# what the answers must have met, in one of so many jobs at least
SHARES = {
    "refer": 10,
    "held": 10,
    "grout": 30,
    "designed beds": 3,
    "beds of both sorts of base": 15,
    "beds where elevations are absolute": 10,
    "beds in a relative job": 10,
    "beds without a design seat": 15,
    "beds in inches": 10,
    "beds in millimetres": 10,
    "beds that are not the designed ones": 6,
    "beds that are held": 20,
    "a referred column over a bed": 20,
}


def arguments():
    parser = argparse.ArgumentParser(description="Compares the exact plan with HiGHS.")
    parser.add_argument("program")
    parser.add_argument("--packages", help="a folder that holds highspy and numpy")
    parser.add_argument("--jobs", type=int, default=60)
    parser.add_argument("--from", dest="first", type=int, default=0)
    parser.add_argument("--keep", help="leave the jobs in this folder")
    parser.add_argument("--seconds", type=float, default=60, help="time limit of the mixed-integer program of one job")
    parser.add_argument("--times", type=int, metavar="N", help="time one job of N columns instead")
    parser.add_argument("--family", default="A", choices=["A", "B"])
    parser.add_argument("--seed", type=int, default=4)
    parser.add_argument("--bench", help="the built bench `plan`, which times the plan alone")
    parser.add_argument("--limit", type=float, default=120, help="seconds of the mixed-integer program when timing")
    return parser.parse_args()


def one(program, seed, keep, seconds):
    """Compares one job; gives what was seen, or a text that says what is wrong."""
    from highs_oracle import compare, jobs, write

    job = jobs.mixed(seed)
    with tempfile.TemporaryDirectory() as temporary:
        folder = write.folder(job, pathlib.Path(keep or temporary) / f"job-{seed}")
        command = [program, "check", str(folder), "--format", "json", "--to", job.to]
        ran = subprocess.run(command, capture_output=True, text=True)
        try:
            if ran.returncode not in (0, 1):
                raise compare.Wrong(f"exit status {ran.returncode}: {ran.stderr}")
            return compare.compare(job, json.loads(ran.stdout), seconds)
        except compare.NotProven as reason:
            return SimpleNamespace(kinds=set(), unsettled=True, unproven=f"job {seed}: {reason}")
        except compare.Wrong as wrong:
            files = "\n".join(f"--- {it.name}\n{it.read_text()}" for it in sorted(folder.iterdir()))
            return f"JOB {seed} ({len(job.columns)} columns, --to {job.to}): {wrong}\n{files}"


def main():
    given = arguments()
    sys.path[:0] = [str(HERE)] + ([given.packages] if given.packages else [])
    try:
        import highspy  # noqa: F401
    except ImportError as missing:
        sys.exit(f"highspy cannot be imported, so nothing was compared: {missing}")
    if given.times:
        from highs_oracle import times

        times.run(given.program, given.family, given.times, given.seed, given.bench, given.limit)
        return
    seeds = range(given.first, given.first + given.jobs)
    with concurrent.futures.ProcessPoolExecutor(max_workers=2) as pool:
        tasks = [pool.submit(one, given.program, seed, given.keep, given.seconds) for seed in seeds]
        seen = [task.result() for task in tasks]
    wrong = [it for it in seen if isinstance(it, str)]
    for text in wrong:
        print(text)
    right = [it for it in seen if not isinstance(it, str)]
    met = {name: sum(name in it.kinds for it in right) for name in SHARES}
    unproven = [it.unproven for it in right if it.unproven]
    for text in unproven:
        print("NOT SETTLED by the mixed-integer program: " + text)
    unsettled = sum(it.unsettled for it in right)
    print(f"{len(seen)} jobs ({', '.join(f'{count} with {name}' for name, count in met.items())}): ", end="")
    print(f"{len(wrong)} differ" if wrong else "every component equal", end="")
    print(f", {unsettled} settled by neither program" if unsettled else "")
    # a comparison that never met these is none
    few = [f"{name} in {met[name]}" for name, share in SHARES.items() if given.jobs >= 60 and met[name] * share < given.jobs]
    few += ["compared by both programs"] if len(unproven) * 4 > len(seen) or unsettled * 10 > len(seen) else []
    if few:
        print(f"TOO FEW of {len(seen)} jobs: {', '.join(few)}")
    sys.exit(1 if wrong or few or not right else 0)


if __name__ == "__main__":
    main()
