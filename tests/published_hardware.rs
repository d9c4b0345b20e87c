//! The catalog against published tables and the formulas behind them.
#![allow(clippy::disallowed_types, reason = "a stress area is not a length")]

use approx::assert_relative_eq;
use rodreach::catalog::{Catalog, NutStyle, Pitch, load};
use rodreach::length::{Bare, Length, Unit, read};
use rodreach::quantity::{Stress, StressUnit};

fn catalog() -> Catalog {
    load().unwrap_or_else(|_| panic!("the built-in tables read"))
}

fn inch(text: &str) -> Length {
    read(text, Bare::of(Unit::Inch)).unwrap()
}

fn mm(text: &str) -> Length {
    read(text, Bare::of(Unit::Millimetre)).unwrap()
}

fn pitch(catalog: &Catalog, table: &str, diameter: Length) -> Pitch {
    catalog.threads.iter().find(|it| it.name == table).unwrap().row(diameter).unwrap().pitch
}

/// Inches as a float, for stress areas only.
fn inches(length: Length) -> f64 {
    length.nm() as f64 / 25_400_000.0
}

/// Tensile stress areas of UNC threads, in2: ASME B1.1, Table of the unified coarse series, four decimals,
/// as printed in two public tables. As = pi/4 (D - 0.9743/n)^2 with n threads an inch.
#[test]
fn unc_pitches_give_the_published_stress_areas() {
    let published = [
        ("1/2", 0.1419),
        ("5/8", 0.2260),
        ("3/4", 0.3345),
        ("7/8", 0.4617),
        ("1", 0.6057),
        ("1-1/8", 0.7633),
        ("1-1/4", 0.9691),
        ("1-3/8", 1.1549),
        ("1-1/2", 1.4052),
        ("1-3/4", 1.8995),
        ("2", 2.4982),
        ("2-1/4", 3.2477),
        ("2-1/2", 3.9988),
    ];
    let catalog = catalog();
    assert_eq!(catalog.threads.iter().find(|it| it.name == "unc").unwrap().rows.len(), published.len());
    for (size, area) in published {
        let (threads, over) = pitch(&catalog, "unc", inch(size)).threads_over();
        let one = inches(over) / threads as f64;
        let computed = std::f64::consts::FRAC_PI_4 * (inches(inch(size)) - 0.9743 * one).powi(2);
        assert_relative_eq!(computed, area, max_relative = 4e-4);
    }
}

/// Nominal stress areas of metric coarse threads, mm2: ISO 898-1, as printed in two public tables (M42 and M48
/// are rounded down there). As = pi/4 (d - 0.9382 P)^2.
#[test]
fn metric_pitches_give_the_stress_areas_of_iso_898_1() {
    let published = [
        ("12", 84.3),
        ("16", 157.0),
        ("20", 245.0),
        ("24", 353.0),
        ("27", 459.0),
        ("30", 561.0),
        ("36", 817.0),
        ("42", 1120.0),
        ("48", 1470.0),
    ];
    let catalog = catalog();
    for (size, area) in published {
        let one = pitch(&catalog, "metric-coarse", mm(size)).times(1).nm() as f64 / 1e6;
        let diameter = mm(size).nm() as f64 / 1e6;
        let computed = std::f64::consts::FRAC_PI_4 * (diameter - 0.9382 * one).powi(2);
        assert_relative_eq!(computed, area, max_relative = 3e-3);
    }
}

