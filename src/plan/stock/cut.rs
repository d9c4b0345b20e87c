//! The cheapest seats under some prices, as one minimum cut.

use super::field::{Field, Pick};
use super::price::Price;
use crate::plan::capacity::Capacity;
use crate::plan::cells::{Splits, of_pad, of_spread};
use crate::plan::flow::{Flow, Pair, Side};
use crate::plan::layout::{Cell, Layout};
use crate::plan::prices::{COMPONENTS, Counts};
use crate::plan::reach::{Domain, End, reach};
use crate::plan::stages::{NotProven, Stages};
use crate::plan::system::System;

/// What one cell counts as work, and what it adds for the long ways of a large network.
const CELL: (usize, usize) = (10, 16_000);

/// Whether a pad is referred.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Refer {
    /// It is not.
    Never,
    /// It may be.
    May,
    /// It is.
    Always,
}

/// What is looked at of a pad: its seats from one departure to another.
#[derive(Clone, Copy, Debug)]
pub(super) struct Span {
    pub(super) low: i64,
    pub(super) high: i64,
    pub(super) refer: Refer,
}

/// The cheapest seats.
#[derive(Clone, Debug)]
pub(super) struct Cut {
    /// What is taken at each pad; none is referred.
    pub(super) picks: Vec<Option<Pick>>,
    /// What that comes to.
    pub(super) total: [i128; COMPONENTS],
}

/// What is looked at: seats of the pads, and how low and high the lowest level of each spread lies.
#[derive(Clone, Debug)]
pub(super) struct Part {
    pub(super) spans: Vec<Span>,
    pub(super) levels: Vec<(Option<i64>, Option<i64>)>,
}

impl Part {
    /// Looks at all there is.
    pub(super) fn whole(field: &Field, system: &System) -> Self {
        let (low, high) = field.ends;
        let spans = field.pads.iter().map(|pad| Span {
            low,
            high,
            refer: if pad.referable { Refer::May } else { Refer::Never },
        });
        Self { spans: spans.collect(), levels: vec![(None, None); system.spreads.len()] }
    }
}

/// Gives how low and how high every variable can be, with pads only where they are looked at; none where they cannot.
pub(super) fn ends(field: &Field, system: &System, part: &Part) -> Option<Vec<(i64, i64)>> {
    let mut all = Vec::with_capacity(system.variables());
    for (pad, span) in field.pads.iter().zip(&part.spans) {
        if span.refer != Refer::Never {
            let most = pad.window.unwrap_or(i64::MAX);
            let (low, high) = field.ends;
            all.push(Domain::Between(Some(low.max(-most)), Some(high.min(most))));
            continue;
        }
        let seats = pad.open.iter().map(|it| it.departure);
        let values: Vec<i64> = seats.filter(|it| (span.low..=span.high).contains(it)).collect();
        if values.is_empty() {
            return None;
        }
        all.push(Domain::Values(values));
    }
    all.extend(part.levels.iter().map(|(low, high)| Domain::Between(*low, *high)));
    let (lows, highs) = (reach(system, &all, End::Low), reach(system, &all, End::High));
    if !lows.clashes.is_empty() || !highs.clashes.is_empty() {
        return None;
    }
    lows.ends.into_iter().zip(highs.ends).map(|(low, high)| low.zip(high)).collect()
}

/// The seats of every pad as one network, to be priced again and again.
pub(super) struct Network<'n> {
    field: &'n Field,
    system: &'n System,
    spans: &'n [Span],
    layout: Layout,
    /// What an earlier value of a variable implies.
    implied: Vec<Pair<i64>>,
}

impl<'n> Network<'n> {
    /// Lays out what is looked at, between the ends of every variable.
    pub(super) fn new(
        field: &'n Field,
        system: &'n System,
        spans: &'n [Span],
        ends: &[(i64, i64)],
        splits: &Splits,
    ) -> Self {
        let mut rows = Vec::with_capacity(system.variables());
        for (variable, (pad, span)) in field.pads.iter().zip(spans).enumerate() {
            let (keeps, refers) = (span.refer != Refer::Always, span.refer != Refer::Never);
            rows.push(of_pad(pad, ends[variable], keeps, refers, splits, variable));
        }
        for (index, members) in system.spreads.iter().enumerate() {
            let variable = system.pads + index;
            rows.push(of_spread(members, &rows, ends[variable], splits, variable));
        }
        let layout = Layout::new(rows);
        let implied = Stages::new(&layout, system).into_pairs();
        Self { field, system, spans, layout, implied }
    }

