"""Writes a job as a job folder: job.toml and its CSV files."""

import pathlib

from highs_oracle.job import THIRTY_SECOND


def length(nm, units):
    """Writes a length exactly: in fractions where they are exact, in millimetres otherwise."""
    sign, size = ("-" if nm < 0 else ""), abs(nm)
    if units == "in" and size % THIRTY_SECOND == 0:
        whole, part = divmod(size // THIRTY_SECOND, 32)
        if part == 0:
            return f"{sign}{whole} in"
        return f"{sign}{whole}-{part}/32 in" if whole else f"{sign}{part}/32 in"
    return f"{sign}{size // 1_000_000}.{size % 1_000_000:06} mm"


def folder(job, path):
    path = pathlib.Path(path)
    path.mkdir(parents=True, exist_ok=True)
    (path / "job.toml").write_text(job_toml(job), encoding="utf-8")
    text = lambda nm: "" if nm is None else length(nm, job.units)
    rows = ["mark,base,seat"]
    rows += [f"{it.mark},{job.bases[it.base].mark},{text(it.seat)}" for it in job.columns]
    (path / "columns.csv").write_text("\n".join(rows) + "\n", encoding="utf-8")
    read = [it for it in job.columns if it.pad is not None]
    if job.absolute:
        rows = ["point,elevation"] + [f"{it.mark},{text(it.pad)}" for it in read]
        (path / "elevations.csv").write_text("\n".join(rows) + "\n", encoding="utf-8")
    else:
        # one setup: a line of sight well above all pads, or readings as heights
        line = max(it.pad for it in read) + 48 * 32 * THIRTY_SECOND
        reading = lambda pad: line - pad if job.sense == "rod" else pad
        rows = ["point,reading"] + [f"{it.mark},{text(reading(it.pad))}" for it in read]
        (path / "levels.csv").write_text("\n".join(rows) + "\n", encoding="utf-8")
    rows = ["column,rod,projection,thread,condition"]
    for column in job.columns:
        for rod in column.rods:
            condition = "" if rod.sound else "bent"
            rows.append(f"{column.mark},{rod.number},{text(rod.projection)},{text(rod.thread)},{condition}")
    (path / "rods.csv").write_text("\n".join(rows) + "\n", encoding="utf-8")
    return path


def job_toml(job):
    text = lambda nm: '"' + length(nm, job.units) + '"'
    extent = lambda part: f"[{text(part.least)}, {text(part.nominal)}, {text(part.most)}]"
    deviation = lambda part: f"[{text(part.least - part.nominal)}, {text(part.most - part.nominal)}]"
    out = ["# An invented job, generated: no such building, no such readings.", "[job]"]
    out += [f'name = "{job.name}"', f'units = "{job.units}"']
    out += ['limits = "low-rise"', *([] if job.seat is None else [f"seat = {text(job.seat)}"])]
    out += ['columns = "columns.csv"', ""]
    out += ["[measure]", 'elevations = "elevations.csv"' if job.absolute else 'levels = "levels.csv"']
    out += ['rods = "rods.csv"', f'levels_units = "{job.units}"', f'sense = "{job.sense}"']
    out += [f"rods_plus_minus = {text(job.rods_plus_minus)}", ""]
    for base in job.bases:
        out += ["[[base]]", f'mark = "{base.mark}"']
        out += [f"plate = {{ thickness = {text(base.plate.nominal)}, tolerance = {deviation(base.plate)} }}"]
        out += [f'rods = {{ diameter = "{base.diameter}", count = {base.count} }}']
        out += [f"washers = [{', '.join(f'{{ thickness = {extent(it)} }}' for it in base.washers)}]"]
        out += [f"nuts = [{', '.join(f'{{ height = {extent(it)} }}' for it in base.nuts)}]"]
        out += [f"beyond = {text(base.beyond)}"] + ([] if base.bed is None else [f"bed = {text(base.bed)}"]) + [""]
    for line in job.lines:
        marks = ", ".join(f'"{job.columns[it].mark}"' for it in line.columns)
        out += ["[[line]]", f'name = "{line.name}"', f'kind = "{line.kind}"', f"columns = [{marks}]"]
        out += [f"spacing = {text(line.spacing)}"]
        out += [f"accept = {text(line.accept)}"] if line.accept is not None else []
        out += [""]
    out += ["[shims]", f"thicknesses = [{', '.join(text(it.nominal) for it in job.shims)}]"]
    # one tolerance for every piece
    out += [f"tolerance = {deviation(job.shims[0])}", f"pieces = {job.pieces}", ""]
    table = lambda name, **keys: limit_table(name, keys, text)
    out += ["[limits.engagement]", f"clear = {text(job.clear)}", f"extra = {job.extra}", ""]
    for name in ("neighbours", "building", "design", "wall"):
        limit = getattr(job, name)
        if limit is None:
            out += table(name, off=True)
        else:
            keys = {"accept": limit.accept, "desired": limit.desired}
            if name == "wall":
                keys["length"] = job.wall_length
            out += table(name, **keys)
    out += table("shim", most=job.shim_most, tall=job.shim_tall)
    for name in ("grout", "grind"):
        steps = getattr(job, name)
        if steps is None:
            out += table(name, off=True)
        else:
            keys = {"most": steps.most, "step": steps.step}
            out += table(name, **({"least": steps.least} if name == "grout" else {}), **keys)
    return "\n".join(out) + "\n"


def limit_table(name, keys, text):
    out = [f"[limits.{name}]"]
    for key, value in keys.items():
        out.append(f"{key} = {'true' if value is True else text(value)}")
    return out + [""]
