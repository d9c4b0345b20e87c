//! What is to be kept in mind before anybody acts on an answer, each with its source.

use super::super::caution::{DEFER_SHORT, SILICA_SHORT, about_grinding};
use super::Page;
use crate::check::Judged;
use crate::plan::Action;
use serde::Serialize;

/// One caution.
#[derive(Clone, Copy, Serialize)]
pub(in crate::report) struct Caution {
    /// What is to be kept in mind.
    pub(in crate::report) text: &'static str,
    /// On whose word; none where it is this program's own.
    pub(in crate::report) source: Option<&'static str>,
}

const fn of(source: &'static str, text: &'static str) -> Caution {
    Caution { text, source: Some(source) }
}

/// What stands on every page.
const ALWAYS: [Caution; 6] = [
    Caution { text: DEFER_SHORT, source: None },
    of(
        "29 CFR 1926.755(b)",
        "No anchor rod is repaired, replaced or modified in the field without the approval of the project structural \
         engineer of record; the steel erector is told of it in writing before the column is erected.",
    ),
    of(
        "29 CFR 1926.752(a)(1) and (b)",
        "No steel is erected before written notice that the concrete of footings, piers and walls has reached 75 percent \
         of its intended minimum compressive design strength, or enough to bear the loads of erection, by tests of \
         field-cured samples. Nothing on this page tells that strength.",
    ),
    of(
        "29 CFR 1926.755(a)(3)",
        "Columns are set on level finished floors, pre-grouted leveling plates, leveling nuts or shim packs that are \
         adequate to transfer the construction loads.",
    ),
    of(
        "29 CFR 1926.755(a)(4)",
        "A competent person evaluates every column for guying or bracing; what is needed is installed.",
    ),
    of(
        "29 CFR 1926.758",
        "Systems-engineered metal buildings stand under 1926.758, which leaves 1926.755 out and asks for four anchor rods \
         at least at each structural column; what this page says of 1926.755 is then asked for as good practice.",
    ),
];

/// What stands in place of one of them where the job gives the strength of the concrete and a test of it.
const TESTED: Caution = of(
    "29 CFR 1926.752(a)(1) and (b)",
    "No steel is erected before written notice that the concrete of footings, piers and walls has reached 75 percent of \
     its intended minimum compressive design strength, or enough to bear the loads of erection, by tests of field-cured \
     samples. The strength and the test told here are those of the job file, not that notice.",
);

/// What stands there beside it where a pad may be ground.
const GRINDING: Caution = of("29 CFR 1926.1153", SILICA_SHORT);

/// Gives the cautions of a page; without one those of the whole job.
pub(super) fn cautions(judged: &Judged<'_>, page: Option<&Page>) -> Vec<Caution> {
    let limits = &judged.case.job.limits.tables;
    let grinding = page.is_some_and(|page| {
        let offered = page.considered.iter().any(|it| it.option.action == Action::Grind);
        let counted = page.considered.is_empty() && limits.grind.is_some();
        let planned = judged.case.choice(page.column).action == Action::Grind;
        planned || offered || counted || about_grinding(judged, Some(page.column))
    });
    let tested = judged.case.job.concrete.is_strong_enough().is_some();
    let always = ALWAYS.map(|it| if tested && it.source == TESTED.source { TESTED } else { it });
    always.into_iter().chain(grinding.then_some(GRINDING)).collect()
}

/// Gives the cautions of a whole job; `grinding` where a pad is to be ground, or grinding one is shown.
pub(in crate::report) fn cautions_of(grinding: bool) -> Vec<Caution> {
    ALWAYS.into_iter().chain(grinding.then_some(GRINDING)).collect()
}
