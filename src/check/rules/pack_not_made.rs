//! The job's shims make no pack of the height of the planned bed.
//!
//! On the nearest pack the plate stands at another height than every difference was judged with: it is asked about.

use super::set_on::{NO_BED, Said, bed, each_column, on_packs};
use super::subjects::{KEPT, does_not_apply, house_rule};
use super::{Rule, style};
use crate::catalog::Authority;
use crate::check::case::Case;
use crate::check::finding::{Finding, Level, Outcome};
use crate::length::Length;
use crate::model::ShimSupply;
use crate::plan::{PackStack, Stack, pack_stack};
use crate::text::{Style, or};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "pack-not-made",
    about: "shims that make a pack of the bed's height",
    checks: "the job's shims, no more pieces than a stack may have, sum up to the planned bed",
    why: "on a pack of another height the seat stands elsewhere than planned, and its neighbours with it",
    limit: |_, _| Some(("just the planned bed".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("packs are composed as shim stacks are; wedges are for setting to height and never counted")
}

/// Judges what comes nearest to a bed.
const fn outcome(made: &PackStack) -> Outcome {
    if made.exact.is_some() { KEPT } else { Outcome::Fail(Level::Ask) }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let style = style(case.job);
    each_column(case, on_packs, |column, _| match bed(case, column) {
        Some(bed) => said(&case.job.shims, bed, style),
        None => Said::plainly(does_not_apply(NO_BED), NO_BED, authority()),
    })
}

fn said(shims: &ShimSupply, bed: Length, style: Style) -> Said {
    let made = pack_stack(shims, bed);
    let outcome = outcome(&made);
    let height = style.exact(bed);
    let text = match &made.exact {
        Some(stack) => format!("each pack is {} = {height}", pieces(stack, style)),
        None => {
            let nearest = [&made.below, &made.above].into_iter().flatten();
            let nearest: Vec<String> = nearest.map(|stack| style.exact(stack.height.nominal)).collect();
            let nearest = match nearest.is_empty() {
                true => "there are no shims".to_owned(),
                false => format!("the nearest is {}", or(&nearest)),
            };
            format!(
                "no pack of up to {} shims is {height}, {nearest}; ask the engineer, or choose thinner shims or another bed",
                shims.most_pieces
            )
        }
    };
    let each = [&made.exact, &made.below, &made.above].into_iter().flatten();
    let arithmetic = each.map(|stack| {
        let Stack { height, .. } = stack;
        format!(
            "{} = {}, {} to {} with every piece at its least or most",
            pieces(stack, style),
            style.exact(height.nominal),
            style.exact(height.least),
            style.exact(height.most)
        )
    });
    let nearest = made.below.as_ref().or(made.above.as_ref()).or(made.exact.as_ref());
    let pair = nearest.map(|stack| (stack.height.nominal, bed));
    Said { outcome, text, pair, arithmetic: arithmetic.collect(), authority: authority() }
}

/// Writes the pieces of one pack, thickest first.
fn pieces(stack: &Stack, style: Style) -> String {
    let each = stack.pieces.iter().map(|piece| match piece.count {
        1 => style.exact(piece.thickness),
        count => format!("{count} x {}", style.exact(piece.thickness)),
    });
    each.collect::<Vec<_>>().join(" + ")
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, bedded, beds, findings_under, four_packs, nm};
    use super::*;
    use crate::model::Setting;

    /// Shims of 1/4 and 1/8 in, up to so many a pack.
    fn judged(bed: i64, pieces: u32) -> Finding {
        let mut job = bedded(Setting::Packs(four_packs()));
        job.shims.most_pieces = pieces;
        findings_under(&job, &RULE, |plan| beds(plan, bed)).swap_remove(0)
    }

    #[test]
    fn a_pack_of_just_the_bed_passes_and_names_its_pieces() {
        let found = judged(24 * SIXTEENTH, 6);
        assert_eq!((found.outcome, found.text.as_str()), (KEPT, "A1: each pack is 6 x 1/4\" = 1-1/2\""));
        assert_eq!(judged(10 * SIXTEENTH, 3).text, "A1: each pack is 2 x 1/4\" + 1/8\" = 5/8\"");
    }

    #[test]
    fn where_nothing_makes_it_the_nearest_are_named_and_somebody_must_choose() {
        let found = judged(23 * SIXTEENTH, 6);
        assert_eq!((found.level(), found.actual), (Some(Level::Ask), Some(nm(22 * SIXTEENTH))));
        assert_eq!(
            found.text,
            "A1: no pack of up to 6 shims is 1-7/16\", the nearest is 1-3/8\" or 1-1/2\"; ask the engineer, or choose thinner \
             shims or another bed"
        );
        assert_eq!(found.arithmetic.len(), 2);
        let low = judged(24 * SIXTEENTH, 3);
        assert!(low.text.contains("the nearest is 3/4\";"), "{}", low.text);
        assert_eq!(judged(24 * SIXTEENTH + 1, 6).level(), Some(Level::Ask), "a nanometre is not made");
    }

    #[test]
    fn without_shims_there_is_no_pack_and_without_a_bed_no_pass() {
        let mut job = bedded(Setting::Packs(four_packs()));
        job.shims.pieces.clear();
        let found = findings_under(&job, &RULE, |plan| beds(plan, 24 * SIXTEENTH));
        assert!(found[0].text.contains("there are no shims"), "{}", found[0].text);
        assert_eq!((found[0].level(), found[0].actual), (Some(Level::Ask), None));
        let none = findings_under(&job, &RULE, super::super::fixture::leave);
        assert!(matches!(none[0].outcome, Outcome::NotApplicable(_)));
    }
}
