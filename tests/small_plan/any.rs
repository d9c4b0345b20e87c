//! Random small jobs of several flavours.

use super::{Case, Column, FOOT, Limit, Limits, Line, Parts, Rod, Shims, UNIT};
use proptest::collection::{btree_set, vec};
use proptest::option::{of, weighted};
use proptest::prelude::*;
use std::ops::RangeInclusive;

/// What a job has much of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Flavour {
    /// Shims, and rods with room for them.
    Shims,
    /// Short rods and few thick shims, so that columns must be referred.
    Refers,
    /// Known elevations, design seats, and what is desired.
    Designs,
    /// Grout, and options that a rod or a tall stack holds; equal heights of unequal stacks.
    Beds,
    /// High pads that must be ground while others are raised.
    Grinding,
    /// Bases that the drawings set on a bed of grout, beside others.
    Designed,
}

/// A limit: thirty-seconds, hundred-and-twenty-eighths to the nearest nanometre, or anything.
fn any_limit(most: i64) -> BoxedStrategy<i64> {
    prop_oneof![
        4 => (1..most).prop_map(|units| units * UNIT),
        3 => (2..most * 4).prop_map(|parts| (parts * 25_400_000 + 64) / 128),
        1 => 0..most * UNIT,
    ]
    .boxed()
}

fn any_accept(most: i64, desired: bool) -> impl Strategy<Value = Limit> {
    let wanted = weighted(if desired { 0.7 } else { 0.2 }, any_limit(most));
    (any_limit(most), wanted).prop_map(|(accept, desired)| Limit { accept, desired })
}

prop_compose! {
    fn any_limits(flavour: Flavour)(
        neighbours in weighted(0.85, any_accept(if matches!(flavour, Flavour::Refers | Flavour::Beds) { 6 } else { 10 }, flavour == Flavour::Designs)),
        wall in weighted(if flavour == Flavour::Grinding { 0.2 } else { 0.6 }, any_accept(12, flavour == Flavour::Designs)),
        stretch in of((1..9_i64).prop_map(|tens| tens * 10 * FOOT)),
        building in weighted(
            match flavour {
                Flavour::Refers => 0.4,
                Flavour::Grinding => 0.2,
                _ => 0.6,
            },
            any_accept(20, flavour == Flavour::Designs),
        ),
        design in weighted(if flavour == Flavour::Designs { 0.8 } else { 0.2 }, any_accept(16, true)),
    ) -> Limits {
        Limits { neighbours, wall, stretch, building, design }
    }
}

/// A height: thirty-seconds, now and then sixty-fourths or anything.
fn any_height(units: RangeInclusive<i64>) -> impl Strategy<Value = i64> {
    let off = prop_oneof![8 => Just(0), 2 => Just(UNIT / 2), 1 => 0..UNIT];
    (units, off).prop_map(|(units, off)| units * UNIT + off)
}

prop_compose! {
    /// A rod with so much room above the nut at no raise, and its thread running out at so low a raise.
    fn any_rod(flavour: Flavour)(
        room in prop_oneof![
            (if matches!(flavour, Flavour::Refers | Flavour::Beds) { 1 } else { 4 }) => any_height(16..=50),
            2 => any_height(0..=12),
            (if flavour == Flavour::Beds { 4 } else { 0 }) => any_height(6..=20),
            1 => any_height(-3..=4),
        ],
        thread in weighted(0.3, any_height(if flavour == Flavour::Grinding { -6..=0 } else { -8..=10 })),
        bent in prop::bool::weighted(0.08),
    ) -> (i64, Option<i64>, bool) {
        (room, thread, bent)
    }
}

prop_compose! {
    fn any_parts(flavour: Flavour)(
        exact in any::<bool>(),
        beyond in 0..if flavour == Flavour::Beds { 8_i64 } else { 4 },
        clear in 0..4_i64,
        extra in 0..3_i64,
        tape in 0..if flavour == Flavour::Beds { 5_i64 } else { 3 },
    ) -> Parts {
        let part = |nominal: i64, under: i64, over: i64| {
            if exact { [nominal * UNIT; 3] } else { [(nominal - under) * UNIT, nominal * UNIT, (nominal + over) * UNIT] }
        };
        Parts {
            plate: part(16, 1, 2),
            washer: part(5, 1, 1),
            nut: part(23, 1, 1),
            beyond: beyond * UNIT, clear: clear * UNIT, extra, tape: tape * UNIT,
        }
    }
}

