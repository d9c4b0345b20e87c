//! Holes and washers of anchor rods against published figures, the publication's numbers first.
//!
//! AISC Design Guide 1, 2nd ed., Table 2.3 (AISC Manual, 13th ed., Table 14-2): seen in a scan of the page and in printed
//! copies; the Manual itself was not opened.

#![allow(clippy::unwrap_used, reason = "a test may stop at once")]

mod small_job;

use rodreach::catalog::{Catalog, Extent, HoleRow, Holes};
use rodreach::check::Level;
use rodreach::length::Length;
use rodreach::model::Base;
use small_job::{Parts, base, catalog, job, judged, len, limit_set, row, told};

fn aisc(catalog: &Catalog) -> &Holes {
    catalog.holes.iter().find(|holes| holes.series.name == "aisc").unwrap()
}

fn at<'c>(catalog: &'c Catalog, rod: &str) -> &'c HoleRow {
    aisc(catalog).series.row(len(rod)).unwrap()
}

/// Half of hole less rod, worked out from Table 2.3.
#[test]
fn a_rod_may_stand_off_the_middle_of_its_hole_by_half_the_clearance() {
    let catalog = catalog();
    for (rod, play) in [("3/4", "9/32"), ("1", "13/32"), ("2", "5/8")] {
        assert_eq!(at(&catalog, rod).hole - len(rod), len(play) * 2, "{rod}");
    }
}

/// 2 x hole - rod: 3/4 in 1.875 <= 2, 1 in 2.625 <= 3, 1-1/2 in 3.125 <= 3-1/2; and every other row.
#[test]
fn every_washer_of_the_table_covers_its_hole_with_the_rod_at_the_edge() {
    let catalog = catalog();
    for (rod, covers, washer) in [("3/4", "1.875", "2"), ("1", "2.625", "3"), ("1-1/2", "3.125", "3-1/2")] {
        let row = at(&catalog, rod);
        assert_eq!((row.hole * 2 - len(rod), row.washer), (len(covers), len(washer)), "{rod}");
    }
    assert_eq!(aisc(&catalog).series.rows.len(), 8);
    for (rod, row) in &aisc(&catalog).series.rows {
        assert!(row.washer >= row.hole * 2 - *rod, "{rod:?}");
    }
}

/// AISC engineering FAQ 7.2.4 asks for hole + 1 in: 2.3125 > 2, 2.5625 > 2-1/2, 3.0625 > 3; this program keeps the table.
#[test]
fn three_washers_of_the_table_are_smaller_than_hole_and_an_inch() {
    let catalog = catalog();
    for (rod, wide, washer) in [("3/4", "2.3125", "2"), ("7/8", "2.5625", "2-1/2"), ("1-1/4", "3.0625", "3")]
    {
        let row = at(&catalog, rod);
        assert_eq!((row.hole + len("1"), row.washer), (len(wide), len(washer)), "{rod}");
        assert!(row.hole + len("1") > row.washer, "{rod}");
    }
}

/// A base with the table's own hole and washer at a rod.
fn table_base(catalog: &Catalog, rod: &str) -> Base {
    let mut base = base(&Parts {
        diameter: rod,
        pitch: row(&catalog.threads, "unc", rod).pitch,
        plate: "1",
        washer: "1/4",
        nut: len("47/64"),
    });
    let holes = aisc(catalog);
    base.hole_table = holes.series.row(len(rod)).cloned();
    base.plain_washer = holes.plain(len(rod)).cloned();
    let row = at(catalog, rod);
    base.plate.holes = Some(row.hole);
    base.washers[0].outer = Some(row.washer);
    base.washers[0].thickness = Extent::exact(row.thickness);
    base
}

fn level(catalog: &Catalog, base: Base, rule: &str) -> Option<Level> {
    told(&judged(&job(&limit_set(catalog, "low-rise"), base, &[len("6")]), rule))[0]
}

/// Table 2.3, every row: its own washer over its own hole is wide and thick enough, a nanometre less is not.
#[test]
fn the_rules_keep_every_row_of_the_table_to_the_nanometre() {
    let catalog = catalog();
    let rods = ["3/4", "7/8", "1", "1-1/4", "1-1/2", "1-3/4", "2", "2-1/2"];
    for rod in rods {
        let fits = table_base(&catalog, rod);
        assert_eq!(level(&catalog, fits.clone(), "washer-too-small"), None, "{rod}");
        assert_eq!(level(&catalog, fits.clone(), "washer-too-thin"), None, "{rod}");
        let nanometre = Length::from_nm(1);
        let mut small = fits.clone();
        small.washers[0].outer = small.washers[0].outer.map(|outer| outer - nanometre);
        assert_eq!(level(&catalog, small, "washer-too-small"), Some(Level::Ask), "{rod}");
        let mut thin = fits;
        thin.washers[0].thickness = Extent::exact(thin.washers[0].thickness.nominal - nanometre);
        assert_eq!(level(&catalog, thin, "washer-too-thin"), Some(Level::Ask), "{rod}");
    }
}

/// AISC Design Guide 1, 2nd ed., 2.6 (second parties): F436 and plain washers are too small for these holes.
#[test]
fn a_structural_washer_does_not_cover_a_hole_of_the_table() {
    let catalog = catalog();
    let mut base = table_base(&catalog, "3/4");
    let washer = row(&catalog.washers, "f436", "3/4");
    base.washers[0].outer = washer.outer;
    assert!(washer.outer.is_some());
    assert_eq!(level(&catalog, base, "washer-too-small"), Some(Level::Ask));
}
