//! Grades in `catalog`: strengths, sizes, and which nut is recommended on which rod.

use super::list::{Lister, Row, style_in};
use crate::catalog::{Finish, Grades, RodGrade};
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
        let told = [
            ("least yield", lister.style.steel(rod.least_yield)),
            ("tensile", tensile(rod, lister.style)),
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
        for (figure, proof) in [("proof, plain", Some(nut.plain)), ("proof, zinc", nut.zinc)] {
            let told = proof.map_or("not known here".to_owned(), |proof| lister.style.steel(proof));
            lister.words(&of, figure, told, &nut.authority);
        }
    }
}

/// Writes the least tensile stress and the most, where there is one.
fn tensile(rod: &RodGrade, style: Style) -> String {
    let least = style.steel(rod.tensile);
    match rod.most_tensile {
        Some(most) => {
            let number = least.rsplit_once(' ').map_or(least.as_str(), |(number, _)| number);
            format!("{number} to {}", style.steel(most))
        }
        None => format!("{least} or more"),
    }
}

fn sizes([from, to]: [Length; 2], style: Style) -> String {
    format!("{} to {}", style.exact(from), style.exact(to))
}
