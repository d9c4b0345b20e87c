//! Small jobs whose lengths are all whole nanometres, so that an oracle needs nothing of the program.
#![allow(dead_code, reason = "each test file uses its own part")]

pub(crate) mod any;
pub(crate) mod bounds;
pub(crate) mod fewest;
pub(crate) mod job;
pub(crate) mod options;
pub(crate) mod proven;

/// A thirty-second of an inch.
pub(crate) const UNIT: i64 = 793_750;
/// A foot.
pub(crate) const FOOT: i64 = 304_800_000;

/// Least, nominal and most of a part.
pub(crate) type Extent = [i64; 3];

/// A job.
#[derive(Clone, Debug)]
pub(crate) struct Case {
    /// The columns in job order.
    pub(crate) columns: Vec<Column>,
    /// The lines.
    pub(crate) lines: Vec<Line>,
    /// Whether elevations are absolute; otherwise 0 is the highest pad.
    pub(crate) absolute: bool,
    /// The design seat of all columns without their own.
    pub(crate) seat: Option<i64>,
    /// The limits of differences.
    pub(crate) limits: Limits,
    /// The shims.
    pub(crate) shims: Shims,
    /// Beds of grout: least, most, step.
    pub(crate) grout: Option<[i64; 3]>,
    /// Grinding: most, step.
    pub(crate) grind: Option<[i64; 2]>,
    /// What stands on every rod.
    pub(crate) parts: Parts,
    /// Whether the plan keeps what is desired.
    pub(crate) desired: bool,
}

/// A column.
#[derive(Clone, Debug)]
pub(crate) struct Column {
    /// Its mark.
    pub(crate) mark: String,
    /// The elevation of its pad as it is read; none where it is not.
    pub(crate) read: Option<i64>,
    /// Its own design seat.
    pub(crate) seat: Option<i64>,
    /// The bed of grout the drawings have under its plate; 0 is none.
    pub(crate) bed: i64,
    /// The low and the high rod.
    pub(crate) rods: Vec<Rod>,
}

/// A measured rod.
#[derive(Clone, Debug)]
pub(crate) struct Rod {
    /// How far it stands above the pad.
    pub(crate) projection: i64,
    /// Its full thread, where measured.
    pub(crate) thread: Option<i64>,
    /// Whether it is bent.
    pub(crate) bent: bool,
}

/// A line.
#[derive(Clone, Debug)]
pub(crate) struct Line {
    /// Whether it is a wall.
    pub(crate) wall: bool,
    /// Its columns in order.
    pub(crate) columns: Vec<usize>,
    /// The distances between them.
    pub(crate) spacing: Vec<i64>,
    /// Its own limit of neighbours.
    pub(crate) accept: Option<i64>,
}

/// A limit: what is accepted, and what is desired where that is said.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Limit {
    /// What is accepted.
    pub(crate) accept: i64,
    /// What is desired.
    pub(crate) desired: Option<i64>,
}

/// The limits of differences; what is absent does not apply.
#[derive(Clone, Debug)]
pub(crate) struct Limits {
    /// Next columns on a line.
    pub(crate) neighbours: Option<Limit>,
    /// High to low over a stretch of wall.
    pub(crate) wall: Option<Limit>,
    /// The stretch; none is the whole wall.
    pub(crate) stretch: Option<i64>,
    /// High to low over all columns.
    pub(crate) building: Option<Limit>,
    /// From the design seat, where elevations are absolute.
    pub(crate) design: Option<Limit>,
}

/// The shims that can be had.
#[derive(Clone, Debug)]
pub(crate) struct Shims {
    /// Their nominal thicknesses.
    pub(crate) thicknesses: Vec<i64>,
    /// What one piece may be thinner and thicker; none is the catalog's series of plates in millimetres.
    pub(crate) tolerance: Option<[i64; 2]>,
    /// Most pieces of a stack.
    pub(crate) pieces: usize,
    /// Highest stack without asking.
    pub(crate) most: Option<i64>,
    /// Highest stack at all.
    pub(crate) tall: Option<i64>,
}

/// What stands on every rod, and what is wanted there.
#[derive(Clone, Debug)]
pub(crate) struct Parts {
    /// The plate.
    pub(crate) plate: Extent,
    /// The washer, and every one that may be added.
    pub(crate) washer: Extent,
    /// The nut.
    pub(crate) nut: Extent,
    /// Thread wanted beyond the nut.
    pub(crate) beyond: i64,
    /// Clear thread to remain under the nut.
    pub(crate) clear: i64,
    /// Most washers that may be added.
    pub(crate) extra: i64,
    /// What a projection is good to.
    pub(crate) tape: i64,
}

impl Case {
    /// Gives the elevation of a pad on the datum.
    pub(crate) fn pad(&self, column: usize) -> Option<i64> {
        let highest = self.columns.iter().filter_map(|column| column.read).max()?;
        let zero = if self.absolute { 0 } else { highest };
        Some(self.columns[column].read? - zero)
    }

    /// Gives the design seat of a column, 0 where there is none.
    pub(crate) fn design(&self, column: usize) -> i64 {
        self.columns[column].seat.or(self.seat).unwrap_or(0)
    }

    /// Gives how far a pad stands above its design seat.
    pub(crate) fn departure(&self, column: usize) -> Option<i64> {
        Some(self.pad(column)? - self.design(column))
    }

    /// Lists the columns whose pads are measured.
    pub(crate) fn measured(&self) -> Vec<usize> {
        (0..self.columns.len()).filter(|&column| self.columns[column].read.is_some()).collect()
    }

    /// Tells whether a column is held against a design seat.
    pub(crate) fn has_design(&self, column: usize) -> bool {
        self.absolute && self.columns[column].seat.or(self.seat).is_some()
    }

    /// Gives what a limit comes to in the plan: what is desired where that is kept, never more than is accepted.
    pub(crate) fn kept(&self, limit: Limit) -> i64 {
        let desired = limit.desired.filter(|_| self.desired);
        desired.map_or(limit.accept, |desired| desired.min(limit.accept))
    }

    /// Gives the limit of neighbours on a line.
    pub(crate) fn neighbours(&self, line: &Line) -> Option<i64> {
        let accept = line.accept.or(self.limits.neighbours.map(|limit| limit.accept))?;
        let desired = self.limits.neighbours.and_then(|limit| limit.desired);
        Some(self.kept(Limit { accept, desired }))
    }
}
