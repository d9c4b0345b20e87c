//! What a washer over a hole must measure, for the two rules on it.

use crate::catalog::{Authority, Standing};
use crate::check::case::Case;
use crate::check::finding::Finding;
use crate::length::Length;
use crate::model::{Base, WasherPart};

/// What the washers over one hole must measure.
#[derive(Clone, Debug)]
pub(in crate::check) struct Cover {
    /// Hole diameter less rod diameter.
    pub(in crate::check) clearance: Length,
    /// The least outer size.
    pub(in crate::check) outer: (Length, Authority),
    /// The least thickness; none where a plain washer may stand there.
    pub(in crate::check) thickness: Option<(Length, Authority)>,
}

/// Works out what a base's washers must measure; unknown where the hole is not given.
pub(in crate::check) fn cover(base: &Base) -> Option<Cover> {
    let hole = base.plate.holes?;
    let rod = base.rods.diameter;
    let clearance = hole - rod;
    let oversize = base.plain_washer.as_ref().is_none_or(|plain| clearance > plain.clearance);
    let table = base.hole_table.as_ref().filter(|_| oversize);
    let covers = hole * 2 - rod;
    let outer = match table {
        Some(row) if row.washer > covers => (row.washer, row.authority.clone()),
        _ => (covers, covers_authority()),
    };
    let thickness = oversize.then(|| match table {
        Some(row) => (row.thickness, row.authority.clone()),
        None => (third(rod), third_authority()),
    });
    Some(Cover { clearance, outer, thickness })
}

/// Gives a third, up to the next nanometre.
fn third(length: Length) -> Length {
    let nm = length.nm();
    Length::from_nm(nm.div_euclid(3).saturating_add(i64::from(nm.rem_euclid(3) != 0)))
}

/// Gives the authority of the geometry: the hole is covered with the rod at its edge.
pub(super) fn covers_authority() -> Authority {
    Authority::new(
        Standing::Published,
        "AISC Design Guide 1, 2nd ed., 2.6 and Table 2.3, as quoted by second parties: the washer covers the hole \
         with the rod at its edge",
    )
}

/// Gives the authority of a third of the rod.
pub(super) fn third_authority() -> Authority {
    Authority::new(
        Standing::Published,
        "AISC Design Guide 1, 2nd ed., 2.6, as quoted by second parties: plate washers about a third of the rod thick",
    )
}

/// Judges every base that stands under a column, with its columns.
pub(super) fn by_base(case: &Case<'_>, judge: impl Fn(&[usize], &Base) -> Finding) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (at, base) in case.job.bases.iter().enumerate() {
        let on_it = case.columns.iter().filter(|column| case.column(column.index).base == at);
        let columns: Vec<usize> = on_it.map(|column| column.index).collect();
        if !columns.is_empty() {
            findings.push(judge(&columns, base));
        }
    }
    findings
}

impl Cover {
    /// Tells whether a washer is wide enough; unknown where its outer size is.
    pub(super) fn covered_by(&self, washer: &WasherPart) -> Option<bool> {
        washer.outer.map(|outer| outer >= self.outer.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_third_goes_up() {
        assert_eq!(third(Length::from_nm(9)), Length::from_nm(3));
        assert_eq!(third(Length::from_nm(10)), Length::from_nm(4));
    }
}
