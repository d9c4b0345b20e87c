//! A reading that is off by a round amount: a foot, an inch, a centimetre.

use super::{Posed, Slip, SlipKind, Suspect};
use crate::length::{Length, Unit};

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
    const ALL: [Self; 6] =
        [Self::Metre, Self::Foot, Self::Decimetre, Self::TenthOfFoot, Self::Inch, Self::Centimetre];

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
    pub(super) fn near(size: Length, within: Length) -> Option<Self> {
        let off = |amount: Self| (size.abs() - amount.length()).abs();
        // a window of more than a quarter of the amount tells nothing
        let near = Self::ALL.into_iter().filter(|it| off(*it) <= within && within * 4 <= it.length());
        near.min_by_key(|it| off(*it))
    }
}

/// Tells whether a suspect reading is off by a round amount.
pub(super) fn misread(posed: &Posed<'_>, suspect: &Suspect) -> Option<Slip> {
    // the size is known to its own standard deviation, which the standardised residual counts in
    let within = suspect.size.nm().saturating_mul(196) / i64::from(suspect.standardised.max(1));
    let amount = RoundAmount::near(suspect.size, Length::from_nm(within))?;
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

    fn near(size: i64, within: i64) -> Option<RoundAmount> {
        RoundAmount::near(Length::from_nm(size), Length::from_nm(within))
    }

    #[test]
    fn a_size_is_the_round_amount_it_is_nearest_to() {
        let mm = 1_000_000;
        assert_eq!(near(25 * mm, 2 * mm), Some(RoundAmount::Inch));
        assert_eq!(near(-30 * mm, 3 * mm), Some(RoundAmount::TenthOfFoot));
        assert_eq!(near(304 * mm, 3 * mm), Some(RoundAmount::Foot));
        assert_eq!(near(11 * mm, 2 * mm), Some(RoundAmount::Centimetre));
        assert_eq!(near(15 * mm, 2 * mm), None);
    }

    #[test]
    fn a_window_as_wide_as_the_amount_tells_nothing() {
        let mm = 1_000_000;
        assert_eq!(near(10 * mm, 3 * mm), None);
        assert_eq!(near(25 * mm, 8 * mm), None);
    }
}
