//! What the detailer asks for.

use super::percent::Percent;
use super::terms::{Group, Term};
use crate::length::Length;

/// How a figure is taken to vary within its band.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spread {
    /// Anywhere in the band alike.
    Uniform,
    /// Normal, the band being plus and minus 1.96 deviations: 95 of 100 inside.
    Normal,
    /// Not at all: it stands at its worst.
    Worst,
}

impl Spread {
    /// Gives its name as flags and JSON have it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Uniform => "uniform",
            Self::Normal => "normal",
            Self::Worst => "worst",
        }
    }
}

/// How the terms are taken to vary.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spreads {
    /// Tops of rods within their limits.
    pub rod_tops: Spread,
    /// Plates, washers and nuts within their tolerances.
    pub parts: Spread,
    /// The bearing plane between its lowest and its highest.
    pub bearing: Spread,
}

impl Spreads {
    /// Gives how a term is taken to vary; what has no band does not.
    #[must_use]
    pub fn of(self, term: &Term) -> Spread {
        if term.least == term.most {
            return Spread::Worst;
        }
        match term.group {
            Group::RodTop => self.rod_tops,
            Group::Part => self.parts,
            Group::Bearing | Group::Shims => self.bearing,
            Group::Gap | Group::Beyond | Group::Reading => Spread::Worst,
        }
    }
}

impl Default for Spreads {
    /// Gives the house rule: uniform bands, the bearing plane at its worst, since what raises it raises a whole line.
    fn default() -> Self {
        Self { rod_tops: Spread::Uniform, parts: Spread::Uniform, bearing: Spread::Worst }
    }
}

/// What is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Asked {
    /// Specified lengths are multiples of this.
    pub step: Length,
    /// The share of rods that are to be full where not the worst case is asked for.
    pub probability: Percent,
    /// The share of measured columns that a specification is to clear.
    pub share: Percent,
    /// How sure it is to be that it clears that share of all columns.
    pub confidence: Percent,
    /// How the terms are taken to vary.
    pub spreads: Spreads,
}