prop_compose! {
    fn any_shims(flavour: Flavour)(
        series in prop::bool::weighted(if flavour == Flavour::Refers { 0.0 } else { 0.15 }),
        thicknesses in match flavour {
            Flavour::Refers => btree_set(6..24_i64, 1..3).boxed(),
            Flavour::Beds => btree_set((2..7_i64).prop_map(|half| 2 * half), 3..5).boxed(),
            Flavour::Grinding => btree_set(2..7_i64, 2..5).boxed(),
            _ => btree_set(2..20_i64, 1..5).boxed(),
        },
        deviations in prop_oneof![
            3 => [-4..=4_i64, -4..=4],
            (if flavour == Flavour::Beds { 6 } else { 0 }) => prop_oneof![Just([-12, -12]), Just([-12, -8]), Just([8, 12])],
        ],
        exact in any::<bool>(),
        pieces in if matches!(flavour, Flavour::Refers | Flavour::Grinding) { 1..=2_usize } else { 1..=3 },
        most in weighted(if flavour == Flavour::Beds { 0.9 } else { 0.5 }, 4..24_i64),
        tall in if flavour == Flavour::Grinding { weighted(0.9, 4..9_i64) } else { weighted(0.5, 8..40_i64) },
    ) -> Shims {
        let (lower, upper) = (deviations[0].min(deviations[1]), deviations[0].max(deviations[1]));
        let tolerance = if exact { [0, 0] } else { [lower * UNIT / 4, upper * UNIT / 4] };
        Shims {
            thicknesses: thicknesses.into_iter().map(|units| units * UNIT).collect(),
            tolerance: (!series).then_some(tolerance),
            pieces,
            most: most.map(|units| units * UNIT),
            tall: tall.map(|units| units * UNIT),
        }
    }
}

prop_compose! {
    fn any_line(flavour: Flavour, columns: usize)(
        order in Just((0..columns).collect::<Vec<_>>()).prop_shuffle(),
        length in 2..=columns,
        wall in prop::bool::weighted(0.6),
        spacing in vec(1..4_i64, columns),
        accept in weighted(if flavour == Flavour::Grinding { 0.6 } else { 0.25 }, any_limit(10)),
    ) -> Line {
        let spacing = spacing[1..length].iter().map(|tens| tens * 10 * FOOT).collect();
        Line { wall, columns: order[..length].to_vec(), spacing, accept }
    }
}

prop_compose! {
    fn any_column(flavour: Flavour)(
        measured in prop::bool::weighted(0.94),
        departure in match flavour {
            Flavour::Refers => any_height(0..=30).boxed(),
            Flavour::Grinding => prop_oneof![3 => 0..=4_i64, 3 => 8..=12_i64, 2 => 12..=18_i64].prop_map(|units| units * UNIT).boxed(),
            Flavour::Beds => prop_oneof![3 => any_height(0..=6), 2 => any_height(12..=24)].boxed(),
            _ => any_height(0..=22).boxed(),
        },
        seat in weighted(if flavour == Flavour::Designs { 0.4 } else { 0.15 }, -2..=2_i64),
        rods in vec(any_rod(flavour), 0..=2),
        bed in match flavour {
            Flavour::Designed => weighted(0.7, (any::<prop::sample::Index>(), prop::bool::weighted(0.2))).boxed(),
            _ => Just(None).boxed(),
        },
    ) -> Drawn {
        (measured, departure, seat, rods, bed)
    }
}

