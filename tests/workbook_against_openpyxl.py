"""Opens the workbooks that rodreach writes with openpyxl, and compares every cell with its other formats.

Usage: python3 tests/workbook_against_openpyxl.py PATH_TO_RODREACH [--packages FOLDER] [--selftest]

Every demo job is written by `check -o`, `hardware -o` and `order -o`, and read back with openpyxl (3.1.5, MIT). The cells must be those of
`check --format json`, `check --format csv`, `hardware --format csv`, `order --format json` and `csv`, `level --book --format json`, of the job's own CSV files and of
the screen. A length stands three times: its number must be the nearest one to its whole nanometres, its number format must
show all of it or a ~ (a fraction is worked out as a spreadsheet does, with no more than two digits below the line), and its
words must say the same, rounded down or up as the column wants it. A mass, a volume or an area stands twice: its number must be that
of the other formats, its words no less and less than a step more. No cell may hold a formula. Frozen head, print set-up, paper,
the filter and the colours are looked at too.
The walk of a demo job written by openpyxl must give the same answer as its CSV file, and what a spreadsheet has made of a
reading must be refused with its cell.
With --selftest every column of every sheet is changed in one cell: each of these changes must be seen.

Exit status 1 if anything differs.
"""

import argparse
import csv
import io
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
from decimal import Decimal
from fractions import Fraction

sys.dont_write_bytecode = True
JOBS = ["tractor-shed", "packing-hall", "grain-dryer", "seed-store", "seed-store on packs", "seed-store on nuts"]
# what a demo job's base says more of, and what stands behind it
MORE = {
    "on packs": ('seat_on = "packs"\npacks = { size = ["80", "80"], count = 4, left_in = true, cover = "25" }\n', '[shims]\ncatalog = "plate-mm"\n'),
    "on nuts": ('seat_on = "nuts"\nlevelling = { nut = "iso-4032", washer = "iso-7089" }\n', ""),
}
HERE = pathlib.Path(__file__).resolve().parent
DEMO = HERE.parent / "demo-data"
UNITS = {"in": 25_400_000, "ft": 304_800_000, "mm": 1_000_000, "cm": 10_000_000, "m": 1_000_000_000}
SHEETS = ["Read first", "Columns", "Hardware", "Order", "Rods", "Readings", "Findings"]
DOWN = {"spare", "beyond", "beyond_worst", "thread_left"}
UP = {"needs_projection", "plus_minus"}
# a figure's number by its ending: what its words may be in, each with its size in that unit and its step
FIGURES = {
    "_kg": {"lb": (Fraction("0.45359237"), Fraction(1, 10)), "kg": (1, Fraction(1, 10))},
    "_l": {"ft3": (Fraction("28.316846592"), Fraction(1, 1000)), "l": (1, Fraction(1, 10))},
    "_mm2": {"in2": (Fraction("645.16"), Fraction(1, 10)), "mm2": (1, 1)},
}


def run(program, *words):
    ran = subprocess.run([program, *words], capture_output=True, text=True)
    if ran.returncode not in (0, 1):
        sys.exit(f"{words}: exit status {ran.returncode}: {ran.stderr}")
    return ran


class Faults:
    def __init__(self):
        self.found = []

    def same(self, where, found, wanted):
        if found != wanted:
            self.found.append(f"{where}: {found!r}, and not {wanted!r}")

    def true(self, where, holds, what):
        if not holds:
            self.found.append(f"{where}: {what}")


def fraction(text):
    """Reads 1-3/8 or 3/8 or 0.758, without a sign."""
    found = re.fullmatch(r"(?:(\d+)-)?(\d+)/(\d+)", text)
    if found:
        whole, over, under = found.groups()
        return Fraction(int(whole or 0)) + Fraction(int(over), int(under))
    if not re.fullmatch(r"\d+(\.\d+)?", text):
        raise ValueError(text)
    return Fraction(Decimal(text))


