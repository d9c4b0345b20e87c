//! What is published of a nut that is not full, each on its own word; none of it is this program's verdict.

use super::Outer;
use crate::catalog::{Authority, Standing};
use crate::length::Length;
use crate::model::{Base, Share};
use serde::Serialize;

/// What a publication asks for at the outer nut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asked {
    /// The rod so far beyond the nut; nothing is flush.
    Beyond(Length),
    /// So many of so many parts of the nut on thread.
    AtLeast(i64, i64),
}

/// Whether a rod has what a publication asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Said {
    /// It has, at the worst of the parts and the reading.
    Kept,
    /// It has, at the worst, if all that stands above the pad is thread, which was not measured.
    IfThreaded,
    /// It is too close to call.
    Unsure,
    /// It has not, whatever the reading.
    NotKept,
}

/// One publication on one nut.
#[derive(Clone, Debug)]
pub struct Published {
    /// What it is called in short.
    pub name: &'static str,
    /// What it asks for, in words.
    pub words: &'static str,
    /// What it asks for.
    pub asked: Asked,
    /// Whether the rod has that.
    pub said: Said,
    /// The share of its strength the nut may be taken for, at the worst of parts and reading; only where the
    /// publication allows such an estimate, and only where what it asks for is there (`Kept` or `IfThreaded`).
    pub estimate: Option<Share>,
    /// On whose word.
    pub authority: Authority,
}

/// Holds the outer nut of a rod against every publication.
pub(super) fn all(base: &Base, outer: &Outer, thread_measured: bool) -> Vec<Published> {
    let pitch = base.rods.pitch;
    let one = |name, words, asked, text: &str| Published {
        name,
        words,
        asked,
        said: said(asked, outer, thread_measured),
        estimate: None,
        authority: Authority::new(Standing::Published, text),
    };
    let half = one(
        "AISC Design Guide 1",
        "strength by the share of the nut's threads engaged, half of them at least",
        Asked::AtLeast(1, 2),
        "AISC Design Guide 1, 2nd ed., 2.11.3, as quoted by two second parties: an estimate by the share of the threads \
         engaged holds only where at least half of the nut's threads are engaged",
    );
    let estimate = matches!(half.said, Said::Kept | Said::IfThreaded).then(|| outer.share_worst());
    vec![
        one(
            "RCSC",
            "rod end flush with the nut or beyond: all or nothing",
            Asked::Beyond(Length::ZERO),
            "RCSC Specification for Structural Joints, glossary and 2.3.2 (sufficient thread engagement), as quoted by \
             several second parties; published for structural bolts",
        ),
        one(
            "EN 1090-2",
            "one thread pitch beyond the nut",
            Asked::Beyond(pitch.times(1)),
            "EN 1090-2:2008, 8.2.2; page of the 2008 edition seen; written for structural bolts",
        ),
        one(
            "FHWA",
            "no serious deficiency where three quarters of the nut are engaged",
            Asked::AtLeast(3, 4),
            "FHWA guidelines for sign, luminaire and signal supports, 16.3.1.2, as quoted by one second party; written \
             for the inspection of such supports",
        ),
        one(
            "IFI",
            "two thread pitches beyond the nut",
            Asked::Beyond(pitch.times(2)),
            "Industrial Fasteners Institute, as quoted by one second party; written for bolts",
        ),
        Published { estimate, ..half },
    ]
}

fn said(asked: Asked, outer: &Outer, thread_measured: bool) -> Said {
    let (worst, best) = match asked {
        Asked::Beyond(wanted) => (outer.worst >= wanted, outer.best >= wanted),
        Asked::AtLeast(over, under) => {
            (at_least(outer.share_worst(), over, under), at_least(outer.share_best(), over, under))
        }
    };
    match (worst, best) {
        (true, _) if thread_measured => Said::Kept,
        (true, _) => Said::IfThreaded,
        (false, true) => Said::Unsure,
        (false, false) => Said::NotKept,
    }
}

/// Tells whether a share is at least so many of so many parts.
fn at_least(share: Share, over: i64, under: i64) -> bool {
    i128::from(share.part.nm()) * i128::from(under) >= i128::from(share.whole.nm()) * i128::from(over)
}

impl Outer {
    fn share_worst(&self) -> Share {
        on_thread(self.worst, self.height_most)
    }

    fn share_best(&self) -> Share {
        on_thread(self.best, self.height)
    }
}

/// Gives the share of a nut on thread, of a rod that stands so far beyond it.
fn on_thread(beyond: Length, height: Length) -> Share {
    Share { part: (height + beyond).max(Length::ZERO).min(height), whole: height }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A nut of 100 nm on a rod so far beyond it at the worst and at the best.
    fn nut(worst: i64, best: i64) -> Outer {
        let nm = Length::from_nm;
        Outer { worst: nm(worst), best: nm(best), height: nm(100), height_most: nm(100) }
    }

    #[test]
    fn a_rule_is_kept_at_the_worst_only_and_not_kept_at_the_best_only() {
        let flush = Asked::Beyond(Length::ZERO);
        let told = [nut(0, 2), nut(-1, 1), nut(-1, 0), nut(-3, -1)].map(|nut| said(flush, &nut, true));
        assert_eq!(told, [Said::Kept, Said::Unsure, Said::Unsure, Said::NotKept]);
        assert_eq!(said(flush, &nut(0, 2), false), Said::IfThreaded, "an unknown thread is no pass");
        assert_eq!(said(flush, &nut(-3, -1), false), Said::NotKept);
        let three_quarters = Asked::AtLeast(3, 4);
        let told = [nut(-25, -15), nut(-26, -24), nut(-28, -26)].map(|nut| said(three_quarters, &nut, true));
        assert_eq!(told, [Said::Kept, Said::Unsure, Said::NotKept]);
    }

    #[test]
    fn a_share_is_nothing_below_the_nut_and_the_whole_beyond_it() {
        let nm = Length::from_nm;
        assert_eq!(on_thread(nm(-150), nm(100)), Share { part: nm(0), whole: nm(100) });
        assert_eq!(on_thread(nm(50), nm(100)), Share { part: nm(100), whole: nm(100) });
        assert_eq!(on_thread(nm(-1), nm(100)), Share { part: nm(99), whole: nm(100) });
    }
}
