"""Invented jobs whose plates have to be cut, with the plates as this script knows them."""

import random
from types import SimpleNamespace

MARKS = ["B1", "50%", "%%d", "^J A^", "\\U+0041", "<&>\"", "\u00c51 \u2300", "a/../b", "North wall, gate two", "CON", "-x", "\u5b89\u88c5", "b1"]
# held raises that one piece of the catalog makes: the raise as the command line has it, and in nanometres
RAISES = {"in": [("1/8", 3_175_000), ("1/4", 6_350_000)], "mm": [("3", 3_000_000), ("5", 5_000_000)]}
UNIT = {"in": 25_400_000 // 64, "mm": 1}


def decimal(nm, unit):
    """A length as a text of the job, exact in its unit."""
    return f"{nm // UNIT[unit]}/64" if unit == "in" else f"{nm // 1_000_000}.{nm % 1_000_000:06d}"


def plate(rng, unit):
    step = UNIT[unit]

    def some(low, high):
        return rng.randint(low * 1_000_000 // step, high * 1_000_000 // step) * step

    hole = some(26, 40)
    # a narrow one now and then: its mark runs up, or finds no room
    size = [some(90, 110), some(120, 600)] if rng.random() < 0.2 else [some(150, 600) for _ in range(2)]
    pattern = [some(hole // 1_000_000 + 2, side // 1_000_000 - hole // 1_000_000 - 2) for side in size]
    return SimpleNamespace(size=size, hole=hole, pattern=pattern, count=4)


def job(seed):
    """A job of two to five bases, two columns each; the second base may be cut like the first, the last may not be known."""
    rng = random.Random(seed)
    unit = "in" if seed % 2 else "mm"
    marks = rng.sample(MARKS, rng.randint(2, 5))
    bases = []
    for at, mark in enumerate(marks):
        base = plate(rng, unit)
        if at == 1 and rng.random() < 0.4:
            base = SimpleNamespace(**vars(bases[0]))
        base.mark = mark
        base.fault = None
        if at > 1 and rng.random() < 0.4:
            base.fault = rng.choice(["hole", "count", "edge"])
            if base.fault == "edge":
                base.pattern = [base.size[0] - base.hole, base.pattern[1]]
            base.count = 6 if base.fault == "count" else 4
        bases.append(base)
    columns = []
    for at, base in enumerate(bases):
        for number in range(2):
            text, raise_nm = rng.choice(RAISES[unit])
            columns.append(SimpleNamespace(mark=f"C{at}{number}", base=base, text=text, raise_nm=raise_nm))
    return SimpleNamespace(unit=unit, bases=bases, columns=columns, seed=seed)


def quoted(text):
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def write(job, folder):
    """Writes the job and gives the arguments that hold its columns where they need shims."""
    folder.mkdir(parents=True, exist_ok=True)
    unit = job.unit
    lines = ["[job]", f'name = "Cut {job.seed} (invented)"', f'units = "{unit}"']
    lines += ['limits = "low-rise"' if unit == "in" else 'limits = "en-1090"', 'seat = "0"', "[measure]", 'walk = "walk.csv"', f'levels_units = "{unit}"']
    parts = 'washers = ["wide"]\nnuts = ["heavy-hex"]' if unit == "in" else 'washers = ["iso-7089"]\nnuts = ["iso-4032"]'
    rod, thick = ('"3/4"', '"1/2"') if unit == "in" else ('"M24"', '"25"')
    for base in job.bases:
        sides = ", ".join(f'"{decimal(side, unit)}"' for side in base.size)
        apart = ", ".join(f'"{decimal(side, unit)}"' for side in base.pattern)
        holes = "" if base.fault == "hole" else f', holes = "{decimal(base.hole, unit)}"'
        lines += ["[[base]]", f"mark = {quoted(base.mark)}"]
        lines += [f"plate = {{ size = [{sides}], thickness = {thick}{holes} }}"]
        lines += [f"rods = {{ diameter = {rod}, count = {base.count}, pattern = [{apart}] }}", parts]
    for column in job.columns:
        lines += ["[[column]]", f'mark = "{column.mark}"', f"base = {quoted(column.base.mark)}"]
    marks = ", ".join(f'"{column.mark}"' for column in job.columns)
    lines += ["[[line]]", 'name = "A"', 'kind = "frame"', f"columns = [{marks}]"]
    lines += ['spacing = "20\'"' if unit == "in" else 'spacing = "6 m"']
    lines += ["[shims]", 'catalog = "plate"' if unit == "in" else 'catalog = "plate-mm"']
    (folder / "job.toml").write_text("\n".join(lines) + "\n", encoding="utf-8")
    reading = "50" if unit == "in" else "1000"
    rod = "3" if unit == "in" else "90"
    walk = "".join(f"{column.mark},{reading},{rod},{rod}\n" for column in job.columns)
    (folder / "walk.csv").write_text(f"mark,reading,low,high\n{walk}", encoding="utf-8")
    return [f"--hold-at={column.mark}={column.text}" for column in job.columns]


def wanted(job):
    """The kinds of plates, each once: their bases, thickness, pieces of the plan, and geometry; none where it cannot be drawn."""
    kinds = []
    for base in job.bases:
        for column in (it for it in job.columns if it.base is base):
            shape = None
            if base.fault is None:
                first = [(side - apart) // 2 for side, apart in zip(base.size, base.pattern)]
                holes = {(first[0] + dx * base.pattern[0], first[1] + dy * base.pattern[1]) for dx in (0, 1) for dy in (0, 1)}
                shape = (tuple(base.size), frozenset(holes), base.hole)
            # what is the same wherever it goes is one kind; what reaches an edge is known, and still the same
            known = base.fault in (None, "edge")
            key = (tuple(base.size), tuple(base.pattern), base.hole, base.count) if known else base.mark
            same = [it for it in kinds if it.key == key and it.thickness == column.raise_nm]
            if same:
                same[0].pieces += 1
                if base.mark not in same[0].bases:
                    same[0].bases.append(base.mark)
            else:
                kinds.append(
                    SimpleNamespace(key=key, thickness=column.raise_nm, bases=[base.mark], pieces=1, shape=shape)
                )
    return kinds