/// ASME B18.2.2: basic heights of hex and heavy hex nuts. The formulas are from memory; that they give every
/// height of the published table is what is tested. Hex: 7/8 D, less 1/64 from 3/4 and 1/32 from 1-1/4 on;
/// heavy hex: D less 1/64, from 1-1/4 less 1/32, from 2-1/4 less 3/64. Tolerance 0.016 D + 0.012, rounded to 0.001
/// in the table, from 3/4 on (hex) and for all heavy hex.
#[test]
fn nut_heights_follow_the_formulas_of_b18_2_2() {
    let catalog = catalog();
    let sixty_fourth = inch("1/64");
    for (series, heavy) in [("hex", false), ("heavy-hex", true)] {
        let table = catalog.nuts.iter().find(|it| it.name == series).unwrap();
        assert_eq!(table.rows.len(), 13);
        for (diameter, nut) in &table.rows {
            let at_least = |text: &str| *diameter >= inch(text);
            let basic = match (heavy, at_least("1-1/4"), at_least("2-1/4")) {
                (true, false, _) => *diameter - sixty_fourth,
                (true, true, false) => *diameter - sixty_fourth * 2,
                (true, true, true) => *diameter - sixty_fourth * 3,
                (false, true, _) => Length::from_nm(diameter.nm() / 8 * 7) - sixty_fourth * 2,
                (false, false, _) if at_least("3/4") => Length::from_nm(diameter.nm() / 8 * 7) - sixty_fourth,
                (false, false, _) => Length::from_nm(diameter.nm() / 8 * 7),
            };
            assert_eq!(nut.height.nominal, basic, "{series} {diameter:?}");
            if heavy || at_least("3/4") {
                let tolerance = Length::from_nm(diameter.nm() / 1000 * 16) + inch("0.012");
                for off in [nut.height.most - basic - tolerance, basic - nut.height.least - tolerance] {
                    assert!(off.abs() <= inch("0.0015"), "{series} {diameter:?}: {off:?}");
                }
            }
        }
    }
}

/// ASME B18.2.2, heavy hex nuts, as printed in two public copies: basic (least-most).
#[test]
fn heavy_hex_nuts_are_those_of_the_published_table() {
    let catalog = catalog();
    let table = catalog.nuts.iter().find(|it| it.name == "heavy-hex").unwrap();
    for (size, basic, least, most) in [
        ("5/8", "39/64", "0.587", "0.631"),
        ("3/4", "47/64", "0.710", "0.758"),
        ("7/8", "55/64", "0.833", "0.885"),
        ("1", "63/64", "0.956", "1.012"),
        ("1-1/8", "1-7/64", "1.079", "1.139"),
        ("1-1/4", "1-7/32", "1.187", "1.251"),
        ("1-1/2", "1-15/32", "1.433", "1.505"),
        ("2", "1-31/32", "1.925", "2.013"),
    ] {
        let height = table.row(inch(size)).unwrap().height;
        assert_eq!(
            [height.nominal, height.least, height.most],
            [inch(basic), inch(least), inch(most)],
            "{size}"
        );
    }
}

/// ISO 4032 (most heights) and ISO 7089 (thickness), as printed in several public tables.
#[test]
fn metric_parts_are_those_of_the_published_tables() {
    let catalog = catalog();
    let nuts = catalog.nuts.iter().find(|it| it.name == "iso-4032").unwrap();
    for (size, most) in [("16", "14.8"), ("20", "18"), ("24", "21.5"), ("30", "25.6"), ("36", "31")] {
        let height = nuts.row(mm(size)).unwrap().height;
        assert_eq!((height.most, height.nominal), (mm(most), mm(most)), "no nominal is published: M{size}");
    }
    let washers = catalog.washers.iter().find(|it| it.name == "iso-7089").unwrap();
    for (size, least, nominal, most) in [
        ("16", "2.7", "3", "3.3"),
        ("20", "2.7", "3", "3.3"),
        ("24", "3.7", "4", "4.3"),
        ("36", "4.4", "5", "5.6"),
    ] {
        let thickness = washers.row(mm(size)).unwrap().thickness;
        assert_eq!([thickness.least, thickness.nominal, thickness.most], [mm(least), mm(nominal), mm(most)]);
    }
}

