//! One kind of column base: plate, rods, washers and nuts.

use super::loads::Loads;
use super::setting::{Levelling, Packs, Setting};
use super::steel::{NutSteel, RodSteel};
use crate::catalog::{Authority, Extent, HoleRow, Limit, NutStyle, Pitch, PlainRow};
use crate::length::Length;

/// A kind of column base, with every part found.
#[derive(Clone, Debug)]
pub struct Base {
    /// Its mark.
    pub mark: String,
    /// The base plate.
    pub plate: Plate,
    /// The anchor rods.
    pub rods: RodKind,
    /// Washers on each rod, from the plate up.
    pub washers: Vec<WasherPart>,
    /// Nuts on each rod, from the plate up.
    pub nuts: Vec<NutPart>,
    /// The washer that may be added under the nut.
    pub extra: Option<WasherPart>,
    /// Thread wanted beyond the outer nut.
    pub beyond: Limit<Length>,
    /// Clear thread to remain under the nut.
    pub clear: Limit<Length>,
    /// Most extra washers on one rod.
    pub most_extra: Limit<u32>,
    /// The designed gap for grout under the plate; 0 is none.
    pub bed: Length,
    /// How the plate is set, where the job says; otherwise nothing is assumed.
    pub setting: Option<Setting>,
    /// The sides of the top of the concrete under the plate, in the order of the plate's, where known.
    pub pier: Option<[Length; 2]>,
    /// What a column on it must carry, where known.
    pub loads: Loads,
    /// What the column does.
    pub duty: Duty,
    /// The row of the catalog's hole table at this rod diameter, where there is one.
    pub hole_table: Option<HoleRow>,
    /// The catalog's exception for plain washers at this rod diameter (`Holes::plain`), where there is one.
    pub plain_washer: Option<PlainRow>,
}

/// What a column does: fewer rods are allowed under a post (29 CFR 1926.751).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Duty {
    /// A column.
    Column,
    /// A post: 300 lb or less and axially loaded, or held by the member above.
    Post,
}

/// A base plate.
#[derive(Clone, Debug)]
pub struct Plate {
    /// Its two sides, where known.
    pub size: Option<[Length; 2]>,
    /// Its thickness.
    pub thickness: Extent,
    /// On whose word its tolerance stands.
    pub tolerance: Authority,
    /// The diameter of its rod holes, where known.
    pub holes: Option<Length>,
}

/// The rods of a base as the drawing has them.
#[derive(Clone, Debug)]
pub struct RodKind {
    /// The size as it is called: `3/4`, `M24`.
    pub size: String,
    /// The diameter.
    pub diameter: Length,
    /// How many.
    pub count: u32,
    /// The spacing of the rods, both ways, where known.
    pub pattern: Option<[Length; 2]>,
    /// The projection on the drawing, where known.
    pub projection: Option<Length>,
    /// The thread length on the drawing, where known.
    pub thread: Option<Length>,
    /// The pitch of the thread.
    pub pitch: Pitch,
    /// On whose word the pitch stands.
    pub pitch_authority: Authority,
    /// Their steel, where known.
    pub steel: Option<RodSteel>,
}

/// A washer in place on a rod.
#[derive(Clone, Debug)]
pub struct WasherPart {
    /// Its series, or `as measured` where the job gives its thickness.
    pub series: String,
    /// Its thickness.
    pub thickness: Extent,
    /// Its outer size, where known.
    pub outer: Option<Length>,
    /// On whose word.
    pub authority: Authority,
}

/// A nut in place on a rod.
#[derive(Clone, Debug)]
pub struct NutPart {
    /// Its series, or `as measured` where the job gives its height.
    pub series: String,
    /// Its height.
    pub height: Extent,
    /// Its most width across flats, where known.
    pub flats: Option<Length>,
    /// Its style, where known.
    pub style: Option<NutStyle>,
    /// Its steel, where known.
    pub steel: Option<NutSteel>,
    /// On whose word.
    pub authority: Authority,
}

impl RodKind {
    /// Gives what the rods are called by when they are bought: the size, and grade and finish where known.
    #[must_use]
    pub fn called(&self) -> String {
        let Some(steel) = &self.steel else { return self.size.clone() };
        let finish = steel.finish.map(|finish| format!(", {}", finish.words())).unwrap_or_default();
        format!("{} {}{finish}", self.size, steel.grade)
    }
}

impl NutPart {
    /// Gives what the nut is called by when it is bought: the series, and the grade where known.
    #[must_use]
    pub fn called(&self) -> String {
        match &self.steel {
            Some(steel) => format!("{} grade {}", self.series, steel.grade),
            None => self.series.clone(),
        }
    }
}

impl Base {
    /// Tells whether the drawings have a bed of grout under the plate.
    #[must_use]
    pub fn has_bed(&self) -> bool {
        self.bed > Length::ZERO
    }

    /// Gives the levelling nut and its washer, where the plate is set on levelling nuts.
    #[must_use]
    pub fn levelling(&self) -> Option<&Levelling> {
        match &self.setting {
            Some(Setting::Nuts(levelling)) => Some(levelling),
            _ => None,
        }
    }

    /// Gives the packs, where the plate is set on packs.
    #[must_use]
    pub const fn packs(&self) -> Option<&Packs> {
        match &self.setting {
            Some(Setting::Packs(packs)) => Some(packs),
            _ => None,
        }
    }

    /// Sums the washers with so many extra ones.
    #[must_use]
    pub fn washers_with(&self, extra: u32) -> Extent {
        let designed = sum(self.washers.iter().map(|washer| washer.thickness));
        let Some(washer) = &self.extra else { return designed };
        let extra = i64::from(extra);
        Extent {
            least: designed.least + washer.thickness.least * extra,
            nominal: designed.nominal + washer.thickness.nominal * extra,
            most: designed.most + washer.thickness.most * extra,
        }
    }

    /// Sums the nuts.
    #[must_use]
    pub fn nuts_sum(&self) -> Extent {
        sum(self.nuts.iter().map(|nut| nut.height))
    }

    /// Gives the most extra washers that can be added: none where no series is given.
    #[must_use]
    pub fn extra_allowed(&self) -> u32 {
        if self.extra.is_some() { self.most_extra.value } else { 0 }
    }
}

fn sum(extents: impl Iterator<Item = Extent>) -> Extent {
    extents.fold(Extent::exact(Length::ZERO), |sum, part| Extent {
        least: sum.least + part.least,
        nominal: sum.nominal + part.nominal,
        most: sum.most + part.most,
    })
}
