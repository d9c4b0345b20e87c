//! What must hold of the plan with the fewest interventions, whatever the job: 2 to 12 columns, through the program.

mod small_plan;
mod tool;

use proptest::prelude::*;
use serde_json::{Value, json};
use small_plan::any::{Flavour, any_case};
use small_plan::job::{arguments, job, len, shown};
use small_plan::{Case, Limit, Line, UNIT};
use tool::item;

/// Random jobs of each property; every one runs the program twice or more.
const CASES: u32 = 40;

type Told = Result<(), TestCaseError>;

/// Runs `check` with more arguments.
fn answer_with(case: &Case, more: &[&str]) -> Result<Value, TestCaseError> {
    let mut arguments = arguments(case);
    arguments.extend(more);
    let ran = job(case).run("check", &arguments);
    if ran.status > 1 {
        return Err(TestCaseError::fail(format!("{}\n{}", ran.err, shown(case))));
    }
    Ok(ran.json())
}

fn answer(case: &Case) -> Result<Value, TestCaseError> {
    answer_with(case, &[])
}

/// Gives what a plan costs, the parts in the order in which they count; a designed bed does not count as grout.
fn cost(answer: &Value) -> [i64; 6] {
    let totals = &answer["totals"];
    let columns = answer["columns"].as_array().unwrap().iter();
    let beds = columns.filter(|it| it["action"] == "grout" && it["bed_design_nm"].is_i64()).count();
    let mut cost = ["refer", "grind", "grout", "held", "pieces", "thickness_nm"]
        .map(|key| totals[key].as_i64().unwrap());
    cost[2] -= beds as i64;
    cost
}

fn is_no_better(one: &Value, other: &Value, case: &Case, what: &str) -> Told {
    let (one, other) = (cost(one), cost(other));
    prop_assert!(one >= other, "{}: {:?} is better than {:?}\n{}", what, one, other, shown(case));
    Ok(())
}

/// Compares what is done at every mark.
///
/// Two things hang on an order: a +- is against the first of the highest pads, and of two lines that limit the same
/// columns alike the first is told as what stands in the way.
fn same_at_every_mark(one: &Value, other: &Value, case: &Case, what: &str) -> Told {
    for column in &case.columns {
        let [one, other] = [one, other].map(|answer| {
            let mut column = item(&answer["columns"], "mark", &column.mark).clone();
            column["plus_minus_nm"] = Value::Null;
            column["in_the_way"] = Value::Null;
            column
        });
        prop_assert_eq!(one, other, "{}\n{}", what, shown(case));
    }
    prop_assert_eq!(&one["totals"], &other["totals"], "{}\n{}", what, shown(case));
    Ok(())
}

fn referred(answer: &Value) -> Vec<&str> {
    let columns = answer["columns"].as_array().unwrap().iter();
    let mut marks: Vec<&str> =
        columns.filter(|it| it["action"] == "refer").map(|it| it["mark"].as_str().unwrap()).collect();
    marks.sort_unstable();
    marks
}

fn any_job() -> impl Strategy<Value = Case> {
    prop_oneof![
        3 => any_case(Flavour::Shims, 2..=12),
        2 => any_case(Flavour::Refers, 2..=12),
        2 => any_case(Flavour::Designs, 2..=12),
        2 => any_case(Flavour::Beds, 2..=12),
        2 => any_case(Flavour::Grinding, 2..=12),
        2 => any_case(Flavour::Designed, 2..=12),
    ]
}

fn config() -> ProptestConfig {
    ProptestConfig { cases: CASES, failure_persistence: None, ..ProptestConfig::default() }
}

/// Gives every limit of a job with what is larger by so much, one at a time.
fn loosened(case: &Case, which: usize, by: i64) -> Case {
    let mut case = case.clone();
    let larger = |limit: &mut Option<Limit>| {
        if let Some(limit) = limit {
            limit.accept += by;
            limit.desired = limit.desired.map(|desired| desired + by);
        }
    };
    let limits = &mut case.limits;
    match which {
        0 => larger(&mut limits.neighbours),
        1 => larger(&mut limits.wall),
        2 => larger(&mut limits.building),
        3 => larger(&mut limits.design),
        4 => case.lines.iter_mut().filter_map(|line| line.accept.as_mut()).for_each(|accept| *accept += by),
        5 => limits.stretch = limits.stretch.map(|stretch| stretch / 2),
        6 => case.shims.tall = case.shims.tall.map(|tall| tall + by),
        7 => case.shims.most = case.shims.most.map(|most| most + by),
        8 => case.shims.pieces += 1,
        9 => case.grout = case.grout.map(|[least, most, step]| [least, most + by, step]),
        10 => case.grind = case.grind.map(|[most, step]| [most + by, step]),
        _ => case.parts.beyond = (case.parts.beyond - by).max(0),
    }
    case
}

