//! The whole job.

use super::base::Base;
use super::column::Column;
use super::line::Line;
use super::loads::Concrete;
use super::raise::Raise;
use super::readings::Readings;
use super::supplies::Supplies;
use crate::catalog::{Extent, Limits, ShimPiece};
use crate::length::{Bare, Length, Unit};
use std::collections::BTreeMap;

/// A job, validated.
#[derive(Clone, Debug)]
pub struct Job {
    /// Its name.
    pub name: String,
    /// The units answers are written in.
    pub units: Units,
    /// Inch answers are written in parts of this (16, 32 or 64).
    pub fraction: i64,
    /// The limits in force.
    pub limits: LimitsInForce,
    /// Design elevation of the underside of base plates.
    pub seat: Option<Length>,
    /// The kinds of base.
    pub bases: Vec<Base>,
    /// The concrete under them.
    pub concrete: Concrete,
    /// The columns in job order.
    pub columns: Vec<Column>,
    /// The lines.
    pub lines: Vec<Line>,
    /// The shims that can be had.
    pub shims: ShimSupply,
    /// What is bought beside shims, and how many spares.
    pub supplies: Supplies,
    /// What was read with the level.
    pub readings: Readings,
    /// One projection is good to plus or minus this, at 95 %.
    pub rods_plus_minus: Length,
    /// Whether that figure is this program's default and not the job's.
    pub rods_plus_minus_assumed: bool,
    /// Who measured, when and with what, as written.
    pub measured: Vec<(&'static str, String)>,
    /// The files the job was read from, in order.
    pub files: Vec<String>,
}

/// The units of a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Units {
    /// Inches.
    Inch,
    /// Millimetres.
    Millimetre,
}

impl Units {
    /// Gives its symbol, as job files and JSON have it.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Inch => "in",
            Self::Millimetre => "mm",
        }
    }

    /// Gives what a bare number means: the job's unit, and no fractions of a millimetre.
    #[must_use]
    pub const fn bare(self) -> Bare {
        match self {
            Self::Inch => Bare::of(Unit::Inch),
            Self::Millimetre => Bare { number: Some(Unit::Millimetre), fraction: None },
        }
    }
}

/// The limit set of a job with the job's own values in it.
#[derive(Clone, Debug)]
pub struct LimitsInForce {
    /// The name of the set.
    pub name: String,
    /// What it is.
    pub title: String,
    /// Its tables.
    pub tables: Limits,
}

/// The shims that can be had.
#[derive(Clone, Debug)]
pub struct ShimSupply {
    /// The series, or none where the job lists thicknesses.
    pub series: Option<String>,
    /// The thicknesses, thickest first, each once.
    pub pieces: Vec<ShimPiece>,
    /// Most pieces of one stack.
    pub most_pieces: u32,
    /// The pieces on hand for the whole job, by thickness; none where all can be ordered.
    ///
    /// A thickness that is not listed is not on hand.
    pub stock: Option<BTreeMap<Length, u32>>,
}

impl ShimSupply {
    /// Gives how many pieces of a thickness are on hand; none where all can be ordered.
    #[must_use]
    pub fn on_hand(&self, thickness: Length) -> Option<u32> {
        self.stock.as_ref().map(|stock| stock.get(&thickness).copied().unwrap_or(0))
    }

    /// Sums a stack; a thickness that is not among the pieces counts as exact.
    #[must_use]
    pub fn raise_of(&self, stack: impl IntoIterator<Item = (Length, u32)>) -> Raise {
        let none = Raise::exact(Length::ZERO);
        stack.into_iter().fold(none, |sum, (thickness, count)| {
            let known = self.pieces.iter().find(|shim| shim.thickness.nominal == thickness);
            let one = known.map_or(Extent::exact(thickness), |shim| shim.thickness);
            let count = i64::from(count);
            Raise {
                nominal: sum.nominal + one.nominal * count,
                least: sum.least + one.least * count,
                most: sum.most + one.most * count,
            }
        })
    }
}

impl Job {
    /// Gives the base of a column.
    #[must_use]
    pub fn base_of(&self, column: &Column) -> &Base {
        &self.bases[column.base]
    }

    /// Gives where each point of the readings stands in plan, where known: on its column, or as its benchmark says.
    #[must_use]
    pub fn positions(&self) -> Vec<Option<[Length; 2]>> {
        let mut found = vec![None; self.readings.points.len()];
        let mut put = |point: usize, at: Option<[Length; 2]>| {
            if let (Some(place), Some(at)) = (found.get_mut(point), at) {
                *place = Some(at);
            }
        };
        for benchmark in &self.readings.benchmarks {
            put(benchmark.point, benchmark.at);
        }
        for column in &self.columns {
            if let Some(point) = column.point {
                put(point, column.at);
            }
        }
        for spot in &self.readings.spots {
            put(spot.point, self.columns.get(spot.column).and_then(|column| column.at));
        }
        found
    }

    /// Gives the elevation a column's pad departs from: its own seat, the job's, or 0.
    #[must_use]
    pub fn design_seat(&self, column: &Column) -> Length {
        column.seat.or(self.seat).unwrap_or(Length::ZERO)
    }
}
