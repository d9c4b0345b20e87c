//! What is on hand, and every stack that can be made of it.

use crate::length::Length;
use crate::model::{Job, Raise, ShimSupply};
use crate::plan::action::Action;
use crate::plan::cost::Cost;
use crate::plan::fewest::Grinding;
use crate::plan::options::{PlannedOption, all_options};
use crate::plan::prices::common;
use crate::plan::stacks::every_stack;
use std::collections::BTreeMap;

/// How many components a cost has.
pub(super) const PARTS: usize = 6;

/// The last component, the thickness.
pub(super) const THICKNESS: usize = PARTS - 1;

/// A cost, the weightiest component first, the thickness last.
pub(super) type Parts = [i64; PARTS];

/// One stack, or one thing that takes no shims.
#[derive(Clone, Debug)]
pub(super) struct Made {
    /// The option it is.
    pub(super) option: PlannedOption,
    /// How many pieces of each thickness on hand it takes.
    pub(super) uses: Vec<i64>,
    /// What it costs where it is not held, and where it is.
    parts: [Parts; 2],
}

impl Made {
    /// Gives what it costs.
    pub(super) const fn parts(&self, held: bool) -> &Parts {
        let [open, kept] = &self.parts;
        if held { kept } else { open }
    }
}

/// What comes to one raise with the same least and most: at a rod they are all alike.
#[derive(Clone, Debug)]
pub(super) struct Make {
    /// Fewest pieces first, then thickest piece first; at least one.
    pub(super) made: Vec<Made>,
}

/// What is on hand.
#[derive(Clone, Debug)]
pub(super) struct Shelf {
    /// How many pieces there are of each thickness, thickest first; none is listed with none.
    pub(super) on_hand: Vec<i64>,
    /// The thicknesses.
    kinds: Vec<Length>,
    /// Everything that can be done at a column with them.
    pub(super) makes: Vec<Make>,
    /// What every thickness is a whole number of.
    pub(super) unit: i64,
    /// Which component counts the pieces.
    pub(super) pieces: usize,
    grinding: Grinding,
}

impl Shelf {
    /// Takes stock, less what the columns that are pinned take.
    pub(super) fn new(job: &Job, grinding: Grinding, pinned: &[&PlannedOption]) -> Self {
        let taken = |thickness: Length| {
            let stacks = pinned.iter().flat_map(|pin| &pin.stack);
            let pieces =
                stacks.filter(|piece| piece.thickness == thickness).map(|piece| i64::from(piece.count));
            pieces.sum::<i64>()
        };
        let all = job.shims.pieces.iter().map(|piece| piece.thickness.nominal);
        let left =
            all.map(|it| (it, job.shims.on_hand(it).map_or(i64::MAX, |count| i64::from(count) - taken(it))));
        let (kinds, on_hand) = left.filter(|(_, left)| *left > 0).unzip();
        let one = Cost { pieces: 1, ..Cost::default() };
        let pieces = parts(one, grinding).iter().position(|part| *part == 1).unwrap_or(PARTS);
        let mut shelf = Self { on_hand, kinds, makes: Vec::new(), unit: 0, pieces, grinding };
        let plain = all_options(job).into_iter().filter(|option| option.action != Action::Shim);
        let (lower, upper): (Vec<_>, Vec<_>) = plain.partition(|option| option.action == Action::NoShim);
        for option in lower {
            shelf.add(vec![option]);
        }
        for makes in shelf.stacks(job) {
            shelf.add(makes);
        }
        for option in upper {
            shelf.add(vec![option]);
        }
        shelf.unit = shelf.unit.max(1);
        shelf
    }

    /// Adds what comes to one raise, and gives its place.
    pub(super) fn add(&mut self, options: Vec<PlannedOption>) -> usize {
        let made = options.into_iter().map(|option| {
            let uses = self.uses(&option);
            let parts = [false, true].map(|held| parts(option.cost(held), self.grinding));
            self.unit = common(self.unit, option.cost(false).thickness.nm());
            Made { option, uses, parts }
        });
        let made = made.collect();
        self.makes.push(Make { made });
        self.makes.len() - 1
    }

