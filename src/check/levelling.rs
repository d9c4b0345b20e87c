//! Levelling nuts under a plate: whether nut and washer have room in the bed, and whether the rod's thread reaches them.

use super::case::{ColumnCase, PadCase, RodCase};
use crate::catalog::Extent;
use crate::length::Length;
use crate::levels::PadShape;
use crate::model::{Base, Levelling};

/// What is certain of a figure that must not be negative.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fit {
    /// Not negative at the worst of parts and readings.
    Yes,
    /// Too close to call within parts and readings.
    Close,
    /// Negative with every part at its nominal and every reading by its value.
    No,
}

fn fit(nominal: Length, worst: Length) -> Fit {
    if worst >= Length::ZERO {
        Fit::Yes
    } else if nominal < Length::ZERO {
        Fit::No
    } else {
        Fit::Close
    }
}

/// The room for levelling nuts in a planned bed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Room {
    /// The planned bed, over the pad's own reading.
    pub bed: Length,
    /// How far the highest place that was read stands above that reading; never negative.
    pub high: Length,
    /// How far the lowest place that was read stands below that reading; never negative.
    pub low: Length,
    /// What the pad is good to, at 95 %: nuts are set to the level's height, so the bed is known no better.
    pub plus_minus: Length,
    /// Nut and washer together.
    pub parts: Extent,
}

impl Room {
    /// Works out the room in a bed; none without a bed or a pad.
    #[must_use]
    pub fn of(
        levelling: &Levelling,
        bed: Option<Length>,
        pad: Option<&PadCase>,
        shape: Option<&PadShape>,
    ) -> Option<Self> {
        let (bed, pad) = (bed?, pad?);
        let places =
            || shape.into_iter().flat_map(|shape| &shape.places).map(|it| it.elevation - pad.elevation);
        Some(Self {
            bed,
            high: places().max().unwrap_or(Length::ZERO).max(Length::ZERO),
            low: -places().min().unwrap_or(Length::ZERO).min(Length::ZERO),
            plus_minus: pad.plus_minus,
            parts: levelling.height(),
        })
    }

    /// Gives the least bed over the highest place.
    #[must_use]
    pub fn least(self) -> Length {
        self.bed - self.high - self.plus_minus
    }

    /// Tells whether nut and washer have room.
    #[must_use]
    pub fn fit(self) -> Fit {
        fit(self.bed - self.high - self.parts.nominal, self.least() - self.parts.most)
    }

    /// Gives the most that may lie between the concrete and the underside of the nut.
    #[must_use]
    pub fn stand_off(self) -> Length {
        self.bed + self.low + self.plus_minus - self.parts.least
    }
}

/// The thread of one rod against the underside of its levelling nut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reach {
    /// Full thread down from the top of the rod.
    pub thread: Length,
    /// Thread to remain clear of the nut.
    pub clear: Length,
    /// The rod above the underside of the plate.
    pub above: Length,
    /// What the projection is good to, at 95 %.
    pub plus_minus: Length,
    /// Nut and washer together.
    pub parts: Extent,
}

impl Reach {
    /// Works out the reach of a thread at a rod; none where its projection was not measured, or no bed is planned.
    #[must_use]
    pub fn of(
        base: &Base,
        levelling: &Levelling,
        bed: Option<Length>,
        rod: &RodCase,
        thread: Length,
    ) -> Option<Self> {
        Some(Self {
            thread,
            clear: base.clear.value,
            above: rod.projection? - bed?,
            plus_minus: rod.plus_minus,
            parts: levelling.height(),
        })
    }

    /// Gives the thread left below the nut and the clear thread, nut and washer at their most and the reading off.
    #[must_use]
    pub fn left(self) -> Length {
        self.thread - self.clear - (self.above + self.parts.most) - self.plus_minus
    }

    /// Tells whether the thread reaches.
    #[must_use]
    pub fn fit(self) -> Fit {
        fit(self.thread - self.clear - (self.above + self.parts.nominal), self.left())
    }
}

/// Tells whether levelling nuts plainly cannot be set: no room in the bed, or a measured thread that does not reach.
#[must_use]
pub(super) fn cannot_be_set(
    base: &Base,
    bed: Option<Length>,
    pad: Option<&PadCase>,
    shape: Option<&PadShape>,
    rods: &[RodCase],
) -> bool {
    let Some(levelling) = base.levelling() else { return false };
    let no_room = Room::of(levelling, bed, pad, shape).is_some_and(|room| room.fit() == Fit::No);
    let no_thread = |rod: &RodCase| {
        let reach = Reach::of(base, levelling, bed, rod, rod.thread?)?;
        Some(reach.fit() == Fit::No)
    };
    // a damaged rod holds its column by itself
    no_room || rods.iter().filter(|rod| rod.sound).any(|rod| no_thread(rod) == Some(true))
}

/// Works out the room for levelling nuts under a column; none where it is not on them, or no bed is planned.
#[must_use]
pub fn room(base: &Base, bed: Option<Length>, column: &ColumnCase) -> Option<Room> {
    Room::of(base.levelling()?, bed, column.pad.as_ref(), column.shape.as_ref())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const fn nm(nm: i64) -> Length {
        Length::from_nm(nm)
    }

    fn extent([a, b, c]: [i64; 3]) -> Extent {
        Extent { least: nm(a), nominal: nm(a + b), most: nm(a + b + c) }
    }

    #[test]
    fn what_is_certain_turns_at_the_nanometre() {
        let parts = extent([90, 10, 5]);
        let at = |bed: i64| Room { bed: nm(bed), high: nm(3), low: nm(4), plus_minus: nm(7), parts };
        assert_eq!(
            [115, 114, 103, 102].map(|bed| at(bed).fit()),
            [Fit::Yes, Fit::Close, Fit::Close, Fit::No]
        );
        assert_eq!(at(115).stand_off(), nm(115 + 4 + 7 - 90));
        let at =
            |thread: i64| Reach { thread: nm(thread), clear: nm(2), above: nm(50), plus_minus: nm(7), parts };
        assert_eq!(
            [164, 163, 152, 151].map(|thread| at(thread).fit()),
            [Fit::Yes, Fit::Close, Fit::Close, Fit::No]
        );
    }

    proptest! {
        /// Wherever pad, rod and parts really are within their limits: what passes has room, and nothing stands off more.
        #[test]
        fn what_passes_has_room_whatever_the_parts_and_the_readings_are(
            parts in prop::array::uniform3(0_i64..30), bed in 0_i64..120, high in 0_i64..10, low in 0_i64..10,
            plus_minus in 0_i64..10, thread in 0_i64..150, above in 0_i64..80, clear in 0_i64..10,
            part in 0_i64..=60, off in -10_i64..=10,
        ) {
            let parts = extent(parts);
            let (least, most) = (parts.least.nm(), parts.most.nm());
            let (part, off) = (least + part.min(most - least), off.clamp(-plus_minus, plus_minus));
            let room = Room { bed: nm(bed), high: nm(high), low: nm(low), plus_minus: nm(plus_minus), parts };
            let really = bed - high + off - part;
            prop_assert!(room.fit() != Fit::Yes || really >= 0);
            prop_assert!(bed + low + off - part <= room.stand_off().nm());
            let reach =
                Reach { thread: nm(thread), clear: nm(clear), above: nm(above), plus_minus: nm(plus_minus), parts };
            let really = thread - clear - (above + off + part);
            prop_assert!(reach.fit() != Fit::Yes || really >= 0);
            prop_assert!(reach.left().nm() <= really);
        }
    }
}
