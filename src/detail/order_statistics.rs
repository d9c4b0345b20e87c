//! What a sorted sample says of all that it was drawn from, whatever the distribution.
//!
//! The share of a population at or below the k-th smallest of n values has a beta distribution with k and n - k + 1;
//! between two of them, the ranks apart and what is left (S. S. Wilks, 1941). Where values may be alike, as lengths are,
//! the true confidence is no less.
#![allow(
    clippy::float_arithmetic,
    clippy::disallowed_types,
    reason = "a confidence is no length; shares are rounded down to millionths"
)]

use super::percent::Percent;
use statrs::function::beta::checked_beta_reg;

/// Largest sample that is looked for.
const MOST: usize = 1 << 40;

fn share(percent: Percent) -> f64 {
    f64::from(percent.millionths()) / 1e6
}

/// Gives a share rounded down to millionths; none where that is nothing, or all.
fn down(share: f64) -> Option<Percent> {
    // a share that is whole millionths but for the last bits of a double stays so
    Percent::of_millionths((share * 1e6 + 1e-7).floor().clamp(0.0, 999_999.0) as u32)
}

/// Gives how sure it is that at least a share of the population lies at or below the value of this rank, from 1; a
/// rank beyond the sample gives none.
fn sure_up_to(sample: usize, rank: usize, content: Percent) -> Option<f64> {
    let above = sample.checked_sub(rank)? + 1;
    Some(1.0 - checked_beta_reg(rank as f64, above as f64, share(content)).ok()?)
}

/// Gives how sure it is that at least a share of the population lies between the values of two ranks that are so many
/// apart.
fn sure_between(sample: usize, apart: usize, content: Percent) -> Option<f64> {
    let rest = sample.checked_sub(apart)? + 1;
    Some(1.0 - checked_beta_reg(apart as f64, rest as f64, share(content)).ok()?)
}

/// Gives how sure it is, rounded down, that at least a share of all lies at or below the value of this rank.
#[must_use]
pub fn confidence_up_to(sample: usize, rank: usize, content: Percent) -> Option<Percent> {
    down(sure_up_to(sample, rank, content)?)
}

/// Gives how sure it is, rounded down, that at least a share of all lies between the least and the largest value.
#[must_use]
pub fn confidence_between(sample: usize, content: Percent) -> Option<Percent> {
    down(sure_between(sample, sample.checked_sub(1).filter(|apart| *apart > 0)?, content)?)
}

/// Gives the least rank whose value at least a share of all does not exceed, with a confidence; none where the sample
/// is too small to claim that.
#[must_use]
pub fn least_rank(sample: usize, content: Percent, confidence: Percent) -> Option<usize> {
    let enough =
        |rank: usize| sure_up_to(sample, rank, content).is_some_and(|sure| sure >= share(confidence));
    first(1, sample, enough)
}

/// Gives the least sample whose largest value at least a share of all does not exceed, with a confidence.
#[must_use]
pub fn least_sample(content: Percent, confidence: Percent) -> Option<usize> {
    first(1, MOST, |sample| sure_up_to(sample, sample, content).is_some_and(|sure| sure >= share(confidence)))
}

/// Gives the least sample between whose least and largest value at least a share of all lies, with a confidence.
#[must_use]
pub fn least_sample_between(content: Percent, confidence: Percent) -> Option<usize> {
    first(2, MOST, |sample| {
        sure_between(sample, sample - 1, content).is_some_and(|sure| sure >= share(confidence))
    })
}

/// Gives the share of all that does not exceed the value of this rank, from 1, with a confidence, rounded down.
#[must_use]
pub fn content_up_to(sample: usize, rank: usize, confidence: Percent) -> Option<Percent> {
    most(|content| sure_up_to(sample, rank, content).is_some_and(|sure| sure >= share(confidence)))
}

/// Gives the share of all that lies between the least and the largest value, with a confidence, rounded down.
#[must_use]
pub fn content_between_ends(sample: usize, confidence: Percent) -> Option<Percent> {
    let apart = sample.checked_sub(1).filter(|apart| *apart > 0)?;
    most(|content| sure_between(sample, apart, content).is_some_and(|sure| sure >= share(confidence)))
}

