//! Thread strength against published figures: every row of `tests/threads/vectors.csv`, the doubtful ones as doubtful.

#![allow(clippy::disallowed_types, reason = "areas are worked-out figures, not lengths")]

use rodreach::order::{Profile, STEEL, ThreadForm, both_length};
use std::collections::BTreeMap;

/// One row: what is worked out, from what, and what was published or worked out elsewhere.
struct Vector {
    id: String,
    quantity: String,
    inputs: BTreeMap<String, f64>,
    expected: String,
    tolerance: String,
    status: String,
}

/// Reads `d=0.5 in; n=13` into numbers; a unit behind a number is left away.
fn numbers(text: &str) -> BTreeMap<String, f64> {
    let parts = text.split(';').filter_map(|part| part.split_once('='));
    let number = |text: &str| text.split_whitespace().next()?.parse().ok();
    parts.filter_map(|(key, value)| Some((key.trim().to_owned(), number(value)?))).collect()
}

fn vectors() -> Vec<Vector> {
    let mut reader = csv::Reader::from_path("tests/threads/vectors.csv").unwrap();
    let rows = reader.records().map(|row| {
        let row = row.unwrap();
        Vector {
            id: row[0].to_owned(),
            quantity: row[1].to_owned(),
            inputs: numbers(&row[2]),
            expected: row[3].to_owned(),
            tolerance: row[5].to_owned(),
            status: row[7].to_owned(),
        }
    });
    rows.collect()
}

impl Vector {
    fn input(&self, key: &str) -> f64 {
        *self.inputs.get(key).unwrap_or_else(|| panic!("{}: no {key}", self.id))
    }

    /// The thread of the row; what its quantity does not need is 0.
    fn form(&self) -> ThreadForm {
        let limit = |key: &str| self.inputs.get(key).copied().unwrap_or(0.0);
        let (diameter, pitch) = match self.inputs.get("P") {
            Some(pitch) => (self.inputs.get("d").or(self.inputs.get("LE")).copied().unwrap(), *pitch),
            None => (self.inputs.get("d").or(self.inputs.get("LE")).copied().unwrap(), 1.0 / self.input("n")),
        };
        let metric = self.inputs.contains_key("P");
        ThreadForm {
            profile: if metric { Profile::Metric } else { Profile::Unified },
            diameter,
            pitch,
            rod_major: limit("dmin"),
            rod_pitch: limit("d2min"),
            nut_minor: limit("D1max"),
            nut_pitch: limit("D2max"),
        }
    }

    /// The figures that the row expects, by name: one without a name is `it`.
    fn expects(&self) -> Vec<(String, f64)> {
        let named = self.expected.split(';').map(|part| match part.split_once('=') {
            Some((name, value)) => (name.trim(), value.rsplit('=').next().unwrap()),
            None => ("it", part),
        });
        named.map(|(name, value)| (name.to_owned(), value.trim().parse().unwrap())).collect()
    }

    /// Tells whether a figure is within the row's own tolerance.
    fn holds(&self, found: f64, expected: f64) -> bool {
        let first = self.tolerance.split_whitespace().next().unwrap();
        let off = (found - expected).abs();
        match first.strip_suffix('%') {
            Some(percent) => off <= expected * percent.parse::<f64>().unwrap() / 100.0,
            None if self.tolerance.contains("rel") => off <= expected * first.parse::<f64>().unwrap(),
            None => off <= first.parse::<f64>().unwrap(),
        }
    }

    /// Works the row out: every figure that it expects, by name.
    fn found(&self) -> BTreeMap<&'static str, f64> {
        let one = |it: f64| BTreeMap::from([("it", it)]);
        match self.quantity.as_str() {
            "tensile_stress_area" => one(self.form().stress_area()),
            "external_shear_area_min" => one(self.form().rod_shear(self.input("LE"))),
            "internal_shear_area_min" => one(self.form().nut_shear(self.input("LE"))),
            quantity if quantity.starts_with("ASs,ASn") => {
                let form =
                    if self.id.starts_with("screw_thread_lib") { of_package(&self.id) } else { self.form() };
                let all = [form.rod_shear(form.diameter), form.nut_shear(form.diameter), form.rod_length()];
                BTreeMap::from([("ASs", all[0]), ("ASn", all[1]), ("Le_ext", all[2]), ("Le", all[2])])
            }
            "Le=2At/(0.5 pi (D-0.64952 p))" => {
                // form 13: 2 At / (pi/2 d2) is 4 At / (pi d2)
                one(both_length(self.input("At"), self.input("D") - 0.64952 * self.input("p")))
            }
            "As/(pi d^2/4)" => {
                let form = self.form();
                one(form.stress_area() / (std::f64::consts::FRAC_PI_4 * form.diameter.powi(2)))
            }
            // 36.35 kip of rod against 45.45 kip of nut proof load, in a nut of 1 in
            quantity if quantity.starts_with("required share") => one(36.35 / 45.45 * 1.0),
            // lb/ft2: kg/m3 x in x m/in, then kg/m2 into lb/ft2
            quantity if quantity.starts_with("t x 144") => one(pounds_a_square_foot(self.input("t"))),
            "t x 41.82" => one(self.input("t") * 41.82),
            other => panic!("{}: nobody works out {other}", self.id),
        }
    }
}

