//! Plans with few pieces on hand against all plans there are: every stack under every column tried.

mod small_plan;
mod small_stock;
mod tool;

use proptest::collection::btree_map;
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use small_plan::any::{Flavour, any_case};
use small_stock::{Stocked, components, judge, least};

const FLAVOURS: [Flavour; 5] =
    [Flavour::Shims, Flavour::Refers, Flavour::Designs, Flavour::Beds, Flavour::Grinding];

/// Makes a random job with few pieces on hand; some thicknesses are not listed.
fn any_stocked(flavour: Flavour, columns: std::ops::RangeInclusive<usize>) -> impl Strategy<Value = Stocked> {
    any_case(flavour, columns).prop_flat_map(|case| {
        let kinds = case.shims.nominal();
        let most = kinds.len();
        btree_map(proptest::sample::select(kinds), 0..4_u32, 0..=most)
            .prop_map(move |stock| Stocked { case: case.clone(), stock: Some(stock) })
    })
}

/// What came of one job: whether it was proven.
fn agrees(stocked: &Stocked) -> Result<bool, String> {
    let plan = stocked.plan();
    let optimum = plan.optimum.ok_or("no optimum")?;
    let (found, bound) = (components(optimum.cost), components(optimum.at_least));
    let counted = judge(stocked, &plan)?;
    if counted != found {
        return Err(format!("the plan costs {counted:?}, not {found:?}"));
    }
    let best = least(stocked);
    if found < best || bound > best {
        return Err(format!("found {found:?}, at least {bound:?}, the best is {best:?}"));
    }
    if optimum.is_proven() && found != best {
        return Err(format!("proven {found:?}, the best is {best:?}"));
    }
    Ok(optimum.is_proven())
}

fn config() -> ProptestConfig {
    ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() }
}

fn holds(stocked: &Stocked) -> Result<(), TestCaseError> {
    agrees(stocked).map(|_| ()).map_err(|told| TestCaseError::fail(format!("{told}\n{}", stocked.shown())))
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn with_few_shims_no_plan_is_better(stocked in any_stocked(Flavour::Shims, 1..=4)) {
        holds(&stocked)?;
    }

    #[test]
    fn with_few_shims_where_columns_are_referred_no_plan_is_better(stocked in any_stocked(Flavour::Refers, 2..=4)) {
        holds(&stocked)?;
    }

    #[test]
    fn with_few_shims_and_design_seats_no_plan_is_better(stocked in any_stocked(Flavour::Designs, 1..=4)) {
        holds(&stocked)?;
    }

    #[test]
    fn with_few_shims_grout_and_held_options_no_plan_is_better(stocked in any_stocked(Flavour::Beds, 1..=4)) {
        holds(&stocked)?;
    }

    #[test]
    fn with_few_shims_and_pads_to_grind_no_plan_is_better(stocked in any_stocked(Flavour::Grinding, 2..=4)) {
        holds(&stocked)?;
    }
}

#[test]
fn most_small_jobs_are_proven() {
    for flavour in FLAVOURS {
        let mut runner = TestRunner::deterministic();
        let strategy = any_stocked(flavour, 2..=4);
        let (mut proven, mut limited) = (0, 0);
        for _ in 0..200 {
            let stocked = strategy.new_tree(&mut runner).unwrap().current();
            let is_proven = agrees(&stocked).unwrap_or_else(|told| panic!("{told}\n{}", stocked.shown()));
            proven += usize::from(is_proven);
            let free = Stocked { stock: None, ..stocked.clone() };
            let cost = |it: &Stocked| it.plan().optimum.map(|it| it.cost);
            limited += usize::from(cost(&free) != cost(&stocked));
        }
        println!("{flavour:?}: {proven} of 200 proven, {limited} of 200 limited by the stock");
    }
}
