//! How much grout a base takes, and how many bags that is: exact volumes, up to the next bag.

use crate::catalog::{Consistency, bed_for};
use crate::length::{Length, Volume};
use crate::model::{Base, GroutSupply};

/// The grout under one base.
///
/// # Units
/// The volume fills the form under the plate, and between plate and form to the height of the shoulder; rods, nuts, shims and packs in
/// it and a chamfered shoulder are not taken off.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GroutBed {
    /// Its thickness.
    pub bed: Length,
    /// The form: the plate and the edge on every side; none where the size of the plate is not known.
    pub form: Option<[Length; 2]>,
    /// What it holds, without waste; none where the size of the plate is not known.
    pub volume: Option<Volume>,
    /// How far grout flows under the plate: its shorter side, where known.
    pub flow: Option<Length>,
    /// The bed that flow wants, least and most, where known.
    pub wants: Option<[Length; 2]>,
}

/// Bags of grout, with the waste in them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bags {
    /// Thousandths of a bag, up.
    pub thousandths: u64,
    /// Whole bags, up.
    pub whole: u64,
}

impl GroutBed {
    /// Works out a bed under a base.
    #[must_use]
    pub fn under(base: &Base, supply: &GroutSupply, bed: Length) -> Self {
        let edge = supply.edge.unwrap_or(Length::ZERO);
        let plate = base.plate.size;
        let form = plate.map(|sides| sides.map(|side| side + edge * 2));
        let flow = plate.map(|[a, b]| a.min(b));
        let consistency = supply.consistency.unwrap_or(Consistency::Flowable);
        Self {
            bed,
            form,
            volume: plate.zip(form).and_then(|(plate, form)| volume(plate, form, bed, supply.shoulder)),
            flow,
            wants: flow.map(|flow| bed_for(flow, consistency)),
        }
    }

    /// Tells whether the bed is thinner than its flow wants at the most; none where that is not known.
    #[must_use]
    pub fn is_thin(&self) -> Option<bool> {
        self.wants.map(|[_, most]| self.bed < most)
    }
}

fn volume(plate: [Length; 2], form: [Length; 2], bed: Length, shoulder: Length) -> Option<Volume> {
    let around = Volume::block(form, shoulder)?.less(Volume::block(plate, shoulder)?)?;
    Volume::block(form, bed)?.plus(around)
}

/// Sums volumes; none where one of them is not known.
#[must_use]
pub fn sum_of_volumes(volumes: impl IntoIterator<Item = Option<Volume>>) -> Option<Volume> {
    volumes.into_iter().try_fold(Volume::ZERO, |sum, volume| sum.plus(volume?))
}

/// Counts the bags for a volume, its waste in it; none where the yield of a bag is not known.
#[must_use]
pub fn bags(supply: &GroutSupply, volume: Volume) -> Option<Bags> {
    let yields = supply.bag.as_ref()?.yields;
    let mixed = volume.with_percent(supply.waste.value)?;
    Some(Bags { thousandths: mixed.over(yields, 1000)?, whole: mixed.over(yields, 1)? })
}
