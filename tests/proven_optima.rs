//! Cases whose optima were proven by other solvers, and a judge of the program's plan that shares nothing with it.
//!
//! Every optimum was found by HiGHS 1.16.0 as a plain MILP and as an LP in order variables, and by a minimum cut; each
//! case says so under `proven_by`. All lengths are whole nanometres. Nothing is held there.

mod small_plan;
mod tool;

use serde_json::{Map, Value, json};
use small_plan::bounds::Bounds;
use small_plan::job::arguments;
use small_plan::proven::{NAMES, job_of, names, nm, read, wall_tolerance};
use std::collections::BTreeMap;
use tool::item;

/// A case and what the program answers.
struct Solved {
    name: &'static str,
    case: Value,
    answer: Value,
}

fn solved(name: &'static str) -> Solved {
    let case = read(name);
    let job = job_of(&case);
    let ran = small_plan::job::job(&job).run("check", &arguments(&job));
    assert!(ran.status < 2, "{name}: {}", ran.err);
    Solved { name, answer: ran.json(), case }
}

impl Solved {
    fn pads(&self) -> &Vec<Value> {
        self.case["pads"].as_array().unwrap()
    }

    fn column(&self, pad: &Value) -> &Value {
        item(&self.answer["columns"], "mark", pad["id"].as_str().unwrap())
    }

    /// Gives the pads by name, numbered.
    fn numbers(&self) -> BTreeMap<&str, usize> {
        self.pads().iter().enumerate().map(|(number, pad)| (pad["id"].as_str().unwrap(), number)).collect()
    }

    fn design(&self) -> i64 {
        self.case["tolerances"]["datum"]["design_nm"].as_i64().unwrap_or(0)
    }

    /// Reads the tolerances as bounds between any two departures; high to low is a bound between every two.
    fn bounds(&self) -> Bounds {
        let numbers = self.numbers();
        let tolerances = &self.case["tolerances"];
        let mut bounds = Bounds::free(numbers.len());
        let mut all = |members: &[usize], most: Option<i64>| {
            for (at, one) in members.iter().enumerate() {
                for other in &members[at + 1..] {
                    most.into_iter().for_each(|most| bounds.limit(*one, *other, most));
                }
            }
        };
        let members = |list: &Value| names(list).into_iter().map(|name| numbers[name]).collect::<Vec<_>>();
        for pair in self.case["adjacency"].as_array().unwrap() {
            all(&members(pair), tolerances["adjacent_nm"].as_i64());
        }
        for wall in self.case["walls"].as_array().unwrap() {
            all(&members(&wall["pads"]), wall_tolerance(&self.case, wall));
        }
        all(&(0..numbers.len()).collect::<Vec<_>>(), tolerances["all_nm"].as_i64());
        if let Some(window) = tolerances["datum"]["tol_nm"].as_i64() {
            (0..numbers.len()).for_each(|pad| bounds.window(pad, window));
        }
        bounds
    }

    /// Gives the seats of the pads that are not referred, from the design.
    fn departures(&self) -> Vec<(usize, i64)> {
        let seats = self.pads().iter().enumerate().map(|(number, pad)| {
            let column = self.column(pad);
            Some((number, column["seat_nm"].as_i64()? - self.design()))
        });
        seats.flatten().collect()
    }

    fn referred(&self) -> Vec<usize> {
        let is = |pad: &&Value| self.column(pad)["action"] == "refer";
        let numbers = self.numbers();
        self.pads().iter().filter(is).map(|pad| numbers[pad["id"].as_str().unwrap()]).collect()
    }
}

fn whole(table: &Map<String, Value>, key: &str) -> i64 {
    nm(&table[key])
}

