//! A reading that is off by a round amount: a foot, an inch, a centimetre.

use super::{Posed, Slip, SlipKind, Suspect};
use crate::length::{Length, Unit};
use crate::model::{Job, Units};

/// An amount that is easily misread on a rod or a tape.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RoundAmount {
    /// One foot.
    Foot,
    /// One inch.
    Inch,
    /// A tenth of a foot.
    TenthOfFoot,
    /// One metre.
    Metre,
    /// A hundred millimetres.
    Decimetre,
    /// Ten millimetres.
    Centimetre,
}

impl RoundAmount {
    const METRIC: [Self; 3] = [Self::Metre, Self::Decimetre, Self::Centimetre];
    const INCH: [Self; 3] = [Self::Foot, Self::TenthOfFoot, Self::Inch];

    /// Gives the amount.
    #[must_use]
    pub const fn length(self) -> Length {
        Length::from_nm(match self {
            Self::Foot => Unit::Foot.nm(),
            Self::Inch => Unit::Inch.nm(),
            Self::TenthOfFoot => Unit::Foot.nm() / 10,
            Self::Metre => Unit::Metre.nm(),
            Self::Decimetre => Unit::Metre.nm() / 10,
            Self::Centimetre => Unit::Centimetre.nm(),
        })
    }

    /// Finds the amount that a size is nearest to, if it is that within so much; none where that could be chance.
    ///
    /// A rod in feet is misread by feet and inches, a metric one by metres and centimetres.
    pub(super) fn near(job: &Job, size: Length, within: Length) -> Option<Self> {
        let metric = match job.readings.unit {
            Some(unit) => !matches!(unit, Unit::Inch | Unit::Foot),
            None => job.units == Units::Millimetre,
        };
        Self::among(if metric { Self::METRIC } else { Self::INCH }, size, within)
    }

    fn among(amounts: [Self; 3], size: Length, within: Length) -> Option<Self> {
        let off = |amount: Self| (size.abs() - amount.length()).abs();
        // a window of more than a quarter of the amount tells nothing
        let near = amounts.into_iter().filter(|it| off(*it) <= within && within * 4 <= it.length());
        near.min_by_key(|it| off(*it))
    }
}

/// Tells whether a suspect reading is off by a round amount.
pub(super) fn misread(posed: &Posed<'_>, suspect: &Suspect) -> Option<Slip> {
    // the size is known to its own standard deviation, which the standardised residual counts in
    let within = suspect.size.nm().saturating_mul(196) / i64::from(suspect.standardised.max(1));
    let amount = RoundAmount::near(posed.job, suspect.size, Length::from_nm(within))?;
    let places = [suspect.place].into_iter().chain(suspect.tied_with.iter().copied()).collect();
    let setup = suspect.sight.and_then(|sight| posed.job.readings.sights.get(sight)).map(|sight| sight.setup);
    Some(Slip {
        kind: SlipKind::Misread(amount),
        setup: setup.filter(|_| suspect.tied_with.is_empty()),
        points: vec![suspect.point],
        places,
        size: suspect.size,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(amounts: [RoundAmount; 3], size: i64, within: i64) -> Option<RoundAmount> {
        RoundAmount::among(amounts, Length::from_nm(size), Length::from_nm(within))
    }

    #[test]
    fn a_size_is_the_round_amount_it_is_nearest_to() {
        let mm = 1_000_000;
        let (inch, metric) = (RoundAmount::INCH, RoundAmount::METRIC);
        assert_eq!(near(inch, 25 * mm, 2 * mm), Some(RoundAmount::Inch));
        assert_eq!(near(inch, -30 * mm, 3 * mm), Some(RoundAmount::TenthOfFoot));
        assert_eq!(near(inch, 304 * mm, 3 * mm), Some(RoundAmount::Foot));
        assert_eq!(near(metric, 11 * mm, 2 * mm), Some(RoundAmount::Centimetre));
        assert_eq!(near(metric, 25 * mm, 2 * mm), None);
        assert_eq!(near(inch, 11 * mm, 2 * mm), None);
    }

    #[test]
    fn a_window_as_wide_as_the_amount_tells_nothing() {
        let mm = 1_000_000;
        assert_eq!(near(RoundAmount::METRIC, 10 * mm, 3 * mm), None);
        assert_eq!(near(RoundAmount::INCH, 25 * mm, 8 * mm), None);
    }
}
