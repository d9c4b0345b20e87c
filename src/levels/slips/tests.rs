//! Slips made on purpose in notes that were clean, each found and named.

use super::{Along, RoundAmount, Slip, SlipKind};
use crate::length::Unit;
use crate::levels::Levelled;
use crate::levels::tests::sample::Notes;

const PADS: [&str; 8] = ["A1", "A2", "A3", "A4", "B1", "B2", "B3", "B4"];

/// The pads in sixteenths of an inch below the highest.
const HEIGHTS: [i64; 8] = [0, -3, -1, -6, -2, -9, -4, -5];

/// Pads read from some setups, line A and line B as walls; `slip` adds sixteenths to the reading of a setup and a pad.
fn notes(setups: &[&str], slip: impl Fn(usize, usize) -> i64) -> Notes {
    let mut notes = Notes::of(Unit::Inch).columns(&PADS).wall(&PADS[..4]).wall(&PADS[4..]);
    for (at, setup) in setups.iter().enumerate() {
        for (pad, height) in HEIGHTS.iter().enumerate() {
            // a jitter of a sixteenth that all readings have, so that nothing is too good to be true
            let jitter = ((at * 3 + pad * 5) % 3) as i64 - 1;
            let sixteenths = 800 + 64 * at as i64 - height * 2 + jitter + 2 * slip(at, pad);
            notes = notes.sight(setup, PADS[pad], &format!("{sixteenths}/32 in"));
        }
    }
    notes.enumerate_positions()
}

impl Notes {
    fn enumerate_positions(self) -> Self {
        PADS.iter().enumerate().fold(self, |notes, (pad, mark)| {
            notes.stands(mark, &format!("{}'", 20 * (pad % 4)), &format!("{}'", 30 * (pad / 4)))
        })
    }
}

fn slips(levelled: &Levelled) -> Vec<(&SlipKind, &[usize])> {
    levelled.slips().iter().map(|slip| (&slip.kind, slip.points.as_slice())).collect()
}

fn has(levelled: &Levelled, wanted: impl Fn(&Slip) -> bool) -> bool {
    levelled.slips().iter().any(wanted)
}

#[test]
fn clean_notes_look_like_nothing() {
    for setups in [&["1"][..], &["1", "2"], &["1", "2", "3"]] {
        let levelled = notes(setups, |_, _| 0).reduce().levelled;
        assert!(levelled.slips().is_empty(), "{:?}", levelled.slips());
        assert!(levelled.suspects().is_empty());
    }
}

#[test]
fn a_foot_and_an_inch_that_were_misread_are_named_at_any_pad_of_any_setup() {
    for (amount, sixteenths) in [(RoundAmount::Foot, 192), (RoundAmount::Inch, 16)] {
        for setup in 0..3 {
            for pad in 0..8 {
                for sign in [1, -1] {
                    let slip = |at, on| if (at, on) == (setup, pad) { sign * sixteenths } else { 0 };
                    let levelled = notes(&["1", "2", "3"], slip).reduce().levelled;
                    assert!(!levelled.test().unwrap().passed);
                    assert_eq!(levelled.suspects().len(), 1, "setup {setup} pad {pad}");
                    let suspect = &levelled.suspects()[0];
                    assert_eq!((suspect.place.start, suspect.tied_with.len()), (setup * 8 + pad, 0));
                    // a reading that is too high puts its point too low
                    assert_eq!(suspect.too_high, sign < 0);
                    let misread =
                        |slip: &Slip| slip.kind == SlipKind::Misread(amount) && slip.points == [pad];
                    assert!(has(&levelled, misread), "{:?}", slips(&levelled));
                }
            }
        }
    }
}

#[test]
fn with_two_setups_a_slip_is_one_of_two_readings() {
    let levelled = notes(&["1", "2"], |at, pad| if (at, pad) == (1, 2) { 16 } else { 0 }).reduce().levelled;
    let suspect = &levelled.suspects()[0];
    assert_eq!((suspect.place.start, suspect.tied_with[0].start), (2, 10));
    let misread = levelled.slips().iter().find(|it| matches!(it.kind, SlipKind::Misread(_))).unwrap();
    assert_eq!((misread.places.len(), misread.setup), (2, None));
}