/// Tells what is wrong with what the program does at one pad.
fn legal(case: &Value, pad: &Value, column: &Value) -> Result<(), String> {
    let raise = column["raise_nm"].as_i64();
    let pieces: Vec<i64> = column["stack"]
        .as_array()
        .unwrap()
        .iter()
        .flat_map(|piece| vec![nm(&piece["thickness_nm"]); usize::try_from(nm(&piece["count"])).unwrap()])
        .collect();
    let action = column["action"].as_str().unwrap();
    if action == "refer" {
        return if raise.is_none() && pieces.is_empty() {
            Ok(())
        } else {
            Err("referred with a raise".into())
        };
    }
    let raise = raise.ok_or("no raise")?;
    let on_step = |from: i64, to: i64, step: i64| {
        (from..=to).contains(&raise.abs()) && (raise.abs() - from) % step == 0
    };
    let allowed = match action {
        "no-shim" => raise == 0,
        "shim" => {
            let known = case["shims"]["thickness_nm"].as_array().unwrap();
            let most = usize::try_from(nm(&case["shims"]["max_pieces"])).unwrap();
            (1..=most).contains(&pieces.len())
                && pieces.iter().all(|piece| known.contains(&json!(piece)))
                && pieces.iter().sum::<i64>() == raise
        }
        "grout" => case["grout"].as_object().is_some_and(|grout| {
            raise > 0 && on_step(whole(grout, "min_nm"), whole(grout, "max_nm"), whole(grout, "step_nm"))
        }),
        "grind" => case["grind"].as_object().is_some_and(|grind| {
            let step = whole(grind, "step_nm");
            raise < 0 && on_step(step, whole(grind, "max_nm"), step)
        }),
        _ => false,
    };
    if !allowed || (action != "shim" && !pieces.is_empty()) {
        return Err(format!("{action} of {raise} with {pieces:?} is no option"));
    }
    if raise < nm(&pad["min_raise_nm"]) || raise > nm(&pad["max_raise_nm"]) {
        return Err(format!("its rods forbid a raise of {raise}"));
    }
    if nm(&column["seat_nm"]) != nm(&pad["z_nm"]) + raise {
        return Err("its seat is not its pad and its raise".into());
    }
    Ok(())
}

/// Sums what is done; the thickness of a referred pad is nothing.
fn recomputed_cost(solved: &Solved) -> Value {
    let columns = || solved.pads().iter().map(|pad| solved.column(pad));
    let count = |action: &str| columns().filter(|column| column["action"] == action).count();
    let pieces: i64 =
        columns().flat_map(|it| it["stack"].as_array().unwrap()).map(|it| nm(&it["count"])).sum();
    let thickness: i64 = columns().filter_map(|column| column["raise_nm"].as_i64()).map(i64::abs).sum();
    json!({ "refer": count("refer"), "grind": count("grind"), "grout": count("grout"), "pieces": pieces,
        "thickness_nm": thickness })
}

fn costs_what_was_proven(solved: &Solved) {
    let expected = &solved.case["expected"]["cost"];
    assert_eq!(recomputed_cost(solved), *expected, "{}", solved.name);
    let totals = &solved.answer["totals"];
    for (key, wanted) in expected.as_object().unwrap() {
        assert_eq!(totals[key], *wanted, "{}: {key}", solved.name);
    }
    assert_eq!(totals["held"], 0, "{}", solved.name);
    assert_eq!(solved.answer["aim"], "fewest");
    assert_eq!(solved.answer["optimum"], json!({ "proven": true, "gap": null }), "{}", solved.name);
}

fn is_a_plan_within_every_tolerance(solved: &Solved) {
    for pad in solved.pads() {
        legal(&solved.case, pad, solved.column(pad))
            .unwrap_or_else(|told| panic!("{}: {pad}: {told}", solved.name));
    }
    let referred = solved.referred();
    let through = solved.bounds().through(&referred);
    let seats = solved.departures();
    assert_eq!(seats.len() + referred.len(), solved.pads().len(), "{}", solved.name);
    for (at, one) in seats.iter().enumerate() {
        assert!(through.allow_alone(one.0, one.1), "{}: {one:?} from the design", solved.name);
        for other in &seats[at + 1..] {
            assert!(through.allow(*one, *other), "{}: {one:?} and {other:?}", solved.name);
        }
    }
    for number in referred {
        let [low, high] =
            through.range(number, &seats).map(|bound| bound.map(|bound| bound + solved.design()));
        assert!(low.zip(high).is_none_or(|(low, high)| low <= high), "{}: nothing fits", solved.name);
        let column = solved.column(&solved.pads()[number]);
        assert_eq!(column["seat_range_nm"], json!([low, high]), "{}: {}", solved.name, column["mark"]);
    }
}

