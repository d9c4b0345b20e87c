//! A pack of just the planned height that comes out thicker or thinner leaves a nut less than full, or a thread that runs out.
//!
//! The nuts are judged at the planned bed. Packs are steel: what they come out at is where the plate stands, unless the crew
//! changes pieces by the level. So it is asked about and holds nothing.

use super::set_on::{NO_BED, Said, bed, each_column, on_packs};
use super::subjects::{does_not_apply, house_rule};
use super::{Rule, style};
use crate::catalog::Authority;
use crate::check::case::{Case, ColumnCase};
use crate::check::finding::{Finding, Level, Outcome};
use crate::length::Length;
use crate::model::State;
use crate::plan::{Stack, pack_stack};
use crate::text::{Relation, Style};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "pack-leaves-nut-short",
    about: "thickness of packs against the nuts",
    checks: "pack at its most - planned bed is no more than any full nut has beyond it at the worst, and planned bed - pack at its \
             least no more than any thread has left",
    why: "the plate stands where its packs come out, and a nut that was just full is not full any more",
    limit: |_, _| Some(("what the nuts and threads of the column have to spare".to_owned(), authority())),
    judge,
};

fn authority() -> Authority {
    house_rule("every piece of a pack at its most or its least, as in a stack of shims")
}

/// What packs take off one side, and what the rods have to spare there.
#[derive(Clone, Copy)]
struct Side {
    takes: Length,
    spare: Length,
    of: &'static str,
}

/// Gives both sides of a column: what the thickest pack takes off the nuts, the thinnest off the threads.
fn sides(case: &Case<'_>, column: &ColumnCase, pack: &Stack) -> Vec<Side> {
    let beyond = case.base(column.index).beyond.value;
    let full = || column.rods.iter().filter(|rod| rod.sound && rod.result.state == State::Full);
    let nuts = full().filter_map(|rod| Some(rod.result.beyond_worst? - beyond - rod.plus_minus)).min();
    let threads = full().filter_map(|rod| Some(rod.result.thread_left? - rod.plus_minus)).min();
    let height = pack.height;
    let nuts = nuts.map(|spare| Side {
        takes: height.most - height.nominal,
        spare,
        of: "higher than planned, the nuts have",
    });
    let threads = threads.map(|spare| Side {
        takes: height.nominal - height.least,
        spare,
        of: "lower than planned, the threads have",
    });
    [nuts, threads].into_iter().flatten().collect()
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let style = style(case.job);
    let not = |why: &str| Said::plainly(does_not_apply(why), why, authority());
    each_column(case, on_packs, |column, _| {
        let Some(bed) = bed(case, column) else { return not(NO_BED) };
        let Some(pack) = pack_stack(&case.job.shims, bed).exact else {
            return not("no pack of its height is made, see pack-not-made");
        };
        let sides = sides(case, column, &pack);
        // the side with the least left is told
        match sides.into_iter().min_by_key(|side| side.spare - side.takes) {
            Some(side) => said(side, &pack, style),
            None => not("none of its nuts is full, so it is held"),
        }
    })
}

fn said(side: Side, pack: &Stack, style: Style) -> Said {
    let Side { takes, spare, of } = side;
    let shown = style.pair(takes, spare, Relation::AtMost);
    let text = format!("a pack may come out {} {of} {} to spare", shown.value, shown.limit);
    let (outcome, text) = match takes > spare {
        true => (
            Outcome::Fail(Level::Ask),
            format!("{text}; ask the engineer, or set it by the level with other pieces"),
        ),
        false => (Outcome::Pass { margin: Some(spare - takes) }, text),
    };
    let arithmetic = vec![format!(
        "pack {}, {} to {} with every piece at its least or most",
        style.exact(pack.height.nominal),
        style.exact(pack.height.least),
        style.exact(pack.height.most)
    )];
    Said { outcome, text, pair: Some((takes, spare)), arithmetic, authority: authority() }
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{SIXTEENTH, bedded, beds, findings_under, four_packs, nm};
    use super::*;
    use crate::model::{Job, Setting};

    /// What the nuts have at the worst: 4 in of rod less a bed of 1-1/2, plate 13.462 mm, washer 4.4958 mm, nut 19.2532 mm, and
    /// the tape.
    const NUT: i64 = 40 * SIXTEENTH - 13_462_000 - 4_495_800 - 19_253_200 - SIXTEENTH;
    /// What the threads have: 4 in less a pitch, less rod over the nut's underside, parts at their least, and the tape.
    const THREAD: i64 = 64 * SIXTEENTH - 2_540_000 - (40 * SIXTEENTH - 12_446_000 - 3_098_800) - SIXTEENTH;

    /// Judges six shims of 1/4 in whose limits are so far below and above.
    fn judged(below: i64, above: i64, change: impl Fn(&mut Job)) -> Finding {
        let mut job = bedded(Setting::Packs(four_packs()));
        for piece in &mut job.shims.pieces {
            piece.thickness.least = piece.thickness.nominal - nm(below);
            piece.thickness.most = piece.thickness.nominal + nm(above);
        }
        change(&mut job);
        findings_under(&job, &RULE, |plan| beds(plan, 24 * SIXTEENTH)).swap_remove(0)
    }

    #[test]
    fn six_pieces_that_take_all_the_nuts_have_pass_and_a_nanometre_more_is_asked_about() {
        // shorter rods, so that six pieces can take just what the nuts have
        let shorter = |job: &mut Job| {
            for rod in job.columns.iter_mut().flat_map(|column| &mut column.rods) {
                rod.projection = rod.projection.map(|it| it - nm(NUT - 6_000_000));
            }
        };
        let just = judged(0, 1_000_000, shorter);
        assert_eq!(just.outcome, Outcome::Pass { margin: Some(nm(0)) });
        let more = judged(0, 1_000_001, shorter);
        assert_eq!(
            (more.level(), more.actual, more.limit),
            (Some(Level::Ask), Some(nm(6_000_006)), Some(nm(6_000_000)))
        );
        assert!(
            more.text.contains("higher than planned, the nuts have 6 mm to spare; ask the engineer"),
            "{}",
            more.text
        );
    }

    #[test]
    fn a_pack_that_comes_out_thinner_takes_thread_from_under_the_nut() {
        let less = |job: &mut Job| {
            for rod in job.columns.iter_mut().flat_map(|column| &mut column.rods) {
                rod.thread = rod.thread.map(|it| it - nm(THREAD - 600_000));
            }
        };
        assert_eq!(judged(100_000, 0, less).outcome, Outcome::Pass { margin: Some(nm(0)) });
        let more = judged(100_001, 0, less);
        assert_eq!((more.level(), more.actual), (Some(Level::Ask), Some(nm(600_006))));
        assert!(more.text.contains("lower than planned, the threads have"), "{}", more.text);
    }

    #[test]
    fn what_is_held_or_not_made_is_no_pass() {
        let none = judged(0, 0, |job| job.columns[0].rods.iter_mut().for_each(|rod| rod.projection = None));
        assert!(matches!(none.outcome, Outcome::NotApplicable(_)));
        let none = judged(0, 0, |job| job.shims.most_pieces = 1);
        assert!(matches!(none.outcome, Outcome::NotApplicable(_)));
    }
}
