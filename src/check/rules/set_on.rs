//! Going through the columns and the bases whose plates are set in one way; of all others nothing is said.

use super::subjects::mark;
use crate::catalog::Authority;
use crate::check::case::{Case, ColumnCase};
use crate::check::finding::{Finding, Outcome, Subject};
use crate::length::Length;
use crate::model::{Base, Levelling, Packs, Setting, SettingPlate};
use crate::plan::Action;

/// What a rule says of one subject, before it is put to it.
pub(super) struct Said {
    /// What came out.
    pub(super) outcome: Outcome,
    /// The sentence, without its subject.
    pub(super) text: String,
    /// The value compared and its limit, where there are two.
    pub(super) pair: Option<(Length, Length)>,
    /// Formula, numbers, result.
    pub(super) arithmetic: Vec<String>,
    /// On whose word.
    pub(super) authority: Authority,
}

impl Said {
    /// Makes what is said in words alone.
    pub(super) fn plainly(outcome: Outcome, text: impl Into<String>, authority: Authority) -> Self {
        Self { outcome, text: text.into(), pair: None, arithmetic: Vec::new(), authority }
    }

    /// Puts it to a subject, called so.
    pub(super) fn of(self, subject: Subject, name: &str) -> Finding {
        Finding {
            subject,
            outcome: self.outcome,
            actual: self.pair.map(|(value, _)| value),
            limit: self.pair.map(|(_, limit)| limit),
            text: format!("{name}: {}", self.text),
            arithmetic: self.arithmetic,
            authority: self.authority,
        }
    }
}

/// Judges every base that stands under a column and is set in one way, with its columns.
pub(super) fn each_base<'a, T>(
    case: &Case<'a>,
    way: impl Fn(&'a Base) -> Option<T>,
    judge: impl Fn(&'a Base, T) -> Said,
) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (at, base) in case.job.bases.iter().enumerate() {
        let on_it = case.columns.iter().filter(|column| case.column(column.index).base == at);
        let columns: Vec<usize> = on_it.map(|column| column.index).collect();
        if let Some(way) = way(base).filter(|_| !columns.is_empty()) {
            let subject = Subject { columns, ..Subject::default() };
            findings.push(judge(base, way).of(subject, &format!("base {}", base.mark)));
        }
    }
    findings
}

/// Judges every column whose base is set in one way.
pub(super) fn each_column<'a, T>(
    case: &Case<'a>,
    way: impl Fn(&'a Base) -> Option<T>,
    judge: impl Fn(&ColumnCase, T) -> Said,
) -> Vec<Finding> {
    let columns = case.columns.iter();
    let said = columns.filter_map(|column| {
        let said = judge(column, way(case.base(column.index))?);
        Some(said.of(Subject::column(column.index), mark(case, column)))
    });
    said.collect()
}

/// Gives the bed of grout that is planned under a column.
pub(in crate::check) fn bed(case: &Case<'_>, column: &ColumnCase) -> Option<Length> {
    let choice = case.choice(column.index);
    choice.raise.filter(|_| choice.action == Action::Grout)
}

/// Takes a base that is set on levelling nuts.
pub(super) fn on_nuts(base: &Base) -> Option<&Levelling> {
    base.levelling()
}

/// Takes a base that is set on packs.
pub(super) const fn on_packs(base: &Base) -> Option<&Packs> {
    base.packs()
}

/// Takes a base that is set on a setting plate.
pub(super) const fn on_a_plate(base: &Base) -> Option<&SettingPlate> {
    match &base.setting {
        Some(Setting::Plate(plate)) => Some(plate),
        _ => None,
    }
}

/// Says that no bed is planned.
pub(super) const NO_BED: &str = "no bed of grout is planned";
