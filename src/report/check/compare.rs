//! What the plan takes, beside what other plans would take.

use super::totals::{Totals, kilograms};
use crate::check::{Case, ColumnCase, Hold, style};
use crate::length::Length;
use crate::order::Mass;
use crate::plan::{Action, Beside, To, What};
use crate::report::document::{Align, Document, Tone};
use crate::report::planned::aim::limits;
use crate::text::{Style, and, count};
use serde::Serialize;
use std::borrow::Borrow;

/// Most columns that are named in one line.
const NAMED: usize = 12;

/// What the plan is called in which all columns are raised to the highest pad.
const HIGHEST_PAD: &str = "highest-pad";

/// One plan in the comparison; all that is counted is null where there is no such plan.
#[derive(Serialize)]
pub(in crate::report) struct Compared {
    what: &'static str,
    to: To,
    /// The column whose pad is ground.
    #[serde(skip_serializing_if = "Option::is_none")]
    column: Option<String>,
    /// Its raise, less than nothing.
    #[serde(skip_serializing_if = "Option::is_none")]
    raise_nm: Option<i64>,
    #[serde(flatten)]
    needs: Needs,
    /// Whether it can be carried out as it stands; null where that hangs on what is not measured.
    can_be_done: Option<bool>,
    /// How it is called on a screen.
    #[serde(skip)]
    words: String,
    /// What stands against it, in words.
    #[serde(skip)]
    against: Option<String>,
}

#[derive(Default, Serialize)]
struct Needs {
    refer: Option<usize>,
    grind: Option<usize>,
    grout: Option<usize>,
    held: Option<usize>,
    shim: Option<usize>,
    pieces: Option<u32>,
    thickness_nm: Option<i64>,
    #[serde(rename = "shim_mass_kg", serialize_with = "kilograms")]
    shim_mass: Option<Mass>,
    /// Columns that may not be set.
    columns_held: Option<usize>,
}

/// Judges every plan of the comparison afresh, the plan itself first.
pub(in crate::report) fn compared(case: &Case<'_>, beside: &[Beside]) -> Vec<Compared> {
    let words = format!("this plan, to {} limits", limits(case.plan.to));
    let this = Compared::new(case, "this-plan", words);
    let others = beside.iter().map(|it| one(case, it));
    std::iter::once(this).chain(others).collect()
}

fn one(case: &Case<'_>, beside: &Beside) -> Compared {
    let (what, words) = match beside.what {
        What::OtherLimits => ("other-limits", format!("to {} limits", limits(beside.to))),
        What::HighestPad => (HIGHEST_PAD, "all raised to the highest pad".to_owned()),
        What::GrindOne { column } => {
            let raise = beside.plan.as_ref().and_then(|plan| plan.choices.get(column)?.raise);
            let depth = style(case.job).exact(raise.map_or(Length::ZERO, Length::abs));
            ("grind-one", format!("{} ground {depth}", case.column(column).mark))
        }
    };
    let Some(plan) = &beside.plan else {
        return Compared {
            what,
            to: beside.to,
            column: None,
            raise_nm: None,
            needs: Needs::default(),
            can_be_done: Some(false),
            words,
            against: Some("the columns that are held cannot stand together".to_owned()),
        };
    };
    let other = Case::new(case.job, case.levels, plan);
    let mut compared = Compared::new(&other, what, words);
    match beside.what {
        What::HighestPad => compared.against = in_the_way(&other),
        What::GrindOne { column } => {
            compared.column = Some(case.column(column).mark.clone());
            compared.raise_nm = other.choice(column).raise.map(Length::nm);
        }
        What::OtherLimits => {}
    }
    compared
}

impl Compared {
    fn new(case: &Case<'_>, what: &'static str, words: String) -> Self {
        let totals = Totals::of(case);
        let needs = Needs {
            refer: Some(totals.refer),
            grind: Some(totals.grind),
            grout: Some(totals.grout),
            held: Some(totals.held),
            shim: Some(totals.shim),
            pieces: Some(totals.pieces),
            thickness_nm: Some(totals.thickness),
            shim_mass: totals.shim_mass,
            columns_held: Some(case.columns.iter().filter(|column| !column.may_set()).count()),
        };
        Self {
            what,
            to: case.plan.to,
            column: None,
            raise_nm: None,
            needs,
            can_be_done: can_be_done(case),
            words,
            against: None,
        }
    }

    /// Gives its row; `shims` where the job takes any, `ground` and `grouted` where a plan does.
    fn row(&self, style: Style, columns: usize, (shims, ground, grouted): (bool, bool, bool)) -> Vec<String> {
        let or_dash = |number: Option<usize>| number.map_or("-".to_owned(), |number| number.to_string());
        let pieces = self.needs.pieces.map_or("-".to_owned(), |pieces| pieces.to_string());
        let mass = match (self.needs.pieces, self.needs.shim_mass) {
            (None, _) => "-".to_owned(),
            (_, None) => "?".to_owned(),
            (_, Some(mass)) => style.mass(mass.milligrams()),
        };
        let set = self
            .needs
            .columns_held
            .map_or("-".to_owned(), |held| format!("{} of {columns}", columns.saturating_sub(held)));
        let mut row = vec![self.words.clone()];
        row.extend(shims.then_some([pieces, mass]).into_iter().flatten());
        row.extend(ground.then(|| or_dash(self.needs.grind)));
        row.extend(grouted.then(|| or_dash(self.needs.grout)));
        row.extend([or_dash(self.needs.refer), set]);
        row
    }
}

