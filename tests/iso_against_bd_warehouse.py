"""Compares the ISO rows of the catalog with the data files of bd_warehouse 0.4.0 (PyPI, Apache-2.0).

Usage: python3 tests/iso_against_bd_warehouse.py PATH_TO_RODREACH --packages FOLDER

The package is not imported: only its CSV files are read. It holds the most height of ISO 4032 and 4033 nuts
and the most thickness and outer diameter of ISO 7089 and 7091 washers (`h` is the most). Exit status 1 if a figure
differs.
"""

import argparse
import csv
import json
import pathlib
import subprocess
import sys

NUTS = ("iso-4032", "iso-4033")
WASHERS = ("iso-7089", "iso-7091")
# the fewest figures that make it a comparison: of each series as many as the package holds at the catalog's sizes
LEAST = {"iso4032:m": 9, "iso4033:m": 6, "iso7089:h": 7, "iso7089:d2": 7, "iso7091:h": 8, "iso7091:d2": 8}


def package_rows(folder, name):
    found = sorted(pathlib.Path(folder).rglob(name))
    if not found:
        sys.exit(f"{name} is not in {folder}")
    with open(found[0], newline="", encoding="utf-8-sig") as file:
        rows = list(csv.reader(file))
    head = rows[0]
    return {row[0]: dict(zip(head, row)) for row in rows[1:] if row}


def nm(millimetres):
    whole, _, part = millimetres.strip().partition(".")
    return int(whole) * 1_000_000 + int((part + "000000")[:6])


def main():
    parser = argparse.ArgumentParser(description="Compares the ISO rows with bd_warehouse.")
    parser.add_argument("program")
    parser.add_argument("--packages", required=True, help="a folder that holds bd_warehouse")
    given = parser.parse_args()
    program, folder = given.program, given.packages
    answer = subprocess.run([program, "catalog", "--format", "json"], check=True, capture_output=True, text=True)
    rows = json.loads(answer.stdout)["rows"]
    nuts = package_rows(folder, "hex_nut_parameters.csv")
    washers = package_rows(folder, "plain_washer_parameters.csv")
    by_size = lambda table: {key.split("-")[0]: row for key, row in table.items()}
    nuts_by_size, washers_by_size = by_size(nuts), by_size(washers)
    compared, missing, wrong = dict.fromkeys(LEAST, 0), [], []
    for row in rows:
        size = "M" + row["of"].removesuffix(" mm")
        checks = []
        # iso-4033 is the column iso4033 of the package
        standard = row["series"].replace("-", "")
        if row["series"] in NUTS and row["figure"] == "height":
            checks = [(f"{standard}:m", nuts_by_size, row["most_nm"])]
        elif row["series"] in WASHERS and row["figure"] == "thickness":
            checks = [(f"{standard}:h", washers_by_size, row["most_nm"])]
        elif row["series"] in WASHERS and row["figure"] == "outer size":
            checks = [(f"{standard}:d2", washers_by_size, row["nominal_nm"])]
        for column, table, ours in checks:
            text = table.get(size, {}).get(column, "").strip()
            if not text:
                missing.append(f"{size} {column}")
                continue
            compared[column] += 1
            if nm(text) != ours:
                wrong.append(f"{size} {column}: {text} mm there, {ours} nm here")
    print(f"bd_warehouse 0.4.0: {sum(compared.values())} ISO figures compared, {len(wrong)} differ")
    if missing:
        print("not in the package, so not compared: " + ", ".join(missing))
    for line in wrong:
        print("DIFFERS " + line)
    # a comparison of nothing is no comparison
    few = [f"{column}: {compared[column]} of {least}" for column, least in LEAST.items() if compared[column] < least]
    for line in few:
        print("TOO FEW COMPARED " + line)
    sys.exit(1 if wrong or few else 0)


main()
