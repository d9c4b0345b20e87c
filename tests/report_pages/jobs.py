"""Jobs that are hard on a report: names that hold markup, 200 columns, long lines, thick stacks. All are invented."""

import random

NASTY = "<script>a(1)</script>\"'&amp;<img src=x onerror=a()>"
# turns the direction of reading, and letters that run from right to left
# what turns the text round is refused in a mark, and kept in what is only told
TURNED = "\u202eA\u200f \u05d0\u05d1\u05d2 \u0639\u0645\u0648\u062f \u67f1\u5b50 \U0001f3d7"
OTHER_WAY = "A \u05d0\u05d1\u05d2 \u0639\u0645\u0648\u062f \u67f1\u5b50 \U0001f3d7"


def quoted(text):
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def cell(text):
    return '"' + text.replace('"', '""') + '"'


BASE = """
[[base]]
mark = {mark}
plate = {{ size = ["10", "14"], thickness = "1/2", holes = "15/16" }}
rods = {{ diameter = "3/4", count = 4, pattern = ["4", "8"], projection = "2-1/2", thread = "4" }}
washers = ["wide"]
nuts = ["heavy-hex"]
"""


def nasty(folder):
    """Every name of a job holds markup, quotes, or what turns the text round; some are very long."""
    marks = ["A1" + NASTY, "A2 " + OTHER_WAY, "A3" + "long" * 14, "A4"]
    job = f"""
[job]
name = {quoted("Job " + NASTY + TURNED)}
units = "in"
limits = "low-rise"

[measure]
walk = "walk.csv"
levels_units = "ft"
by = {quoted(NASTY)}
date = {quoted("2026-01-02 " + NASTY)}
instrument = {quoted(TURNED)}
{BASE.format(mark=quoted("B " + NASTY))}
[[line]]
name = {quoted("L" + NASTY)}
kind = "wall"
columns = [{", ".join(quoted(mark) for mark in marks)}]
spacing = "20'"

[[line]]
name = {quoted(OTHER_WAY)}
kind = "frame"
columns = [{", ".join(quoted(mark) for mark in reversed(marks[:3]))}]

[shims]
catalog = "plate"
"""
    rows = [
        (marks[0], "4.52", "2-1/2", "2-5/8", NASTY, NASTY),
        (marks[1], "4.55", "", "2-1/2", "", "# " + NASTY),
        (marks[2], "4.58", "2-1/4", "2-5/8", TURNED, ""),
        (marks[3], "4.9", "1", "1", "", TURNED),
    ]
    walk = "mark,reading,low,high,condition,note\n"
    walk += "".join(",".join(cell(item) for item in row) + "\n" for row in rows)
    write(folder, {"job.toml": job, "walk.csv": walk})


def write(folder, files):
    folder.mkdir(parents=True)
    for name, text in files.items():
        (folder / name).write_text(text, encoding="utf-8")


def grid(folder, along, across, seed, gap=20, placed=True, units="in"):
    """A hall of so many columns, some with short, missing or bent rods and some pads not read."""
    dice = random.Random(seed)
    step = 1 / 384 if units == "in" else 0.0008
    unit, by = ("in", "'") if units == "in" else ("mm", " m")
    columns, elevations, rods, lines = [], [], [], []
    marks = [[f"{chr(65 + row % 26)}{row // 26 or ''}{place + 1}" for place in range(along)] for row in range(across)]
    for row in range(across):
        for place in range(along):
            mark = marks[row][place]
            at = f"{place * gap}{by},{row * gap}{by}" if placed else ","
            columns.append(f"{mark},B1,{at}")
            fall = dice.gauss(0, 4) * step
            if dice.random() > 0.02:
                elevations.append(f"{mark},{100 + fall:.4f}")
            low = "2-1/2" if units == "in" else "64"
            if dice.random() < 0.06:
                low = "1-1/8" if units == "in" else "30"
            note = "bent" if dice.random() < 0.03 else ""
            rods.append(f"{mark},low,{low if dice.random() > 0.03 else ''},{note}")
            rods.append(f"{mark},high,{'2-3/4' if units == 'in' else '70'},")
    if not placed:
        spacing = f'spacing = "{gap}{by}"'
        for row in range(across):
            names = ", ".join(f'"{mark}"' for mark in marks[row])
            lines.append(f'[[line]]\nname = "{chr(65 + row)}"\nkind = "wall"\ncolumns = [{names}]\n{spacing}\n')
    seat = "100'" if units == "in" else "100 m"
    job = f"""
[job]
name = "Hall of {along} by {across} (invented)"
units = "{unit}"
limits = "low-rise"
seat = "{seat}"
columns = "columns.csv"

[measure]
elevations = "asbuilt.csv"
levels_units = "{'ft' if units == 'in' else 'm'}"
rods = "rods.csv"
{base(units)}
{chr(10).join(lines)}
[shims]
catalog = "{'plate' if units == 'in' else 'plate-mm'}"
"""
    files = {
        "job.toml": job,
        "columns.csv": "mark,base,x,y\n" + "\n".join(columns) + "\n",
        "asbuilt.csv": "point,elevation\n" + "\n".join(elevations) + "\n",
        "rods.csv": "column,rod,projection,condition\n" + "\n".join(rods) + "\n",
    }
    write(folder, files)


def base(units):
    if units == "in":
        return BASE.format(mark='"B1"')
    return """
[[base]]
mark = "B1"
plate = { size = ["300", "400"], thickness = "12", holes = "24" }
rods = { diameter = "M20", count = 4, pattern = ["160", "260"], projection = "64", thread = "90" }
washers = ["iso-7089"]
nuts = ["iso-4032"]
"""


def every(folder):
    """Writes all of them and gives their folders."""
    nasty(folder / "nasty")
    grid(folder / "hall-200", 20, 10, 1)
    grid(folder / "long-200-mm", 100, 2, 2, gap=5, units="mm")
    grid(folder / "rows-60", 30, 2, 3, placed=False)
    return [folder / name for name in ("nasty", "hall-200", "long-200-mm", "rows-60")]
