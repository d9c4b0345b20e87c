//! How a base plate is set: what it stands on when the column comes, and until its grout is hard.

use super::base::{NutPart, WasherPart};
use crate::catalog::Extent;
use crate::length::Length;

/// What a base plate is set on, as the job says.
#[derive(Clone, Debug)]
pub enum Setting {
    /// The concrete itself, nothing under the plate.
    Pad,
    /// Shims under the whole plate, which stay.
    Shims,
    /// Packs in the bed, grouted round.
    Packs(Packs),
    /// Levelling nuts on the rods, in the bed.
    Nuts(Box<Levelling>),
    /// A setting plate, put to height and grouted before the column comes.
    Plate(SettingPlate),
}

/// Packs under a plate; what the drawings do not say is unknown.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Packs {
    /// The two sides of one pack in plan.
    pub size: Option<[Length; 2]>,
    /// How many stand under one plate.
    pub count: Option<u32>,
    /// Whether they stay in the grout.
    pub left_in: Option<bool>,
    /// The grout over the sides of packs that stay.
    pub cover: Option<Length>,
}

/// What is on every rod under the plate, from the plate down: a washer and a nut.
#[derive(Clone, Debug)]
pub struct Levelling {
    /// The washer, where there is one.
    pub washer: Option<WasherPart>,
    /// The nut.
    pub nut: NutPart,
}

/// A setting plate; what the drawings do not say is unknown.
///
/// It is a part of the bed and never of the base plate: the bed is all that lies between the concrete and the underside
/// of the base plate, so the grout under a setting plate is the bed less its thickness.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SettingPlate {
    /// Its two sides.
    pub size: Option<[Length; 2]>,
    /// Its thickness.
    pub thickness: Option<Length>,
}

impl Setting {
    /// Gives the word that a job has for it.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Pad => "pad",
            Self::Shims => "shims",
            Self::Packs(_) => "packs",
            Self::Nuts(_) => "nuts",
            Self::Plate(_) => "plate",
        }
    }
}

impl Levelling {
    /// Sums washer and nut at their least, nominal and most.
    #[must_use]
    pub fn height(&self) -> Extent {
        let nut = self.nut.height;
        self.washer.as_ref().map_or(nut, |washer| Extent {
            least: nut.least + washer.thickness.least,
            nominal: nut.nominal + washer.thickness.nominal,
            most: nut.most + washer.thickness.most,
        })
    }
}
