//! What to order for a plan: the sums of the hardware of each column, with spares, less what is on hand.

use super::fastener::{Fastener, FastenerKind};
use super::grout::{Bags, bags, sum_of_volumes};
use super::hardware::HardwareRow;
use super::mass::{Mass, sum_of_masses};
use super::outline::{PlateKind, PlateUse};
use super::stock::OnHand;
use crate::length::{Length, Volume};
use crate::model::{Base, Job, Supplies};
use crate::plan::Action;

/// What to order. Columns are counted that the plan puts something under, those on hold too.
#[derive(Clone, Debug)]
pub struct OrderList {
    /// The plates: shims, then pieces of packs; outlines in the order of their bases in the job, the thickest first.
    pub plates: Vec<PlateOrder>,
    /// The columns whose packs are not counted, since nobody knows how many or of what, as indices into the rows.
    pub packs_open: Vec<usize>,
    /// The nuts and washers.
    pub fasteners: Vec<FastenerOrder>,
    /// The grout.
    pub grout: GroutOrder,
    /// The pads to be ground.
    pub grind: Vec<Ground>,
    /// The columns that are counted and may not be set, as indices into the rows.
    pub held: Vec<usize>,
    /// The columns that are not counted, as indices into the rows.
    pub not_counted: Vec<usize>,
}

/// Plates of one kind.
#[derive(Clone, Debug)]
pub struct PlateOrder {
    /// The kind.
    pub kind: PlateKind,
    /// The bases they go under.
    pub bases: Vec<String>,
    /// The pieces of the plan.
    pub pieces: u32,
    /// Those of them for columns on hold.
    pub held: u32,
    /// The spares.
    pub spares: u32,
    /// What of pieces and spares is on hand; none without a stock, and for packs, which are not taken from it.
    pub from_stock: Option<u32>,
    /// What is left to be ordered.
    pub to_order: u32,
    /// The mass of one piece, where known.
    pub each: Option<Mass>,
}

/// Nuts or washers of one kind.
#[derive(Clone, Debug)]
pub struct FastenerOrder {
    /// What it is.
    pub fastener: Fastener,
    /// How many the drawings have, from the plates up.
    pub drawn: u32,
    /// How many they have under the plates, as levelling nuts and the washers on them.
    pub under: u32,
    /// How many the plan puts on rods beside them.
    pub more: u32,
    /// Those of them at columns on hold.
    pub held: u32,
    /// The spares of these.
    pub spares: u32,
    /// What is to be ordered beside the drawings' own.
    pub to_order: u32,
}

/// The grout of the job.
#[derive(Clone, Debug)]
pub struct GroutOrder {
    /// The columns set on grout, as indices into the rows, with the bags for each alone, where known.
    pub beds: Vec<(usize, Option<Bags>)>,
    /// What the forms hold; none where that of one is not known.
    pub volume: Option<Volume>,
    /// The same with the waste.
    pub mixed: Option<Volume>,
    /// The bags for all together, where known.
    pub bags: Option<Bags>,
    /// The bags where each base is mixed by itself and what is left of its last bag is thrown away, where known.
    pub apart: Option<u64>,
}

/// A pad to be ground.
#[derive(Clone, Debug)]
pub struct Ground {
    /// Its column, an index into the rows.
    pub row: usize,
    /// How deep.
    pub depth: Length,
    /// The sides of its plate, where known: no less is ground.
    pub size: Option<[Length; 2]>,
}

impl PlateOrder {
    /// Gives the mass of the pieces of the plan, where known.
    #[must_use]
    pub fn mass(&self) -> Option<Mass> {
        Some(self.each?.times(self.pieces))
    }

    /// Gives the mass of what is to be ordered, where known.
    #[must_use]
    pub fn order_mass(&self) -> Option<Mass> {
        Some(self.each?.times(self.to_order))
    }
}

impl OrderList {
    /// Gives the nuts or the washers.
    pub fn of_kind(&self, kind: FastenerKind) -> impl Iterator<Item = &FastenerOrder> + Clone {
        self.fasteners.iter().filter(move |it| it.fastener.kind == kind)
    }

    /// Gives the plates of one use.
    pub fn plates_for(&self, purpose: PlateUse) -> impl Iterator<Item = &PlateOrder> + Clone {
        self.plates.iter().filter(move |it| it.kind.purpose == purpose)
    }

    /// Sums the masses of the plates of one use; none where one is not known, or plates are not counted.
    #[must_use]
    pub fn mass_of(&self, purpose: PlateUse, mass: fn(&PlateOrder) -> Option<Mass>) -> Option<Mass> {
        let all_counted = purpose == PlateUse::Shim || self.packs_open.is_empty();
        sum_of_masses(self.plates_for(purpose).map(mass)).filter(|_| all_counted)
    }
}

/// Sums the hardware of the columns of a job into an order.
#[must_use]
pub fn order_list(job: &Job, rows: &[HardwareRow]) -> OrderList {
    let indices = |wanted: fn(&HardwareRow) -> bool| {
        rows.iter().enumerate().filter(|(_, row)| wanted(row)).map(|(index, _)| index).collect()
    };
    OrderList {
        plates: plates(job, rows),
        packs_open: indices(|row| row.pack_plates().is_none()),
        fasteners: fasteners(&job.supplies, rows),
        grout: grout(&job.supplies, rows),
        grind: rows.iter().enumerate().filter_map(|(index, row)| ground(index, row)).collect(),
        held: indices(|row| row.is_planned() && !row.may_set),
        not_counted: indices(|row| !row.is_planned()),
    }
}