/// The mass of a plate so many inches thick by the density this program uses.
fn pounds_a_square_foot(inches: f64) -> f64 {
    f64::from(STEEL) * inches * 0.0254 * 0.3048 * 0.3048 / 0.453_592_37
}

/// The limits of ASME B1.1-2019 as that package has them, inches.
fn of_package(id: &str) -> ThreadForm {
    let (size, [diameter, n, rod_major, rod_pitch, nut_minor, nut_pitch]) = [
        ("1/2-13", [0.5, 13.0, 0.4876, 0.4435, 0.434, 0.4565]),
        ("3/4-10", [0.75, 10.0, 0.7353, 0.6773, 0.663, 0.6927]),
        ("1-8", [1.0, 8.0, 0.983, 0.9101, 0.89, 0.9276]),
    ]
    .into_iter()
    .find(|(size, _)| id.ends_with(&format!("_{size}")))
    .unwrap();
    assert!(!size.is_empty());
    ThreadForm {
        profile: Profile::Unified,
        diameter,
        pitch: 1.0 / n,
        rod_major,
        rod_pitch,
        nut_minor,
        nut_pitch,
    }
}

/// Rows whose published figure is doubted: it is looked at, and must stay as far off as it was found to be.
const DOUBTFUL: [&str; 1] = ["inch_ASs_7/8_LE_1D"];

#[test]
fn every_row_comes_out_within_its_own_tolerance() {
    let rows = vectors();
    assert_eq!(rows.len(), 73);
    let mut off = Vec::new();
    for row in &rows {
        let found = row.found();
        for (name, expected) in row.expects() {
            let found = found[name.as_str()];
            if !row.holds(found, expected) {
                off.push(format!("{} {name}: {found}, expected {expected}", row.id));
            }
        }
    }
    assert!(off.is_empty(), "{}", off.join("\n"));
}

#[test]
fn the_rows_that_are_doubted_say_so_and_are_off_indeed() {
    let rows = vectors();
    let said: Vec<&str> =
        rows.iter().filter(|row| row.status.contains("DOUBTFUL")).map(|row| row.id.as_str()).collect();
    assert_eq!(said, DOUBTFUL);
    // the published 1.24 in2 of 7/8-9: the limits of ASME B1.1 give 1.254, 1.1 % more; its neighbours agree to 0.4 %
    let row = rows.iter().find(|row| row.id == DOUBTFUL[0]).unwrap();
    let (found, published) = (row.found()["it"], 1.24);
    assert!((found - 1.254).abs() < 0.0005, "{found}");
    assert!((found - published) / published > 0.004, "{found} agrees after all: doubt it no longer");
}

#[test]
fn rows_that_no_publication_has_say_so() {
    for row in vectors() {
        let own = row.id.starts_with("inch_computed");
        assert_eq!(own, row.status.contains("not published"), "{}", row.id);
        assert_eq!(row.id.contains("screw_thread_lib"), row.status.contains("independent"), "{}", row.id);
    }
}

/// A published table has 0.0163 in2 for 7/16-14, its digits swapped: the formula gives 0.1063.
#[test]
fn a_swapped_stress_area_of_seven_sixteenths_is_not_followed() {
    let thread = ThreadForm {
        profile: Profile::Unified,
        diameter: 0.4375,
        pitch: 1.0 / 14.0,
        rod_major: 0.0,
        rod_pitch: 0.0,
        nut_minor: 0.0,
        nut_pitch: 0.0,
    };
    assert!((thread.stress_area() - 0.1063).abs() < 0.0001);
}

/// 41.82 lb/ft2 an inch is how the manufacturers' gauge is defined, not what steel weighs: 2.4 % more than its density.
#[test]
fn the_weight_a_gauge_is_named_by_is_not_what_a_plate_weighs() {
    let row = vectors().into_iter().find(|row| row.id == "gauge_weight").unwrap();
    let (named, weighs) = (row.found()["it"], pounds_a_square_foot(row.input("t")));
    assert!((named / weighs - 1.024).abs() < 0.001, "{named} against {weighs}");
}

/// Forms 3, 5, 13 and 16 hang together: a nut twice as strong needs half the thread, and simplified areas are shares of
/// the cylinder at the pitch diameter.
#[test]
fn the_simplified_forms_and_the_nut_follow_their_formulas() {
    let thread = of_package("screw_thread_lib_1-8");
    let cylinder = std::f64::consts::PI * thread.pitch_diameter() * 0.5;
    assert!((thread.pitch_diameter() - 0.9188).abs() < 0.0001);
    assert!((thread.rod_shear_simple(0.5) - 0.625 * cylinder).abs() < 1e-12);
    assert!((thread.nut_shear_simple(0.5) - 0.75 * cylinder).abs() < 1e-12);
    assert!((thread.both_length() - 4.0 * 0.60575 / (std::f64::consts::PI * 0.9188)).abs() < 1e-4);
    assert!((thread.nut_length(2.0) * 2.0 - thread.nut_length(1.0)).abs() < 1e-12);
    assert!((thread.nut_length(1.0) - 2.0 * 0.60575 / 2.33430).abs() < 1e-4);
}
