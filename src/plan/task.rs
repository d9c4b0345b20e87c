//! What there is to choose at every pad that is measured.

use super::cost::Cost;
use super::fewest::{Grinding, Wish};
use super::options::{Open, PlannedOption, judge, options_at};
use crate::length::Length;
use crate::levels::{Datum, Levelled};
use crate::model::{Column, Job};
use std::collections::BTreeMap;
use std::ops::Range;

/// One thing that can be chosen at a pad.
#[derive(Clone, Debug)]
pub(super) struct Candidate {
    /// How far the seat then stands from its design.
    pub(super) departure: i64,
    /// What it costs.
    pub(super) cost: Cost,
    /// The option, an index into [`Task::options`].
    pub(super) option: usize,
}

/// A pad with what is open at it.
#[derive(Clone, Debug)]
pub(super) struct Pad {
    /// Its column in the job.
    pub(super) column: usize,
    /// The design seat of the column.
    pub(super) design: i64,
    /// Its elevation less the design seat.
    pub(super) departure: i64,
    /// What can be done there, open or not: indices into [`Task::options`].
    pub(super) own: Range<usize>,
    /// Whether it has a designed bed.
    pub(super) on_bed: bool,
    /// The cheapest open option for each seat it can come to, lowest first.
    pub(super) open: Vec<Candidate>,
    /// Whether it may be referred to the engineer.
    pub(super) referable: bool,
    /// How far its seat may be from the design.
    pub(super) window: Option<i64>,
}

/// Every pad that is measured.
#[derive(Clone, Debug)]
pub(super) struct Task {
    /// Every option: first what most pads share, then what single ones have of their own, pinned or on a designed bed.
    pub(super) options: Vec<PlannedOption>,
    /// Whether elevations are absolute, so that a designed bed counts by the seat it makes.
    absolute: bool,
    pub(super) pads: Vec<Pad>,
    /// The lowest and the highest seat anything can come to.
    pub(super) ends: (i64, i64),
    /// How freely pads are ground.
    pub(super) grinding: Grinding,
}

impl Task {
    /// Looks at every pad of a job.
    ///
    /// A column that is pinned takes its option whatever its rods and its design seat say: the rules judge it afterwards.
    ///
    /// `options` is what can be done at a column without a designed bed, of one height the better first.
    pub(super) fn new(
        job: &Job,
        levels: &Levelled,
        windows: &[Option<Length>],
        wish: &Wish,
        mut options: Vec<PlannedOption>,
    ) -> Self {
        let free = options.len();
        let absolute = matches!(levels.datum(), Datum::Absolute(_));
        let mut pads = Vec::new();
        for (index, column) in job.columns.iter().enumerate() {
            let Some(height) = column.point.and_then(|point| levels.height(point)) else { continue };
            let design = job.design_seat(column);
            let departure = (height.elevation - design).nm();
            let pin = wish.pins.get(&index);
            let window = windows.get(index).copied().flatten().map(Length::nm).filter(|_| pin.is_none());
            let on_bed = job.base_of(column).has_bed();
            let from = options.len();
            let own = match pin {
                Some(pin) => {
                    options.push(pin.clone());
                    from..options.len()
                }
                None if on_bed => {
                    options.extend(options_at(job, column, &[]).into_owned());
                    from..options.len()
                }
                None => 0..free,
            };
            pads.push(Pad {
                column: index,
                design: design.nm(),
                departure,
                own,
                on_bed,
                open: Vec::new(),
                referable: pin.is_none(),
                window,
            });
        }
        let mut task = Self { options, absolute, pads, ends: (0, 0), grinding: wish.grinding };
        for pad in 0..task.pads.len() {
            task.open(job, pad);
        }
        task.ends = ends(&task.pads);
        task
    }

    /// Gives what can be done at a pad, open or not.
    pub(super) fn options_of(&self, pad: &Pad) -> &[PlannedOption] {
        self.options.get(pad.own.clone()).unwrap_or_default()
    }

    /// Looks at what is open at a pad where it now stands.
    fn open(&mut self, job: &Job, index: usize) {
        let Some(pad) = self.pads.get_mut(index) else { return };
        let own = self.options.get_mut(pad.own.clone()).unwrap_or_default();
        if pad.on_bed {
            let departure = self.absolute.then_some(Length::from_nm(pad.departure));
            own.iter_mut().for_each(|option| option.count_from(departure));
        }
        let column = &job.columns[pad.column];
        if pad.referable {
            pad.open = candidates(job, column, own, pad);
            ground(&mut pad.open, self.grinding, pad.column);
            return;
        }
        let pinned = own.iter().enumerate().map(|(at, pin)| Candidate {
            departure: pad.departure + pin.raise.nominal.nm(),
            cost: pin.cost(judge(job, column, pin) != Open::Yes),
            option: pad.own.start + at,
        });
        pad.open = pinned.collect();
    }

    /// Moves a pad up or down, and with it all that can be done there.
    pub(super) fn move_pad(&mut self, job: &Job, pad: usize, by: Length) {
        let Some(moved) = self.pads.get_mut(pad) else { return };
        moved.departure += by.nm();
        self.open(job, pad);
        self.ends = ends(&self.pads);
    }
}

/// Leaves grinding out where only another column may be ground.
fn ground(open: &mut Vec<Candidate>, grinding: Grinding, column: usize) {
    if matches!(grinding, Grinding::OnlyAt(only) if only != column) {
        open.retain(|it| it.cost.grind == 0);
    }
}

/// Gives the lowest and the highest seat anything can come to, the ends of every design window among them.
fn ends(pads: &[Pad]) -> (i64, i64) {
    let open = pads.iter().flat_map(|pad| pad.open.iter().map(|it| it.departure));
    let windows = pads.iter().filter_map(|pad| pad.window).flat_map(|most| [-most, most]);
    let ends = open.chain(windows).fold(None, |ends: Option<(i64, i64)>, at| match ends {
        None => Some((at, at)),
        Some((low, high)) => Some((at.min(low), at.max(high))),
    });
    ends.unwrap_or_default()
}

/// Gives the cheapest open option for each seat, lowest first.
fn candidates(job: &Job, column: &Column, options: &[PlannedOption], pad: &Pad) -> Vec<Candidate> {
    let mut cheapest: BTreeMap<i64, Candidate> = BTreeMap::new();
    for (index, option) in options.iter().enumerate() {
        let seat = pad.departure + option.raise.nominal.nm();
        if pad.window.is_some_and(|most| seat.abs() > most) {
            continue;
        }
        // nothing that costs more even if it is not held
        if cheapest.get(&seat).is_some_and(|it| it.cost <= option.cost(false)) {
            continue;
        }
        let held = match judge(job, column, option) {
            Open::Yes => false,
            Open::Held => true,
            Open::No => continue,
        };
        let cost = option.cost(held);
        if cheapest.get(&seat).is_none_or(|it| cost < it.cost) {
            cheapest.insert(seat, Candidate { departure: seat, cost, option: pad.own.start + index });
        }
    }
    cheapest.into_values().collect()
}
