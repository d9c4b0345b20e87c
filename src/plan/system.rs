//! The values a plan chooses between, and the differences that tie them together.

use super::limits_kept::{LimitsKept, Tie};

/// A difference that is kept: the value of `from` less the value of `to` is no more than `most`.
#[derive(Clone, Debug)]
pub(super) struct Bound {
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) most: i64,
    pub(super) tie: Tie,
}

/// Every difference that is kept, over the pads and, behind them, the lowest level of each spread.
///
/// A spread "high to low no more than t" of many pads is kept by one value more, their
/// lowest level m: m is no higher than any of them, and none is higher than m + t.
#[derive(Clone, Debug, Default)]
pub(super) struct System {
    /// How many of the variables are pads.
    pub(super) pads: usize,
    /// The members of the spread behind each further variable.
    pub(super) spreads: Vec<Vec<usize>>,
    pub(super) bounds: Vec<Bound>,
    leaving: Vec<Vec<usize>>,
    entering: Vec<Vec<usize>>,
}

impl System {
    /// Makes the system of so many pads; `pad` gives the pad of a column that is measured.
    pub(super) fn new(pads: usize, limits: &LimitsKept, pad: impl Fn(usize) -> Option<usize>) -> Self {
        let mut system = Self { pads, ..Self::default() };
        for step in &limits.steps {
            let [a, b] = step.columns.map(&pad);
            if let (Some(a), Some(b)) = (a, b) {
                system.tie(a, b, step.most.nm(), step.tie);
                system.tie(b, a, step.most.nm(), step.tie);
            }
        }
        for spread in &limits.spreads {
            let members: Vec<usize> = spread.columns.iter().filter_map(|&column| pad(column)).collect();
            if members.len() < 2 {
                continue;
            }
            let lowest = pads + system.spreads.len();
            for &member in &members {
                system.tie(lowest, member, 0, spread.tie);
                system.tie(member, lowest, spread.most.nm(), spread.tie);
            }
            system.spreads.push(members);
        }
        system.leaving = vec![Vec::new(); system.variables()];
        system.entering = system.leaving.clone();
        for (index, bound) in system.bounds.iter().enumerate() {
            system.leaving[bound.from].push(index);
            system.entering[bound.to].push(index);
        }
        system
    }

    /// Counts the variables.
    pub(super) fn variables(&self) -> usize {
        self.pads + self.spreads.len()
    }

    /// Gives how far from high to low the members of a spread may be.
    pub(super) fn spread_of(&self, spread: usize) -> i64 {
        let lowest = self.pads + spread;
        let most = self.entering[lowest].iter().map(|&bound| self.bounds[bound].most);
        most.max().unwrap_or(0)
    }

    /// Gives the bounds from a variable on others.
    pub(super) fn leaving(&self, variable: usize) -> &[usize] {
        &self.leaving[variable]
    }

    /// Gives the bounds of others on a variable.
    pub(super) fn entering(&self, variable: usize) -> &[usize] {
        &self.entering[variable]
    }

    fn tie(&mut self, from: usize, to: usize, most: i64, tie: Tie) {
        self.bounds.push(Bound { from, to, most, tie });
    }
}