    /// Adds what a pad takes that nothing is open at but this, and gives its place: its pieces are taken off what is on hand
    /// already.
    pub(super) fn add_taken(&mut self, option: PlannedOption) -> usize {
        let place = self.add(vec![option]);
        for made in &mut self.makes[place].made {
            made.uses.fill(0);
        }
        place
    }

    /// Gives one option for everything that can be done, the best stack of each.
    pub(super) fn options(&self) -> Vec<PlannedOption> {
        self.makes.iter().filter_map(|make| make.made.first()).map(|made| made.option.clone()).collect()
    }

    /// Counts the pieces beyond what is on hand.
    pub(super) fn excess(&self, used: &[i64]) -> i64 {
        used.iter().zip(&self.on_hand).map(|(used, there)| (used - there).max(0)).sum()
    }

    /// Gives what referring costs.
    pub(super) fn refer(&self) -> Parts {
        parts(Cost::REFER, self.grinding)
    }

    /// Puts components back into their usual order.
    pub(super) fn cost(&self, parts: &Parts) -> Cost {
        let [a, b, c, d, e, thickness] = *parts;
        let [refer, b, c, d, e] = [a, b, c, d, e].map(|count| u32::try_from(count).unwrap_or(u32::MAX));
        let thickness = Length::from_nm(thickness);
        match self.grinding {
            Grinding::Last => Cost { refer, grind: b, grout: c, held: d, pieces: e, thickness },
            Grinding::AfterShims | Grinding::OnlyAt(_) => {
                Cost { refer, grout: b, held: c, pieces: d, grind: e, thickness }
            }
        }
    }

    fn uses(&self, option: &PlannedOption) -> Vec<i64> {
        let of = |kind: &Length| {
            let pieces = option.stack.iter().filter(|piece| piece.thickness == *kind);
            pieces.map(|piece| i64::from(piece.count)).sum()
        };
        self.kinds.iter().map(of).collect()
    }

    /// Lists the stacks that can be made, those of one raise together, lowest first.
    fn stacks(&self, job: &Job) -> Vec<Vec<PlannedOption>> {
        let tallest =
            job.limits.tables.shim.as_ref().and_then(|shim| shim.tall.as_ref()).map(|tall| tall.value);
        let here = job.shims.pieces.iter().filter(|piece| self.kinds.contains(&piece.thickness.nominal));
        let supply = ShimSupply { pieces: here.cloned().collect(), ..job.shims.clone() };
        let mut all = Vec::new();
        for stacks in every_stack(&supply, tallest).into_values() {
            let mut raises: Vec<(Raise, Vec<PlannedOption>)> = Vec::new();
            for stack in stacks {
                let pieces = stack.count();
                let (raise, stack) = (stack.height, stack.pieces);
                let option = PlannedOption { action: Action::Shim, raise, stack, pieces, on_bed: None };
                if self.excess(&self.uses(&option)) > 0 {
                    continue;
                }
                match raises.iter_mut().find(|(known, _)| *known == raise) {
                    Some((_, options)) => options.push(option),
                    None => raises.push((raise, vec![option])),
                }
            }
            all.extend(raises.into_iter().map(|(_, options)| options));
        }
        all
    }
}

/// Puts a cost into the order in which it counts.
pub(super) fn parts(cost: Cost, grinding: Grinding) -> Parts {
    match grinding {
        Grinding::Last => cost.components(),
        Grinding::AfterShims | Grinding::OnlyAt(_) => cost.components_grind_after_shims(),
    }
}

/// Says how many pieces a plan takes of each thickness.
pub(super) fn taken<'o>(options: impl IntoIterator<Item = &'o PlannedOption>) -> BTreeMap<Length, u32> {
    let mut taken = BTreeMap::new();
    for piece in options.into_iter().flat_map(|option| &option.stack) {
        let count: &mut u32 = taken.entry(piece.thickness).or_default();
        *count = count.saturating_add(piece.count);
    }
    taken
}