fn is_the_flattest_and_then_the_lowest(solved: &Solved) {
    let Some(tie) = solved.case["expected"]["tie_break"].as_object() else { return };
    let pairs = solved.case["adjacency"].as_array().unwrap();
    let mut distinct: Vec<[&str; 2]> = pairs
        .iter()
        .map(|pair| {
            let mut pair: [&str; 2] = names(pair).try_into().unwrap();
            pair.sort_unstable();
            pair
        })
        .collect();
    distinct.sort_unstable();
    distinct.dedup();
    let seat = |mark: &str| item(&solved.answer["columns"], "mark", mark)["seat_nm"].as_i64();
    let steps =
        distinct.iter().filter_map(|[one, other]| Some((seat(one)? - seat(other)?).abs())).sum::<i64>();
    assert_eq!(json!(steps), tie["sum_adjacent_steps_nm"], "{}", solved.name);
    assert_eq!(solved.answer["totals"]["steps_nm"], tie["sum_adjacent_steps_nm"], "{}", solved.name);
    for (mark, wanted) in tie["elevation_nm"].as_object().unwrap() {
        assert_eq!(json!(seat(mark)), *wanted, "{}: {mark}", solved.name);
    }
}

fn is_proven(name: &'static str) {
    let solved = solved(name);
    costs_what_was_proven(&solved);
    is_a_plan_within_every_tolerance(&solved);
    is_the_flattest_and_then_the_lowest(&solved);
}

#[test]
fn four_pads_are_shimmed_as_proven() {
    is_proven("01-four-pads-in");
}

#[test]
fn one_high_pad_is_ground_as_proven() {
    is_proven("03-one-high-pad-grind-in");
}

#[test]
fn two_pads_in_a_row_are_referred_as_proven() {
    is_proven("05-two-refers-in-a-row-in");
}

#[test]
fn a_metric_hall_takes_grout_once_as_proven() {
    is_proven("07-grout-mm");
}

#[test]
fn twenty_pads_come_to_their_design_elevation_as_proven() {
    is_proven("09-datum-in");
}

#[test]
fn a_hall_of_sixty_refers_one_and_grinds_one_as_proven() {
    is_proven("11-hall-60-in");
}

#[test]
fn every_case_of_the_folder_is_tried() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/plan_cases");
    let mut found: Vec<String> =
        std::fs::read_dir(folder).unwrap().map(|it| it.unwrap().file_name().into_string().unwrap()).collect();
    found.sort();
    assert_eq!(found, NAMES.map(|name| format!("{name}.json")));
}

/// The cases count steps over adjacent pads, the program over neighbours on a line; a wall must add no pair.
#[test]
fn the_walls_of_the_cases_add_no_neighbours() {
    for name in NAMES {
        let job = job_of(&read(name));
        let pair = |line: &[usize]| [line[0].min(line[1]), line[0].max(line[1])];
        let frames: Vec<[usize; 2]> =
            job.lines.iter().filter(|it| !it.wall).map(|it| pair(&it.columns)).collect();
        for wall in job.lines.iter().filter(|line| line.wall) {
            assert!(
                wall.columns.windows(2).all(|it| frames.contains(&pair(it))),
                "{name}: {:?}",
                wall.columns
            );
        }
    }
}

