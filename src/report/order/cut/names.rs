//! Names of files that every system takes and none takes for a path.

use crate::length::Length;
use crate::order::PlateUse;
use crate::text::{Style, System, inches, millimetres};
use std::collections::BTreeSet;

/// Most characters that the bases take in a name.
const MOST: usize = 40;

/// The names given so far, in small letters: systems differ in whether capitals count.
#[derive(Default)]
pub(super) struct Names(BTreeSet<String>);

impl Names {
    /// Gives the name for a plate under these bases: `B1_0.125in`, `P1_pack_5mm`; a number behind it where it was given before.
    pub(super) fn of(
        &mut self,
        bases: &[String],
        purpose: PlateUse,
        style: Style,
        thickness: Length,
    ) -> String {
        let pack = if purpose == PlateUse::Pack { "_pack" } else { "" };
        let thickness = match (style.system(), inches(thickness)) {
            (System::Inch, Some(inches)) => format!("{inches}in"),
            _ => format!("{}mm", millimetres(thickness)),
        };
        let stem = format!("{}{pack}_{thickness}", plain(&bases.join("-")));
        let mut name = stem.clone();
        let mut number = 1_u32;
        while !self.0.insert(name.to_ascii_lowercase()) {
            number += 1;
            name = format!("{stem}_{number}");
        }
        name
    }
}

/// Keeps letters and digits of ASCII, a hyphen for every run of others; what stands behind it keeps it from being the
/// name of a device.
fn plain(text: &str) -> String {
    let words = text.split(|c: char| !c.is_ascii_alphanumeric()).filter(|word| !word.is_empty());
    let joined = words.collect::<Vec<_>>().join("-");
    let short: String = joined.chars().take(MOST).collect();
    match short.trim_end_matches('-') {
        "" => "base".to_owned(),
        short => short.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(marks: &[&[&str]]) -> Vec<String> {
        let mut names = Names::default();
        let inch = Style::new(System::Inch, 16);
        let own = |marks: &[&str]| marks.iter().map(|mark| (*mark).to_owned()).collect::<Vec<_>>();
        marks
            .iter()
            .map(|marks| names.of(&own(marks), PlateUse::Shim, inch, Length::from_nm(3_175_000)))
            .collect()
    }

    #[test]
    fn a_name_tells_bases_and_thickness() {
        assert_eq!(names(&[&["B1", "B2"]]), ["B1-B2_0.125in"]);
        let metric = Style::new(System::Metric, 16);
        let name =
            Names::default().of(&["P1".to_owned()], PlateUse::Pack, metric, Length::from_nm(2_500_000));
        assert_eq!(name, "P1_pack_2.5mm");
        let odd = Names::default().of(
            &["P1".to_owned()],
            PlateUse::Shim,
            Style::new(System::Inch, 16),
            Length::from_nm(1),
        );
        assert_eq!(odd, "P1_0.000001mm", "no finite number of inches");
    }

    #[test]
    fn no_mark_makes_a_path_a_device_or_a_name_twice() {
        let made =
            names(&[&["../../etc"], &["CON"], &["\u{5d0}"], &["\u{5d1}"], &["b1"], &["B1"], &["-rf *"]]);
        let wanted = ["etc", "CON", "base", "base", "b1", "B1", "rf"].map(|name| format!("{name}_0.125in"));
        let numbered = |at: usize| format!("{}_2", wanted[at]);
        assert_eq!(made[..3], wanted[..3]);
        assert_eq!(made[3], numbered(3));
        assert_eq!((&made[4], &made[5], &made[6]), (&wanted[4], &numbered(5), &wanted[6]));
        assert!(names(&[&[&"x".repeat(60), &"y".repeat(60)]])[0].len() < 64);
    }
}