    /// Says how much work one cut is, about: more for each cell where there are many, and many of one pad.
    pub(super) fn work(&self) -> usize {
        let pads = self.field.pads.len();
        let cells = self.layout.nodes() + pads;
        let ways = cells.saturating_mul(cells / pads.max(1)) / CELL.1;
        cells.saturating_mul(CELL.0 + ways)
    }

    /// Finds the cheapest seats.
    ///
    /// Where pads may be referred it is the cheapest there could be: no plan comes to less.
    pub(super) fn cut(&self, price: &Price<'_>) -> Result<Cut, NotProven> {
        let pads = 0..self.field.pads.len();
        let of: Vec<Vec<[i64; COMPONENTS]>> = pads
            .clone()
            .map(|pad| {
                let row = self.layout.cells[pad].iter();
                row.map(|cell| self.taken(price, pad, cell).0).collect()
            })
            .collect();
        let counts = Counts { of };
        let lowest = match together(&counts.of) {
            Some(prices) => self.in_one(&prices)?,
            None if counts.fits::<i64>() => self.in_stages::<i64>(&counts)?,
            None => self.in_stages::<i128>(&counts)?,
        };
        let mut total = [0; COMPONENTS];
        for (row, cell) in counts.of.iter().zip(&lowest) {
            total.iter_mut().zip(row[*cell]).for_each(|(total, count)| *total += i128::from(count));
        }
        let picks = pads.map(|pad| self.taken(price, pad, &self.layout.cells[pad][lowest[pad]]).1).collect();
        Ok(Cut { picks, total })
    }

    /// Gives what a cell of a pad costs, and what is taken there.
    fn taken(&self, price: &Price<'_>, pad: usize, cell: &Cell) -> ([i64; COMPONENTS], Option<Pick>) {
        let refer = (*price.refer(), None);
        let Some(choice) = cell.choice else { return refer };
        let departure = self.field.pads[pad].open[choice].departure;
        match price.cheapest(departure, &self.field.ways[pad][choice]) {
            // a pad that is referred may stand where a seat would be
            Some((vector, pick)) if self.spans[pad].refer == Refer::Never || *vector <= refer.0 => {
                (*vector, Some(pick))
            }
            _ => refer,
        }
    }

    /// Finds the cheapest cells where all components go into one price.
    fn in_one(&self, prices: &[Vec<i64>]) -> Result<Vec<usize>, NotProven> {
        let of = |variable: usize, cell: usize| prices.get(variable).map_or(0, |row| row[cell]);
        let mut pairs = self.implied.clone();
        pairs.extend(self.layout.prices(of).into_iter().filter(|pair| pair.forth > 0));
        let flow = Flow::fill(self.layout.nodes(), &pairs);
        let sides = flow.sides();
        let lowest: Vec<usize> = (0..self.layout.cells.len())
            .map(|variable| {
                sides[self.layout.nodes_of(variable)].iter().filter(|&&it| it == Side::Source).count()
            })
            .collect();
        let least: i64 = prices.iter().map(|row| row.iter().min().copied().unwrap_or(0)).sum();
        let cost: i64 = prices.iter().zip(&lowest).map(|(row, cell)| row[*cell]).sum();
        if cost == least + flow.value() { Ok(lowest) } else { Err(NotProven) }
    }

    fn in_stages<C: Capacity>(&self, counts: &Counts) -> Result<Vec<usize>, NotProven> {
        let mut stages = Stages::<C>::new(&self.layout, self.system);
        for group in counts.groups::<C>() {
            stages.least(|variable, cell| counts.price(&group, variable, cell))?;
        }
        Ok(stages.lowest())
    }
}

/// Puts all components into one price, the first worth more than all that follow; none where that is too much.
fn together(of: &[Vec<[i64; COMPONENTS]>]) -> Option<Vec<Vec<i64>>> {
    let mut most = [0_i64; COMPONENTS];
    for row in of {
        let mut of_row = [0; COMPONENTS];
        for counts in row {
            of_row.iter_mut().zip(counts).for_each(|(most, count)| *most = (*most).max(*count));
        }
        for (most, of_row) in most.iter_mut().zip(of_row) {
            *most = most.checked_add(of_row)?;
        }
    }
    let mut worth = [0_i64; COMPONENTS];
    let mut next = 1_i64;
    for (worth, most) in worth.iter_mut().zip(most).rev() {
        *worth = next;
        next = next.checked_mul(most.checked_add(1)?)?;
    }
    if i128::from(next) >= i64::MOST {
        return None;
    }
    let price =
        |counts: &[i64; COMPONENTS]| counts.iter().zip(worth).map(|(count, worth)| count * worth).sum();
    Some(of.iter().map(|row| row.iter().map(price).collect()).collect())
}
