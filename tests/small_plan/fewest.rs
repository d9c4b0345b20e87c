//! The plan with the fewest interventions, found by trying all of them.

use super::Case;
use super::bounds::Bounds;
use super::options::{Action, Taken, open_options};
use std::cmp::Reverse;
use std::collections::BTreeSet;

/// Refer, grind, grout, held, pieces, thickness.
pub(crate) type Cost = [i64; 6];

/// The best plan.
#[derive(Clone, Debug)]
pub(crate) struct Best {
    /// What it costs.
    pub(crate) cost: Cost,
    /// What is done at each column; none where it is referred or not measured.
    pub(crate) taken: Vec<Option<Taken>>,
    /// The columns referred.
    pub(crate) referred: Vec<usize>,
    /// The elevations the seat of each column referred could end in.
    pub(crate) ranges: Vec<[Option<i64>; 2]>,
    /// The sum of steps between neighbours.
    pub(crate) steps: i64,
    /// How many sets of referred columns cost the same.
    pub(crate) tied_sets: usize,
    /// How many of these leave the others as low.
    pub(crate) tied_low_sets: usize,
    /// How many plans of that set cost the same.
    pub(crate) tied_plans: usize,
    /// Whether one of these stands lower, but is less flat.
    pub(crate) flat_before_low: bool,
    /// Whether one that is as flat stands lower, but is farther from the designed beds.
    pub(crate) bed_before_low: bool,
    /// Whether one is nearer the designed beds, but less flat.
    pub(crate) flat_before_bed: bool,
}

/// A plan: the columns referred, and the rank of the option taken at each other one.
#[derive(Clone, Debug)]
struct Plan {
    referred: Vec<usize>,
    picks: Vec<(usize, usize)>,
}

/// Finds the best plan.
pub(crate) fn fewest(case: &Case) -> Best {
    let options: Vec<Vec<Taken>> = open_options(case).into_iter().map(cheapest).collect();
    let bounds = Bounds::of(case);
    let measured = case.measured();
    for count in 0..=measured.len() {
        let mut search = Search { case, options: &options, found: Vec::new(), best: None };
        for referred in subsets(&measured, count) {
            let others = measured.iter().copied().filter(|column| !referred.contains(column)).collect();
            search.try_set(&bounds, referred, others);
        }
        if let Some(cost) = search.best {
            return choose(case, &options, &bounds, cost, search.found);
        }
    }
    unreachable!("referring every column fits any limit")
}

/// Gives what an option costs.
fn cost(option: &Taken) -> Cost {
    let pieces = option.stack.len() as i64;
    let is = |action: Action| i64::from(option.action == action);
    let grout = if option.designed { 0 } else { is(Action::Grout) };
    [0, is(Action::Grind), grout, i64::from(option.held), pieces, option.thickness]
}

fn sum(one: Cost, other: Cost) -> Cost {
    std::array::from_fn(|part| one[part] + other[part])
}

/// Leaves the cheapest option of every raise, thickest piece first; the cheapest raise comes first.
fn cheapest(mut options: Vec<Taken>) -> Vec<Taken> {
    options.sort_by_key(|option| (cost(option), option.raise, Reverse(option.stack.clone())));
    let mut raises = BTreeSet::new();
    options.retain(|option| raises.insert(option.raise));
    options
}

fn subsets(of: &[usize], count: usize) -> Vec<Vec<usize>> {
    let all = (0..1_u32 << of.len()).map(|bits| {
        of.iter().enumerate().filter(|(at, _)| bits >> at & 1 == 1).map(|(_, column)| *column).collect()
    });
    all.filter(|set: &Vec<usize>| set.len() == count).collect()
}

struct Search<'c> {
    case: &'c Case,
    options: &'c [Vec<Taken>],
    found: Vec<Plan>,
    best: Option<Cost>,
}

impl Search<'_> {
    /// Tries every plan that refers just these columns.
    fn try_set(&mut self, bounds: &Bounds, referred: Vec<usize>, others: Vec<usize>) {
        if others.iter().any(|&column| self.options[column].is_empty()) {
            return;
        }
        let bounds = bounds.through(&referred);
        let start = [referred.len() as i64, 0, 0, 0, 0, 0];
        // the least that the columns behind each one cost
        let mut least = vec![[0; 6]];
        for &column in others.iter().rev() {
            least.push(sum(least[least.len() - 1], cost(&self.options[column][0])));
        }
        least.reverse();
        let mut plan = Plan { referred, picks: Vec::new() };
        self.deepen(&bounds, &others, &least, &mut plan, start);
    }

    fn deepen(&mut self, bounds: &Bounds, others: &[usize], least: &[Cost], plan: &mut Plan, so_far: Cost) {
        let Some((&column, behind)) = others.split_first() else {
            if self.best.is_none_or(|best| so_far < best) {
                self.found.clear();
                self.best = Some(so_far);
            }
            self.found.push(plan.clone());
            return;
        };
        for (rank, option) in self.options[column].iter().enumerate() {
            let with = sum(so_far, cost(option));
            if self.best.is_some_and(|best| sum(with, least[1]) > best) {
                break;
            }
            let at = departure(self.case, column, option);
            let fits = bounds.allow_alone(column, at)
                && plan.picks.iter().all(|&(other, rank)| {
                    let there = departure(self.case, other, &self.options[other][rank]);
                    bounds.allow((column, at), (other, there))
                });
            if fits {
                plan.picks.push((column, rank));
                self.deepen(bounds, behind, &least[1..], plan, with);
                plan.picks.pop();
            }
        }
    }
}

