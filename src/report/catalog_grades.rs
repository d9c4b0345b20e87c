//! Grades in `catalog`: strengths, sizes, and which nut is recommended on which rod.

use super::catalog::{Lister, Row, style_in};
use crate::catalog::{Finish, Grades};
use crate::length::Length;
use crate::text::Style;

/// Lists every file of grades, a series each.
pub(super) fn grades(files: &[Grades], rows: &mut Vec<Row>) {
    for file in files {
        let (series, title, style) = (&file.name, &file.title, style_in(file.unit));
        one(file, &mut Lister { kind: "grades", series, title, style, rows });
    }
}

fn one(file: &Grades, lister: &mut Lister<'_>) {
    for rod in &file.rods {
        let [least, most] = rod.tensile_ksi;
        let told = [
            ("least yield", format!("{} ksi", rod.yield_ksi)),
            ("tensile", format!("{least} to {most} ksi")),
            ("sizes", sizes(rod.sizes, lister.style)),
        ];
        for (figure, words) in told {
            lister.words(&rod.name, figure, words, &rod.authority);
        }
    }
    for row in &file.recommended {
        let of = format!("{}, {}", row.rod, sizes(row.sizes, lister.style));
        let figure = match row.finish {
            Finish::Plain => "nut, plain",
            Finish::Zinc => "nut, zinc",
        };
        lister.words(&of, figure, format!("{} {}", row.nut, row.style.words()), &row.authority);
    }
    for row in &file.instead {
        lister.words("any rod", "nut instead", row.nut.clone(), &row.authority);
    }
    if let Some(authority) = &file.no_weaker {
        lister.words("any rod", "nut instead", "no lower style and proof stress".to_owned(), authority);
    }
    for nut in &file.nuts {
        let of = format!("{} {}, {}", nut.name, nut.style.words(), sizes(nut.sizes, lister.style));
        for (figure, ksi) in [("proof, plain", nut.plain_ksi), ("proof, zinc", nut.zinc_ksi)] {
            lister.words(&of, figure, format!("{ksi} ksi"), &nut.authority);
        }
    }
}

fn sizes([from, to]: [Length; 2], style: Style) -> String {
    format!("{} to {}", style.exact(from), style.exact(to))
}