/// Lists the columns of a job in another order, and its lines too.
fn reordered(case: &Case, columns: &[usize], lines: &[usize], turned: &[bool]) -> Case {
    let place = |old: usize| columns.iter().position(|at| *at == old).unwrap();
    let line = |at: &usize| {
        let mut line = case.lines[*at].clone();
        line.columns = line.columns.iter().map(|&old| place(old)).collect();
        if turned[*at] {
            line.columns.reverse();
            line.spacing.reverse();
        }
        line
    };
    Case {
        columns: columns.iter().map(|&old| case.columns[old].clone()).collect(),
        lines: lines.iter().map(line).collect::<Vec<Line>>(),
        ..case.clone()
    }
}

prop_compose! {
    fn any_reordered()(case in any_job())(
        columns in Just((0..case.columns.len()).collect::<Vec<_>>()).prop_shuffle(),
        lines in Just((0..case.lines.len()).collect::<Vec<_>>()).prop_shuffle(),
        turned in prop::collection::vec(any::<bool>(), case.lines.len()),
        case in Just(case),
    ) -> (Case, Case) {
        let other = reordered(&case, &columns, &lines, &turned);
        (case, other)
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn a_thickness_less_is_never_better_and_the_same_as_without_it(
        case in any_job().prop_filter("a list of several", |it| it.shims.tolerance.is_some() && it.shims.thicknesses.len() > 1),
        which in any::<prop::sample::Index>(),
    ) {
        let which = which.index(case.shims.thicknesses.len());
        let mut less = case.clone();
        let gone = less.shims.thicknesses.remove(which);
        let (all, fewer) = (answer(&case)?, answer(&less)?);
        is_no_better(&fewer, &all, &case, &format!("without {}", len(gone)))?;
        let without = answer_with(&case, &["--without", &len(gone)])?;
        same_at_every_mark(&without, &fewer, &case, &format!("--without {}", len(gone)))?;
    }

    #[test]
    fn a_limit_more_generous_is_never_worse(
        case in any_job(), which in prop::collection::btree_set(0..12_usize, 3), by in 1..8_i64,
    ) {
        let strict = answer(&case)?;
        for which in which {
            let generous = answer(&loosened(&case, which, by * UNIT))?;
            is_no_better(&strict, &generous, &case, &format!("limit {which}, generous by {}", len(by * UNIT)))?;
        }
    }

    #[test]
    fn the_order_of_columns_and_lines_changes_nothing((case, other) in any_reordered()) {
        let (one, two) = (answer(&case)?, answer(&other)?);
        prop_assert_eq!(cost(&one), cost(&two), "{}\nin another order\n{}", shown(&case), shown(&other));
        // where several sets of columns may be referred, the order of the job decides between them
        if referred(&one) == referred(&two) {
            same_at_every_mark(&one, &two, &case, &format!("in another order\n{}", shown(&other)))?;
        }
    }

    #[test]
    fn where_every_reading_is_higher_by_as_much_nothing_changes(
        case in any_job().prop_filter("a relative job", |it| !it.absolute), by in -2_000_000_000..2_000_000_000_i64,
    ) {
        let mut higher = case.clone();
        for read in higher.columns.iter_mut().filter_map(|column| column.read.as_mut()) {
            *read += by;
        }
        prop_assert_eq!(answer(&case)?, answer(&higher)?, "higher by {}\n{}", by, shown(&case));
    }

    #[test]
    fn a_column_that_may_be_set_has_every_rod_full(case in any_job()) {
        let answer = answer(&case)?;
        for column in answer["columns"].as_array().unwrap().iter().filter(|it| it["may_set"] == true) {
            let rods = column["rods"].as_array().unwrap();
            prop_assert!(rods.len() > 1 && rods.iter().all(|rod| rod["state"] == "full"), "{}\n{}", column, shown(&case));
            prop_assert_eq!(&column["hold"], &json!([]));
            let raise = column["raise_nm"].as_i64().expect("it has a raise");
            let inside = |range: &Value| {
                range[0].as_i64().is_none_or(|low| low <= raise) && range[1].as_i64().is_none_or(|high| raise <= high)
            };
            let allowed = column["allowed_raise_nm"].as_array().expect("its rods are measured");
            // the allowed raises leave shim tolerance apart: shims that are all thinner than called may go beyond
            let apart = column["action"] == "shim"
                && case.shims.tolerance.is_some_and(|[lower, upper]| lower > 0 || upper < 0);
            prop_assert!(apart || allowed.iter().any(inside), "{}\n{}", column, shown(&case));
        }
    }

    #[test]
    fn what_is_desired_never_costs_less_than_what_is_accepted(case in any_job()) {
        let [accept, desired] = [false, true].map(|desired| Case { desired, ..case.clone() });
        is_no_better(&answer(&desired)?, &answer(&accept)?, &case, "to desired")?;
    }
}
