//! Going through the columns and the rods of a case, and how they are called.

use crate::catalog::{Authority, Standing};
use crate::check::case::{Case, ColumnCase, RodCase};
use crate::check::finding::{Finding, Outcome};

/// Judges every rod of every column.
pub(super) fn each_rod(
    case: &Case<'_>,
    judge: impl Fn(&Case<'_>, &ColumnCase, &RodCase) -> Finding,
) -> Vec<Finding> {
    let judge = &judge;
    let columns = case.columns.iter();
    columns.flat_map(|column| column.rods.iter().map(move |rod| judge(case, column, rod))).collect()
}

/// Judges every column.
pub(super) fn each_column(
    case: &Case<'_>,
    judge: impl Fn(&Case<'_>, &ColumnCase) -> Finding,
) -> Vec<Finding> {
    case.columns.iter().map(|column| judge(case, column)).collect()
}

/// Calls a rod by its column, as in `A1 rod 2`.
pub(super) fn rod_name(case: &Case<'_>, column: &ColumnCase, rod: &RodCase) -> String {
    format!("{} rod {}", mark(case, column), rod.label)
}

/// Says of what the figures of a rod are told where no raise is planned: nothing where one is.
pub(super) fn left_on_its_pad(column: &ColumnCase) -> &'static str {
    if column.raise.is_some() { "" } else { "were the plate left on its pad, " }
}

/// Gives a column's mark.
pub(super) fn mark<'a>(case: &Case<'a>, column: &ColumnCase) -> &'a str {
    &case.column(column.index).mark
}

/// Gives the authority of what this program asks for by itself.
pub(super) fn house_rule(text: &str) -> Authority {
    Authority::new(Standing::HouseRule, text)
}

/// Makes the outcome of a rule that does not apply.
pub(super) fn does_not_apply(why: &str) -> Outcome {
    Outcome::NotApplicable(why.to_owned())
}

/// Makes the outcome of a rule that is kept and has nothing to measure.
pub(super) const KEPT: Outcome = Outcome::Pass { margin: None };
