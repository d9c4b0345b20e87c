//! The cheapest seats under some prices, as one minimum cut.

use super::field::{Field, Pick};
use super::price::Price;
use crate::plan::capacity::Capacity;
use crate::plan::cells::{Splits, of_pad, of_spread};
use crate::plan::layout::Layout;
use crate::plan::prices::{COMPONENTS, Counts};
use crate::plan::reach::{Domain, End, reach};
use crate::plan::stages::{NotProven, Stages};
use crate::plan::system::System;

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

/// Gives all there is to look at.
pub(super) fn everything(field: &Field) -> Vec<Span> {
    let (low, high) = field.ends;
    let spans = field.pads.iter().map(|pad| Span {
        low,
        high,
        refer: if pad.referable { Refer::May } else { Refer::Never },
    });
    spans.collect()
}

/// Gives how low and how high every variable can be, with pads only where they are looked at; none where they cannot.
pub(super) fn ends(field: &Field, system: &System, spans: &[Span]) -> Option<Vec<(i64, i64)>> {
    let mut all = Vec::with_capacity(system.variables());
    for (pad, span) in field.pads.iter().zip(spans) {
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
    all.extend(system.spreads.iter().map(|_| Domain::Between(None, None)));
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
        Self { field, system, spans, layout: Layout::new(rows) }
    }

    /// Says how large it is.
    pub(super) fn size(&self) -> usize {
        self.layout.nodes() + self.field.pads.len()
    }

    /// Finds the cheapest seats.
    ///
    /// Where pads may be referred it is the cheapest there could be: no plan comes to less.
    pub(super) fn cut(&self, price: &Price<'_>) -> Result<Cut, NotProven> {
        let refer = price.refer();
        let mut picks = Vec::with_capacity(self.system.pads);
        let mut of = Vec::with_capacity(self.system.pads);
        for (pad, span) in self.spans.iter().enumerate() {
            let seat = |choice: usize| {
                let departure = self.field.pads[pad].open[choice].departure;
                let kept = price.cheapest(departure, &self.field.ways[pad][choice]);
                // a pad that is referred may stand where a seat would be
                kept.filter(|(vector, _)| span.refer == Refer::Never || *vector <= refer)
            };
            let cells = self.layout.cells[pad].iter().map(|cell| cell.choice.and_then(seat));
            let (row, taken): (Vec<_>, Vec<_>) =
                cells.map(|seat| seat.map_or((refer, None), |(vector, pick)| (vector, Some(pick)))).unzip();
            of.push(row);
            picks.push(taken);
        }
        let counts = Counts { of };
        let lowest = if counts.fits::<i64>() { self.least::<i64>(&counts)? } else { self.least::<i128>(&counts)? };
        let mut total = [0; COMPONENTS];
        for (row, cell) in counts.of.iter().zip(&lowest) {
            total.iter_mut().zip(row[*cell]).for_each(|(total, count)| *total += i128::from(count));
        }
        let picks = picks.iter().zip(&lowest).map(|(taken, cell)| taken[*cell]).collect();
        Ok(Cut { picks, total })
    }

    fn least<C: Capacity>(&self, counts: &Counts) -> Result<Vec<usize>, NotProven> {
        let mut stages = Stages::<C>::new(&self.layout, self.system);
        for group in counts.groups::<C>() {
            stages.least(|variable, cell| counts.price(&group, variable, cell))?;
        }
        Ok(stages.lowest())
    }
}