#[test]
fn two_columns_that_were_swapped_are_named_with_their_setup() {
    // A2 and B2 differ by 6 sixteenths
    let swap = |at, pad| match (at, pad) {
        (1, 1) => HEIGHTS[1] - HEIGHTS[5],
        (1, 5) => HEIGHTS[5] - HEIGHTS[1],
        _ => 0,
    };
    let levelled = notes(&["1", "2", "3"], swap).reduce().levelled;
    let first = &levelled.slips()[0];
    assert_eq!(
        (&first.kind, first.setup, first.points.as_slice()),
        (&SlipKind::Swapped, Some(1), &[1, 5][..])
    );
    assert!(!has(&levelled, |it| matches!(it.kind, SlipKind::Drift(_))));
    // with two setups either of them may have it
    let levelled = notes(&["1", "2"], swap).reduce().levelled;
    let setups: Vec<_> =
        levelled.slips().iter().filter(|it| it.kind == SlipKind::Swapped).map(|it| it.setup).collect();
    assert_eq!(setups, [Some(0), Some(1)]);
}

#[test]
fn two_columns_are_not_called_swapped_while_another_reading_is_off_as_well() {
    let both = |at, pad| match (at, pad) {
        (1, 1) => HEIGHTS[1] - HEIGHTS[5],
        (1, 5) => HEIGHTS[5] - HEIGHTS[1],
        (2, 6) => 192,
        _ => 0,
    };
    let levelled = notes(&["1", "2", "3"], both).reduce().levelled;
    assert!(!has(&levelled, |it| it.kind == SlipKind::Swapped), "{:?}", levelled.slips());
    assert!(has(&levelled, |it| it.kind == SlipKind::Misread(RoundAmount::Foot) && it.points == [6]));
    // B2 stands a foot lower in truth, and was swapped with A2; B3 is an inch off
    let both = |at, pad| match (at, pad) {
        (1, 1) => HEIGHTS[1] - HEIGHTS[5] + 192,
        (1, 5) => HEIGHTS[5] - HEIGHTS[1],
        (_, 5) => 192,
        (2, 6) => 16,
        _ => 0,
    };
    let levelled = notes(&["1", "2", "3"], both).reduce().levelled;
    assert!(!has(&levelled, |it| it.kind == SlipKind::Swapped), "{:?}", levelled.slips());
}

#[test]
fn a_rod_on_the_wrong_mark_is_named_with_the_mark_it_stood_on() {
    // B2, the lowest pad, was read with the rod on A1, the highest
    let slip = |at, pad| if (at, pad) == (2, 5) { HEIGHTS[5] - HEIGHTS[0] } else { 0 };
    let levelled = notes(&["1", "2", "3"], slip).reduce().levelled;
    let found = levelled.slips().iter().find(|it| matches!(it.kind, SlipKind::WrongMark(_))).unwrap();
    // A3 stands a sixteenth below A1, which the reading cannot tell
    assert_eq!(found.kind, SlipKind::WrongMark(vec![0, 2]));
    assert_eq!((found.points.as_slice(), found.setup), (&[5][..], Some(2)));
}

#[test]
fn a_tripod_that_settles_is_a_drift_in_time() {
    let slip = |at, pad: usize| if at == 1 { [0, 1, 2, 3, 4, 5, 6, 7][pad] * 2 } else { 0 };
    let levelled = notes(&["1", "2", "3"], slip).reduce().levelled;
    assert!(!levelled.test().unwrap().passed);
    let drift = levelled.slips().iter().find(|it| matches!(it.kind, SlipKind::Drift(_))).unwrap();
    assert_eq!((&drift.kind, drift.setup), (&SlipKind::Drift(Along::Time), Some(1)));
    // 14 sixteenths from the first reading to the last
    assert!((drift.size.nm() - 14 * 1_587_500).abs() < 3_000_000, "{:?}", drift.size);
}

#[test]
fn a_wall_that_drifts_is_named() {
    let slip = |at, pad: usize| if at == 0 && pad >= 4 { (pad as i64 - 4) * 5 } else { 0 };
    let levelled = notes(&["1", "2", "3"], slip).reduce().levelled;
    let drift = levelled.slips().iter().find(|it| matches!(it.kind, SlipKind::Drift(_))).unwrap();
    assert_eq!((&drift.kind, drift.setup), (&SlipKind::Drift(Along::Line(1)), Some(0)));
}

#[test]
fn an_instrument_that_leans_is_a_drift_over_the_plan() {
    let slip = |at, pad: usize| if at == 2 { (pad % 4) as i64 * 4 - (pad / 4) as i64 * 9 } else { 0 };
    let levelled = notes(&["1", "2", "3"], slip).reduce().levelled;
    let drift = levelled.slips().iter().find(|it| matches!(it.kind, SlipKind::Drift(_))).unwrap();
    assert_eq!((&drift.kind, drift.setup), (&SlipKind::Drift(Along::Plan), Some(2)));
}

