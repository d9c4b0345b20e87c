"""Reads the drawings of `rodreach order --cut` back with ezdxf, and holds them against the plates they must be.

Usage: python3 tests/dxf_against_ezdxf.py PATH_TO_RODREACH [--packages FOLDER] [--jobs 60] [--from 0] [--keep FOLDER]
       python3 tests/dxf_against_ezdxf.py PATH_TO_RODREACH [--packages FOLDER] --selftest

Each invented job has two to five kinds of base, its columns held where they need shims. This script works out every
plate from the job's own numbers; ezdxf 1.4.5 (MIT) must load each DXF with no error and no fix, in millimetres, and give back
outline, holes and mark to the nanometre. The SVG is read by Python's own parser with every digit, and the list and `order
--format json` must have the same plates and pieces.
With --selftest one number of each drawing is moved by a nanometre, or its unit turned: each of these must be seen.

Exit status 1 if anything differs; the job is printed and, with --keep, left in that folder.
"""

import argparse
import csv
import json
import pathlib
import re
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True
HERE = pathlib.Path(__file__).resolve().parent


def arguments():
    parser = argparse.ArgumentParser(description="Reads drawings for cutting back with ezdxf.")
    parser.add_argument("program")
    parser.add_argument("--packages", help="a folder that holds ezdxf and what it needs")
    parser.add_argument("--jobs", type=int, default=60)
    parser.add_argument("--from", dest="first", type=int, default=0)
    parser.add_argument("--keep", help="leave the jobs in this folder")
    parser.add_argument("--selftest", action="store_true", help="spoil each drawing: it must be seen")
    return parser.parse_args()


def run(judge, *command):
    ran = subprocess.run([str(it) for it in command], capture_output=True, text=True, encoding="utf-8")
    judge.need(ran.returncode in (0, 1), f"exit status {ran.returncode}: {ran.stderr}")
    return json.loads(ran.stdout)


def nudged(line):
    """A number of millimetres with one nanometre more."""
    from decimal import Decimal

    return str(Decimal(line) + Decimal("0.000001"))


def spoiled_dxf(text):
    """The drawing with its unit turned, and with one number of each sort moved by a nanometre."""
    yield text.replace("$INSUNITS\r\n 70\r\n4", "$INSUNITS\r\n 70\r\n1")
    lines = text.split("\r\n")
    start = lines.index("ENTITIES")
    for kind, code in (("CIRCLE", " 10"), ("CIRCLE", " 20"), ("CIRCLE", " 40"), ("LWPOLYLINE", " 20"), ("TEXT", " 10")):
        if kind not in lines[start:]:
            continue
        at = lines.index(code, lines.index(kind, start)) + 1
        yield "\r\n".join([*lines[:at], nudged(lines[at]), *lines[at + 1 :]])


def spoiled_svg(text):
    yield re.sub(r'width="([\d.]+)mm"', r'width="\1in"', text)
    for pattern in (r'(cx=")([\d.]+)', r'(r=")([\d.]+)', r'(points="0,)([\d.]+)'):
        yield re.sub(pattern, lambda found: found[1] + nudged(found[2]), text, count=1)


def selftest(judge, read, spoiled, text, given, counts):
    for worse in spoiled(text):
        judge.need(worse != text, "nothing was spoiled")
        try:
            read(worse, *given)
        except judge.Wrong:
            counts["spoiled drawings seen"] += 1
        else:
            raise judge.Wrong("a spoiled drawing was NOT seen")


def one(given, jobs, judge, seed, counts):
    job = jobs.job(seed)
    with tempfile.TemporaryDirectory() as temporary:
        folder = pathlib.Path(given.keep or temporary) / f"job-{seed}"
        held = jobs.write(job, folder)
        try:
            order = run(judge, given.program, "order", folder, *held, "--format", "json")
            cut = run(judge, given.program, "order", folder, *held, "--cut", "-o", folder / "cut", "--format", "json")
            compare(given, jobs.wanted(job), judge, folder / "cut", order, cut, counts)
        except judge.Wrong as wrong:
            return f"JOB {seed}: {wrong}\n{(folder / 'job.toml').read_text(encoding='utf-8')}"
    return None