fn plates(job: &Job, rows: &[HardwareRow]) -> Vec<PlateOrder> {
    let mut plates: Vec<PlateOrder> = Vec::new();
    for row in rows.iter().filter(|row| row.is_planned()) {
        for (kind, count) in row.shims.iter().chain(&row.pack_plates().unwrap_or_default()) {
            let held = if row.may_set { 0 } else { *count };
            let Some(known) = plates.iter_mut().find(|it| it.kind == *kind) else {
                plates.push(PlateOrder {
                    kind: kind.clone(),
                    bases: vec![row.base.clone()],
                    pieces: *count,
                    held,
                    spares: 0,
                    from_stock: None,
                    to_order: 0,
                    each: kind.mass(),
                });
                continue;
            };
            known.pieces = known.pieces.saturating_add(*count);
            known.held = known.held.saturating_add(held);
            if !known.bases.contains(&row.base) {
                known.bases.push(row.base.clone());
            }
        }
    }
    let in_job = |mark: &String| job.bases.iter().position(|base| base.mark == *mark);
    for it in &mut plates {
        it.bases.sort_by_key(in_job);
    }
    // an outline stands where the first base that has it does in the job
    let first = |kind: &PlateKind| {
        let has = |base: &Base| match kind.purpose {
            PlateUse::Shim => PlateKind::under(base, kind.thickness) == *kind,
            PlateUse::Pack => PlateKind::in_packs_of(base, kind.thickness).as_ref() == Some(kind),
        };
        job.bases.iter().position(has).unwrap_or(usize::MAX)
    };
    plates.sort_by_key(|it| (it.kind.purpose, first(&it.kind), std::cmp::Reverse(it.kind.thickness)));
    // what the plan takes goes before spares, of whatever outline: what is on hand is counted by thickness
    let mut on_hand = OnHand::all(&job.shims);
    for it in &mut plates {
        it.spares = job.supplies.spares_of(it.pieces);
        if it.kind.purpose == PlateUse::Shim {
            it.from_stock = on_hand.take(it.kind.thickness, it.pieces);
        }
    }
    for it in &mut plates {
        if it.kind.purpose == PlateUse::Pack {
            // what is on hand is of another outline
            it.to_order = it.pieces.saturating_add(it.spares);
            continue;
        }
        let spares = on_hand.take(it.kind.thickness, it.spares);
        it.from_stock = it.from_stock.zip(spares).map(|(pieces, spares)| pieces + spares);
        it.to_order = (it.pieces.saturating_add(it.spares)).saturating_sub(it.from_stock.unwrap_or(0));
    }
    plates
}

fn fasteners(supplies: &Supplies, rows: &[HardwareRow]) -> Vec<FastenerOrder> {
    let mut all: Vec<FastenerOrder> = Vec::new();
    for row in rows {
        for (part, count) in &row.drawn {
            let order = of(&mut all, part);
            order.drawn = order.drawn.saturating_add(*count);
        }
        for (part, count) in &row.under {
            let order = of(&mut all, part);
            order.under = order.under.saturating_add(*count);
        }
        if let Some((part, count)) = &row.extra {
            let order = of(&mut all, part);
            order.more = order.more.saturating_add(*count);
            order.held = order.held.saturating_add(if row.may_set { 0 } else { *count });
        }
    }
    for order in &mut all {
        order.spares = supplies.spares_of(order.more);
        order.to_order = order.more.saturating_add(order.spares);
    }
    all
}

/// Gives the entry of a fastener, a new one where there is none yet.
fn of<'a>(all: &'a mut Vec<FastenerOrder>, part: &Fastener) -> &'a mut FastenerOrder {
    let at = all.iter().position(|it| it.fastener == *part).unwrap_or_else(|| {
        let fastener = part.clone();
        all.push(FastenerOrder { fastener, drawn: 0, under: 0, more: 0, held: 0, spares: 0, to_order: 0 });
        all.len() - 1
    });
    &mut all[at]
}

fn grout(supplies: &Supplies, rows: &[HardwareRow]) -> GroutOrder {
    let beds = || rows.iter().enumerate().filter_map(|(index, row)| Some((index, row.grout.as_ref()?)));
    let volume = sum_of_volumes(beds().map(|(_, bed)| bed.volume));
    let each: Vec<(usize, Option<Bags>)> =
        beds().map(|(index, bed)| (index, bed.volume.and_then(|it| bags(&supplies.grout, it)))).collect();
    GroutOrder {
        volume,
        mixed: volume.and_then(|volume| volume.with_percent(supplies.grout.waste.value)),
        bags: volume.and_then(|volume| bags(&supplies.grout, volume)),
        apart: each.iter().try_fold(0_u64, |sum, (_, bags)| sum.checked_add((*bags)?.whole)),
        beds: each,
    }
}

fn ground(index: usize, row: &HardwareRow) -> Option<Ground> {
    let depth = row.raise.filter(|_| row.action == Action::Grind)?.abs();
    Some(Ground { row: index, depth, size: row.plate_size })
}
