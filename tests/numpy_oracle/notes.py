"""What is known of invented level notes: lengths are whole nanometres throughout."""

from dataclasses import dataclass, field

MM = 1_000_000
M = 1_000_000_000
UNITS = {"in": 25_400_000, "ft": 304_800_000, "mm": MM, "m": M}
# readings and sight lengths are written in whole steps, which are exact decimals of their unit
READ_IN = {"in": 396_875, "ft": 304_800, "mm": 100_000, "m": 100_000}
TAPED_IN = {"in": 25_400_000, "ft": 30_480_000, "mm": 10 * MM, "m": 10 * MM}


@dataclass
class Instrument:
    name: str
    plus_minus: int | None = None
    per_sight: tuple | None = None  # (rise, run), like every slope
    slope: object = None  # "free" or (rise, run)
    slope_plus_minus: tuple | None = None
    pegs: list = field(default_factory=list)  # ((a, to_a, b, to_b), (a, to_a, b, to_b))
    tilt: object = None  # "free" or (rise, run)

    def finds_slope(self):
        return self.slope is not None or bool(self.pegs)

    def needs_length(self):
        return self.finds_slope() or self.per_sight is not None


@dataclass
class Setup:
    name: str
    instrument: str | None = None
    at: tuple | None = None
    tilt: object = None
    turned: int = 0


@dataclass
class Sight:
    setup: str
    point: str
    reading: int
    distance: int | None = None
    kind: str = ""
    spot: str = ""


@dataclass
class Elevation:
    point: str
    elevation: int
    plus_minus: int | None = None


@dataclass
class Difference:
    start: str
    end: str
    difference: int
    plus_minus: int | None = None


@dataclass
class Benchmark:
    point: str
    elevation: int
    plus_minus: int | None = None
    at: tuple | None = None


@dataclass
class Job:
    name: str
    units: str = "mm"
    levels_units: str = "m"
    sense: str = "rod"
    plus_minus: int | None = None
    columns: dict = field(default_factory=dict)  # mark: (x, y) or None
    instruments: list = field(default_factory=list)
    setups: dict = field(default_factory=dict)
    sights: list = field(default_factory=list)
    elevations: list = field(default_factory=list)
    differences: list = field(default_factory=list)
    benchmarks: list = field(default_factory=list)

    def good_to(self):
        """What a reading is good to where nothing else is said: 1/16 in or 1.5 mm by default."""
        if self.plus_minus is not None:
            return self.plus_minus
        return 1_587_500 if self.units == "in" else 1_500_000

    def instrument(self, setup):
        """A setup's own instrument, or the only one."""
        own = self.setups[setup].instrument
        if own is None and len(self.instruments) == 1:
            return self.instruments[0]
        return next((it for it in self.instruments if it.name == own), None)

    def positions(self):
        at = {it.point: it.at for it in self.benchmarks if it.at}
        at.update((mark, at) for mark, at in self.columns.items() if at)
        return at

    def is_absolute(self):
        return bool(self.benchmarks or self.elevations)