def compare(given, wanted, judge, folder, order, cut, counts):
    judge.need(len(wanted) == len(order["plates"]) == len(cut["plates"]), "kinds of plates", len(wanted))
    with open(folder / "cut-list.csv", encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    judge.need(len(rows) == len(wanted), "rows of the list")
    files = {"cut-list.csv"}
    for ours, listed, kind in zip(order["plates"], rows, cut["plates"]):
        found = [it for it in wanted if set(it.bases) == set(kind["bases"]) and it.thickness == kind["thickness_nm"]]
        judge.need(len(found) == 1, "no such plate:", kind["bases"], kind["thickness_nm"])
        plate = found[0]
        judge.need(kind["pieces"] == plate.pieces == ours["pieces"] == int(listed["pieces"]), "pieces")
        judge.need(kind["cut"] == ours["to_order"] == int(listed["cut"]), "pieces to cut")
        judge.need(ours["thickness_nm"] == plate.thickness, "thickness in the order")
        judge.need(judge.exact(listed["thickness_mm"]) == plate.thickness, "thickness in the list")
        if plate.shape is None:
            judge.need(kind["dxf"] is None and listed["dxf"] == "" and listed["not_drawn"], "this cannot be drawn")
            counts["not drawn"] += 1
            continue
        size, holes, hole = plate.shape
        middle = [{at[side] - size[side] // 2 for at in holes} for side in (0, 1)]
        at = ours["holes"]["at_nm"]
        # about the middle, half a nanometre lost where a side or a spacing is odd
        judge.need(
            all(min(abs(it[side] - other) for other in middle[side]) <= 1 for it in at for side in (0, 1)),
            "holes in the order", at, middle,
        )
        judge.need(ours["size_nm"] == list(size) and ours["holes"]["diameter_nm"] == hole, "plate in the order")
        judge.need({tuple(it["at_nm"]) for it in kind["holes"]} == holes, "holes in JSON")
        judge.need((judge.exact(listed["x_mm"]), judge.exact(listed["y_mm"])) == size, "sides in the list")
        files |= {kind["dxf"], kind["svg"]}
        with open(folder / kind["dxf"], encoding="ascii", newline="") as file:
            dxf = file.read()
        svg = (folder / kind["svg"]).read_text(encoding="utf-8")
        expected = (plate.shape, kind["mark"], kind["engraved"])
        judge.dxf(dxf, *expected)
        judge.svg(svg, *expected)
        judge.need(all(it in kind["mark"] for it in plate.bases[:2]), "the mark names no base")
        counts["drawn"] += 1
        counts["for two bases"] += len(plate.bases) > 1
        counts["with an odd nanometre"] += any(side % 2 for side in size)
        mark = kind["engraved"]
        counts["with a mark running up"] += mark is not None and mark["turned"]
        counts["without room for a mark"] += mark is None
        if given.selftest:
            selftest(judge, judge.dxf, spoiled_dxf, dxf, expected, counts)
            selftest(judge, judge.svg, spoiled_svg, svg, expected, counts)
    judge.need({it.name for it in folder.iterdir()} == files, "files", sorted(files))
    judge.need(len({it.lower() for it in files}) == len(files), "names that differ in capitals alone")


def main():
    given = arguments()
    sys.path[:0] = [str(HERE)] + ([given.packages] if given.packages else [])
    try:
        import ezdxf  # noqa: F401
    except ImportError as missing:
        sys.exit(f"ezdxf cannot be imported, so no drawing was read back: {missing}")
    from ezdxf_oracle import jobs, judge

    sorts = ["drawn", "for two bases", "with an odd nanometre", "with a mark running up", "not drawn"]
    counts = dict.fromkeys([*sorts, "without room for a mark", "spoiled drawings seen"], 0)
    seeds = range(given.first, given.first + given.jobs)
    wrong = [it for it in (one(given, jobs, judge, seed, counts) for seed in seeds) if it]
    for text in wrong:
        print(text)
    told = ", ".join(f"{count} {words}" for words, count in counts.items() if count)
    print(f"{given.jobs} jobs ({told}): " + (f"{len(wrong)} differ" if wrong else "all agree"))
    # a comparison that never met these is none
    few = given.jobs >= 60 and min(counts[sort] for sort in sorts) * 20 < given.jobs
    if few:
        print("too few of the plates are of each sort")
    sys.exit(1 if wrong or few or not counts["drawn"] else 0)


if __name__ == "__main__":
    main()
