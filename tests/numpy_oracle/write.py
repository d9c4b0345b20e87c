"""Writes invented level notes as a job folder: job.toml and its CSV files."""

import pathlib
from decimal import Decimal

from numpy_oracle.notes import UNITS


def length(nm):
    sign, size = ("-" if nm < 0 else ""), abs(nm)
    return f'"{sign}{size // 1_000_000}.{size % 1_000_000:06} mm"'


def pair(lengths):
    return f"[{', '.join(length(it) for it in lengths)}]"


def bare(nm, unit):
    """Writes a bare decimal of a unit; the unit goes into it exactly."""
    if nm is None:
        return ""
    value = Decimal(nm) / Decimal(UNITS[unit])
    assert value * UNITS[unit] == nm, f"{nm} nm is no short decimal of {unit}"
    return f"{value:f}"


def folder(job, path):
    path = pathlib.Path(path)
    path.mkdir(parents=True, exist_ok=True)
    (path / "job.toml").write_text("\n".join(job_toml(job)) + "\n", encoding="utf-8")
    cell = lambda nm: bare(nm, job.levels_units)
    sheet = lambda name, rows: (path / name).write_text("\n".join(rows) + "\n", encoding="utf-8")
    place = lambda at: ",".join(length(it).strip('"') for it in at) if at else ","
    sheet("columns.csv", ["mark,base,x,y"] + [f"{mark},B1,{place(at)}" for mark, at in job.columns.items()])
    if job.sights:
        row = lambda it: (it.setup, it.point, it.kind, cell(it.reading), cell(it.distance), it.spot)
        rows = ["setup,point,sight,reading,distance,spot"] + [",".join(row(it)) for it in job.sights]
        sheet("levels.csv", rows)
    if job.elevations:
        row = lambda it: (it.point, cell(it.elevation), cell(it.plus_minus))
        sheet("elevations.csv", ["point,elevation,plus_minus"] + [",".join(row(it)) for it in job.elevations])
    if job.differences:
        row = lambda it: (it.start, it.end, cell(it.difference), cell(it.plus_minus))
        rows = ["from,to,difference,plus_minus"] + [",".join(row(it)) for it in job.differences]
        sheet("differences.csv", rows)
    return path


def job_toml(job):
    out = ["# Invented, generated: no such building, no such readings.", "[job]", f'name = "{job.name}"']
    out += [f'units = "{job.units}"', 'limits = "low-rise"', 'columns = "columns.csv"', "", "[measure]"]
    for name in ("sights", "elevations", "differences"):
        if getattr(job, name):
            name = "levels" if name == "sights" else name
            out += [f'{name} = "{name}.csv"']
    out += [f'levels_units = "{job.levels_units}"', f'sense = "{job.sense}"']
    out += [f"levels_plus_minus = {length(job.plus_minus)}"] if job.plus_minus is not None else []
    for it in job.benchmarks:
        out += ["", "[[benchmark]]", f'point = "{it.point}"', f"elevation = {length(it.elevation)}"]
        out += [f"plus_minus = {length(it.plus_minus)}"] if it.plus_minus is not None else []
        out += [f"at = {pair(it.at)}"] if it.at else []
    for it in job.instruments:
        out += ["", *instrument(it, job.levels_units)]
    for it in job.setups.values():
        out += ["", "[[setup]]", f'name = "{it.name}"'] + ([f'instrument = "{it.instrument}"'] if it.instrument else [])
        out += [f"at = {pair(it.at)}"] if it.at else []
        out += tilt(it.tilt)
        out += [f"turned = {it.turned}"] if it.turned else []
    out += ["", "[[base]]", 'mark = "B1"', 'plate = { thickness = "1/2 in", tolerance = ["0 in", "0 in"] }']
    out += ['rods = { diameter = "3/4 in", count = 4 }']
    out += ['washers = [{ thickness = ["1/4 in", "1/4 in", "1/4 in"] }]']
    out += ['nuts = [{ height = ["3/4 in", "3/4 in", "3/4 in"] }]', "", "[shims]", 'thicknesses = ["1/8 in"]']
    return out


def instrument(it, unit):
    out = ["[[instrument]]", f'name = "{it.name}"']
    out += [f"plus_minus = {length(it.plus_minus)}"] if it.plus_minus is not None else []
    out += [f"per_sight = {pair(it.per_sight)}"] if it.per_sight else []
    if it.slope is not None:
        out += ['slope = "free"' if it.slope == "free" else f"slope = {pair(it.slope)}"]
    out += [f"slope_plus_minus = {pair(it.slope_plus_minus)}"] if it.slope_plus_minus else []
    out += tilt(it.tilt)
    # bare numbers in text take the unit of the readings
    keys = ("a", "to_a", "b", "to_b")
    peg = lambda place: ", ".join(f'{key} = "{bare(nm, unit)}"' for key, nm in zip(keys, place))
    for first, second in it.pegs:
        out += ["[[instrument.peg]]", f"first = {{ {peg(first)} }}", f"second = {{ {peg(second)} }}"]
    return out


def tilt(value):
    if value is None:
        return []
    return ['tilt = "free"' if value == "free" else f"tilt = {pair(value)}"]
