//! Small jobs with few pieces on hand: the job, what the program plans for it, and the best of all plans there are.
#![allow(dead_code, reason = "each test file uses its own part")]

use crate::small_plan::bounds::Bounds;
use crate::small_plan::fewest::Cost;
use crate::small_plan::job::{job, len, shown};
use crate::small_plan::options::{Action, Taken, open_options};
use crate::small_plan::{Case, Column, FOOT, Limit, Limits, Line, Parts, Shims, UNIT};
use rodreach::input::{Override, load};
use rodreach::levels::reduce;
use rodreach::model::Job;
use rodreach::plan::{self, Plan, To, Wish, plan_fewest};
use std::collections::BTreeMap;
use std::fmt::Write;

/// A job and what is on hand for it.
#[derive(Clone, Debug)]
pub(crate) struct Stocked {
    pub(crate) case: Case,
    /// By thickness; what is not listed is not on hand. None where all can be ordered.
    pub(crate) stock: Option<BTreeMap<i64, u32>>,
}

impl Stocked {
    /// Shows the files and what is on hand.
    pub(crate) fn shown(&self) -> String {
        shown(&self.case) + &self.line()
    }

    fn line(&self) -> String {
        let Some(stock) = &self.stock else { return String::new() };
        let mut keys = String::new();
        for (thickness, count) in stock {
            let comma = if keys.is_empty() { "" } else { ", " };
            let _ = write!(keys, "{comma}\"{}\" = {count}", len(*thickness));
        }
        format!("stock = {{ {keys} }}\n")
    }

    /// Writes the job into a folder.
    pub(crate) fn files(&self) -> crate::tool::Job {
        let folder = job(&self.case);
        let toml = folder.read("job.toml");
        folder.write("job.toml", toml + &self.line());
        folder
    }

    /// Reads the job as the program does.
    pub(crate) fn load(&self) -> Job {
        let folder = self.files();
        load(&folder.path(""), &Override::default()).unwrap_or_else(|_| panic!("{}", self.shown())).job
    }

    /// Plans the job as the program does.
    pub(crate) fn plan(&self) -> Plan {
        let job = self.load();
        let to = if self.case.desired { To::Desired } else { To::Accept };
        let plan = plan_fewest(&job, &reduce(&job), &Wish { to, ..Wish::default() });
        plan.unwrap_or_else(|told| panic!("{told:?}\n{}", self.shown()))
    }

    /// Tells how many pieces there are of a thickness.
    pub(crate) fn there(&self, thickness: i64) -> i64 {
        self.stock.as_ref().map_or(i64::MAX, |stock| stock.get(&thickness).copied().unwrap_or(0).into())
    }
}

/// Gives the components of a cost.
pub(crate) fn components(cost: plan::Cost) -> Cost {
    cost.components()
}

/// Gives what an option costs.
pub(crate) fn cost(option: &Taken) -> Cost {
    let is = |action: Action| i64::from(option.action == action);
    [
        0,
        is(Action::Grind),
        i64::from(option.action == Action::Grout && !option.designed),
        i64::from(option.held),
        option.stack.len() as i64,
        option.thickness,
    ]
}

fn sum(one: &Cost, other: &Cost) -> Cost {
    std::array::from_fn(|part| one[part] + other[part])
}

/// Checks a plan by itself: every option is one that is open, every difference within its limit, no piece too many,
/// and the cost what it says. Gives the first thing that is wrong.
pub(crate) fn judge(stocked: &Stocked, plan: &Plan) -> Result<Cost, String> {
    let case = &stocked.case;
    let options = open_options(case);
    let mut used: BTreeMap<i64, i64> = BTreeMap::new();
    let mut total = [0; 6];
    let (mut fixed, mut referred) = (Vec::new(), Vec::new());
    for (column, choice) in plan.choices.iter().enumerate() {
        let mark = &case.columns[column].mark;
        let Some(departure) = case.departure(column) else {
            if choice.raise.is_some() {
                return Err(format!("{mark} is not measured and is raised"));
            }
            continue;
        };
        let Some(raise) = choice.raise else {
            total[0] += 1;
            referred.push(column);
            continue;
        };
        let stack: Vec<i64> =
            choice.stack.iter().flat_map(|piece| vec![piece.thickness.nm(); piece.count as usize]).collect();
        let taken = options[column]
            .iter()
            .find(|option| option.raise == raise.nm() && option.stack == stack && option.held == choice.held);
        let Some(taken) = taken else { return Err(format!("{mark} takes what is not open: {choice:?}")) };
        total = sum(&total, &cost(taken));
        for piece in stack {
            *used.entry(piece).or_default() += 1;
        }
        fixed.push((column, departure + raise.nm()));
    }
    for (thickness, count) in used {
        if count > stocked.there(thickness) {
            return Err(format!("{count} pieces of {}", len(thickness)));
        }
    }
    let bounds = Bounds::of(case).through(&referred);
    for (at, one) in fixed.iter().enumerate() {
        if !bounds.allow_alone(one.0, one.1) || !fixed[..at].iter().all(|other| bounds.allow(*one, *other)) {
            return Err(format!("{} stands out of its limits", case.columns[one.0].mark));
        }
    }
    Ok(total)
}

