//! The level plan against a slow reading of its rules, written apart: every stack counted out, every level tried.

mod small_plan;
mod tool;

use proptest::prelude::*;
use serde_json::{Value, json};
use small_plan::any::{Flavour, any_case};
use small_plan::job::{job, shown};
use small_plan::options::{Action, Taken, open_options};
use small_plan::{Case, Limit, Line};
use std::cmp::Reverse;
use tool::item;

/// Tells whether a column stands on a stretch of this wall that is compared.
fn on_a_stretch(case: &Case, line: &Line, column: usize) -> bool {
    let at = line.columns.iter().position(|on_line| *on_line == column);
    let ends = at.into_iter().flat_map(|at| [at.checked_sub(1), (at < line.spacing.len()).then_some(at)]);
    let nearest = ends.flatten().map(|gap| line.spacing[gap]).min();
    line.wall && nearest.is_some_and(|nearest| case.limits.stretch.is_none_or(|stretch| nearest <= stretch))
}

/// Gives the least difference that is accepted at a column, where any is.
fn band(case: &Case, column: usize) -> Option<i64> {
    let kept = |limit: Option<Limit>| limit.map(|limit| case.kept(limit));
    let lines = || case.lines.iter().filter(|line| line.columns.contains(&column));
    let on_lines = lines().filter_map(|line| case.neighbours(line)).min();
    let wall =
        kept(case.limits.wall).filter(|_| case.lines.iter().any(|line| on_a_stretch(case, line, column)));
    let design = kept(case.limits.design).filter(|_| case.has_design(column));
    [on_lines, wall, kept(case.limits.building), design].into_iter().flatten().min()
}

/// Takes the best option at a level, by the order of the contract; equal stacks by the thickest piece.
fn take(case: &Case, options: &[Taken], column: usize, level: i64) -> Option<Taken> {
    let departure = case.departure(column)?;
    let band = band(case, column);
    let inside = |option: &&Taken| {
        let seat = departure + option.raise;
        seat <= level && band.is_none_or(|band| seat >= level - band)
    };
    let order = |option: &&Taken| {
        let rank = option.action.max(Action::Shim);
        let below = level - (departure + option.raise);
        (option.held, rank, below, option.stack.len(), Reverse(option.stack.clone()))
    };
    options.iter().filter(inside).min_by_key(order).cloned()
}

/// Gives the level and what is taken at each column.
fn plan(case: &Case) -> (i64, Vec<Option<Taken>>) {
    let options = open_options(case);
    let at = |level: i64| -> Vec<Option<Taken>> {
        options.iter().enumerate().map(|(column, options)| take(case, options, column, level)).collect()
    };
    let cost = |level: i64| {
        let taken = at(level);
        let referred = taken.iter().filter(|it| it.is_none()).count();
        let held = taken.iter().flatten().filter(|it| it.held).count();
        (referred, held, -level)
    };
    // T is a pad's departure, plus its bed
    let level = |column: usize| Some(case.departure(column)? + case.columns[column].bed);
    let pads = case.measured().into_iter().filter_map(level);
    let level = pads.min_by_key(|level| cost(*level)).unwrap();
    (level, at(level))
}

fn compare(case: &Case) -> Result<(), String> {
    let mut arguments = vec!["--aim", "level", "--format", "json"];
    if case.desired {
        arguments.extend(["--to", "desired"]);
    }
    let ran = job(case).run("check", &arguments);
    if ran.status > 1 {
        return Err(ran.err);
    }
    let answer = ran.json();
    let same = |what: String, found: &Value, wanted: Value| {
        if *found == wanted { Ok(()) } else { Err(format!("{what}: {found}, not {wanted}")) }
    };
    let (level, taken) = plan(case);
    same("optimum".to_owned(), &answer["optimum"], Value::Null)?;
    let held = taken.iter().flatten().filter(|taken| taken.held).count();
    same("held".to_owned(), &answer["totals"]["held"], json!(held))?;
    for (number, (column, taken)) in case.columns.iter().zip(&taken).enumerate() {
        let of = |key: &str| format!("{} {key}", column.mark);
        let found = item(&answer["columns"], "mark", &column.mark);
        let Some(taken) = taken else {
            let measured = case.pad(number).is_some();
            same(of("action"), &found["action"], json!(if measured { "refer" } else { "unmeasured" }))?;
            if measured {
                let top = level + case.design(number);
                let range = json!([band(case, number).map(|band| top - band), top]);
                same(of("range"), &found["seat_range_nm"], range)?;
            }
            continue;
        };
        same(of("action"), &found["action"], json!(taken.action.name()))?;
        same(of("raise"), &found["raise_nm"], json!(taken.raise))?;
        let pieces: Vec<i64> = found["stack"]
            .as_array()
            .unwrap()
            .iter()
            .flat_map(|piece| {
                let count = usize::try_from(piece["count"].as_u64().unwrap()).unwrap();
                vec![piece["thickness_nm"].as_i64().unwrap(); count]
            })
            .collect();
        same(of("stack"), &json!(pieces), json!(taken.stack))?;
    }
    Ok(())
}

fn agrees(case: &Case) -> Result<(), TestCaseError> {
    compare(case).map_err(|told| TestCaseError::fail(format!("{told}\n{}", shown(case))))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn with_shims_the_level_plan_is_what_a_slow_reading_gives(case in any_case(Flavour::Shims, 1..=6)) {
        agrees(&case)?;
    }

    #[test]
    fn with_columns_referred_the_level_plan_is_what_a_slow_reading_gives(case in any_case(Flavour::Refers, 1..=6)) {
        agrees(&case)?;
    }

    #[test]
    fn with_design_seats_the_level_plan_is_what_a_slow_reading_gives(case in any_case(Flavour::Designs, 1..=6)) {
        agrees(&case)?;
    }

    #[test]
    fn with_designed_beds_the_level_plan_is_what_a_slow_reading_gives(case in any_case(Flavour::Designed, 1..=6)) {
        agrees(&case)?;
    }

    #[test]
    fn with_grout_the_level_plan_is_what_a_slow_reading_gives(case in any_case(Flavour::Beds, 1..=6)) {
        agrees(&case)?;
    }
}
