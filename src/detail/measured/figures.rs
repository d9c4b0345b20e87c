//! Mean, spread and ends of lengths, in whole nanometres.

use crate::length::Length;

/// Mean, spread and ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Figures {
    /// How many.
    pub count: usize,
    /// Their mean, to the nearest nanometre.
    pub mean: Length,
    /// Their standard deviation, of a sample, up; none of a single one.
    pub deviation: Option<Length>,
    /// The least.
    pub least: Length,
    /// The most.
    pub most: Length,
}

/// Works out the figures of some lengths; none of none.
pub(super) fn figures(lengths: impl Iterator<Item = Length>) -> Option<Figures> {
    let lengths: Vec<i128> = lengths.map(|length| i128::from(length.nm())).collect();
    let count = i128::try_from(lengths.len()).ok()?;
    let (least, most) = (*lengths.iter().min()?, *lengths.iter().max()?);
    let sum: i128 = lengths.iter().sum();
    // half up
    let mean = (2 * sum + count).div_euclid(2 * count);
    // squares from the first length, so that elevations do not fill the number
    let from = lengths.first().copied().unwrap_or(0);
    let (shifted, squares) = lengths.iter().fold((0_i128, 0_i128), |(sum, squares), length| {
        let off = length - from;
        (sum + off, squares + off * off)
    });
    let deviation = (count > 1).then(|| {
        let over = count * squares - shifted * shifted;
        let under = count * (count - 1);
        let variance = over.div_euclid(under) + i128::from(over.rem_euclid(under) > 0);
        let root = variance.isqrt();
        root + i128::from(root * root < variance)
    });
    let length = |nm: i128| i64::try_from(nm).ok().map(Length::from_nm);
    Some(Figures {
        count: lengths.len(),
        mean: length(mean)?,
        deviation: deviation.and_then(length),
        least: length(least)?,
        most: length(most)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(lengths: &[i64]) -> Option<Figures> {
        figures(lengths.iter().map(|nm| Length::from_nm(*nm)))
    }

    #[test]
    fn mean_and_deviation_are_those_by_hand() {
        // 2, 4, 4, 4, 5, 5, 7, 9: mean 5, sum of squares 32, deviation of a sample root 32/7 = 2.138
        let scaled: Vec<i64> = [2, 4, 4, 4, 5, 5, 7, 9].map(|it| it * 1_000_000).to_vec();
        let found = of(&scaled).unwrap();
        assert_eq!((found.mean.nm(), found.deviation.unwrap().nm()), (5_000_000, 2_138_090));
        assert_eq!((found.least.nm(), found.most.nm(), found.count), (2_000_000, 9_000_000, 8));
        let negative = of(&[-3, -2]).unwrap();
        assert_eq!((negative.mean.nm(), negative.deviation.unwrap().nm()), (-2, 1), "half up, deviation up");
    }

    #[test]
    fn one_has_no_deviation_and_none_has_no_figures() {
        assert_eq!(of(&[7]).unwrap().deviation, None);
        assert_eq!(of(&[]), None);
    }
}
