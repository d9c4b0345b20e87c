//! What concrete bears under a plate, as it is published: figures for the engineer, and no design.

use crate::catalog::{Authority, Standing};
use crate::length::Length;
use crate::quantity::{Area, Force, Stress};

/// Hundredths of the strength of concrete that bear: 0.85 f'c.
const BLOCK: u32 = 85;

/// Most times the bearing of the loaded area alone that concrete round it may add up to.
const MOST_CONFINED: u32 = 2;

/// By how much a publication lessens what concrete bears.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Factor {
    /// Times so many hundredths: held against a load with load factors.
    Phi(u32),
    /// Divided by so many hundredths: held against a load without.
    Omega(u32),
}

/// A publication that says what concrete bears.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BearingRule {
    /// What it is called.
    pub name: &'static str,
    /// Its factor.
    pub factor: Factor,
    /// How it was seen.
    pub authority: Authority,
}

/// Gives every publication that is shown.
#[must_use]
pub fn bearing_rules() -> [BearingRule; 5] {
    let aci = Authority::new(
        Standing::Published,
        "ACI 318-19, 22.8.3.2, the lesser of 0.85 f'c A1 sqrt(A2/A1) and twice 0.85 f'c A1, and phi 0.65 of Table 21.2.1, as \
         quoted by second parties; the numbers of clause and table from memory",
    );
    let first = Authority::new(
        Standing::Published,
        "AISC 360-05, J8, phi 0.60 and Omega 2.50, as printed in a published design example of 2005",
    );
    let later = Authority::new(
        Standing::FromMemory,
        "AISC 360-10 and later, J8, phi 0.65 and Omega 2.31; from memory, to be checked",
    );
    let rule =
        |name, factor, authority: &Authority| BearingRule { name, factor, authority: authority.clone() };
    [
        rule("ACI 318-19", Factor::Phi(65), &aci),
        rule("AISC 360-05", Factor::Phi(60), &first),
        rule("AISC 360-05", Factor::Omega(250), &first),
        rule("AISC 360-10", Factor::Phi(65), &later),
        rule("AISC 360-10", Factor::Omega(231), &later),
    ]
}

impl BearingRule {
    /// Gives what it leaves of the nominal bearing, down; none beyond what is held.
    #[must_use]
    pub fn leaves(&self, nominal: Force) -> Option<Force> {
        match self.factor {
            Factor::Phi(hundredths) => nominal.hundredths(hundredths),
            Factor::Omega(hundredths) => nominal.by_hundredths(hundredths),
        }
    }

    /// Gives the area that a load needs by it without any concrete round it, up; none of concrete without strength.
    #[must_use]
    pub fn needs(&self, load: Force, strength: Stress) -> Option<Area> {
        let block = strength.hundredths(BLOCK);
        match self.factor {
            Factor::Phi(hundredths) => load.area_at(block.hundredths(hundredths)),
            Factor::Omega(hundredths) => load.hundredths_up(hundredths)?.area_at(block),
        }
    }
}

/// Gives the sides of the largest area of a plate's shape round its middle that fits the top of the concrete, down.
///
/// Without the concrete's sides it is the plate itself: concrete round it that nobody told of does not count.
#[must_use]
pub fn spread(plate: [Length; 2], pier: Option<[Length; 2]>) -> [Length; 2] {
    let Some([wide, deep]) = pier else { return plate };
    let [a, b] = plate.map(|side| i128::from(side.nm().max(1)));
    let [wide, deep] = [wide, deep].map(|side| i128::from(side.nm()));
    // the side that the pier gives out at first
    let sides = if wide * b <= deep * a { [wide, wide * b / a] } else { [deep * a / b, deep] };
    let [one, other] = sides.map(|side| i64::try_from(side).unwrap_or(i64::MAX));
    [plate[0].max(Length::from_nm(one)), plate[1].max(Length::from_nm(other))]
}

/// Gives the nominal bearing of a loaded area in a larger area of the same shape, down: the lesser of 0.85 f'c times the
/// root of both, and twice 0.85 f'c times the loaded one; none beyond what is held.
#[must_use]
pub fn nominal_bearing(strength: Stress, loaded: Area, spread: Area) -> Option<Force> {
    let counts = loaded.mean(spread.max(loaded))?.min(loaded.times(MOST_CONFINED));
    Force::over(strength, counts)?.hundredths(BLOCK)
}

/// Gives the most that concrete round a loaded area can bring its nominal bearing to, down.
#[must_use]
pub fn most_bearing(strength: Stress, loaded: Area) -> Option<Force> {
    Force::over(strength, loaded.times(MOST_CONFINED))?.hundredths(BLOCK)
}
