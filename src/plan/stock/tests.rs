//! The parts of the search on small jobs; whole plans are held against all plans there are in tests/stock_oracle.rs.

use super::compose::compose;
use super::cut::{Network, Part, ends};
use super::draft::Draft;
use super::field::{Field, Pick};
use super::price::{Aim, FINE, Price, Weights};
use super::shelf::{PARTS, Parts, Shelf};
use super::work::Work;
use super::{plan_from_stock, search_plan};
use crate::input::{Override, load};
use crate::length::Length;
use crate::levels::{Levelled, reduce};
use crate::model::Job;
use crate::plan::cells::Splits;
use crate::plan::fewest::Wish;
use crate::plan::options::{PlannedOption, all_options};
use crate::plan::pose::Posed;
use crate::plan::{Action, Plan, StackPiece};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

const SIXTEENTH: Length = Length::from_nm(1_587_500);

/// Pads so many sixteenths high on one frame line, a limit between neighbours, and what `[shims]` says.
fn job(pads: &[i64], neighbours: i64, more: &str, shims: &str) -> (Job, Levelled) {
    let mut toml = "[job]\nname = \"stock\"\nunits = \"in\"\nlimits = \"limits.toml\"\n\
         [measure]\nelevations = \"e.csv\"\n\
         [[base]]\nmark = \"B\"\nplate = { thickness = \"1/2\", tolerance = [\"0\", \"0\"] }\n\
         rods = { diameter = \"3/4\", count = 4 }\nwashers = [\"wide\"]\nnuts = [\"heavy-hex\"]\n"
        .to_owned();
    let mut rows = "point,elevation\n".to_owned();
    let mut marks = Vec::new();
    for (at, pad) in pads.iter().enumerate() {
        let _ = write!(toml, "[[column]]\nmark = \"A{at}\"\n");
        let _ = writeln!(rows, "A{at},{pad}/16 in");
        marks.push(format!("\"A{at}\""));
    }
    let _ = write!(
        toml,
        "[[line]]\nname = \"1\"\nkind = \"frame\"\ncolumns = [{}]\nspacing = \"20'\"\n[shims]\n{shims}\n",
        marks.join(", ")
    );
    let source = "source = { kind = \"house rule\", text = \"made up\" }\n";
    let limits = format!(
        "name = \"made-up\"\ntitle = \"Made up\"\nunits = \"in\"\n\
         [engagement]\nbeyond = \"0\"\nclear = \"0\"\nextra = 0\n{source}\
         [neighbours]\naccept = \"{neighbours}/16\"\n{source}{more}"
    );
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in [("job.toml", &toml), ("e.csv", &rows), ("limits.toml", &limits)] {
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    let loaded = load(folder.path(), &Override::default());
    let loaded = loaded.map_err(|told| crate::source::render(&told.problems, &told.files)).unwrap();
    let levels = reduce(&loaded.job);
    (loaded.job, levels)
}

fn grind() -> &'static str {
    "[grind]\nmost = \"2/16\"\nstep = \"1/16\"\nsource = { kind = \"house rule\", text = \"made up\" }\n"
}

/// What a search looks at.
fn laid_out(job: &Job, levels: &Levelled) -> (Shelf, Posed, Field) {
    let wish = Wish::default();
    let mut shelf = Shelf::new(job, wish.grinding, &[]);
    let posed = Posed::of(job, levels, &wish, shelf.options()).unwrap();
    let field = Field::new(job, &posed.task, &mut shelf);
    (shelf, posed, field)
}

fn plan(job: &Job, levels: &Levelled) -> Plan {
    plan_from_stock(job, levels, &Wish::default()).unwrap()
}

fn stacks(plan: &Plan) -> Vec<Vec<(i64, u32)>> {
    let shown = |piece: &StackPiece| (piece.thickness.nm() / SIXTEENTH.nm(), piece.count);
    plan.choices.iter().map(|choice| choice.stack.iter().map(shown).collect()).collect()
}

#[test]
fn stacks_are_made_of_what_is_on_hand_alone() {
    let (job, levels) = job(
        &[0, 0],
        3,
        "",
        "thicknesses = [\"1/16\", \"1/8\", \"1/4\"]\npieces = 2\nstock = { \"1/8\" = 2, \"1/16\" = 0 }",
    );
    let (shelf, ..) = laid_out(&job, &levels);
    let made: Vec<u32> =
        shelf.makes.iter().flat_map(|make| &make.made).map(|made| made.option.pieces).collect();
    assert_eq!(made, [0, 1, 2], "no shim, 1/8, two of 1/8");
    assert_eq!(all_options(&job).len(), 8, "what could be ordered");
}