/// Makes a random job of so many columns.
pub(crate) fn any_case(flavour: Flavour, columns: RangeInclusive<usize>) -> BoxedStrategy<Case> {
    let least = *columns.start();
    columns
        .prop_flat_map(move |count| {
            let lines = if count < 2 {
                vec(any_line(flavour, 2), 0..=0).boxed()
            } else {
                vec(any_line(flavour, count), usize::from(least > 1)..=3).boxed()
            };
            let (grout, grind) = match flavour {
                Flavour::Beds => (0.8, 0.2),
                Flavour::Designed => (0.97, 0.2),
                Flavour::Grinding => (0.1, 0.95),
                _ => (0.2, 0.2),
            };
            let sizes = (
                weighted(grout, (1..30_i64, 0..9_i64, 1..5_i64)),
                weighted(
                    grind,
                    if flavour == Flavour::Grinding { (4..12_i64, 1..3_i64) } else { (1..10, 1..4) },
                ),
                weighted(if flavour == Flavour::Designs { 0.8 } else { 0.4 }, 0..=3_i64),
                prop::bool::weighted(match flavour {
                    Flavour::Designs => 0.8,
                    Flavour::Designed => 0.5,
                    _ => 0.3,
                }),
                prop::bool::weighted(if flavour == Flavour::Designs { 0.5 } else { 0.1 }),
            );
            // boxed, as the types would grow beyond the stack of a test
            let set = (any_limits(flavour).boxed(), any_shims(flavour).boxed(), any_parts(flavour));
            (vec(any_column(flavour).boxed(), count).boxed(), lines, sizes, set).prop_map(assemble)
        })
        .boxed()
}

type Drawn = (bool, i64, Option<i64>, Vec<(i64, Option<i64>, bool)>, Option<(prop::sample::Index, bool)>);
type Sizes = (Option<(i64, i64, i64)>, Option<(i64, i64)>, Option<i64>, bool, bool);

/// Puts together what was drawn.
fn assemble(
    (mut drawn, lines, (grout, grind, seat, absolute, desired), (limits, shims, parts)): (
        Vec<Drawn>,
        Vec<Line>,
        Sizes,
        (Limits, Shims, Parts),
    ),
) -> Case {
    // a job without any reading is no job
    drawn[0].0 |= drawn.iter().all(|(measured, ..)| !measured);
    let seat = seat.map(|units| units * 4 * UNIT);
    let columns = drawn.into_iter().enumerate().map(|(number, (measured, departure, own, rods, bed))| {
        let own = own.map(|steps| steps * 24 * UNIT);
        // known elevations stand around their seat
        let lower = if absolute { 10 * UNIT } else { 0 };
        // a bed on a step, now and then half a step off; its pad lies lower by it, its rods stand higher
        let bed = bed.zip(grout).map_or(0, |((at, off), (least, steps, step))| {
            let on_step = (least + at.index(steps as usize + 1) as i64 * step) * UNIT;
            if off { (on_step + step * UNIT / 2).min((least + steps * step) * UNIT) } else { on_step }
        });
        let read = own.or(seat).unwrap_or(0) + departure - lower - bed;
        let mut rods = rods_of(&parts, rods);
        rods.iter_mut().for_each(|rod| rod.projection += bed);
        Column { mark: format!("A{}", number + 1), read: measured.then_some(read), seat: own, bed, rods }
    });
    Case {
        columns: columns.collect(),
        lines,
        absolute,
        seat,
        limits,
        shims,
        grout: grout.map(|(least, steps, step)| [least * UNIT, (least + steps * step) * UNIT, step * UNIT]),
        grind: grind.map(|(most, step)| [most * UNIT, step * UNIT]),
        parts,
        desired,
    }
}

/// Makes the low and the high rod; its thread would run out below so low a raise.
fn rods_of(parts: &Parts, rods: Vec<(i64, Option<i64>, bool)>) -> Vec<Rod> {
    let mut rods: Vec<Rod> = rods
        .into_iter()
        .map(|(room, runs_out, bent)| {
            let projection = room + parts.plate[1] + parts.washer[1] + parts.nut[1];
            let under = projection - parts.plate[1] - parts.washer[1];
            let thread = runs_out.map(|raise| (under + parts.clear + parts.tape - raise).max(0));
            Rod { projection, thread, bent }
        })
        .collect();
    rods.sort_by_key(|rod| rod.projection);
    rods
}

