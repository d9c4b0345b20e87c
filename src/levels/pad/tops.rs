//! Projections of rods whose tops were read with the level, and what they make of those by tape.

use crate::length::Length;
use crate::levels::Levelled;
use crate::levels::rounding::{half_up, up};
use crate::model::{ByLevel, Job, RodLabel, SpotKind};

/// Puts into a job what the level says of every rod whose top was read.
///
/// A projection by level is the top less the pad, and good to what that difference is good to. Where the tape was
/// put to the same rod and both agree, the projection is their mean, each weighing by the square of its +-; where
/// they do not, it is their plain mean, and its +- covers both readings with their own. One value that stands for
/// all rods is not a reading of this one: where it agrees, the level alone counts, and where it does not, it counts
/// as a reading. A top below its pad leaves the rod unmeasured.
pub fn with_rods_by_level(job: &mut Job, levels: &Levelled) {
    let tops = job.readings.spots.iter().filter_map(|spot| match spot.what {
        SpotKind::Rod(label) => Some((spot.column, label, spot.point)),
        SpotKind::Place(_) => None,
    });
    let tops: Vec<(usize, RodLabel, usize)> = tops.collect();
    let tape_plus_minus = job.rods_plus_minus;
    for (column, label, top) in tops {
        let Some(column) = job.columns.get_mut(column) else { continue };
        let Some(pad) = column.point else { continue };
        let Some(rod) = column.rods.iter_mut().find(|rod| rod.label == label) else { continue };
        let (Some(top_height), Some(pad_height)) = (levels.height(top), levels.height(pad)) else { continue };
        let Some(plus_minus) = levels.difference_plus_minus(top, pad) else { continue };
        let tape = rod.by_level.map_or(rod.projection, |before| before.tape);
        let level = top_height.elevation - pad_height.elevation;
        let read = ByLevel { tape, level, plus_minus, agrees: true };
        let taken = take(read, tape_plus_minus, rod.one_for_all);
        rod.projection = taken.projection;
        rod.plus_minus = taken.projection.map(|_| taken.plus_minus);
        rod.by_level = Some(taken.by_level);
        rod.one_for_all = false;
    }
}

/// What a rod is taken for.
struct Taken {
    projection: Option<Length>,
    plus_minus: Length,
    by_level: ByLevel,
}

fn take(read: ByLevel, tape_plus_minus: Length, one_for_all: bool) -> Taken {
    let by_level_alone =
        |by_level: ByLevel| Taken { projection: Some(read.level), plus_minus: read.plus_minus, by_level };
    if read.is_below_its_pad() {
        return Taken { projection: None, ..by_level_alone(ByLevel { agrees: false, ..read }) };
    }
    let (Some(tape), Some(apart)) = (read.tape, read.apart()) else { return by_level_alone(read) };
    if apart > read.may_be_apart(tape_plus_minus) {
        let middle = Length::from_nm((tape + read.level).nm().div_euclid(2));
        let reach = |value: Length, plus_minus: Length| (value - middle).abs() + plus_minus;
        return Taken {
            projection: Some(middle),
            plus_minus: reach(tape, tape_plus_minus).max(reach(read.level, read.plus_minus)),
            by_level: ByLevel { agrees: false, ..read },
        };
    }
    if one_for_all {
        return by_level_alone(ByLevel { tape: None, ..read });
    }
    let (projection, plus_minus) = weighted((tape, tape_plus_minus), (read.level, read.plus_minus));
    Taken { projection: Some(projection), plus_minus, by_level: read }
}

