//! What is published of concrete and of rods under load, and the limits of inch threads, in `catalog`: figures that stand in
//! no catalog file.

use super::list::{Lister, Row, style_in};
use crate::catalog::{Authority, Catalog};
use crate::length::Unit;
use crate::model::{
    ON_A_GROUT_PAD, arm_authority, bearing_authority, bearing_rules, bending_authority, grout_pad_authority,
    lever_arm_authority, share_on_mortar_authority,
};
use crate::order::thread_limits;
use crate::report::loads::bearing::factor;

/// Lists every figure of loads.
pub(super) fn loads(rows: &mut Vec<Row>) {
    let style = style_in(Unit::Inch);
    let (series, title) = ("bearing", "What concrete bears under a plate");
    let mut lister = Lister { kind: "loads", series, title, style, rows };
    for rule in bearing_rules() {
        lister.words(rule.name, "factor", factor(rule.factor), &rule.authority);
    }
    let (series, title) = ("rods-in-shear", "Rods in shear under a plate clear of its concrete");
    let mut lister = Lister { kind: "loads", series, title, style, rows };
    let of_mortar = "mortar under a plate";
    let told: [(&str, &'static str, String, Authority); 6] = [
        (of_mortar, "no lever arm, most", "half a rod diameter".to_owned(), lever_arm_authority()),
        ("one rod", "lever arm", "half a rod, gap and half the plate".to_owned(), arm_authority()),
        (
            "one rod",
            "bending",
            "1.2 W f_uk; factor in tension 1.2 f_uk / f_yk, 1.4 at least; in shear f_uk / f_yk, 1.25 at least, or 1.5"
                .to_owned(),
            bending_authority(),
        ),
        ("grout pad", "of shear left", format!("{ON_A_GROUT_PAD} percent"), grout_pad_authority()),
        (of_mortar, "of shear left", "1 - 0.01 t, t in mm".to_owned(), share_on_mortar_authority()),
        (of_mortar, "bearing 2/3, most", "a fifth of the smaller side".to_owned(), bearing_authority()),
    ];
    for (of, figure, words, authority) in told {
        lister.words(of, figure, words, &authority);
    }
}

/// Lists the limits of inch threads, which are worked out and stand in no file.
pub(super) fn inch_threads(catalog: &Catalog, rows: &mut Vec<Row>) {
    let (series, title) = ("unc-2a-2b", "UNC threads of class 2A and 2B, worked out");
    let mut lister = Lister { kind: "threads", series, title, style: style_in(Unit::Inch), rows };
    for table in catalog.threads.iter().filter(|table| table.unit == Unit::Inch) {
        for (diameter, row) in &table.rows {
            let Some((_, limits)) = thread_limits(catalog, *diameter, row.pitch) else { continue };
            lister.thread_limits(*diameter, &limits);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalog::{Standing, load};
    use crate::report::catalog::list::rows;
    use std::path::Path;

    /// What stands behind a figure that a job can come to see, and is from memory.
    fn remembered() -> Vec<Authority> {
        let catalog = load().unwrap();
        let mut all: Vec<Authority> = bearing_rules().into_iter().map(|rule| rule.authority).collect();
        all.push(bending_authority());
        for table in &catalog.threads {
            let each = table.rows.iter().filter_map(|(at, row)| thread_limits(&catalog, *at, row.pitch));
            all.extend(each.map(|(_, limits)| limits.authority));
        }
        all.retain(|authority| authority.kind == Standing::FromMemory);
        all
    }

    #[test]
    fn every_figure_of_loads_and_threads_that_is_from_memory_is_listed() {
        let listed = rows(&load().unwrap());
        let wanted = remembered();
        assert!(wanted.len() > 13, "two of AISC 360-10, one of bending, one for each inch thread");
        for authority in wanted {
            assert!(listed.iter().any(|row| row.source == authority), "{}", authority.text);
        }
    }

    /// Whoever adds a figure from memory to the sources must list it, and say here where.
    #[test]
    fn nothing_else_in_the_sources_is_from_memory() {
        let known = [
            "src/catalog/setting_practice.rs",
            "src/model/bearing.rs",
            "src/model/shear.rs",
            "src/order/thread_limits.rs",
        ];
        let mut found = Vec::new();
        let mut folders = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("src")];
        while let Some(folder) = folders.pop() {
            for entry in std::fs::read_dir(folder).unwrap() {
                let path = entry.unwrap().path();
                if path.is_dir() {
                    folders.push(path);
                } else if path.extension().is_some_and(|it| it == "rs") && !path.ends_with("fixture.rs") {
                    let text = std::fs::read_to_string(&path).unwrap();
                    let shipped = text.split("#[cfg(test)]").next().unwrap_or_default();
                    let makes_one = shipped.match_indices("Standing::FromMemory").any(|(at, _)| {
                        let before = shipped[..at].trim_end();
                        before.ends_with("Authority::new(")
                    });
                    if makes_one {
                        found.push(path.strip_prefix(env!("CARGO_MANIFEST_DIR")).unwrap().to_owned());
                    }
                }
            }
        }
        found.sort();
        assert_eq!(found, known.map(Path::new));
    }
}
