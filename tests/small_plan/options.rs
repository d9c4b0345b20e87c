//! What can be done at a column, counted out.

use super::{Case, Extent, Parts, Rod, Shims};
use std::collections::BTreeSet;

/// What is done, cheapest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Action {
    Leave,
    Shim,
    Grout,
    Grind,
}

impl Action {
    /// Gives what the program calls it.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::Leave => "no-shim",
            Self::Shim => "shim",
            Self::Grout => "grout",
            Self::Grind => "grind",
        }
    }
}

/// An open option.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Taken {
    /// What is done.
    pub(crate) action: Action,
    /// The raise, negative where ground.
    pub(crate) raise: i64,
    /// The pieces, thickest first.
    pub(crate) stack: Vec<i64>,
    /// Whether a rod or a tall stack holds it.
    pub(crate) held: bool,
    /// Whether it is a bed that the drawings have.
    pub(crate) designed: bool,
    /// What it counts as where the least total thickness is looked for.
    pub(crate) thickness: i64,
}

/// Full, scant or unsure, and short or running out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Nut {
    Full,
    Doubtful,
    Bad,
}

/// Judges the nut on a rod at a raise of least, nominal and most.
fn nut(parts: &Parts, rod: &Rod, [least, nominal, most]: Extent) -> Nut {
    let washers = |which: usize, extra: i64| parts.washer[which] * (1 + extra);
    let extra = match rod.thread {
        None => Some(0),
        Some(thread) => (0..=parts.extra).find(|&extra| {
            let under = rod.projection - least - parts.plate[0] - washers(0, extra);
            thread - parts.clear - under - parts.tape >= 0
        }),
    };
    let Some(extra) = extra else { return Nut::Bad };
    let beyond = |which: usize, raise: i64| {
        rod.projection - raise - parts.plate[which] - washers(which, extra) - parts.nut[which]
    };
    let worst = beyond(2, most);
    if worst - parts.beyond - parts.tape >= 0 {
        Nut::Full
    } else if worst - parts.tape >= 0 || beyond(1, nominal) + parts.tape >= 0 {
        Nut::Doubtful
    } else {
        Nut::Bad
    }
}

/// The series `plate-mm` of the catalog, thinner and thicker by so much.
const PLATES: [Extent; 7] = [
    [800_000, 1_000_000, 1_200_000],
    [1_800_000, 2_000_000, 2_200_000],
    [2_700_000, 3_000_000, 3_700_000],
    [4_600_000, 5_000_000, 5_800_000],
    [9_500_000, 10_000_000, 10_900_000],
    [14_400_000, 15_000_000, 16_000_000],
    [19_400_000, 20_000_000, 21_000_000],
];

impl Shims {
    /// Lists the nominal thicknesses.
    pub(crate) fn nominal(&self) -> Vec<i64> {
        match self.tolerance {
            Some(_) => self.thicknesses.clone(),
            None => PLATES.iter().map(|plate| plate[1]).collect(),
        }
    }

    fn piece(&self, nominal: i64) -> Extent {
        match self.tolerance {
            Some([lower, upper]) => [nominal + lower, nominal, nominal + upper],
            None => *PLATES.iter().find(|plate| plate[1] == nominal).unwrap(),
        }
    }

    fn raise(&self, stack: &[i64]) -> Extent {
        let pieces = || stack.iter().map(|nominal| self.piece(*nominal));
        [0, 1, 2].map(|which| pieces().map(|piece| piece[which]).sum())
    }

    /// Lists every stack of up to so many pieces, thickest piece first.
    pub(crate) fn every_stack(&self) -> BTreeSet<Vec<i64>> {
        let mut all = BTreeSet::new();
        let mut last = BTreeSet::from([vec![]]);
        for _ in 0..self.pieces {
            let mut next = BTreeSet::new();
            for stack in &last {
                for piece in self.nominal() {
                    let mut grown: Vec<i64> = stack.clone();
                    grown.push(piece);
                    grown.sort_unstable_by(|a, b| b.cmp(a));
                    next.insert(grown);
                }
            }
            all.extend(next.iter().cloned());
            last = next;
        }
        all.retain(|stack| self.tall.is_none_or(|tall| stack.iter().sum::<i64>() <= tall));
        all
    }
}

/// Lists all that can be done anywhere, with the least and the most each raise may come to.
fn every_option(case: &Case) -> Vec<(Taken, Extent)> {
    let plain = |action, raise: i64| {
        let thickness = raise.abs();
        (Taken { action, raise, stack: Vec::new(), held: false, designed: false, thickness }, [raise; 3])
    };
    let mut options = vec![plain(Action::Leave, 0)];
    for stack in case.shims.every_stack() {
        let raise = case.shims.raise(&stack);
        let held = case.shims.most.is_some_and(|most| raise[1] > most);
        let taken = Taken {
            action: Action::Shim,
            raise: raise[1],
            stack,
            held,
            designed: false,
            thickness: raise[1],
        };
        options.push((taken, raise));
    }
    if let Some([least, most, step]) = case.grout {
        let mut bed = least;
        while bed <= most {
            options.push(plain(Action::Grout, bed));
            bed += step;
        }
    }
    if let Some([most, step]) = case.grind {
        let mut depth = step;
        while depth <= most {
            options.push(plain(Action::Grind, -depth));
            depth += step;
        }
    }
    options
}

/// Lists the options that are open at each column.
pub(crate) fn open_options(case: &Case) -> Vec<Vec<Taken>> {
    let every = every_option(case);
    (0..case.columns.len()).map(|column| open_at(case, column, &every)).collect()
}

/// With a bed there is grout only: it does not count as grout, and its thickness counts as the departure from the design
/// seat, or nothing in a relative job.
fn open_at(case: &Case, number: usize, every: &[(Taken, Extent)]) -> Vec<Taken> {
    let column = &case.columns[number];
    let mut open = Vec::new();
    for (option, raise) in every {
        let rods = column.rods.iter().filter(|rod| !rod.bent);
        let worst = rods.map(|rod| nut(&case.parts, rod, *raise)).max().unwrap_or(Nut::Full);
        if worst == Nut::Bad {
            continue;
        }
        let mut option = Taken { held: option.held || worst == Nut::Doubtful, ..option.clone() };
        if column.bed > 0 {
            if option.action != Action::Grout {
                continue;
            }
            let off_seat = case.departure(number).map_or(0, |pad| (pad + option.raise).abs());
            option.designed = true;
            option.thickness = if case.absolute { off_seat } else { 0 };
        }
        open.push(option);
    }
    open
}