/// Finds the least that any plan within the stock costs, by trying all of them.
pub(crate) fn least(stocked: &Stocked) -> Cost {
    let case = &stocked.case;
    let mut options = open_options(case);
    for all in &mut options {
        all.sort_by_key(cost);
    }
    let bounds = Bounds::of(case);
    let measured = case.measured();
    for count in 0..=measured.len() {
        let mut search = Search { stocked, options: &options, best: None };
        for set in 0..1_u32 << measured.len() {
            if set.count_ones() as usize != count {
                continue;
            }
            let (referred, others): (Vec<_>, Vec<_>) =
                measured.iter().enumerate().partition(|(at, _)| set >> at & 1 == 1);
            let referred: Vec<usize> = referred.into_iter().map(|(_, column)| *column).collect();
            let others: Vec<usize> = others.into_iter().map(|(_, column)| *column).collect();
            if others.iter().any(|&column| options[column].is_empty()) {
                continue;
            }
            let mut behind = vec![[0; 6]];
            for &column in others.iter().rev() {
                behind.push(sum(&behind[behind.len() - 1], &cost(&options[column][0])));
            }
            behind.reverse();
            let start = [referred.len() as i64, 0, 0, 0, 0, 0];
            let left = case.shims.nominal().into_iter().map(|it| (it, stocked.there(it))).collect();
            search.deepen(&bounds.through(&referred), &others, &behind, &mut Vec::new(), start, &left);
        }
        if let Some(best) = search.best {
            return best;
        }
    }
    unreachable!("referring every column fits any limit")
}

struct Search<'s> {
    stocked: &'s Stocked,
    options: &'s [Vec<Taken>],
    best: Option<Cost>,
}

impl Search<'_> {
    fn deepen(
        &mut self,
        bounds: &Bounds,
        others: &[usize],
        behind: &[Cost],
        at: &mut Vec<(usize, i64)>,
        so_far: Cost,
        left: &BTreeMap<i64, i64>,
    ) {
        let Some((&column, rest)) = others.split_first() else {
            self.best = Some(self.best.map_or(so_far, |best| best.min(so_far)));
            return;
        };
        for option in &self.options[column] {
            let with = sum(&so_far, &cost(option));
            if self.best.is_some_and(|best| sum(&with, &behind[1]) >= best) {
                break;
            }
            let seat = (column, self.stocked.case.departure(column).unwrap() + option.raise);
            if !bounds.allow_alone(seat.0, seat.1) || !at.iter().all(|other| bounds.allow(seat, *other)) {
                continue;
            }
            let mut after = left.clone();
            for piece in &option.stack {
                *after.get_mut(piece).unwrap() -= 1;
            }
            if after.values().any(|count| *count < 0) {
                continue;
            }
            at.push(seat);
            self.deepen(bounds, rest, &behind[1..], at, with, &after);
            at.pop();
        }
    }
}

/// Makes so many columns that stand so many thirty-seconds under one more, no step allowed between next ones, and
/// one piece on hand of every thickness for each time it is listed.
pub(crate) fn packing(height: i64, low: usize, thicknesses: &[i64]) -> Stocked {
    let exact = |units: i64| [units * UNIT; 3];
    let columns = (0..=low).map(|at| Column {
        mark: format!("A{}", at + 1),
        read: Some(if at == 0 { height * UNIT } else { 0 }),
        seat: None,
        bed: 0,
        rods: Vec::new(),
    });
    let mut stock = BTreeMap::new();
    for thickness in thicknesses {
        *stock.entry(thickness * UNIT).or_insert(0) += 1;
    }
    let case = Case {
        columns: columns.collect(),
        lines: vec![Line {
            wall: false,
            columns: (0..=low).collect(),
            spacing: vec![FOOT; low],
            accept: None,
        }],
        absolute: false,
        seat: None,
        limits: Limits {
            neighbours: Some(Limit { accept: 0, desired: None }),
            wall: None,
            stretch: None,
            building: None,
            design: None,
        },
        shims: Shims {
            thicknesses: stock.keys().copied().collect(),
            tolerance: Some([0, 0]),
            pieces: 3,
            most: None,
            tall: None,
        },
        grout: None,
        grind: None,
        parts: Parts {
            plate: exact(16),
            washer: exact(5),
            nut: exact(23),
            beyond: 0,
            clear: 0,
            extra: 0,
            tape: 0,
        },
        desired: false,
    };
    Stocked { case, stock: Some(stock) }
}