fn departure(case: &Case, column: usize, option: &Taken) -> i64 {
    case.departure(column).unwrap() + option.raise
}

/// Breaks the ties among all plans of the least cost.
fn choose(case: &Case, options: &[Vec<Taken>], bounds: &Bounds, cost: Cost, found: Vec<Plan>) -> Best {
    let raise = |(column, rank): (usize, usize)| options[column][rank].raise;
    let elevations =
        |plan: &Plan| plan.picks.iter().map(|&pick| case.pad(pick.0).unwrap() + raise(pick)).sum::<i64>();
    let departures = |plan: &Plan| -> Vec<(usize, i64)> {
        plan.picks.iter().map(|&pick| (pick.0, case.departure(pick.0).unwrap() + raise(pick))).collect()
    };
    let sets: BTreeSet<&Vec<usize>> = found.iter().map(|plan| &plan.referred).collect();
    let tied_sets = sets.len();
    let lowest = |set: &Vec<usize>| found.iter().filter(|plan| plan.referred == *set).map(elevations).min();
    let tied_low_sets = {
        let sums = || sets.iter().map(|set| lowest(set));
        sums().filter(|sum| Some(*sum) == sums().min()).count()
    };
    let set = sets.into_iter().min_by_key(|set| (lowest(set), Reverse((*set).clone()))).unwrap().clone();
    let of_set: Vec<&Plan> = found.iter().filter(|plan| plan.referred == set).collect();
    let steps = of_set.iter().map(|plan| steps(case, &departures(plan))).min().unwrap();
    let flattest: Vec<&&Plan> =
        of_set.iter().filter(|plan| self::steps(case, &departures(plan)) == steps).collect();
    let off_beds = |plan: &Plan| -> i64 {
        let picks = plan.picks.iter().filter(|(column, _)| case.columns[*column].bed > 0);
        picks.map(|&pick| (raise(pick) - case.columns[pick.0].bed).abs()).sum()
    };
    let least_off = flattest.iter().map(|plan| off_beds(plan)).min().unwrap();
    let as_flat = flattest;
    let flattest: Vec<&Plan> =
        as_flat.iter().filter(|plan| off_beds(plan) == least_off).map(|it| **it).collect();
    let all: Vec<Vec<(usize, i64)>> = flattest.iter().map(|plan| departures(plan)).collect();
    let under: Vec<i64> =
        (0..all[0].len()).map(|at| all.iter().map(|plan| plan[at].1).min().unwrap()).collect();
    let is_under = |plan: &Vec<(usize, i64)>| plan.iter().zip(&under).all(|((_, at), under)| at == under);
    // of two best plans the lower seats together are one too, so one plan lies under all others
    let at = all.iter().position(is_under).expect("one of the flattest plans is the lowest everywhere");
    let through = bounds.through(&set);
    let range = |&column: &usize| {
        let design = case.design(column);
        through.range(column, &all[at]).map(|bound| bound.map(|bound| bound + design))
    };
    let mut taken = vec![None; case.columns.len()];
    for &(column, rank) in &flattest[at].picks {
        taken[column] = Some(options[column][rank].clone());
    }
    Best {
        cost,
        taken,
        ranges: set.iter().map(range).collect(),
        referred: set,
        steps,
        tied_sets,
        tied_low_sets,
        tied_plans: of_set.len(),
        bed_before_low: as_flat.iter().any(|plan| {
            let pairs = departures(plan).into_iter().zip(&all[at]);
            pairs.into_iter().any(|((_, tied), (_, best))| tied < *best)
        }),
        flat_before_bed: of_set.iter().any(|plan| off_beds(plan) < least_off),
        flat_before_low: of_set.iter().any(|plan| {
            let pairs = departures(plan).into_iter().zip(&all[at]);
            pairs.into_iter().any(|((_, tied), (_, best))| tied < *best)
        }),
    }
}

/// Sums the steps between neighbours, each pair once.
pub(crate) fn steps(case: &Case, departures: &[(usize, i64)]) -> i64 {
    let pairs: BTreeSet<[usize; 2]> = case
        .lines
        .iter()
        .flat_map(|line| line.columns.windows(2))
        .map(|pair| {
            let mut pair = [pair[0], pair[1]];
            pair.sort_unstable();
            pair
        })
        .collect();
    let at = |column: usize| departures.iter().find(|(other, _)| *other == column).map(|(_, at)| *at);
    pairs.into_iter().filter_map(|[one, other]| Some((at(one)? - at(other)?).abs())).sum()
}