/// ISO 4033 (heights, as printed in two public copies) and ISO 7091 (thickness, as in two or three public data sets).
#[test]
fn high_nuts_and_grade_c_washers_are_those_of_the_published_tables() {
    let catalog = catalog();
    let nuts = catalog.nuts.iter().find(|it| it.name == "iso-4033").unwrap();
    for (size, least, most) in
        [("12", "11.57", "12"), ("20", "19", "20.3"), ("24", "22.6", "23.9"), ("36", "33.1", "34.7")]
    {
        let height = nuts.row(mm(size)).unwrap().height;
        assert_eq!([height.least, height.nominal, height.most], [mm(least), mm(most), mm(most)], "M{size}");
    }
    for size in ["27", "42", "48"] {
        assert!(nuts.row(mm(size)).is_none(), "no figure was found for M{size}");
    }
    let washers = catalog.washers.iter().find(|it| it.name == "iso-7091").unwrap();
    for (size, least, nominal, most) in [
        ("12", "2.2", "2.5", "2.8"),
        ("20", "2.4", "3", "3.6"),
        ("24", "3.4", "4", "4.6"),
        ("36", "4", "5", "6"),
    ] {
        let thickness = washers.row(mm(size)).unwrap().thickness;
        assert_eq!([thickness.least, thickness.nominal, thickness.most], [mm(least), mm(nominal), mm(most)]);
    }
    for size in ["27", "42", "48"] {
        assert!(washers.row(mm(size)).unwrap().authority.text.contains("DOUBTFUL"), "M{size}");
    }
}

/// ISO 4033 (style 2) is the higher nut of the same width across flats as ISO 4032 (style 1) in every public copy;
/// ISO 4759-3: grade C washers vary more than grade A ones, both about the nominal.
#[test]
fn high_nuts_are_higher_and_grade_c_washers_vary_more() {
    let catalog = catalog();
    let nuts = |name: &str| catalog.nuts.iter().find(|it| it.name == name).unwrap();
    for (diameter, high) in &nuts("iso-4033").rows {
        let regular = nuts("iso-4032").row(*diameter).unwrap();
        assert!(high.height.least > regular.height.least && high.height.most > regular.height.most);
        assert_eq!(high.flats, regular.flats, "{diameter:?}");
    }
    let washers = |name: &str| catalog.washers.iter().find(|it| it.name == name).unwrap();
    for (diameter, coarse) in &washers("iso-7091").rows {
        let fine = washers("iso-7089").row(*diameter).unwrap();
        let (wide, narrow) = (coarse.thickness, fine.thickness);
        assert_eq!((wide.nominal, coarse.outer), (narrow.nominal, fine.outer), "{diameter:?}");
        assert!(wide.most > narrow.most && wide.least < narrow.least, "{diameter:?}");
        assert_eq!(wide.most - wide.nominal, wide.nominal - wide.least, "{diameter:?}");
    }
}

/// ASME B18.2.2, from memory, held against every row of the published table: heavy hex nuts are 1-1/2 D + 1/8 across
/// flats, to the 0.001 that the table is rounded to.
#[test]
fn heavy_hex_flats_follow_the_formula_of_b18_2_2() {
    let catalog = catalog();
    for (diameter, nut) in &catalog.nuts.iter().find(|it| it.name == "heavy-hex").unwrap().rows {
        let formula = Length::from_nm(diameter.nm() / 2 * 3) + inch("1/8");
        assert!((nut.flats.unwrap() - formula).abs() <= inch("0.0005"), "{diameter:?}");
    }
}

/// ASTM F1554 (three public pages): least yield, tensile, largest size; ASTM A563-15, Table 3 (three public copies):
/// proof stress plain and zinc-coated, in ksi.
#[test]
fn grades_of_rods_and_nuts_are_those_of_the_published_tables() {
    let catalog = catalog();
    let rods: Vec<_> = catalog
        .rod_grades()
        .filter(|rod| rod.name.starts_with("F1554"))
        .map(|rod| (rod.name.as_str(), rod.least_yield, [Some(rod.tensile), rod.most_tensile], rod.sizes[1]))
        .collect();
    let published = [
        ("F1554-36", 36, [58, 80], inch("4")),
        ("F1554-55", 55, [75, 95], inch("4")),
        ("F1554-105", 105, [125, 150], inch("3")),
    ];
    let ksi = |ksi| Stress::of(ksi, StressUnit::Ksi);
    let published = published
        .map(|(name, yields, breaks, most)| (name, ksi(yields), breaks.map(|it| Some(ksi(it))), most));
    assert_eq!(rods, published);
    let (hex, heavy) = (NutStyle::Hex, NutStyle::HeavyHex);
    for (grade, style, plain, zinc) in [
        ("A", hex, 90, 68),
        ("A", heavy, 100, 75),
        ("C", heavy, 144, 144),
        ("D", heavy, 150, 150),
        ("DH", hex, 150, 150),
        ("DH", heavy, 175, 150),
    ] {
        let nut = catalog.nut_grade(grade, style, inch("1-1/2")).unwrap();
        assert_eq!((nut.plain, nut.zinc), (ksi(plain), Some(ksi(zinc))), "{grade}");
        // hex nuts of the table end at 1-1/2
        assert_eq!(catalog.nut_grade(grade, style, inch("1-3/4")).is_some(), style == heavy, "{grade}");
    }
}

