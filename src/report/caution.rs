//! The cautions that stand under every answer a crew acts on.

use super::document::{Document, Tone};
use crate::check::{Judged, Level, Outcome};

/// Where the tool stands back.
pub(super) const DEFER: &str = "This is arithmetic, not a design. The engineer of record, the drawings and local \
     codes decide. Do not repair, replace, bend, cut or weld an anchor rod without the engineer's approval \
     (29 CFR 1926.755(b)).";

/// The same where the source stands beside it.
pub(super) const DEFER_SHORT: &str =
    "This is arithmetic, not a design. The engineer of record, the drawings and local codes decide.";

/// What no answer of this program stands for, said where a crew reads that a column may be set.
const ERECTION: &str = "May be set is said of levels and rods alone. No steel goes up before written notice that the concrete has \
     reached its strength (29 CFR 1926.752(b)); a competent person looks at every column for guying or bracing \
     (29 CFR 1926.755(a)(4)).";

/// What grinding does, where the source stands beside it.
pub(super) const SILICA_SHORT: &str = "Grinding concrete makes silica dust: wet or shrouded tools with a vacuum, and \
     respirators where the rule asks for them. Cover over reinforcement is the engineer's question.";

/// How the rods are counted.
pub(super) const ROD_NUMBERS: &str = "Rods are numbered clockwise from the plan's north-west; low and high are the lowest and highest of a group.";

/// What grinding does to lungs and rods.
pub(super) const SILICA: &str = "Grinding concrete makes silica dust (29 CFR 1926.1153): wet or shrouded tools with \
     a vacuum, and respirators where the rule asks for them. Cover over reinforcement is the engineer's question.";

/// Adds the cautions; `grinding` where a pad is to be ground, or grinding one is shown.
pub(super) fn caution(document: &mut Document, grinding: bool) {
    document.heading(Tone::Ask, "CAUTION");
    document.text(Tone::Plain, DEFER);
    if grinding {
        document.text(Tone::Plain, SILICA);
    }
}

/// Adds the cautions where it stands which columns may be set.
pub(super) fn caution_to_set(document: &mut Document, grinding: bool) {
    caution(document, grinding);
    document.text(Tone::Plain, ERECTION);
}

/// The rule that offers grinding for a pad that falls too much.
const PAD_TILTED: &str = "pad-tilted";

/// Tells whether a finding offers to grind a pad: of one column, or of any.
pub(super) fn about_grinding(judged: &Judged<'_>, column: Option<usize>) -> bool {
    judged.findings.iter().any(|(rule, it)| {
        let about = column.is_none_or(|column| it.subject.columns.contains(&column));
        *rule == PAD_TILTED && it.outcome == Outcome::Fail(Level::Ask) && about
    })
}