/// Tells whether a plan can be carried out as it stands: nothing referred, no limit broken, no nut short; unknown
/// where that hangs on a pad or a rod that is not measured, or is damaged.
fn can_be_done(case: &Case<'_>) -> Option<bool> {
    let short = |column: &ColumnCase| {
        column.hold.iter().any(|hold| matches!(hold, Hold::RodShort | Hold::RodRunsOut))
    };
    let broken = case.differences.iter().any(|it| it.value.is_some_and(|value| value.abs() > it.limit));
    let referred = case.plan.choices.iter().any(|choice| choice.action == Action::Refer);
    if broken || referred || case.columns.iter().any(short) {
        return Some(false);
    }
    let open = |column: &ColumnCase| {
        column.pad.is_none()
            || column.hold.iter().any(|hold| matches!(hold, Hold::RodUnmeasured | Hold::RodCondition))
    };
    if case.columns.iter().any(open) { None } else { Some(true) }
}

/// Names the columns that do not get to the highest pad, and those whose nuts would not be full there.
fn in_the_way(case: &Case<'_>) -> Option<String> {
    let named = |wanted: &dyn Fn(&ColumnCase) -> bool| {
        let found: Vec<usize> =
            case.columns.iter().filter(|column| wanted(column)).map(|column| column.index).collect();
        let more = found.len().saturating_sub(NAMED);
        let marks = case.marks(found.get(..NAMED).unwrap_or(&found));
        match (marks.is_empty(), more) {
            (true, _) => None,
            (false, 0) => Some(and(&marks)),
            (false, more) => Some(format!("{} and {more} more", marks.join(", "))),
        }
    };
    let referred = named(&|column| case.choice(column.index).action == Action::Refer);
    let holding =
        |hold: Hold| named(&move |column: &ColumnCase| column.raise.is_some() && column.hold.contains(&hold));
    let parts = [
        referred.map(|marks| format!("no stack reaches it at {marks}")),
        holding(Hold::RodShort).map(|marks| format!("a nut is not full at {marks}")),
        holding(Hold::RodRunsOut).map(|marks| format!("thread runs out at {marks}")),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    if parts.is_empty() { None } else { Some(parts.join("; ")) }
}

/// Adds the comparison to a screen, one line a plan.
pub(in crate::report) fn comparison(document: &mut Document, case: &Case<'_>, compared: &[Compared]) {
    let (columns, style) = (case.columns.len(), style(case.job));
    let any = |number: fn(&Needs) -> Option<usize>| {
        compared.iter().any(|it| number(&it.needs).is_some_and(|n| n > 0))
    };
    let (ground, grouted) = (any(|needs| needs.grind), any(|needs| needs.grout));
    // where every column stands on a designed bed there are no shims, and nothing is raised by them
    let shims = case.job.columns.iter().any(|column| !case.job.base_of(column).has_bed());
    let compared: Vec<&Compared> = compared.iter().filter(|it| shims || it.what != HIGHEST_PAD).collect();
    let mut heads = vec![("plan", Align::Wrap)];
    heads.extend(shims.then_some([("pieces", Align::Right), ("mass", Align::Right)]).into_iter().flatten());
    heads.extend(ground.then_some(("ground", Align::Right)));
    heads.extend(grouted.then_some(("on grout", Align::Right)));
    heads.extend([("engineer", Align::Right), ("may be set", Align::Right)]);
    document.heading(Tone::Plain, "WHAT IT TAKES, and what other plans would take");
    document
        .grid(&heads, compared.iter().map(|it| it.row(style, columns, (shims, ground, grouted))).collect());
    for it in &compared {
        if let Some(against) = &it.against {
            document.text(Tone::Quiet, format!("{}: {against}.", capital(&it.words)));
        }
    }
    if let Some((this, that)) = compared.first().zip(ground_one(&compared)) {
        document.text(Tone::Ask, grinding_words(&this.needs, that));
    }
}

/// Finds the plan that grinds one pad more, where there is one.
pub(in crate::report) fn ground_one<C: Borrow<Compared>>(compared: &[C]) -> Option<&Compared> {
    compared.iter().map(Borrow::borrow).find(|it: &&Compared| it.column.is_some())
}

fn grinding_words(this: &Needs, that: &Compared) -> String {
    let columns = |needs: &Needs| needs.shim.unwrap_or(0) + needs.grout.unwrap_or(0);
    let grouts = [this, &that.needs].iter().any(|needs| needs.grout.is_some_and(|grout| grout > 0));
    format!(
        "{}: {} under {} instead of {}. Grinding is the engineer's choice and not in this plan.",
        capital(&that.words),
        if grouts { "shims or grout" } else { "shims" },
        count(columns(&that.needs), "column"),
        columns(this),
    )
}

/// Begins a sentence.
fn capital(words: &str) -> String {
    let mut rest = words.chars();
    rest.next().map(|first| first.to_uppercase().chain(rest).collect()).unwrap_or_default()
}