def nanometres(words):
    """Reads a length as rodreach writes it; gives nanometres and whether it says that it is exact."""
    found = re.fullmatch(r"(~?)([+-]?)(.+)", words)
    about, sign, body = found.groups()
    unit = re.fullmatch(r"(.+) (in|ft|mm|cm|m)", body)
    feet = re.fullmatch(r"(\d+)'-(.+)\"", body)
    if unit:
        value = fraction(unit[1]) * UNITS[unit[2]]
    elif feet:
        value = int(feet[1]) * UNITS["ft"] + fraction(feet[2]) * UNITS["in"]
    elif body.endswith('"'):
        value = fraction(body[:-1]) * UNITS["in"]
    else:
        raise ValueError(words)
    return (-value if sign == "-" else value), not about


def shown(number, number_format):
    """Gives what a spreadsheet shows of a number, and whether it says that it is exact."""
    exact = Fraction(number)
    if number_format == "# ??/??":
        return exact.limit_denominator(99), True
    decimal = Decimal(repr(number)) if isinstance(number, float) else Decimal(number)
    if number_format == "0.0#####":
        return Fraction(round(decimal, 6)), True
    if number_format == '"~"0.000000':
        return Fraction(round(decimal, 6)), False
    raise ValueError(number_format)


def length(faults, where, head, unit, words, number, number_format, nm):
    """Holds words, number and nanometres of a length against each other."""
    if nm is None or words is None or number is None:
        faults.same(where, (words, number, nm), (None, None, None))
        return
    if not isinstance(nm, int) or not isinstance(number, (int, float)) or isinstance(number, bool):
        faults.true(where, False, f"{number!r} and {nm!r} are not both numbers")
        return
    size = UNITS[unit]
    faults.same(f"{where} as a number", float(number), float(Fraction(nm, size)))
    try:
        seen, exact = shown(number, number_format)
        said, says_exact = nanometres(words)
    except (ValueError, AttributeError, TypeError) as fault:
        faults.true(where, False, f"cannot be read: {fault}")
        return
    if exact:
        faults.same(f"{where} as it is shown by {number_format}", seen * size, nm)
    else:
        faults.true(where, abs(seen * size - nm) <= size / 1_000_000 and seen * size != nm, "a ~ that is not true")
    faults.same(f"{where} says that it is exact", says_exact, said == nm)
    step = UNITS["in"] // 16 if unit == "in" else UNITS["mm"] // 10
    faults.true(where, abs(said - nm) < step, f"{words} is not {nm} nm")
    if head in DOWN:
        faults.true(where, said <= nm, f"{words} is not rounded down from {nm} nm")
    if head in UP:
        faults.true(where, said >= nm, f"{words} is not rounded up from {nm} nm")


def figure(faults, where, ending, words, number):
    """Holds the words of a mass, a volume or an area against its number."""
    if words is None or number is None:
        faults.same(where, (words, number), (None, None))
        return
    found = re.fullmatch(r"(~?)(\d+(?:\.\d+)?) ([a-z0-9]+)", str(words))
    units = FIGURES[ending]
    if not found or found[3] not in units or not isinstance(number, (int, float)):
        faults.true(where, False, f"{words!r} and {number!r} cannot be read")
        return
    size, step = units[found[3]]
    over = Fraction(found[2]) * size - Fraction(Decimal(repr(number)))
    # the number itself goes up to a millionth
    faults.true(where, -Fraction(1, 1_000_000) <= over < step * size, f"{words} is not {number} rounded up")
    if ending != "_kg" and not found[1]:
        faults.true(where, abs(over) <= Fraction(1, 1_000_000), f"{words} is not {number}, and says so without a ~")


def figure_heads(table):
    """Gives the heads of numbers of masses, volumes and areas: words, number, ending."""
    for ending in FIGURES:
        for head in table.heads:
            if head and head.endswith(ending):
                yield head.removesuffix(ending), head, ending


def number_cell(value):
    """Gives a cell of a CSV file as a number; none where it is blank."""
    return float(value) if value else None


