"""Compares the ISO rows of the catalog with the data files of bd_warehouse 0.4.0 (PyPI, Apache-2.0).

Usage: python3 tests/iso_against_bd_warehouse.py PATH_TO_RODREACH FOLDER_OF_THE_PACKAGE

The package is not imported: only its CSV files are read. It holds the most height of ISO 4032 nuts and the
most thickness and outer diameter of ISO 7089 washers. Exit status 1 if a figure differs.
"""

import csv
import json
import pathlib
import subprocess
import sys


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
    program, folder = sys.argv[1:3]
    answer = subprocess.run([program, "catalog", "--format", "json"], check=True, capture_output=True, text=True)
    rows = json.loads(answer.stdout)["rows"]
    nuts = package_rows(folder, "hex_nut_parameters.csv")
    washers = package_rows(folder, "plain_washer_parameters.csv")
    by_size = lambda table: {key.split("-")[0]: row for key, row in table.items()}
    nuts_by_size, washers_by_size = by_size(nuts), by_size(washers)
    compared, missing, wrong = 0, [], []
    for row in rows:
        size = "M" + row["of"].removesuffix(" mm")
        checks = []
        if row["series"] == "iso-4032":
            checks = [("iso4032:m", nuts_by_size, row["most_nm"])]
        elif row["series"] == "iso-7089" and row["figure"] == "thickness":
            checks = [("iso7089:h", washers_by_size, row["most_nm"])]
        elif row["series"] == "iso-7089" and row["figure"] == "outer size":
            checks = [("iso7089:d2", washers_by_size, row["nominal_nm"])]
        for column, table, ours in checks:
            text = table.get(size, {}).get(column, "").strip()
            if not text:
                missing.append(f"{size} {column}")
                continue
            compared += 1
            if nm(text) != ours:
                wrong.append(f"{size} {column}: {text} mm there, {ours} nm here")
    print(f"bd_warehouse 0.4.0: {compared} ISO figures compared, {len(wrong)} differ")
    if missing:
        print("not in the package, so not compared: " + ", ".join(missing))
    for line in wrong:
        print("DIFFERS " + line)
    # a comparison of nothing is no comparison
    sys.exit(1 if wrong or compared < 15 else 0)


main()