#[test]
fn of_stacks_that_cost_the_same_the_thickest_piece_comes_first_as_long_as_there_are_any() {
    // 4 + 2 or 3 + 3 under both
    let shims = "thicknesses = [\"4/16\", \"3/16\", \"2/16\"]\npieces = 2\n";
    let (job, levels) =
        job(&[6, 0, 0], 0, "", &(shims.to_owned() + "stock = { \"4/16\" = 1, \"3/16\" = 2, \"2/16\" = 1 }"));
    let found = plan(&job, &levels);
    assert_eq!(stacks(&found), [vec![], vec![(4, 1), (2, 1)], vec![(3, 2)]]);
    assert!(found.optimum.unwrap().is_proven());
    assert_eq!(found.shortage, None);
}

#[test]
fn what_is_missing_for_a_better_plan_is_told() {
    let shims = "thicknesses = [\"4/16\", \"2/16\"]\npieces = 2\nstock = { \"4/16\" = 1, \"2/16\" = 2 }";
    let (job, levels) = job(&[4, 0, 0], 0, "", shims);
    let found = plan(&job, &levels);
    assert_eq!(stacks(&found), [vec![], vec![(4, 1)], vec![(2, 2)]]);
    let (optimum, shortage) = (found.optimum.unwrap(), found.shortage.unwrap());
    assert!(optimum.is_proven());
    assert_eq!((optimum.cost.pieces, shortage.cost.pieces), (3, 2));
    let missing: Vec<(i64, u32)> =
        shortage.pieces.iter().map(|piece| (piece.thickness.nm() / SIXTEENTH.nm(), piece.count)).collect();
    assert_eq!(missing, [(4, 1)]);
}

#[test]
fn a_column_is_referred_by_the_stock_alone_and_that_is_proven() {
    let (job, levels) =
        job(&[4, 0, 0], 0, "", "thicknesses = [\"4/16\"]\npieces = 2\nstock = { \"4/16\" = 1 }");
    let found = plan(&job, &levels);
    let referred = found.choices.iter().filter(|choice| choice.action == Action::Refer).count();
    assert_eq!(referred, 1);
    assert!(found.optimum.unwrap().is_proven());
}

#[test]
fn what_a_held_column_takes_is_not_there_for_the_others() {
    let shims = "thicknesses = [\"4/16\", \"1/16\"]\npieces = 4\nstock = { \"4/16\" = 1, \"1/16\" = 4 }";
    let (job, levels) = job(&[4, 0, 0], 8, "", shims);
    let is_one_of_four = |option: &PlannedOption| option.pieces == 1 && option.raise.nominal == SIXTEENTH * 4;
    let mut wish = Wish::default();
    wish.pins.insert(1, all_options(&job).into_iter().find(is_one_of_four).unwrap());
    let found = plan_from_stock(&job, &levels, &wish).unwrap();
    assert_eq!(stacks(&found)[1], [(4, 1)]);
    assert!(stacks(&found)[2].iter().all(|(thickness, _)| *thickness != 4));
    // nothing left of it: the plan says what its columns take, and the rules say what is missing
    let mut without = job.clone();
    without.shims.stock = Some(BTreeMap::new());
    let found = plan_from_stock(&without, &levels, &wish).unwrap();
    assert_eq!(stacks(&found)[1], [(4, 1)]);
    assert!(stacks(&found)[2].is_empty());
}

#[test]
fn the_same_job_gets_the_same_plan() {
    let shims = "thicknesses = [\"1/16\", \"2/16\", \"3/16\"]\npieces = 3\n\
                 stock = { \"1/16\" = 3, \"2/16\" = 2, \"3/16\" = 3 }";
    let (job, levels) = job(&[9, 2, 5, 0, 3, 7, 1, 4], 1, grind(), shims);
    assert_eq!(plan(&job, &levels), plan(&job, &levels));
}

/// Tries every stack at every pad; gives the least cost for these seats.
fn by_trying(shelf: &Shelf, field: &Field, seats: &[i64]) -> Option<Parts> {
    let mut found: BTreeSet<(Parts, Vec<i64>)> = BTreeSet::from([([0; PARTS], vec![0; shelf.on_hand.len()])]);
    for (pad, seat) in seats.iter().enumerate() {
        let mut next = BTreeSet::new();
        for (parts, used) in &found {
            for way in field.ways_to(pad, *seat) {
                for made in &shelf.makes[way.make].made {
                    let of = made.parts(way.held);
                    let parts = std::array::from_fn(|part| parts[part] + of[part]);
                    let used: Vec<i64> = used.iter().zip(&made.uses).map(|(a, b)| a + b).collect();
                    if shelf.excess(&used) == 0 {
                        next.insert((parts, used));
                    }
                }
            }
        }
        found = next;
    }
    found.first().map(|(parts, _)| *parts)
}