/// What a column of a tied job is: it can only stay, only be ground, or only be raised.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Role {
    Top,
    High,
    Low,
}

prop_compose! {
    fn any_tied_column(role: Role)(
        departure in match role {
            Role::Top => 12..=17_i64,
            Role::High => 9..=12,
            Role::Low => 0..=3,
        },
        accept in match role {
            Role::Low => 3..=5_i64,
            _ => 3..=10,
        },
        to in any::<prop::sample::Index>(),
    ) -> (Role, i64, i64, prop::sample::Index) {
        (role, departure, accept, to)
    }
}

/// Makes a job whose best plans are many: what is ground less is raised less, for the same in all.
pub(crate) fn any_tied() -> BoxedStrategy<Case> {
    let role =
        || prop_oneof![Just(Role::Top), Just(Role::High), Just(Role::Low)].prop_flat_map(any_tied_column);
    let first = (any_tied_column(Role::Top), any_tied_column(Role::High), any_tied_column(Role::Low));
    let sizes =
        (btree_set(2..7_i64, 2..5), 3..9_i64, 1..3_i64, weighted(0.2, 12..20_i64), any_parts(Flavour::Shims));
    (first, vec(role(), 0..=2), sizes)
        .prop_map(|((top, high, low), others, (thicknesses, most, step, building, parts))| {
            let drawn: Vec<_> = [top, high, low].into_iter().chain(others).collect();
            let column =
                |(number, (role, departure, ..)): (usize, &(Role, i64, i64, prop::sample::Index))| {
                    // the thread of a top runs out as soon as it is ground, the nut of a high one as soon as it is raised
                    let rod = match role {
                        Role::Top => Some((60 * UNIT, Some(0), false)),
                        Role::High => Some((parts.beyond + parts.tape + 6 * UNIT, None, false)),
                        Role::Low => None,
                    };
                    Column {
                        mark: format!("A{}", number + 1),
                        read: Some(departure * UNIT),
                        seat: None,
                        bed: 0,
                        rods: rods_of(&parts, rod.into_iter().collect()),
                    }
                };
            let line = |(number, (_, _, accept, to)): (usize, &(Role, i64, i64, prop::sample::Index))| {
                // the high one stands between the top and the low one
                let other = if number < 3 { number - 1 } else { to.index(number) };
                Line {
                    wall: false,
                    columns: vec![other, number],
                    spacing: vec![20 * FOOT],
                    accept: Some(accept * UNIT),
                }
            };
            Case {
                columns: drawn.iter().enumerate().map(column).collect(),
                lines: drawn.iter().enumerate().skip(1).map(line).collect(),
                absolute: false,
                seat: None,
                limits: Limits {
                    neighbours: None,
                    wall: None,
                    stretch: None,
                    building: building.map(|units| Limit { accept: units * UNIT, desired: None }),
                    design: None,
                },
                shims: Shims {
                    thicknesses: thicknesses.into_iter().map(|units| units * UNIT).collect(),
                    tolerance: Some([0, 0]),
                    pieces: 1,
                    most: None,
                    tall: None,
                },
                grout: None,
                grind: Some([most * UNIT, step * UNIT]),
                parts,
                desired: false,
            }
        })
        .boxed()
}

prop_compose! {
    /// Makes a job on a floor that is flat as poured, under seats that are not: which columns are referred is a toss-up.
    pub(crate) fn any_floor()(case in any_case(Flavour::Refers, 2..=5))(
        reads in vec(prop_oneof![4 => Just(0_i64), 1 => Just(24)], case.columns.len()),
        seats in vec(prop_oneof![Just(None), Just(Some(24_i64)), Just(Some(-24))], case.columns.len()),
        case in Just(case),
    ) -> Case {
        let mut case = case;
        for (column, (read, seat)) in case.columns.iter_mut().zip(reads.into_iter().zip(seats)) {
            column.read = column.read.map(|_| read * UNIT);
            column.seat = seat.map(|seat| seat * UNIT);
            column.rods.clear();
        }
        case
    }
}
