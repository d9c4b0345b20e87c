//! The exact optimum: which pads are referred, then what is chosen at the others.

use super::capacity::Capacity;
use super::cells::{Realised, Splits, domains, of_pad, of_spread};
use super::cost::Cost;
use super::fewest::Grinding;
use super::layout::{Cell, Layout};
use super::prices::{COMPONENTS, Counts, common};
use super::reach::{Domain, End, Link, reach};
use super::stages::{NotProven, Stages};
use super::system::System;
use super::task::Task;

/// Why there is no plan.
#[derive(Clone, Debug)]
pub(super) enum Unsolved {
    /// Columns that may not be referred stand in each other's way.
    Clash(Vec<Link>),
    /// The answer did not pass its own check.
    NotProven,
}

impl From<NotProven> for Unsolved {
    fn from(_: NotProven) -> Self {
        Self::NotProven
    }
}

/// What is chosen at each pad, an index into what is open there; none is referred.
pub(super) type Chosen = Vec<Option<usize>>;

/// A job's pads and limits, ready to be solved.
pub(super) struct Puzzle<'t> {
    pub(super) task: &'t Task,
    pub(super) system: &'t System,
    /// Distinct neighbours, both pads.
    pub(super) neighbours: &'t [(usize, usize)],
}

impl Puzzle<'_> {
    /// Finds the best plan there is.
    pub(super) fn solve(&self) -> Result<Chosen, Unsolved> {
        let nobody = vec![false; self.task.pads.len()];
        if self.task.pads.iter().all(|pad| !pad.open.is_empty()) {
            let all = domains(self.task, self.system, &nobody, None);
            if reach(self.system, &all, End::Low).clashes.is_empty() {
                return self.choose(&nobody);
            }
        }
        let free: Vec<bool> = self.task.pads.iter().map(|pad| pad.referable).collect();
        let all = domains(self.task, self.system, &free, Some(self.task.ends));
        if let Some(clash) = reach(self.system, &all, End::Low).clashes.into_iter().next() {
            return Err(Unsolved::Clash(clash));
        }
        let referred = self.refer()?;
        self.choose(&referred)
    }

    /// Finds which pads are referred.
    ///
    /// Of all plans of the least cost those with the least sum of the other seats' elevations are kept, then
    /// those whose first referred column stands later in the job.
    fn refer(&self) -> Result<Vec<bool>, Unsolved> {
        let ends = self.task.ends;
        let mut splits = Splits::new(self.system);
        loop {
            let mut rows: Vec<Vec<Cell>> = Vec::new();
            for (variable, pad) in self.task.pads.iter().enumerate() {
                let within = pad.window.map_or(ends, |most| (ends.0.max(-most), ends.1.min(most)));
                rows.push(of_pad(pad, within, true, pad.referable, &splits, variable));
            }
            for (index, members) in self.system.spreads.iter().enumerate() {
                rows.push(of_spread(members, &rows, ends, &splits, self.system.pads + index));
            }
            let layout = Layout::new(rows);
            let counts = self.counts(&layout, true);
            let lowest = if counts.fits::<i64>() {
                self.least_referred::<i64>(&layout, &counts)?
            } else {
                self.least_referred::<i128>(&layout, &counts)?
            };
            let chosen = self.chosen(&layout, &lowest);
            let referred: Vec<bool> = chosen.iter().map(Option::is_none).collect();
            match splits.realised(self.system, &self.fixed(&chosen, &referred)) {
                Realised::Yes => return Ok(referred),
                Realised::Split => {}
                Realised::Never => return Err(Unsolved::NotProven),
            }
        }
    }

    fn least_referred<C: Capacity>(&self, layout: &Layout, counts: &Counts) -> Result<Vec<usize>, NotProven> {
        let mut stages = Stages::<C>::new(layout, self.system);
        for group in counts.groups::<C>() {
            stages.least(|variable, cell| counts.price(&group, variable, cell))?;
        }
        let (mut lowest, mut highest) = (stages.lowest(), stages.highest());
        for pad in 0..self.task.pads.len() {
            let open = &layout.cells[pad][lowest[pad]..=highest[pad]];
            let referred = open.iter().filter(|cell| cell.choice.is_none()).count();
            if referred == 0 || referred == open.len() {
                continue;
            }
            stages.least(|variable, cell| {
                let refers = variable == pad && layout.cells[variable][cell].choice.is_none();
                C::of(i128::from(refers))
            })?;
            (lowest, highest) = (stages.lowest(), stages.highest());
        }
        Ok(lowest)
    }

    /// Finds what is best at the pads that are not referred: least cost, then flattest, then nearest the designed beds,
    /// then lowest.
    fn choose(&self, referred: &[bool]) -> Result<Chosen, Unsolved> {
        let (task, system) = (self.task, self.system);
        let all = domains(task, system, referred, Some(task.ends));
        let (lows, highs) = (reach(system, &all, End::Low), reach(system, &all, End::High));
        if let Some(clash) = lows.clashes.into_iter().next() {
            return Err(Unsolved::Clash(clash));
        }
        let ends = |variable: usize| lows.ends[variable].zip(highs.ends[variable]);
        let mut splits = Splits::new(system);
        loop {
            let mut rows: Vec<Vec<Cell>> = Vec::new();
            for (variable, pad) in task.pads.iter().enumerate() {
                let within = ends(variable).ok_or(Unsolved::NotProven)?;
                let refers = referred[variable];
                rows.push(of_pad(pad, within, !refers, refers, &splits, variable));
            }
            for (index, members) in system.spreads.iter().enumerate() {
                let variable = system.pads + index;
                let within = ends(variable).ok_or(Unsolved::NotProven)?;
                rows.push(of_spread(members, &rows, within, &splits, variable));
            }
            let layout = Layout::new(rows);
            let counts = self.counts(&layout, false);
            let steps: Vec<(usize, usize)> =
                self.neighbours.iter().copied().filter(|&(a, b)| !referred[a] && !referred[b]).collect();
            let (unit, total) = steps_in(&layout, &steps);
            let beds = self.off_beds(&layout);
            let lowest = if counts.fits::<i64>() && beds.fits::<i64>() && total < i64::MOST {
                best::<i64>(system, &layout, [&counts, &beds], &steps, unit)?
            } else {
                best::<i128>(system, &layout, [&counts, &beds], &steps, unit)?
            };
            let chosen = self.chosen(&layout, &lowest);
            match splits.realised(system, &self.fixed(&chosen, referred)) {
                Realised::Yes => return Ok(chosen),
                Realised::Split => {}
                Realised::Never => return Err(Unsolved::NotProven),
            }
        }
    }

    fn chosen(&self, layout: &Layout, lowest: &[usize]) -> Chosen {
        (0..self.task.pads.len()).map(|pad| layout.cells[pad][lowest[pad]].choice).collect()
    }

    /// Gives what every variable may be once the pads have their choice.
    pub(super) fn fixed(&self, chosen: &Chosen, referred: &[bool]) -> Vec<Domain> {
        let mut all = domains(self.task, self.system, referred, None);
        for ((domain, pad), choice) in all.iter_mut().zip(&self.task.pads).zip(chosen) {
            if let Some(choice) = choice {
                *domain = Domain::Values(vec![pad.open[*choice].departure]);
            }
        }
        all
    }

    /// Counts how far the bed behind each cell is from the designed one.
    fn off_beds(&self, layout: &Layout) -> Counts {
        let of = self.task.pads.iter().zip(&layout.cells).map(|(pad, row)| {
            let off = |cell: &Cell| {
                let candidate = cell.choice.and_then(|choice| pad.open.get(choice));
                let option = candidate.and_then(|it| self.task.options.get(it.option));
                let mut counts = [0; COMPONENTS];
                counts[0] = option.map_or(0, |option| option.off_bed().nm());
                counts
            };
            if pad.on_bed { row.iter().map(off).collect() } else { Vec::new() }
        });
        Counts { of: of.collect() }
    }

    /// Counts what each cell costs; with referring, the elevations of the seats behind it.
    fn counts(&self, layout: &Layout, refers: bool) -> Counts {
        let open =
            || self.task.pads.iter().flat_map(|pad| pad.open.iter().map(|it| it.departure + pad.design));
        let lowest = open().min().unwrap_or(0);
        let of = self.task.pads.iter().zip(&layout.cells).map(|(pad, row)| {
            let counts = |cell: &Cell| {
                let candidate = cell.choice.map(|choice| &pad.open[choice]);
                let cost = candidate.map_or(Cost::REFER, |it| it.cost);
                let cost = match self.task.grinding {
                    Grinding::Last => cost.components(),
                    Grinding::AfterShims | Grinding::OnlyAt(_) => cost.components_grind_after_shims(),
                };
                let seat = candidate.filter(|_| refers).map_or(0, |it| it.departure + pad.design - lowest);
                let mut counts = [0; COMPONENTS];
                let each = cost.into_iter().chain([seat]);
                counts.iter_mut().zip(each).for_each(|(count, of)| *count = of);
                counts
            };
            row.iter().map(counts).collect()
        });
        Counts { of: of.collect() }
    }
}

fn best<C: Capacity>(
    system: &System,
    layout: &Layout,
    [counts, beds]: [&Counts; 2],
    steps: &[(usize, usize)],
    unit: i64,
) -> Result<Vec<usize>, NotProven> {
    let mut stages = Stages::<C>::new(layout, system);
    for group in counts.groups::<C>() {
        stages.least(|variable, cell| counts.price(&group, variable, cell))?;
    }
    stages.flattest(steps, unit)?;
    for group in beds.groups::<C>() {
        stages.least(|variable, cell| beds.price(&group, variable, cell))?;
    }
    Ok(stages.lowest())
}

/// Gives the unit all steps are whole in, and the most they can come to in it.
fn steps_in(layout: &Layout, steps: &[(usize, usize)]) -> (i64, i128) {
    let mut unit = 0;
    let mut total: i128 = 0;
    for &(a, b) in steps {
        let values = || [a, b].into_iter().flat_map(|it| layout.cells[it].iter().map(|cell| cell.low));
        let (Some(low), Some(high)) = (values().min(), values().max()) else { continue };
        unit = values().fold(unit, |unit, value| common(unit, value - low));
        total += i128::from(high - low);
    }
    let unit = unit.max(1);
    (unit, total / i128::from(unit))
}