fn any_job() -> impl Strategy<Value = (Job, Levelled)> {
    let pads = prop::collection::vec(0..10_i64, 2..6);
    let counts = prop::collection::vec(0..4_u32, 4);
    (pads, 0..4_i64, any::<bool>(), counts).prop_map(|(pads, neighbours, grinds, counts)| {
        let stock: Vec<String> = counts
            .iter()
            .zip(["1/16", "2/16", "3/16", "5/16"])
            .map(|(n, it)| format!("\"{it}\" = {n}"))
            .collect();
        let shims = format!(
            "thicknesses = [\"1/16\", \"2/16\", \"3/16\", \"5/16\"]\npieces = 3\nstock = {{ {} }}",
            stock.join(", ")
        );
        job(&pads, neighbours, if grinds { grind() } else { "" }, &shims)
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_stacks_found_for_some_seats_are_the_cheapest((job, levels) in any_job(), dice in prop::collection::vec(any::<prop::sample::Index>(), 5)) {
        let (shelf, _, field) = laid_out(&job, &levels);
        let seats: Vec<i64> =
            field.pads.iter().zip(&dice).map(|(pad, dice)| dice.get(&pad.open).departure).collect();
        let open: Vec<Option<i64>> = seats.iter().copied().map(Some).collect();
        let found = compose(&shelf, &field, &open, None, &mut Work::new(100_000_000));
        prop_assert!(found.complete);
        let cost = found.picks.map(|picks| {
            let picks: Vec<Pick> = picks.into_iter().map(Option::unwrap).collect();
            let used = |kind: usize| picks.iter().map(|pick| pick.uses(&shelf)[kind]).sum::<i64>();
            let used: Vec<i64> = (0..shelf.on_hand.len()).map(used).collect();
            assert_eq!(shelf.excess(&used), 0);
            picks.iter().fold([0; PARTS], |sum: Parts, pick| {
                std::array::from_fn(|part| sum[part] + pick.parts(&shelf)[part])
            })
        });
        prop_assert_eq!(cost, by_trying(&shelf, &field, &seats));
    }

    /// Whatever the weights, what is short and what it is cut into: the best plan is not below it.
    #[test]
    fn under_any_weights_the_cheapest_seats_cost_no_more_than_the_best_plan(
        (job, levels) in any_job(),
        weights in prop::collection::vec(0..20_000_i64, 4),
        level in 0..PARTS,
        refers: bool,
    ) {
        let (shelf, posed, field) = laid_out(&job, &levels);
        let wish = Wish::default();
        let found = search_plan(&job, &shelf, &posed, &field, &wish, Work::new(20_000_000)).unwrap();
        let best: Draft = found.0;
        let mut field = field;
        if !refers && best.parts[0] == 0 {
            field.pads.iter_mut().for_each(|pad| pad.referable = false);
        }
        let weights = Weights { kinds: weights[..shelf.on_hand.len()].to_vec(), parts: [0; PARTS] };
        for hard in [0, level] {
            let aim = Aim { level, hard };
            let price = Price::new(&shelf, aim, &weights, false);
            let part = Part::whole(&field, &posed.system);
            let ends = ends(&field, &posed.system, &part).unwrap();
            let splits = Splits::new(&posed.system);
            let network = Network::new(&field, &posed.system, &part.spans, &ends, &splits);
            let cut = network.cut(&price).unwrap();
            let mut of_best = [0_i128; PARTS];
            for (part, sum) in of_best.iter_mut().enumerate().take(hard) {
                *sum = i128::from(Price::amount(&shelf, part, &best.parts));
            }
            let worth = |counts: &[i64]| -> i128 {
                counts.iter().zip(&weights.kinds).map(|(count, weight)| i128::from(count * weight)).sum()
            };
            of_best[hard] = i128::from(FINE * Price::amount(&shelf, level, &best.parts)) + worth(&best.used);
            prop_assert!(cut.total[..=hard] <= of_best[..=hard], "{:?} {:?}", cut.total, of_best);
            prop_assert!(worth(&best.used) <= worth(&shelf.on_hand));
        }
    }
}

#[test]
fn work_is_counted_and_what_is_kept_stays() {
    let mut work = Work::new(100);
    work.keep(4);
    assert!(work.allows(74) && !work.allows(75));
    work.within(2, |part| {
        part.take(30);
        assert!(!part.is_done());
        part.take(1_000);
        assert!(part.is_done());
    });
    assert!(work.is_done(), "what is done beyond a part is counted all the same");
    let mut work = Work::new(100);
    work.spend(4);
    assert!(work.allows(24) && !work.allows(25));
    work.take(usize::MAX);
    assert!(work.is_done());
}