/// Gives the mean of two readings that agree, each weighing by 1 over the square of its +-; one of +- 0 rules.
fn weighted((tape, of_tape): (Length, Length), (level, of_level): (Length, Length)) -> (Length, Length) {
    let (of_tape, of_level) = (of_tape.nm() as f64, of_level.nm() as f64);
    let both = of_tape.hypot(of_level);
    if both == 0.0 {
        return (level, Length::ZERO);
    }
    let share_of_tape = (of_level / both).powi(2);
    let projection = level + half_up((tape - level).nm() as f64 * share_of_tape);
    (projection, up(of_tape * of_level / both))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::length::{Bare, Unit, read};
    use crate::levels::reduce;
    use crate::levels::tests::sample::Notes;
    use crate::model::{Rod, RodLabel, Sense};
    use proptest::prelude::*;

    fn inch(text: &str) -> Length {
        read(text, Bare::of(Unit::Inch)).unwrap()
    }

    /// A pad at 0, and rod 2 with this by tape and its top at this height; every reading is good to +-1/16.
    fn rod(tape: Option<&str>, top: &str, one_for_all: bool) -> Rod {
        let notes = Notes::of(Unit::Inch).sense(Sense::Height).columns(&["A", "B"]);
        let notes = notes.sight("1", "A", "0").sight("1", "B", "0").spot("1", "A", "rod 2", top);
        let mut job = notes.job();
        job.rods_plus_minus = inch("1/16");
        for column in &mut job.columns {
            let rod = |number| Rod {
                projection: tape.map(inch),
                one_for_all,
                ..Rod::unmeasured(RodLabel::Number(number))
            };
            column.rods = (1..=4).map(rod).collect();
        }
        let levels = reduce(&job);
        with_rods_by_level(&mut job, &levels);
        let once = format!("{job:?}");
        if !one_for_all {
            with_rods_by_level(&mut job, &levels);
            assert_eq!(format!("{job:?}"), once, "twice is as good as once");
        }
        let untouched = |rod: &Rod| rod.by_level.is_none() && rod.projection == tape.map(inch);
        assert!(job.columns[0].rods.iter().filter(|rod| rod.label != RodLabel::Number(2)).all(untouched));
        assert!(job.columns[1].rods.iter().all(untouched));
        job.columns[0].rods.remove(1)
    }

    #[test]
    fn a_rod_that_only_the_level_saw_takes_its_value_and_its_plus_minus() {
        let rod = rod(None, "2-1/2", false);
        // two readings of +-1/16 each: 1/16 times the root of 2
        assert_eq!((rod.projection, rod.plus_minus), (Some(inch("2-1/2")), Some(Length::from_nm(2_245_065))));
        let by_level = rod.by_level.unwrap();
        assert_eq!((by_level.tape, by_level.level, by_level.agrees), (None, inch("2-1/2"), true));
    }

    /// By hand: squares 1 and 2, so the tape weighs 2/3; +- is 1/16 times the root of 2/3.
    #[test]
    fn tape_and_level_that_agree_are_meaned_by_their_squares() {
        let rod = rod(Some("2-1/2"), "2-9/16", false);
        let third = 1_587_500.0 / 3.0;
        let off = (rod.projection.unwrap() - inch("2-1/2")).nm() as f64 - third;
        assert!(off.abs() <= 1.0, "{off}");
        assert_eq!(rod.plus_minus, Some(Length::from_nm(1_296_189)));
        assert!(rod.by_level.unwrap().agrees);
    }

    /// By hand: 1/4 apart, 1/16 times the root of 3 allowed; the mean is 2-5/8, and the level reaches farther:
    /// 1/8 and its own +-.
    #[test]
    fn tape_and_level_that_disagree_are_covered_both() {
        let rod = rod(Some("2-1/2"), "2-3/4", false);
        let reach = inch("1/8") + Length::from_nm(2_245_065);
        assert_eq!((rod.projection, rod.plus_minus), (Some(inch("2-5/8")), Some(reach)));
        assert_eq!(rod.by_level.map(|it| (it.agrees, it.tape)), Some((false, Some(inch("2-1/2")))));
    }

    #[test]
    fn a_value_for_all_rods_adds_nothing_to_the_level_but_is_not_overruled() {
        let agreeing = rod(Some("2-1/2"), "2-9/16", true);
        assert_eq!((agreeing.projection, agreeing.one_for_all), (Some(inch("2-9/16")), false));
        assert_eq!(agreeing.plus_minus, Some(Length::from_nm(2_245_065)));
        let apart = rod(Some("2-1/2"), "3-1/2", true);
        assert_eq!((apart.projection, apart.by_level.unwrap().agrees), (Some(inch("3")), false));
    }

    #[test]
    fn a_top_below_its_pad_is_no_projection() {
        for tape in [None, Some("2-1/2"), Some("0")] {
            let rod = rod(tape, "-1/32", false);
            assert_eq!((rod.projection, rod.plus_minus), (None, None), "{tape:?}");
            let by_level = rod.by_level.unwrap();
            assert!(by_level.is_below_its_pad() && !by_level.agrees);
        }
        assert_eq!(rod(None, "0", false).projection, Some(Length::ZERO));
    }

    #[test]
    fn a_reading_that_is_exact_rules() {
        let nm = Length::from_nm;
        let both = |tape, level| weighted((nm(100), nm(tape)), (nm(110), nm(level)));
        assert_eq!(both(0, 20), (nm(100), nm(0)));
        assert_eq!(both(20, 0), (nm(110), nm(0)));
        assert_eq!(both(20, 20), (nm(105), nm(15)));
        assert_eq!(weighted((nm(7), nm(0)), (nm(7), nm(0))), (nm(7), nm(0)));
    }

    #[test]
    fn a_top_or_a_pad_that_is_not_connected_leaves_the_tape_alone() {
        let notes = Notes::of(Unit::Inch).sense(Sense::Height).columns(&["A"]);
        let mut job = notes.sight("1", "A", "0").spot("2", "A", "rod 1", "3").job();
        let by_tape = Rod { projection: Some(inch("2")), ..Rod::unmeasured(RodLabel::Number(1)) };
        job.columns[0].rods = vec![by_tape];
        let levels = reduce(&job);
        with_rods_by_level(&mut job, &levels);
        assert_eq!(
            (job.columns[0].rods[0].projection, job.columns[0].rods[0].by_level),
            (Some(inch("2")), None)
        );
    }

    proptest! {
        #[test]
        fn what_is_taken_lies_between_both_readings_and_covers_them_where_they_disagree(
            tape in 0_i64..99_999_999,
            apart in -9_999_999_i64..9_999_999,
            of_tape in 0_i64..3_000_000,
            of_level in 0_i64..3_000_000,
        ) {
            let nm = Length::from_nm;
            let (tape, level) = (nm(tape), nm((tape + apart).max(0)));
            let read = ByLevel { tape: Some(tape), level, plus_minus: nm(of_level), agrees: true };
            let taken = take(read, nm(of_tape), false);
            let value = taken.projection.unwrap();
            prop_assert!(tape.min(level) <= value && value <= tape.max(level));
            if taken.by_level.agrees {
                prop_assert!(taken.plus_minus <= nm(of_tape.min(of_level)));
            } else {
                let (low, high) = (value - taken.plus_minus, value + taken.plus_minus);
                prop_assert!(low <= tape - nm(of_tape) && tape + nm(of_tape) <= high);
                prop_assert!(low <= level - nm(of_level) && level + nm(of_level) <= high);
            }
        }
    }
}
