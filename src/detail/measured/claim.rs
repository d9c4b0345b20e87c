//! What a sample of columns lets one claim of all columns, and when it is too small to claim anything.

use crate::detail::asked::Asked;
use crate::detail::order_statistics::{
    confidence_between, confidence_up_to, content_between_ends, content_up_to, least_rank, least_sample,
    least_sample_between,
};
use crate::detail::percent::Percent;
use crate::length::{Length, Rounding};

/// A projection that clears a share of all columns, with a confidence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Claim {
    /// How many columns it rests on, a column once with its worst rod.
    pub sample: usize,
    /// The least sample that would do.
    pub sample_needed: Option<usize>,
    /// Which of the columns, counted from the one that needs least, stands for it; none where the sample is too small.
    pub rank: Option<usize>,
    /// What that column needs; none where that is not known.
    pub needs: Option<Length>,
    /// The same on the step.
    pub projection: Option<Length>,
    /// How sure it is, down.
    pub confidence: Option<Percent>,
    /// What the column needs that needs most of those that are known, on the step.
    pub largest: Option<Length>,
    /// The share of columns that this clears, at the confidence asked for.
    pub largest_covers: Option<Percent>,
}

/// Between what a share of all columns lies, with a confidence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Between {
    /// How many columns it rests on.
    pub sample: usize,
    /// Columns that are not wholly known: with any of them nothing is claimed.
    pub open: usize,
    /// The least sample that would do.
    pub sample_needed: Option<usize>,
    /// The least and the most; none where nothing can be claimed.
    pub ends: Option<[Length; 2]>,
    /// How sure it is that the stated share lies between them, down.
    pub confidence: Option<Percent>,
    /// The share that lies between the ends of this sample, at the confidence asked for.
    pub ends_cover: Option<Percent>,
}

/// Makes the claim; `needs` is what the columns need, least first, and of those above them nothing is known.
pub(super) fn claim(needs: &[Length], sample: usize, asked: &Asked) -> Claim {
    let rank = least_rank(sample, asked.share, asked.confidence);
    let found = rank.and_then(|rank| needs.get(rank - 1).copied());
    Claim {
        sample,
        sample_needed: least_sample(asked.share, asked.confidence),
        rank,
        needs: found,
        projection: found.map(|found| found.to_step(asked.step, Rounding::Up)),
        confidence: rank.and_then(|rank| confidence_up_to(sample, rank, asked.share)),
        largest: needs.last().map(|largest| largest.to_step(asked.step, Rounding::Up)),
        largest_covers: content_up_to(sample, needs.len(), asked.confidence),
    }
}

/// Tells between what columns lie, each with its lowest and highest.
pub(super) fn between(columns: &[Option<[Length; 2]>], asked: &Asked) -> Between {
    let known: Vec<[Length; 2]> = columns.iter().flatten().copied().collect();
    let (sample, open) = (columns.len(), columns.len() - known.len());
    let needed = least_sample_between(asked.share, asked.confidence);
    let enough = needed.is_some_and(|needed| sample >= needed) && open == 0;
    let ends = known.iter().map(|[low, _]| *low).min().zip(known.iter().map(|[_, high]| *high).max());
    Between {
        sample,
        open,
        sample_needed: needed,
        ends: ends.filter(|_| enough).map(|(low, high)| [low, high]),
        confidence: confidence_between(sample, asked.share).filter(|_| enough),
        ends_cover: content_between_ends(sample, asked.confidence).filter(|_| open == 0),
    }
}

/// Gives the rank of the column up to which a share of the sample lies; none of none.
pub(super) fn share_rank(sample: usize, share: Percent) -> Option<usize> {
    let sample = u128::try_from(sample).ok().filter(|sample| *sample > 0)?;
    usize::try_from((sample * u128::from(share.millionths())).div_ceil(1_000_000)).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::detail::asked::Spreads;

    fn asked() -> Asked {
        let percent = |text: &str| Percent::read(text).unwrap();
        Asked {
            step: Length::from_nm(10),
            probability: percent("99"),
            share: percent("95"),
            confidence: percent("95"),
            spreads: Spreads::default(),
        }
    }

    fn lengths(count: i64) -> Vec<Length> {
        (1..=count).map(Length::from_nm).collect()
    }

    #[test]
    fn fifty_nine_columns_claim_their_worst_and_fifty_eight_claim_nothing() {
        let claimed = claim(&lengths(59), 59, &asked());
        assert_eq!((claimed.rank, claimed.needs), (Some(59), Some(Length::from_nm(59))));
        assert_eq!(claimed.projection, Some(Length::from_nm(60)));
        let none = claim(&lengths(58), 58, &asked());
        assert_eq!((none.rank, none.needs, none.projection, none.confidence), (None, None, None, None));
        assert_eq!((none.sample_needed, none.largest), (Some(59), Some(Length::from_nm(60))));
        // 0.05^(1/58) = 0.9497
        assert_eq!(none.largest_covers.unwrap().about(), "94.96 %");
        // with one of 59 not known the largest that is known is the second in order
        let open = claim(&lengths(58), 59, &asked()).largest_covers.unwrap();
        assert!(open < none.largest_covers.unwrap(), "{open:?}");
        assert_eq!(claim(&[], 3, &asked()).largest_covers, None, "nothing is known");
    }

    #[test]
    fn a_column_that_is_not_known_stands_above_all_others() {
        assert_eq!(claim(&lengths(58), 59, &asked()).needs, None, "the worst of 59 is the one not known");
        let second = claim(&lengths(92), 93, &asked());
        assert_eq!((second.rank, second.needs), (Some(92), Some(Length::from_nm(92))));
    }

    #[test]
    fn ninety_three_columns_claim_both_ends_unless_one_is_open() {
        let column = |nm: i64| Some([Length::from_nm(-nm), Length::from_nm(nm)]);
        let all: Vec<_> = (1..=93).map(column).collect();
        let found = between(&all, &asked());
        assert_eq!(found.ends, Some([Length::from_nm(-93), Length::from_nm(93)]));
        assert_eq!(between(&all[1..], &asked()).ends, None);
        let mut open = all;
        open.push(None);
        let found = between(&open, &asked());
        assert_eq!((found.open, found.ends, found.ends_cover), (1, None, None));
    }

    #[test]
    fn a_share_of_a_sample_is_rounded_up_to_whole_columns() {
        let share = Percent::read("95").unwrap();
        assert_eq!(
            [0, 1, 19, 20, 21, 100].map(|n| share_rank(n, share)),
            [None, Some(1), Some(19), Some(19), Some(20), Some(95)]
        );
    }
}