class Table:
    """A sheet: its heads, and its rows by head, each cell with its number format."""

    def __init__(self, sheet):
        rows = [[(cell.value, cell.number_format) for cell in row] for row in sheet.iter_rows()]
        self.heads = [value for value, _ in rows[0]]
        self.rows = [dict(zip(self.heads, row)) for row in rows[1:]]
        self.types = {cell.data_type for row in sheet.iter_rows() for cell in row}

    def words(self, row, head):
        return row[head][0]


def plain(value):
    return "" if value is None else str(value)


def columns(faults, table, answers):
    """The sheet of columns, against CSV and JSON."""
    faults.same("Columns rows", len(table.rows), len(answers["csv"]))
    for row, of_csv, of_json in zip(table.rows, answers["csv"], answers["check"]["columns"]):
        where = f"Columns {of_json['mark']}"
        get = lambda head: table.words(row, head)
        for head in ("mark", "base", "action", "governing_rod", "hold"):
            faults.same(f"{where} {head}", plain(get(head)), of_csv[head])
        for head in ("pad_nm", "raise_nm", "seat_nm", "spare_nm", "needs_projection_nm"):
            faults.same(f"{where} {head}", plain(get(head)), of_csv[head])
            if head != "spare_nm":
                faults.same(f"{where} {head}", get(head), of_json[head])
        faults.same(f"{where} may_set", get("may_set"), "yes" if of_json["may_set"] else "NO")
        faults.same(f"{where} hold", plain(get("hold")).split(), of_json["hold"])
        why = plain(get("why"))
        faults.same(f"{where} why", bool(why), bool(of_json["hold"]))
        faults.true(f"{where} why", why in answers["screen"], f"{why!r} is not on the screen")
        under, action = plain(get("under the plate")), of_json["action"]
        wanted = {"no-shim": "nothing", "shim": of_csv["stack"], "refer": "ask the engineer", "unmeasured": "read the pad first"}
        if action in wanted:
            faults.same(f"{where} under the plate", under, wanted[action])
        else:
            told = re.fullmatch(rf"{action}(?: bed)? ([^(]+?)(?: off)?(?: \(designed [^()]+\))?", under)
            faults.true(f"{where} under the plate", told, f"{under!r} is not {action}")
            if told:
                faults.true(f"{where} under the plate", abs(nanometres(told[1])[0] - abs(of_json["raise_nm"])) < UNITS["in"] // 16, under)


def hardware(faults, table, answers):
    """The sheet of hardware, against CSV."""
    faults.same("Hardware rows", len(table.rows), len(answers["hardware"]))
    for row, wanted in zip(table.rows, answers["hardware"]):
        where = f"Hardware {wanted['mark']}"
        for head in wanted:
            found = plain(table.words(row, head))
            if head == "may_set":
                wanted_here = {"yes": "yes", "no": "NO"}[wanted[head]]
            elif head.endswith(tuple(FIGURES)):
                found, wanted_here = table.words(row, head), number_cell(wanted[head])
            else:
                wanted_here = wanted[head]
            faults.same(f"{where} {head}", found, wanted_here)
        for head in ("rods", "extra_washers", "levelling_count", "packs"):
            number = table.words(row, head) if head in wanted else None
            faults.true(f"{where} {head}", number is None or isinstance(number, int), "is no number")


def order(faults, table, answers):
    """The sheet of what to order, against CSV; what that has not, against JSON."""
    faults.same("Order rows", len(table.rows), len(answers["order csv"]))
    of_json = answers["order"]
    plates = {it["plate"]: it for it in of_json["plates"] + of_json["packs"]}
    beds = {it["mark"]: it for it in of_json["grout"]["bases"]}
    grind = {it["mark"]: it for it in of_json["grind"]}
    for row, wanted in zip(table.rows, answers["order csv"]):
        where = f"Order {wanted['list']} {wanted['item']}"
        get = lambda head: table.words(row, head)
        for head in wanted:
            if head == "may_set":
                faults.same(f"{where} {head}", get(head), {"yes": "yes", "no": "NO", "": None}[wanted[head]])
            elif head.endswith(tuple(FIGURES)):
                faults.same(f"{where} {head}", get(head), number_cell(wanted[head]))
            else:
                faults.same(f"{where} {head}", plain(get(head)), wanted[head])
        for head in ("pieces", "on_hold", "spares", "from_stock", "to_order", "bags"):
            faults.true(f"{where} {head}", get(head) is None or isinstance(get(head), int), "is no number")
        sides, mass = None, None
        if wanted["list"] in ("plate", "pack") and wanted["item"] in plates:
            plate = plates[wanted["item"]]
            sides, mass = plate["size_nm"], plate["order_mass_kg"]
            for head, key in (("pieces", "pieces"), ("on_hold", "held"), ("spares", "spares"), ("to_order", "to_order"), ("each_kg", "each_kg")):
                faults.same(f"{where} {head} of JSON", get(head), plate[key])
        elif wanted["list"] == "grout" and wanted["item"]:
            sides = beds[wanted["item"]]["form_nm"]
        elif wanted["list"] == "grind":
            sides = grind[wanted["item"]]["size_nm"]
        faults.same(f"{where} sides", [get("side_nm"), get("other_side_nm")], sides or [None, None])
        faults.same(f"{where} order_mass_kg", get("order_mass_kg"), mass)


def source_row(answers, where):
    """Gives the row of the job's own CSV file that a place names."""
    found = re.fullmatch(r"([^ /]+\.csv) line (\d+)", where or "")
    lines = answers["files"].get(found[1], []) if found else []
    return lines[int(found[2]) - 1] if found and int(found[2]) <= len(lines) else None


def rods(faults, table, answers):
    """The sheet of rods, against JSON and the job's files."""
    wanted = [(column, rod) for column in answers["check"]["columns"] for rod in column["rods"]]
    faults.same("Rods rows", len(table.rows), len(wanted))
    for row, (column, rod) in zip(table.rows, wanted):
        where = f"Rods {column['mark']} {rod['rod']}"
        get = lambda head: table.words(row, head)
        for head, value in (("mark", column["mark"]), ("rod", rod["rod"]), ("state", rod["state"])):
            faults.same(f"{where} {head}", get(head), value)
        for head in ("projection_nm", "plus_minus_nm", "beyond_nm", "beyond_worst_nm", "thread_left_nm", "extra_washers"):
            faults.same(f"{where} {head}", get(head), rod[head])
        faults.same(f"{where} measured or not", get("measured") == "not measured", rod["projection_nm"] is None)
        if "by_level" in rod:
            faults.same(f"{where} measured", get("measured"), "by level, or by level and tape")
        elif rod["projection_nm"] is not None:
            faults.true(f"{where} measured", get("measured") in ("by tape", "one value for all rods"), get("measured"))
        else:
            faults.same(f"{where} measured", get("measured"), "not measured")
        if get("where") is not None:
            line = source_row(answers, get("where"))
            faults.true(f"{where} where", line is not None and column["mark"] in line, f"{get('where')!r} is not its row")
            noted = answers["written"](get("where"), line, "condition") if line is not None else ""
            faults.same(f"{where} condition", plain(get("condition")), "" if noted.lower() == "ok" else noted)
        else:
            faults.same(f"{where} condition", get("condition"), None)


def readings(faults, table, answers):
    """The sheet of readings, against the level book and the job's files; the demo jobs have sights alone."""
    wanted = answers["book"]["rows"]
    faults.same("Readings rows", len(table.rows), len(wanted))
    for row, sight in zip(table.rows, wanted):
        where = f"Readings {sight['setup']} {sight['point']}"
        get = lambda head: table.words(row, head)
        faults.same(f"{where} kind", get("kind"), "sight")
        faults.same(f"{where} from", get("from"), f"setup {sight['setup']}")
        faults.same(f"{where} point", f"{plain(get('on'))} {plain(get('spot'))}".strip(), sight["point"])
        faults.same(f"{where} reading", get("reading_nm"), sight["reading_nm"])
        line = source_row(answers, get("where"))
        faults.true(f"{where} where", line is not None and get("on") in line, f"{get('where')!r} is not its row")
        # the book says which sight was used as which, the sheet what was written
        written = line is not None and answers["written"](get("where"), line, "sight")
        faults.same(f"{where} sight", get("sight"), written or "IS")


def findings(faults, table, answers):
    """The sheet of findings, against JSON."""
    wanted = answers["check"]["findings"]
    faults.same("Findings rows", len(table.rows), len(wanted))
    level = {"stop": "STOP", "ask": "ASK", "note": "note"}
    for number, (row, it) in enumerate(zip(table.rows, wanted), 2):
        where = f"Findings row {number}"
        get = lambda head: table.words(row, head)
        faults.same(f"{where} level", get("level"), level[it["level"]])
        for head in ("rule", "rod", "line", "text"):
            faults.same(f"{where} {head}", get(head), it[head])
        faults.same(f"{where} columns", plain(get("columns")), ", ".join(it["columns"]))
        for head in ("actual_nm", "limit_nm"):
            faults.same(f"{where} {head}", get(head), it[head])
        faults.same(f"{where} standing", get("standing"), it["source"]["kind"])
        faults.same(f"{where} source", get("source"), it["source"]["text"])


def first(faults, table, answers):
    """The first sheet, against the screen and the exit status."""
    faults.same("Read first", table.heads, ["Read first", None])
    lines = [(row["Read first"][0], row[None][0]) for row in table.rows]
    known = "A length stands in words, which count; to the right, outside what is printed, as a number of inches or millimetres and in whole nanometres. A ~ stands before what is not exact. What is not known is blank."
    for line, beside in lines[:-1]:
        faults.true("Read first", line == known or (line or "?") in answers["screen"], f"{line!r} is not on the screen")
        faults.same("Read first", beside, None)
    verdict = ("Every column may be set and nothing asks or stops:", "NO" if answers["status"] else "yes")
    faults.same("Read first", lines[-1], verdict)
    text = " ".join(line for line, _ in lines if line)
    for needed in ("The engineer of record, the drawings and local codes decide", "columns may be set", "Rods are numbered clockwise", known):
        faults.true("Read first", needed in text, f"does not say {needed!r}")


PARTS = dict(zip(SHEETS, (first, columns, hardware, order, rods, readings, findings)))


def compare(tables, answers):
    """Compares every cell; gives what differs."""
    faults = Faults()
    unit = answers["check"]["units"]
    for name, table in tables.items():
        faults.true(name, "f" not in table.types, "holds a formula")
        PARTS[name](faults, table, answers)
        for number, row in enumerate(table.rows, 2):
            for head in [head[:-3] for head in table.heads if head and head.endswith("_nm")]:
                of_unit = row[f"{head}_{unit}"]
                words, nm = table.words(row, head), table.words(row, f"{head}_nm")
                length(faults, f"{name} row {number} {head}", head, unit, words, *of_unit, nm)
            for words, head, ending in figure_heads(table):
                figure(faults, f"{name} row {number} {words}", ending, table.words(row, words), table.words(row, head))
    return faults.found


def look(book, answers, opens_at):
    """Looks at what is set up beside the cells."""
    faults = Faults()
    faults.same("sheets", book.sheetnames, SHEETS)
    faults.same("opens at", book.active.title, opens_at)
    faults.same("made", str(book.properties.created), "2000-01-01 00:00:00")
    for sheet in book:
        table = sheet.title != "Read first"
        name, page = sheet.title, sheet.page_setup
        faults.same(f"{name} frozen", sheet.freeze_panes, "B2" if table else "A2")
        faults.same(f"{name} filter", sheet.auto_filter.ref, sheet.dimensions if table and sheet.max_row > 1 else None)
        faults.same(f"{name} paper", int(page.paperSize), 1 if answers["check"]["units"] == "in" else 9)
        faults.same(f"{name} page", (page.orientation, sheet.sheet_properties.pageSetUpPr.fitToPage, page.fitToHeight), ("landscape", True, 0))
        faults.same(f"{name} head on every page", sheet.print_title_rows, "$1:$1")
        faults.true(f"{name} foot", "engineer of record" in sheet.oddFooter.left.text, "does not defer")
        faults.same(f"{name} page number", sheet.oddFooter.right.text, "Page &P of &N")
        # a colour repeats a word that stands in its column, and every NO and STOP has one
        coloured = set()
        for area in sheet.conditional_formatting:
            column = next(iter(area.sqref.ranges)).min_col
            words = {sheet.cell(row, column).value for row in range(2, sheet.max_row + 1)}
            for rule in area.rules:
                word = rule.formula[0].strip('"')
                faults.true(f"{name} colour", word in words, f"of {word!r}, which is not in its column")
                coloured.add((column, word))
        for row in sheet.iter_rows(min_row=2):
            for cell in row:
                if cell.value in ("NO", "STOP", "ASK", "short", "runs-out"):
                    faults.true(f"{name} {cell.coordinate}", (cell.column, cell.value) in coloured, "has no colour")
        heads = [cell.value for cell in sheet[1]]
        printed = [head for head in heads if not (head or "").endswith(("_nm", "_in", "_mm", *FIGURES))]
        last = sheet.cell(1, len(printed)).column_letter
        faults.same(f"{name} print area", sheet.print_area, f"'{name}'!$A$1:${last}${sheet.max_row}")
    return faults.found


def folder_of(name, temporary):
    """Copies a demo job, with what is said more of it."""
    demo, _, more = name.partition(" ")
    folder = pathlib.Path(temporary) / demo
    shutil.copytree(DEMO / demo, folder)
    if more:
        keys, behind = MORE[more]
        job = (folder / "job.toml").read_text()
        if job.count("[[base]]\n") != 1:
            sys.exit(f"{name}: not one base")
        (folder / "job.toml").write_text(job.replace("[[base]]\n", f"[[base]]\n{keys}") + behind)
    return folder


def answers_of(program, folder):
    rows = lambda text: list(csv.DictReader(io.StringIO(text)))
    unquoted = lambda rows: [{head: cell.removeprefix("'") for head, cell in row.items()} for row in rows]
    files = {path.name: list(csv.reader(path.open(newline=""))) for path in folder.glob("*.csv")}

    def written(where, line, column):
        heads = files[where.split(" ")[0]][0]
        return line[heads.index(column)].strip() if column in heads else ""

    screen = run(program, "check", str(folder))
    return {
        "check": json.loads(run(program, "check", str(folder), "--format", "json").stdout),
        "csv": unquoted(rows(run(program, "check", str(folder), "--format", "csv").stdout)),
        "hardware": unquoted(rows(run(program, "hardware", str(folder), "--format", "csv").stdout)),
        "order": json.loads(run(program, "order", str(folder), "--format", "json").stdout),
        "order csv": unquoted(rows(run(program, "order", str(folder), "--format", "csv").stdout)),
        "book": json.loads(run(program, "level", str(folder), "--book", "--format", "json").stdout),
        "screen": " ".join(screen.stdout.split()),
        "status": screen.returncode,
        "files": files,
        "written": written,
    }


def changed(value):
    """Gives another value of a cell."""
    if value is None:
        return "x"
    return value + 1 if isinstance(value, (int, float)) else f"{value}x"


def selftest(tables, answers):
    """Changes a cell in every column of every sheet, one filled and one blank; gives how many, and those not seen."""
    tried, unseen = 0, []
    for name, table in tables.items():
        for head in table.heads:
            cells = [row for row in table.rows if row[head][0] is not None][:1]
            cells += [row for row in table.rows if row[head][0] is None][:1]
            for row in cells:
                kept = row[head]
                row[head] = (changed(kept[0]), kept[1])
                tried += 1
                if not compare(tables, answers):
                    unseen.append(f"{name} {head}: {kept[0]!r} made {row[head][0]!r}")
                row[head] = kept
            numbers = [row for row in table.rows if isinstance(row[head][0], (int, float)) and row[head][1] == "# ??/??"][:1]
            for row in numbers:
                # a format that would hide the finer part
                kept = row[head]
                row[head] = (kept[0] + 1 / 128, kept[1])
                tried += 1
                if not compare(tables, answers):
                    unseen.append(f"{name} {head}: {kept[0]!r} a little more")
                row[head] = kept
    return tried, unseen


def inputs(program, openpyxl):
    """Writes the walk of a demo job with openpyxl: read like the CSV file, and refused where a cell is not a reading."""
    import datetime

    faults = Faults()
    source = DEMO / "tractor-shed"
    rows = list(csv.reader((source / "walk.csv").open(newline="")))
    low = rows[0].index("low")
    traps = {
        "as it is": (None, None, None),
        "a date": (datetime.date(2026, 1, 8), "General", "`2026-01-08`: this is a date"),
        "a formula": ("=2+1/2", "General", "this formula has no value that a spreadsheet calculated"),
        "a percentage": (0.025, "0%", "the number format `0%` shows it as something else"),
        "a third": (1 / 3, "0.00", "this has more decimals than any measurement"),
    }
    for name, (value, number_format, told) in traps.items():
        book = openpyxl.Workbook()
        sheet = book.active
        sheet.title = "Walk"
        for number, row in enumerate(rows, 1):
            for column, cell in enumerate(row, 1):
                found = re.fullmatch(r"\d+\.\d+", cell)
                sheet.cell(number, column, float(cell) if found else cell)
        if told:
            cell = sheet.cell(3, low + 1, value)
            if number_format != "General":
                cell.number_format = number_format
        with tempfile.TemporaryDirectory() as folder:
            folder = pathlib.Path(folder)
            job = (source / "job.toml").read_text().replace("walk.csv", "book.xlsx#Walk")
            (folder / "job.toml").write_text(job)
            book.save(folder / "book.xlsx")
            ran = subprocess.run([program, "check", str(folder), "--format", "json"], capture_output=True, text=True)
            if told:
                faults.same(f"{name}: exit status", ran.returncode, 2)
                address = f"error: book.xlsx: Walk!{cell.coordinate}: "
                faults.true(name, address in ran.stderr and told in ran.stderr, ran.stderr)
                faults.true(name, ran.stderr.endswith("1 fault; nothing was written\n"), ran.stderr)
            else:
                wanted = json.loads(run(program, "check", str(source), "--format", "json").stdout)
                faults.same(f"{name}: answer", json.loads(ran.stdout or "null"), wanted)
    return [f"read from openpyxl: {fault}" for fault in faults.found]


def main():
    parser = argparse.ArgumentParser(description="Compares workbooks with the other formats.")
    parser.add_argument("program")
    parser.add_argument("--packages", help="a folder that holds openpyxl")
    parser.add_argument("--selftest", action="store_true", help="change cells: the comparison must see each")
    given = parser.parse_args()
    if given.packages:
        sys.path.insert(0, given.packages)
    import openpyxl

    wrong, cells, tried = inputs(given.program, openpyxl), 0, 0
    for name in JOBS:
        with tempfile.TemporaryDirectory() as temporary:
            folder = folder_of(name, temporary)
            answers = answers_of(given.program, folder)
            for command, opens_at in (("check", "Columns"), ("hardware", "Hardware"), ("order", "Order")):
                path = pathlib.Path(temporary) / f"{command}.xlsx"
                run(given.program, command, str(folder), "-o", str(path))
                book = openpyxl.load_workbook(path)
                tables = {sheet.title: Table(sheet) for sheet in book}
                found = look(book, answers, opens_at) + compare(tables, answers)
                wrong += [f"{name} {command}: {fault}" for fault in found]
                cells += sum(len(row) for table in tables.values() for row in table.rows)
            if given.selftest:
                count, unseen = selftest(tables, answers)
                tried += count
                wrong += [f"{name}: not seen: {fault}" for fault in unseen]
    for fault in wrong[:50]:
        print(fault)
    if wrong:
        print(f"{len(wrong)} faults")
        sys.exit(1)
    if given.selftest:
        print(f"workbooks: each of {tried} changed cells was seen")
    else:
        print(f"workbooks: {cells} cells of {len(JOBS)} jobs are those of the other formats, read back with openpyxl {openpyxl.__version__}")


main()
