//! What bears on the concrete under a column, before its grout is hard and when it is finished, and what is published of it.

use super::case::{Case, ColumnCase};
use crate::length::Length;
use crate::model::{
    Base, BearingRule, Factor, Setting, bearing_rules, most_bearing, nominal_bearing, spread,
};
use crate::plan::Action;
use crate::quantity::{Area, Force, Stress};

/// When something bears.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// While steel is erected, before any grout is hard.
    Erection,
    /// In the finished building.
    Finished,
}

/// What brings the load into the concrete.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seat {
    /// The whole base plate: on its pad, on shims of its outline, on grout that fills its bed.
    Plate([Length; 2]),
    /// A setting plate that was grouted before the column came, as far as the base plate covers it.
    SettingPlate([Length; 2]),
    /// So many packs of one size, each by itself.
    Packs([Length; 2], u32),
    /// The rods, by their levelling nuts.
    Rods,
    /// It is not known, and what would have to be.
    Unknown(&'static str),
}

impl Seat {
    /// Gives the sides of one area that bears, and how many there are.
    #[must_use]
    pub const fn areas(self) -> Option<([Length; 2], u32)> {
        match self {
            Self::Plate(sides) | Self::SettingPlate(sides) => Some((sides, 1)),
            Self::Packs(sides, count) => Some((sides, count)),
            Self::Rods | Self::Unknown(_) => None,
        }
    }
}

/// What is published of one area that bears.
#[derive(Clone, Debug)]
pub struct Bears {
    /// The strength of the concrete that it was worked out with.
    pub strength: Stress,
    /// The sides of the area.
    pub sides: [Length; 2],
    /// How many such areas share the load.
    pub count: u32,
    /// The sides of the concrete that counts round it.
    pub spread: [Length; 2],
    /// The nominal bearing of one, without any factor.
    pub nominal: Force,
    /// The most that concrete round it can bring that to.
    pub most: Force,
    /// What each publication leaves of the nominal bearing of one.
    pub figures: Vec<(BearingRule, Force)>,
}

/// One stage of one column.
#[derive(Clone, Debug)]
pub struct Bearing {
    /// Which stage.
    pub stage: Stage,
    /// The load, where given.
    pub load: Option<Force>,
    /// What brings it into the concrete.
    pub seat: Seat,
    /// What is published of that; none where an area or the strength of the concrete is not known.
    pub bears: Option<Bears>,
}

impl Stage {
    /// Tells whether a factor is one to hold this load against.
    ///
    /// The load on the finished building has load factors in it, so Omega is not for it. Nobody says whether the load of
    /// erection has: it is held against every figure.
    #[must_use]
    pub const fn takes(self, factor: Factor) -> bool {
        matches!((self, factor), (Self::Erection, _) | (Self::Finished, Factor::Phi(_)))
    }
}

impl Bearing {
    /// Gives both stages of a column.
    #[must_use]
    pub fn of(case: &Case<'_>, column: &ColumnCase) -> [Self; 2] {
        [Self::before(case, column), Self::finished(case, case.base(column.index))]
    }

    /// Gives what bears under a column before its grout is hard.
    #[must_use]
    pub fn before(case: &Case<'_>, column: &ColumnCase) -> Self {
        let base = case.base(column.index);
        let seat = before_grout(base, case.choice(column.index).action);
        Self::at(base, Stage::Erection, base.loads.erection, seat, case.job.concrete.at_erection())
    }

    /// Gives what bears under every column of a base in the finished building.
    #[must_use]
    pub fn finished(case: &Case<'_>, base: &Base) -> Self {
        let seat = base.plate.size.map_or(Seat::Unknown(PLATE), Seat::Plate);
        Self::at(base, Stage::Finished, base.loads.factored, seat, case.job.concrete.strength)
    }

    fn at(base: &Base, stage: Stage, load: Option<Force>, seat: Seat, strength: Option<Stress>) -> Self {
        let bears = strength.and_then(|strength| Bears::of(strength, seat, base.pier));
        Self { stage, load, seat, bears }
    }

    /// Gives the load on one of the areas, all of them sharing it equally, up.
    #[must_use]
    pub fn share(&self) -> Option<Force> {
        Some(self.load?.shared_by(self.bears.as_ref()?.count))
    }

    /// Gives the least of the figures that this load is held against.
    #[must_use]
    pub fn least(&self) -> Option<&(BearingRule, Force)> {
        let figures = self.bears.iter().flat_map(|bears| &bears.figures);
        figures.filter(|(rule, _)| self.stage.takes(rule.factor)).min_by_key(|(_, force)| *force)
    }
}

impl Bears {
    fn of(strength: Stress, seat: Seat, pier: Option<[Length; 2]>) -> Option<Self> {
        let (sides, count) = seat.areas()?;
        // packs stand near the edges of the concrete and near each other: nothing is counted round them
        let round = if matches!(seat, Seat::Packs(..)) { sides } else { spread(sides, pier) };
        let loaded = Area::of(sides);
        let nominal = nominal_bearing(strength, loaded, Area::of(round))?;
        let figures: Option<Vec<_>> = bearing_rules()
            .into_iter()
            .map(|rule| {
                let left = rule.leaves(nominal)?;
                Some((rule, left))
            })
            .collect();
        let most = most_bearing(strength, loaded)?;
        Some(Self { strength, sides, count, spread: round, nominal, most, figures: figures? })
    }
}

const PLATE: &str = "the size of the base plate";

/// Tells what brings the load into the concrete before any grout is hard.
fn before_grout(base: &Base, action: Action) -> Seat {
    let grouted = match action {
        Action::Grout => true,
        Action::NoShim | Action::Shim | Action::Grind => false,
        // no raise is planned: only a bed tells what will be under the plate
        Action::Refer | Action::Unmeasured if base.has_bed() => true,
        Action::Refer | Action::Unmeasured => return Seat::Unknown("what goes under the plate"),
    };
    if !grouted {
        return base.plate.size.map_or(Seat::Unknown(PLATE), Seat::Plate);
    }
    match &base.setting {
        Some(Setting::Packs(packs)) => match (packs.size, packs.count) {
            (Some(size), Some(count)) => Seat::Packs(size, count),
            (None, _) => Seat::Unknown("the size of the packs"),
            (_, None) => Seat::Unknown("how many packs there are"),
        },
        Some(Setting::Plate(plate)) => match (plate.size, base.plate.size) {
            // a thin plate spreads nothing: what stands out beyond the base plate bears nothing
            (Some(under), Some(over)) => Seat::SettingPlate([under[0].min(over[0]), under[1].min(over[1])]),
            (None, _) => Seat::Unknown("the size of the setting plate"),
            (_, None) => Seat::Unknown(PLATE),
        },
        Some(Setting::Nuts(_)) => Seat::Rods,
        Some(Setting::Pad | Setting::Shims) | None => {
            Seat::Unknown("what holds the plate until its grout is hard")
        }
    }
}
