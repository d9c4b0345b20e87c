//! The stack-up against an oracle of this test's own, in rational numbers, at every state's edge and one
//! nanometre on either side; and the allowed raises against the states they promise.
//!
//! The formulas are those of README "What a state means"; no outside source publishes them as a whole.

use proptest::prelude::*;
use rodreach::catalog::{Authority, Extent, Limit, Pitch};
use rodreach::length::Length;
use rodreach::model::{
    Base, Condition, Duty, Loads, NutPart, Plate, Raise, Rod, RodKind, RodLabel, State, WasherPart,
    allowed_raises, needed_projection, stack_up,
};
use std::cmp::Ordering;
use std::ops::{Add, Sub};

/// A rational number of millimetres.
#[derive(Clone, Copy, Debug)]
struct Q(i128, i128);

impl Q {
    fn of(length: Length) -> Self {
        Self(i128::from(length.nm()), 1_000_000)
    }
}

impl Add for Q {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 * other.1 + other.0 * self.1, self.1 * other.1).reduced()
    }
}

impl Sub for Q {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 * other.1 - other.0 * self.1, self.1 * other.1).reduced()
    }
}

impl Q {
    fn reduced(self) -> Self {
        fn gcd(a: i128, b: i128) -> i128 {
            if b == 0 { a.abs() } else { gcd(b, a % b) }
        }
        let by = gcd(self.0, self.1).max(1);
        Self(self.0 / by, self.1 / by)
    }

    fn is_negative(self) -> bool {
        self.0.cmp(&0) == Ordering::Less
    }
}

fn house(value: Length) -> Limit<Length> {
    Limit { value, authority: Authority::this_job() }
}

fn extent(least: i64, nominal: i64, most: i64) -> Extent {
    Extent { least: Length::from_nm(least), nominal: Length::from_nm(nominal), most: Length::from_nm(most) }
}

prop_compose! {
    fn any_extent(up_to: i64)(
        least in 0..up_to, up in 0..up_to / 4, further in 0..up_to / 4,
    ) -> Extent {
        extent(least + 1, least + 1 + up, least + 1 + up + further)
    }
}

prop_compose! {
    fn any_base()(
        plate in any_extent(40_000_000),
        washers in prop::collection::vec(any_extent(8_000_000), 0..3),
        nuts in prop::collection::vec(any_extent(40_000_000), 1..3),
        extra in prop::option::of(any_extent(8_000_000)),
        most_extra in 0_u32..4,
        beyond in 0_i64..8_000_000,
        clear in 0_i64..8_000_000,
    ) -> Base {
        let washer = |thickness| WasherPart {
            series: "as measured".into(), thickness, outer: None, authority: Authority::this_job(),
        };
        Base {
            mark: "B1".into(),
            plate: Plate { size: None, thickness: plate, tolerance: Authority::this_job(), holes: None },
            rods: RodKind {
                size: "3/4".into(),
                diameter: Length::from_nm(19_050_000),
                count: 4,
                pattern: None,
                projection: None,
                thread: None,
                pitch: Pitch::new(10, Length::from_nm(25_400_000)),
                pitch_authority: Authority::this_job(),
                steel: None,
            },
            washers: washers.into_iter().map(washer).collect(),
            nuts: nuts.into_iter().map(|height| NutPart {
                series: "as measured".into(), height, flats: None, style: None, steel: None, authority: Authority::this_job(),
            }).collect(),
            extra: extra.map(washer),
            beyond: house(Length::from_nm(beyond)),
            clear: house(Length::from_nm(clear)),
            most_extra: Limit { value: most_extra, authority: Authority::this_job() },
            bed: Length::ZERO,
            setting: None,
        pier: None,
        loads: Loads::default(),
            duty: Duty::Column,
            hole_table: None,
            plain_washer: None,
        }
    }
}

prop_compose! {
    fn any_raise()(nominal in -5_000_000_i64..30_000_000, under in 0_i64..500_000, over in 0_i64..900_000) -> Raise {
        let nm = Length::from_nm;
        Raise { nominal: nm(nominal), least: nm(nominal - under), most: nm(nominal + over) }
    }
}

/// Which of the three sizes of every part is summed.
type Pick = fn(&Extent) -> Length;

fn total(base: &Base, extra: u32, nuts: bool, pick: Pick) -> Q {
    let mut sum = Q::of(pick(&base.plate.thickness));
    for washer in &base.washers {
        sum = sum + Q::of(pick(&washer.thickness));
    }
    for _ in 0..extra {
        sum = sum + Q::of(pick(&base.extra.as_ref().unwrap().thickness));
    }
    for nut in base.nuts.iter().filter(|_| nuts) {
        sum = sum + Q::of(pick(&nut.height));
    }
    sum
}

