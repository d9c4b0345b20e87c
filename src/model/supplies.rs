//! What is bought for a job beside its shims: grout by the bag, and spares of every kind.

use crate::catalog::{Authority, Consistency, GroutBag, Limit, Standing};
use crate::length::Length;

/// What is bought, and how much more of it than is planned.
#[derive(Clone, Debug)]
pub struct Supplies {
    /// Spares of every kind of plate and washer that is ordered, in percent of its pieces, up to the next piece.
    pub spares: Limit<u32>,
    /// The grout.
    pub grout: GroutSupply,
}

/// The grout of a job.
#[derive(Clone, Debug)]
pub struct GroutSupply {
    /// The bag, where known.
    pub bag: Option<GroutBag>,
    /// How stiff it is mixed, where known.
    pub consistency: Option<Consistency>,
    /// What is mixed beside what is needed, in percent.
    pub waste: Limit<u32>,
    /// How far the form stands clear of the plate on every side, where given.
    pub edge: Option<Length>,
    /// How high the grout stands above the underside of the plate, between plate and form.
    pub shoulder: Length,
}

/// Spares where the job does not say, in percent.
const SPARES: u32 = 10;

impl Supplies {
    /// Gives the spares of a job that does not say.
    #[must_use]
    pub fn usual_spares() -> Limit<u32> {
        let text = "one spare for every ten pieces of a kind that are begun: a plate that is lost or cut wrong costs \
                    a shipment; no published figure was found";
        Limit { value: SPARES, authority: Authority::new(Standing::HouseRule, text) }
    }

    /// Counts the spares of so many pieces.
    #[must_use]
    pub fn spares_of(&self, pieces: u32) -> u32 {
        let spares = (u64::from(pieces) * u64::from(self.spares.value)).div_ceil(100);
        u32::try_from(spares).unwrap_or(u32::MAX)
    }
}

/// No spares, no waste, and no grout that is known.
impl Default for Supplies {
    fn default() -> Self {
        let none = || Limit { value: 0, authority: Authority::this_job() };
        Self {
            spares: none(),
            grout: GroutSupply {
                bag: None,
                consistency: None,
                waste: none(),
                edge: None,
                shoulder: Length::ZERO,
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_spare_is_one_for_every_ten_pieces_begun() {
        let supplies = Supplies { spares: Supplies::usual_spares(), ..Supplies::default() };
        assert_eq!([0, 1, 10, 11, 25].map(|pieces| supplies.spares_of(pieces)), [0, 1, 1, 2, 3]);
        assert_eq!(Supplies::default().spares_of(25), 0);
    }
}
