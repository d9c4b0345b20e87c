"""A job as plain data, all lengths whole nanometres."""

from dataclasses import dataclass, field

INCH = 25_400_000
MILLIMETRE = 1_000_000
THIRTY_SECOND = INCH // 32


@dataclass(frozen=True)
class Part:
    """The least, nominal and most of a part."""

    least: int
    nominal: int
    most: int


@dataclass
class Base:
    mark: str
    diameter: str
    plate: Part
    washers: list
    nuts: list
    beyond: int
    count: int = 4
    bed: int | None = None
    """The designed bed of grout; None where the plate sits on the pad or on shims."""


@dataclass
class Rod:
    number: int
    projection: int | None
    thread: int | None = None
    sound: bool = True


@dataclass
class Column:
    mark: str
    base: int
    pad: int | None
    """The elevation of the pad; None where it was not read."""
    seat: int | None
    """Its own design seat; None where the job's holds."""
    rods: list = field(default_factory=list)


@dataclass
class Line:
    name: str
    kind: str
    columns: list
    spacing: int
    accept: int | None = None


@dataclass
class Limit:
    """What is accepted and what is desired; a desired value that is looser than accept does not count."""

    accept: int
    desired: int


@dataclass
class Steps:
    """Grout beds or grinding depths: from the least to the most in steps."""

    least: int
    most: int
    step: int


@dataclass
class Job:
    name: str
    units: str
    absolute: bool
    seat: int | None
    columns: list
    bases: list
    lines: list
    shims: list
    pieces: int
    shim_most: int
    shim_tall: int
    grout: Steps | None
    grind: Steps | None
    neighbours: Limit | None
    wall: Limit | None
    wall_length: int
    building: Limit | None
    design: Limit | None
    clear: int
    extra: int
    rods_plus_minus: int
    sense: str = "rod"
    to: str = "accept"

    def design_seat(self, column):
        """A column's own, else the job's, else 0."""
        return (self.seat or 0) if column.seat is None else column.seat

    def departure(self, index):
        """How far a pad stands above its column's design seat; None where it was not read."""
        column = self.columns[index]
        return None if column.pad is None else column.pad - self.design_seat(column)

    def bed(self, index):
        """The designed bed under a column, or None."""
        return self.bases[self.columns[index].base].bed

    def measured(self):
        return [index for index, column in enumerate(self.columns) if column.pad is not None]