/// The state of a rod, from the words of the contract, in rational numbers.
fn oracle(base: &Base, raise: Raise, projection: Length, thread: Option<Length>, u: Length) -> (State, u32) {
    let most_extra = if base.extra.is_some() { base.most_extra.value } else { 0 };
    let least: Pick = |it| it.least;
    let nominal: Pick = |it| it.nominal;
    let most: Pick = |it| it.most;
    let mut used = None;
    for extra in 0..=most_extra {
        let runs_out = thread.is_some_and(|thread| {
            let under_nut = Q::of(projection) - Q::of(raise.least) - total(base, extra, false, least);
            (Q::of(thread) - Q::of(base.clear.value) - under_nut - Q::of(u)).is_negative()
        });
        if !runs_out {
            used = Some(extra);
            break;
        }
    }
    let Some(extra) = used else { return (State::RunsOut, most_extra) };
    let worst = Q::of(projection) - Q::of(raise.most) - total(base, extra, true, most) - Q::of(u);
    let nominally = Q::of(projection) - Q::of(raise.nominal) - total(base, extra, true, nominal);
    let state = if !(worst - Q::of(base.beyond.value)).is_negative() {
        State::Full
    } else if !worst.is_negative() {
        State::Scant
    } else if (nominally + Q::of(u)).is_negative() {
        State::Short
    } else {
        State::Unsure
    };
    (state, extra)
}

fn rod(projection: Length, thread: Option<Length>) -> Rod {
    Rod {
        label: RodLabel::Number(1),
        plus_minus: None,
        by_level: None,
        projection: Some(projection),
        thread,
        condition: Condition::Sound,
        one_for_all: false,
        place: None,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn every_state_agrees_with_rational_numbers_at_its_edge_and_a_nanometre_either_side(
        base in any_base(),
        raise in any_raise(),
        u in 0_i64..3_000_000,
        thread in prop::option::of(0_i64..120_000_000),
        edge in 0_usize..5,
        nudge in -1_i64..=1,
        free in 0_i64..150_000_000,
    ) {
        let u = Length::from_nm(u);
        let parts = |pick: Pick| {
            let extents = base.washers.iter().map(|it| &it.thickness)
                .chain(base.nuts.iter().map(|it| &it.height)).chain([&base.plate.thickness]);
            extents.map(pick).sum::<Length>()
        };
        let edges = [
            raise.most + parts(|it| it.most) + base.beyond.value + u,
            raise.most + parts(|it| it.most) + u,
            raise.nominal + parts(|it| it.nominal) - u,
            // where the thread just does not run out without an extra washer
            Length::from_nm(thread.unwrap_or(0)) - base.clear.value - u
                + raise.least + parts(|it| it.least) - base.nuts.iter().map(|it| it.height.least).sum(),
            Length::from_nm(free),
        ];
        let projection = (edges[edge] + Length::from_nm(nudge)).max(Length::ZERO);
        let thread = thread.map(Length::from_nm);
        let ours = stack_up(&base, raise, &rod(projection, thread), u);
        let (state, extra) = oracle(&base, raise, projection, thread, u);
        prop_assert_eq!((ours.state, ours.extra_washers), (state, extra));
        prop_assert_eq!(ours.thread_left.is_some(), thread.is_some());
        for share in &ours.engaged {
            prop_assert!(Length::ZERO <= share.part && share.part <= share.whole);
        }
        if ours.state == State::Full && thread.is_none() {
            prop_assert!(ours.engaged.iter().all(|share| share.part == share.whole));
        }
    }

    #[test]
    fn a_raise_is_allowed_exactly_where_the_rod_is_full(
        base in any_base(),
        u in 0_i64..3_000_000,
        projection in 0_i64..150_000_000,
        thread in prop::option::of(0_i64..150_000_000),
        free in -60_000_000_i64..60_000_000,
    ) {
        let u = Length::from_nm(u);
        let rod = rod(Length::from_nm(projection), thread.map(Length::from_nm));
        let allowed = allowed_raises(&base, &rod, u).unwrap();
        let bounds = allowed.iter().flat_map(|it| [it.low, it.high]).flatten();
        let near = bounds.flat_map(|bound| (-1..=1).map(move |off| bound + Length::from_nm(off)));
        for height in near.chain([Length::from_nm(free)]) {
            let inside = allowed.iter().any(|it| it.contains(height));
            let state = stack_up(&base, Raise::exact(height), &rod, u).state;
            prop_assert_eq!(inside, state == State::Full, "{:?} at {:?}", allowed, height);
        }
    }

    #[test]
    fn a_rod_of_the_needed_projection_is_full_and_one_nanometre_less_is_not(
        base in any_base(), raise in any_raise(), u in 0_i64..3_000_000,
    ) {
        let u = Length::from_nm(u);
        let needs = needed_projection(&base, raise, 0, u);
        prop_assume!(needs > Length::ZERO);
        prop_assert_eq!(stack_up(&base, raise, &rod(needs, None), u).state, State::Full);
        let short = rod(needs - Length::from_nm(1), None);
        prop_assert_ne!(stack_up(&base, raise, &short, u).state, State::Full);
    }
}
