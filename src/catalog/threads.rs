//! Thread pitches, exact as fractions.

use super::authority::Authority;
use super::part::Series;
use super::row;
use crate::length::Length;
use crate::source::{Node, Walk};

/// So many threads over a length; one pitch need not be a whole nanometre.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pitch {
    threads: i64,
    over: Length,
}

impl Pitch {
    /// Makes a pitch of so many threads over a length; fewer than one thread counts as one.
    #[must_use]
    pub const fn new(threads: i64, over: Length) -> Self {
        Self { threads: if threads < 1 { 1 } else { threads }, over }
    }

    /// Gives the length of so many pitches, up to the next nanometre.
    ///
    /// # Example
    /// ```
    /// use rodreach::catalog::Pitch;
    /// use rodreach::length::Length;
    /// let unc_half_inch = Pitch::new(13, Length::from_nm(25_400_000));
    /// assert_eq!(unc_half_inch.times(1), Length::from_nm(1_953_847));
    /// ```
    #[must_use]
    pub fn times(self, pitches: i64) -> Length {
        let nm = i128::from(self.over.nm()) * i128::from(pitches);
        let threads = i128::from(self.threads);
        let up = nm.div_euclid(threads) + i128::from(nm.rem_euclid(threads) != 0);
        Length::from_nm(i64::try_from(up).unwrap_or(i64::MAX))
    }

    /// Gives the threads and the length they stand over.
    #[must_use]
    pub const fn threads_over(self) -> (i64, Length) {
        (self.threads, self.over)
    }
}

/// The pitch at one diameter.
#[derive(Clone, Debug)]
pub struct ThreadRow {
    /// The pitch.
    pub pitch: Pitch,
    /// On whose word.
    pub authority: Authority,
}

/// A table of pitches.
pub type ThreadTable = Series<ThreadRow>;

pub(super) fn read(walk: Walk<'_>, root: &Node) -> Option<ThreadTable> {
    row::series(walk, root, |walk, row, authority| {
        let threads = row.need(walk, "threads", "10").and_then(|node| walk.whole(node, 1, 1000));
        let over = row.need(walk, "over", "\"1\"").and_then(|node| walk.thickness(node));
        Some(ThreadRow { pitch: Pitch::new(threads?, over?), authority })
    })
}
