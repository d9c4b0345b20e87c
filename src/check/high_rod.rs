//! A rod that stands far too high: perhaps the wrong rod, perhaps too little of it in the concrete.

use super::case::{Case, ColumnCase};
use super::rules::top_of_rod;
use crate::catalog::{Authority, Standing};
use crate::length::Length;
use crate::model::{RodLabel, Units};

/// A rod that stands too high, and by which measure.
#[derive(Clone, Debug)]
pub struct HighRod {
    /// Which rod.
    pub rod: RodLabel,
    /// Its top above its design and the most allowed there, where that is broken.
    pub top: Option<(Length, Length, Authority)>,
    /// Its projection above the drawing's and the most before it is asked about, where that is broken.
    pub projection: Option<(Length, Length, Authority)>,
}

/// Gives the rods of a column whose tops or projections are far above the drawing's.
#[must_use]
pub fn high_rods(case: &Case<'_>, column: &ColumnCase) -> Vec<HighRod> {
    let drawn = case.base(column.index).rods.projection;
    let most = most_above_drawing(case.job.units);
    let found = column.rods.iter().map(|rod| {
        let top = top_of_rod(case, column, rod).filter(|(off, most, _)| off > most);
        let above = rod.projection.zip(drawn).map(|(projection, drawn)| projection - drawn);
        let projection = above.filter(|above| *above > most).map(|above| (above, most, house_rule()));
        HighRod { rod: rod.label, top, projection }
    });
    found.filter(|rod| rod.top.is_some() || rod.projection.is_some()).collect()
}

/// Gives how far a projection may be above the drawing's before it is asked about: 1 in, or 25 mm.
fn most_above_drawing(units: Units) -> Length {
    match units {
        Units::Inch => Length::from_nm(25_400_000),
        Units::Millimetre => Length::from_nm(25_000_000),
    }
}

fn house_rule() -> Authority {
    Authority::new(
        Standing::HouseRule,
        "a rod is asked about where it stands more than 1 in (25 mm) above the drawing's projection; AISC Design Guide 1, \
         2nd ed., 2.11.3, as quoted by one second party, asks whether the right rod was used but names no figure",
    )
}