/// ASME B18.2.2: a nut is not as high as its rod is thick; heavy hex is 1/64 to 3/64 less, hex 11/32 less at 2-1/2.
#[test]
fn no_nut_is_as_high_as_its_rod_is_thick() {
    let catalog = catalog();
    for series in ["hex", "heavy-hex"] {
        let table = catalog.nuts.iter().find(|it| it.name == series).unwrap();
        let less: Vec<Length> =
            table.rows.iter().map(|(diameter, nut)| *diameter - nut.height.nominal).collect();
        let most = if series == "hex" { inch("11/32") } else { inch("3/64") };
        assert_eq!(less.iter().max(), Some(&most), "{series}");
        assert!(less.iter().all(|less| *less >= inch("1/64")), "{series}");
    }
}

/// Type A wide washers: ASME B18.21.1, as printed in Machinery's Handbook, 31st ed., p. 1694, and two others.
#[test]
fn wide_washers_are_those_of_the_published_table() {
    let catalog = catalog();
    let washers = catalog.washers.iter().find(|it| it.name == "wide").unwrap();
    for (size, outer, least, nominal, most) in [
        ("1/2", "1.375", "0.086", "0.109", "0.132"),
        ("5/8", "1.75", "0.108", "0.134", "0.160"),
        ("3/4", "2", "0.122", "0.148", "0.177"),
    ] {
        let washer = washers.row(inch(size)).unwrap();
        let thickness = washer.thickness;
        assert_eq!(washer.outer, Some(inch(outer)));
        assert_eq!(
            [thickness.least, thickness.nominal, thickness.most],
            [inch(least), inch(nominal), inch(most)]
        );
    }
}

/// Common practice: shim plates from 1/8 to 3/4 in, stacks to 1/2 in without asking; 1/8 wanted and 1/4 accepted
/// along 60 ft of wall; 1/8 to 3/16 between next columns; 1/2 over the building.
#[test]
fn the_low_rise_set_holds_the_values_of_common_practice() {
    let catalog = catalog();
    let limits = &catalog.limits.iter().find(|it| it.name == "low-rise").unwrap().limits;
    let (neighbours, wall) = (limits.neighbours.as_ref().unwrap(), limits.wall.as_ref().unwrap());
    assert_eq!(neighbours.desired.as_ref().unwrap().value, inch("1/8"));
    assert_eq!(neighbours.accept.value, inch("3/16"));
    assert_eq!(wall.desired.as_ref().unwrap().value, inch("1/8"));
    assert_eq!((wall.accept.value, wall.length.as_ref().unwrap().value), (inch("1/4"), inch("60'")));
    assert_eq!(limits.building.as_ref().unwrap().accept.value, inch("1/2"));
    assert_eq!(limits.shim.as_ref().unwrap().most.as_ref().unwrap().value, inch("1/2"));
    let shims = &catalog.shims.iter().find(|it| it.name == "plate").unwrap().pieces;
    let thicknesses = shims.iter().map(|piece| piece.thickness.nominal);
    assert_eq!(thicknesses.clone().min(), Some(inch("1/8")));
    assert_eq!(thicknesses.max(), Some(inch("3/4")));
}
