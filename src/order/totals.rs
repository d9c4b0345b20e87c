//! What the hardware of all columns comes to.

use super::fastener::{Fastener, add};
use super::grout::sum_of_volumes;
use super::hardware::HardwareRow;
use super::mass::{Mass, sum_of_masses};
use crate::length::{Length, Volume};

/// The hardware of all columns; shims, grout and extra washers of those that the plan puts something under.
#[derive(Clone, Debug)]
pub struct HardwareTotals {
    /// The rods by size.
    pub rods: Vec<(String, u32)>,
    /// The nuts and washers that the drawings have.
    pub drawn: Vec<(Fastener, u32)>,
    /// The levelling nuts and the washers on them, under the plates, that the drawings have.
    pub under: Vec<(Fastener, u32)>,
    /// The washers added under nuts.
    pub extra: Vec<(Fastener, u32)>,
    /// The base plates.
    pub plates: Vec<(BasePlate, u32)>,
    /// The shim plates.
    pub pieces: u32,
    /// Their mass; none where the mass of one is not known.
    pub shim_mass: Option<Mass>,
    /// Columns set on packs whose bed is planned.
    pub on_packs: usize,
    /// The pieces of their packs; none where those of one are not known.
    pub pack_pieces: Option<u32>,
    /// Their mass; none where that of one is not known.
    pub pack_mass: Option<Mass>,
    /// Columns set on grout.
    pub grouted: usize,
    /// The grout under them, without waste; none where that under one is not known.
    pub grout: Option<Volume>,
    /// Columns that may be set.
    pub may_set: usize,
    /// Columns the plan puts nothing under yet: left to the engineer, or the pad not measured.
    pub not_planned: usize,
}

/// A base plate as it is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BasePlate {
    /// Its thickness.
    pub thickness: Length,
    /// Its two sides, where known.
    pub size: Option<[Length; 2]>,
}

/// Sums the hardware of all columns.
#[must_use]
pub fn totals(rows: &[HardwareRow]) -> HardwareTotals {
    let (mut rods, mut plates) = (Vec::new(), Vec::new());
    let (mut drawn, mut under, mut extra) = (Vec::new(), Vec::new(), Vec::new());
    for row in rows {
        add(&mut rods, row.rods.1.clone(), row.rods.0);
        add(&mut plates, BasePlate { thickness: row.plate, size: row.plate_size }, 1);
        for (part, count) in &row.drawn {
            add(&mut drawn, part.clone(), *count);
        }
        for (part, count) in &row.under {
            add(&mut under, part.clone(), *count);
        }
        if let Some((part, count)) = &row.extra {
            add(&mut extra, part.clone(), *count);
        }
    }
    let planned = || rows.iter().filter(|row| row.is_planned());
    let beds = || rows.iter().filter_map(|row| row.grout.as_ref());
    HardwareTotals {
        rods,
        drawn,
        under,
        extra,
        plates,
        pieces: planned().flat_map(|row| &row.shims).map(|(_, count)| count).sum(),
        shim_mass: sum_of_masses(planned().map(|row| row.shim_mass)),
        on_packs: rows.iter().filter(|row| row.packs.is_some()).count(),
        pack_pieces: rows.iter().try_fold(0_u32, |sum, row| {
            let here = row.pack_plates()?;
            Some(here.iter().fold(sum, |sum, (_, count)| sum.saturating_add(*count)))
        }),
        pack_mass: sum_of_masses(rows.iter().map(HardwareRow::pack_mass)),
        grouted: beds().count(),
        grout: sum_of_volumes(beds().map(|bed| bed.volume)),
        may_set: rows.iter().filter(|row| row.may_set).count(),
        not_planned: rows.len() - planned().count(),
    }
}