#[test]
fn a_check_shot_that_does_not_come_back_is_named() {
    let shot = |sixteenths: i64| {
        notes(&["1"], |_, _| 0).sight("1", "A1", &format!("{}/32 in", 799 + 2 * sixteenths)).reduce().levelled
    };
    assert!(shot(0).slips().is_empty() && shot(1).slips().is_empty());
    let levelled = shot(3);
    let found = &levelled.slips()[0];
    assert_eq!(
        (&found.kind, found.points.as_slice(), found.places.len()),
        (&SlipKind::CheckShot, &[0][..], 2)
    );
    assert_eq!(found.size.nm(), 3 * 1_587_500);
}

#[test]
fn a_pad_that_nothing_checks_and_stands_off_its_neighbours_by_a_foot_or_an_inch_is_asked_about() {
    for (amount, sixteenths) in [(RoundAmount::Foot, 192), (RoundAmount::Inch, 16)] {
        let flat = |pad: usize| HEIGHTS[pad];
        let slip = |_, pad: usize| flat(pad) + if pad == 5 { sixteenths } else { 0 };
        let levelled = notes(&["1"], slip).reduce().levelled;
        assert!(
            has(&levelled, |it| it.kind == SlipKind::OffNeighbours(amount) && it.points == [5]),
            "{:?}",
            levelled.slips()
        );
    }
}

/// At the end of a line, and between pads that do not agree, no two neighbours tell it.
#[test]
fn a_foot_is_asked_about_at_every_pad_however_the_concrete_varies() {
    for pad in 0..PADS.len() {
        for feet in [-1, 1, 40] {
            let slip = |_, at: usize| if at == pad { 192 * feet } else { 0 };
            let levelled = notes(&["1"], slip).reduce().levelled;
            let asked = |it: &Slip| {
                let kind = matches!(
                    it.kind,
                    SlipKind::OffTheOthers(RoundAmount::Foot) | SlipKind::OffNeighbours(RoundAmount::Foot)
                );
                kind && it.points == [pad]
            };
            assert!(has(&levelled, asked), "{pad} {feet}: {:?}", levelled.slips());
            let others = |it: &Slip| matches!(it.kind, SlipKind::OffTheOthers(_)) && it.points != [pad];
            assert!(!has(&levelled, others), "{pad} {feet}: {:?}", levelled.slips());
        }
    }
}

/// Half a foot is a step in the slab as likely as a slip.
#[test]
fn a_pad_that_is_off_by_no_whole_foot_is_not_called_misread() {
    let slip = |_, at: usize| if at == 3 { 96 } else { 0 };
    let levelled = notes(&["1"], slip).reduce().levelled;
    assert!(!has(&levelled, |it| matches!(it.kind, SlipKind::OffTheOthers(_))), "{:?}", levelled.slips());
}

#[test]
fn a_pad_between_two_that_differ_is_off_neither() {
    // A1 at 0, A2 an inch below the mean of its neighbours, A3 half an inch lower than A1
    let slip = |_, pad: usize| HEIGHTS[pad] + [0, 20, 8, 8, 0, 0, 0, 0][pad];
    let levelled = notes(&["1"], slip).reduce().levelled;
    assert!(!has(&levelled, |it| it.points == [1]), "{:?}", levelled.slips());
}

#[test]
fn a_line_that_falls_evenly_and_is_not_checked_is_asked_about() {
    let slip = |_, pad: usize| HEIGHTS[pad] + if pad < 4 { pad as i64 * 6 } else { 0 };
    let levelled = notes(&["1"], slip).reduce().levelled;
    let falling: Vec<&Slip> = levelled.slips().iter().filter(|it| it.kind == SlipKind::Falling(0)).collect();
    assert_eq!(falling.len(), 1, "{:?}", levelled.slips());
    assert!(!has(&levelled, |it| it.kind == SlipKind::Falling(1)));
}

#[test]
fn two_pads_at_each_others_design_seat_are_asked_about() {
    // A4 is designed 4 ft lower than all others; its reading and that of A1 were written down for each other
    let slip = |_, pad: usize| HEIGHTS[pad] + if pad == 0 { 768 } else { 0 };
    let pit = notes(&["1"], slip).seat("A4", "-4'");
    let levelled = pit.reduce().levelled;
    let found = levelled.slips().iter().find(|it| it.kind == SlipKind::SeatsSwapped).unwrap();
    assert_eq!(found.points, [0, 3]);
    // the other way round it is as it should be
    let slip = |_, pad: usize| HEIGHTS[pad] + if pad == 3 { 768 } else { 0 };
    let levelled = notes(&["1"], slip).seat("A4", "-4'").reduce().levelled;
    assert!(!has(&levelled, |it| it.kind == SlipKind::SeatsSwapped));
}