/// Finds the first number from one to another that holds; what holds once holds for all above it.
fn first(from: usize, to: usize, holds: impl Fn(usize) -> bool) -> Option<usize> {
    if to < from || !holds(to) {
        return None;
    }
    let (mut low, mut high) = (from, to);
    while low < high {
        let middle = low + (high - low) / 2;
        if holds(middle) { high = middle } else { low = middle + 1 }
    }
    Some(low)
}

/// Finds the largest share that holds; what holds once holds for all below it.
fn most(holds: impl Fn(Percent) -> bool) -> Option<Percent> {
    let (mut low, mut high) = (0_u32, 1_000_000_u32);
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        if Percent::of_millionths(middle).is_some_and(&holds) { low = middle } else { high = middle }
    }
    Percent::of_millionths(low)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn percent(text: &str) -> Percent {
        Percent::read(text).unwrap()
    }

    /// S. S. Wilks (1941) and the tables made after him: least samples for content and confidence, in percent.
    #[test]
    fn the_least_samples_are_the_published_ones() {
        let one_sided = [
            ("95", "95", 59),
            ("90", "95", 29),
            ("99", "95", 299),
            ("90", "90", 22),
            ("95", "90", 45),
            ("95", "99", 90),
            ("99", "99", 459),
        ];
        for (content, confidence, sample) in one_sided {
            let found = least_sample(percent(content), percent(confidence));
            assert_eq!(found, Some(sample), "{content} at {confidence}");
        }
        let two_sided = [
            ("95", "95", 93),
            ("90", "95", 46),
            ("99", "95", 473),
            ("90", "90", 38),
            ("95", "90", 77),
            ("95", "99", 130),
            ("99", "99", 662),
        ];
        for (content, confidence, sample) in two_sided {
            let found = least_sample_between(percent(content), percent(confidence));
            assert_eq!(found, Some(sample), "{content} at {confidence}");
        }
    }

    /// The same by their closed forms: 1 - c^n, and 1 - n c^(n-1) + (n-1) c^n.
    #[test]
    fn confidences_are_those_of_the_closed_forms() {
        let c: f64 = 0.95;
        for n in [1_usize, 2, 10, 58, 59, 200] {
            let one = 1.0 - c.powi(n as i32);
            assert!((sure_up_to(n, n, percent("95")).unwrap() - one).abs() < 1e-12, "{n}");
            if n > 1 {
                let two = 1.0 - n as f64 * c.powi(n as i32 - 1) + (n as f64 - 1.0) * c.powi(n as i32);
                assert!((sure_between(n, n - 1, percent("95")).unwrap() - two).abs() < 1e-12, "{n}");
            }
        }
    }

    #[test]
    fn a_rank_below_the_largest_does_where_the_sample_is_large() {
        let (content, confidence) = (percent("95"), percent("95"));
        // second and third largest: 93 and 124 values
        assert_eq!([92, 93, 123, 124].map(|n| n - least_rank(n, content, confidence).unwrap()), [0, 1, 1, 2]);
        assert_eq!(least_rank(58, content, confidence), None);
        assert_eq!(least_rank(0, content, confidence), None);
    }

    #[test]
    fn a_small_sample_says_what_it_covers() {
        // 0.05^(1/26) = 0.8912
        assert_eq!(content_up_to(26, 26, percent("95")).unwrap().about(), "89.11 %");
        assert_eq!(content_up_to(1, 1, percent("95")).unwrap().about(), "5 %");
        assert_eq!(content_up_to(0, 0, percent("95")), None);
        // the second largest of 93 stands for 95 %, that of 92 for less
        assert!(content_up_to(93, 92, percent("95")).unwrap() >= percent("95"));
        assert!(content_up_to(92, 91, percent("95")).unwrap() < percent("95"));
        assert_eq!(content_between_ends(1, percent("95")), None);
        assert!(content_between_ends(93, percent("95")).unwrap() >= percent("95"));
        assert!(content_between_ends(92, percent("95")).unwrap() < percent("95"));
        assert_eq!(confidence_up_to(59, 59, percent("95")).unwrap().about(), "95.15 %");
        assert_eq!(confidence_between(93, percent("95")).unwrap().about(), "95 %");
    }
}