/// What is done at a pad by hand: its mark, the raise (a stack of one piece), or the range where it is referred.
type ByHand = (&'static str, Result<i64, [i64; 2]>);

/// Case 01 as its tie-break has it: B1 and B2 on one shim each.
const FOUR_PADS: [ByHand; 4] = [("A1", Ok(0)), ("B1", Ok(4_762_500)), ("B2", Ok(6_350_000)), ("A2", Ok(0))];

/// Case 05: D1 comes to D2 at -6.35 mm, D5 stays at -14.2875. D3 stands within 2.778125 of D2 and within two steps of
/// D5: from -9.128125 to -8.73125; D4 within one step of D5 and two of D2: from -11.90625 to -11.509375.
const FIVE_PADS: [ByHand; 5] = [
    ("D1", Ok(6_350_000)),
    ("D2", Ok(0)),
    ("D3", Err([-9_128_125, -8_731_250])),
    ("D4", Err([-11_906_250, -11_509_375])),
    ("D5", Ok(0)),
];

/// Makes the answer of a program without fault.
fn answer_by_hand(case: &Value, done: &[ByHand]) -> Value {
    let columns: Vec<Value> = done
        .iter()
        .map(|(mark, done)| {
            let pad = nm(&item(&case["pads"], "id", mark)["z_nm"]);
            match done {
                Err(range) => json!({ "mark": mark, "action": "refer", "raise_nm": null, "seat_nm": null,
                    "seat_range_nm": range, "stack": [] }),
                Ok(0) => {
                    json!({ "mark": mark, "action": "no-shim", "raise_nm": 0, "seat_nm": pad, "stack": [] })
                }
                Ok(raise) => {
                    json!({ "mark": mark, "action": "shim", "raise_nm": raise, "seat_nm": pad + raise,
                    "stack": [{ "thickness_nm": raise, "count": 1 }] })
                }
            }
        })
        .collect();
    let mut totals = case["expected"]["cost"].clone();
    totals["held"] = json!(0);
    totals["steps_nm"] = case["expected"]["tie_break"]["sum_adjacent_steps_nm"].clone();
    json!({ "aim": "fewest", "optimum": { "proven": true, "gap": null }, "columns": columns, "totals": totals })
}

/// Judges an answer by hand with one column spoilt; tells whether the judge let it pass.
fn passes(name: &'static str, done: &[ByHand], mark: &str, spoil: impl Fn(&mut Value)) -> bool {
    let case = read(name);
    let mut answer = answer_by_hand(&case, done);
    let columns = answer["columns"].as_array_mut().unwrap();
    spoil(columns.iter_mut().find(|column| column["mark"] == mark).unwrap());
    let solved = Solved { name, case, answer };
    std::panic::catch_unwind(|| {
        costs_what_was_proven(&solved);
        is_a_plan_within_every_tolerance(&solved);
        is_the_flattest_and_then_the_lowest(&solved);
    })
    .is_ok()
}

/// A judge that passes everything judges nothing.
#[test]
fn the_judge_passes_the_plans_made_by_hand_and_no_spoilt_one() {
    let four = |mark: &str, spoil: &dyn Fn(&mut Value)| passes(NAMES[0], &FOUR_PADS, mark, spoil);
    let five = |mark: &str, spoil: &dyn Fn(&mut Value)| passes(NAMES[2], &FIVE_PADS, mark, spoil);
    assert!(four("A1", &|_| ()) && five("D1", &|_| ()));
    let shim = |column: &mut Value, pieces: &[i64], lift: i64| {
        let seat = nm(&column["seat_nm"]) - nm(&column["raise_nm"]) + lift;
        let stack: Vec<Value> =
            pieces.iter().map(|piece| json!({ "thickness_nm": piece, "count": 1 })).collect();
        column["action"] = json!("shim");
        column["stack"] = json!(stack);
        column["raise_nm"] = json!(lift);
        column["seat_nm"] = json!(seat);
    };
    assert!(!four("A2", &|it| shim(it, &[3_175_000], 3_175_000)), "one piece more");
    assert!(!four("B1", &|it| shim(it, &[3_175_000], 4_762_500)), "a piece that is not the raise");
    assert!(!four("B1", &|it| shim(it, &[4_762_499], 4_762_499)), "a piece that cannot be had");
    assert!(!four("B2", &|it| shim(it, &[3_175_000, 3_175_000], 6_350_000)), "two pieces for one");
    assert!(!four("B2", &|it| shim(it, &[4_762_500], 4_762_500)), "B2 too low");
    assert!(!four("A1", &|it| it["action"] = json!("refer")), "referred with a raise");
    assert!(!four("A1", &|it| it["seat_nm"] = json!(1)), "a seat that is not the pad and its raise");
    assert!(!five("D3", &|it| it["seat_range_nm"] = json!([-9_128_125, -8_731_249])), "a range too wide");
    assert!(!five("D4", &|it| it["seat_range_nm"] = json!([-11_906_250, null])), "a range without its bound");
    assert!(!five("D5", &|it| shim(it, &[6_350_000], 6_350_000)), "one piece more");
    assert!(!five("D2", &|it| shim(it, &[12_700_000], 12_700_000)), "above what the rods allow");
}
