//! The level plan against a slow reading of its rules, written apart: every stack counted out, every level tried.
//!
//! All lengths are whole thirty-seconds of an inch, so that the oracle needs nothing of the program.

mod tool;

use proptest::prelude::*;
use serde_json::json;
use tool::{Job, item};

const UNIT_NM: i64 = 793_750;
const PLATE: i64 = 16;
const WASHER: i64 = 5;
const NUT: i64 = 23;
/// One shim is so much thinner or thicker at most.
const SHIM_TOLERANCE: i64 = 1;
const TAPE: i64 = 2;
const CLEAR: i64 = 3;
const MOST_EXTRA: i64 = 2;

#[derive(Clone, Debug)]
struct Pad {
    /// Below the zero of the level, so that a larger reading is a lower pad.
    reading: i64,
    low: Option<i64>,
    high: Option<i64>,
    thread: Option<i64>,
    bent: bool,
}

#[derive(Clone, Debug)]
struct Case {
    pads: Vec<Pad>,
    beyond: i64,
    neighbours: i64,
    wall: Option<i64>,
    building: Option<i64>,
    thicknesses: Vec<i64>,
    pieces: usize,
    most: i64,
    tall: i64,
    grout: Option<(i64, i64, i64)>,
    grind: Option<(i64, i64)>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
struct Taken {
    action: &'static str,
    raise: i64,
    stack: Vec<i64>,
    held: bool,
}

/// Full, scant or unsure, and short or running out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Nut {
    Full,
    Doubtful,
    Bad,
}

fn nut(case: &Case, pad: &Pad, projection: i64, raise: i64, shims: i64) -> Nut {
    let (least, most) = (raise - shims * SHIM_TOLERANCE, raise + shims * SHIM_TOLERANCE);
    let extra = match pad.thread {
        None => Some(0),
        Some(thread) => (0..=MOST_EXTRA).find(|extra| {
            thread - CLEAR - (projection - least - PLATE - WASHER - extra * WASHER) - TAPE >= 0
        }),
    };
    let Some(extra) = extra else { return Nut::Bad };
    let beyond = |raise: i64| projection - raise - PLATE - WASHER * (1 + extra) - NUT;
    if beyond(most) - case.beyond - TAPE >= 0 {
        Nut::Full
    } else if beyond(most) - TAPE < 0 && beyond(raise) + TAPE < 0 {
        Nut::Bad
    } else {
        Nut::Doubtful
    }
}

/// Every stack of up to so many pieces, counted out, thickest piece first.
fn every_stack(thicknesses: &[i64], pieces: usize) -> Vec<Vec<i64>> {
    let mut all = vec![vec![]];
    let mut last = all.clone();
    for _ in 0..pieces {
        last = last
            .iter()
            .flat_map(|stack: &Vec<i64>| {
                thicknesses.iter().map(|piece| {
                    let mut grown = stack.clone();
                    grown.push(*piece);
                    grown.sort_unstable_by(|a, b| b.cmp(a));
                    grown
                })
            })
            .collect();
        all.extend(last.iter().cloned());
    }
    all.retain(|stack| !stack.is_empty());
    all
}

fn open_options(case: &Case, pad: &Pad) -> Vec<Taken> {
    let mut options = vec![("no-shim", 0, vec![])];
    for stack in every_stack(&case.thicknesses, case.pieces) {
        let height = stack.iter().sum::<i64>();
        if height <= case.tall {
            options.push(("shim", height, stack));
        }
    }
    if let Some((least, most, step)) = case.grout {
        let mut bed = least;
        while bed <= most {
            options.push(("grout", bed, vec![]));
            bed += step;
        }
    }
    if let Some((most, step)) = case.grind {
        let mut depth = step;
        while depth <= most {
            options.push(("grind", -depth, vec![]));
            depth += step;
        }
    }
    let mut open = Vec::new();
    for (action, raise, stack) in options {
        let rods = [pad.low, pad.high].into_iter().flatten().filter(|_| !pad.bent);
        let worst = rods.map(|rod| nut(case, pad, rod, raise, stack.len() as i64)).max().unwrap_or(Nut::Full);
        if worst != Nut::Bad {
            let tall = action == "shim" && raise > case.most;
            open.push(Taken { action, raise, stack, held: tall || worst == Nut::Doubtful });
        }
    }
    open
}

/// Takes the best option at a level, by the order of the contract; equal stacks by the thickest piece.
fn take(case: &Case, pad: &Pad, level: i64, band: i64) -> Option<Taken> {
    let departure = -pad.reading;
    let mut inside: Vec<Taken> = open_options(case, pad)
        .into_iter()
        .filter(|it| (level - band..=level).contains(&(departure + it.raise)))
        .collect();
    inside.sort_by_key(|it| {
        let rank = ["no-shim", "shim", "grout", "grind"].iter().position(|name| *name == it.action).unwrap();
        let thickest_first: Vec<i64> = it.stack.iter().map(|piece| -piece).collect();
        (it.held, rank.max(1), level - (departure + it.raise), it.stack.len(), thickest_first)
    });
    inside.into_iter().next()
}

fn plan(case: &Case) -> (i64, i64, Vec<Option<Taken>>) {
    let limits = [Some(case.neighbours), case.wall, case.building];
    let band = limits.into_iter().flatten().min().unwrap();
    let at = |level: i64| -> Vec<Option<Taken>> {
        case.pads.iter().map(|pad| take(case, pad, level, band)).collect()
    };
    let cost = |level: i64| {
        let taken = at(level);
        let referred = taken.iter().filter(|it| it.is_none()).count();
        let held = taken.iter().flatten().filter(|it| it.held).count();
        (referred, held, -level)
    };
    let level = case.pads.iter().map(|pad| -pad.reading).min_by_key(|level| cost(*level)).unwrap();
    (level, band, at(level))
}

fn inches(units: i64) -> String {
    format!("{units}/32")
}

fn job(case: &Case) -> Job {
    let marks: Vec<String> = (1..=case.pads.len()).map(|number| format!("\"A{number}\"")).collect();
    let list: Vec<String> = case.thicknesses.iter().map(|it| format!("\"{}\"", inches(*it))).collect();
    let off = |name: &str, value: Option<String>| match value {
        Some(value) => format!("[limits.{name}]\n{value}\n"),
        None => format!("[limits.{name}]\noff = true\n"),
    };
    let grout = case.grout.map(|(least, most, step)| {
        format!("least = \"{}\"\nmost = \"{}\"\nstep = \"{}\"", inches(least), inches(most), inches(step))
    });
    let grind =
        case.grind.map(|(most, step)| format!("most = \"{}\"\nstep = \"{}\"", inches(most), inches(step)));
    let accept = |value: i64| format!("accept = \"{}\"", inches(value));
    let toml = format!(
        r#"
[job]
name = "oracle"
units = "in"
limits = "low-rise"
[measure]
walk = "walk.csv"
[[base]]
mark = "B"
plate = {{ thickness = "1/2", tolerance = ["0", "0"], holes = "15/16" }}
rods = {{ diameter = "3/4", count = 4, thread = "6" }}
washers = [{{ thickness = ["5/32", "5/32"], outer = "2" }}]
nuts = [{{ height = ["23/32", "23/32"] }}]
[[line]]
name = "A"
kind = "wall"
columns = [{}]
spacing = "10'"
[shims]
thicknesses = [{}]
tolerance = ["-1/32", "1/32"]
pieces = {}
[limits.engagement]
beyond = "{}"
clear = "3/32"
extra = 2
[limits.neighbours]
{}
[limits.shim]
most = "{}"
tall = "{}"
{}{}{}{}"#,
        marks.join(", "),
        list.join(", "),
        case.pieces,
        inches(case.beyond),
        accept(case.neighbours),
        inches(case.most),
        inches(case.tall),
        off("wall", case.wall.map(accept)),
        off("building", case.building.map(accept)),
        off("grout", grout),
        off("grind", grind),
    );
    let cell = |value: Option<i64>| value.map(inches).unwrap_or_default();
    let rows = case.pads.iter().enumerate().map(|(at, pad)| {
        let bent = if pad.bent { "bent" } else { "" };
        let number = at + 1;
        let reading = inches(pad.reading);
        format!("A{number},{reading},{},{},{},{bent}\n", cell(pad.low), cell(pad.high), cell(pad.thread))
    });
    let walk = format!("mark,reading,low,high,thread,condition\n{}", rows.collect::<String>());
    Job::of(&[("job.toml", &toml), ("walk.csv", &walk)])
}

prop_compose! {
    fn any_pad()(
        reading in 0_i64..40,
        low in prop::option::weighted(0.9, 36_i64..90),
        up in prop::option::weighted(0.9, 0_i64..20),
        thread in prop::option::weighted(0.4, 20_i64..70),
        bent in prop::bool::weighted(0.1),
    ) -> Pad {
        Pad { reading, low, high: up.map(|up| low.unwrap_or(60) + up), thread, bent }
    }
}

prop_compose! {
    fn any_case()(
        pads in prop::collection::vec(any_pad(), 2..6),
        beyond in 0_i64..4,
        neighbours in 1_i64..10,
        wall in prop::option::of(1_i64..12),
        building in prop::option::of(1_i64..20),
        thicknesses in prop::collection::btree_set(2_i64..20, 1..4),
        pieces in 1_usize..4,
        most in 4_i64..20,
        over in 0_i64..12,
        grout in prop::option::of((20_i64..40, 0_i64..30, 1_i64..5)),
        grind in prop::option::of((1_i64..8, 1_i64..3)),
    ) -> Case {
        Case {
            pads, beyond, neighbours, wall, building,
            thicknesses: thicknesses.into_iter().collect(),
            pieces, most, tall: most + over,
            grout: grout.map(|(least, more, step)| (least, least + more, step)),
            grind,
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_level_plan_is_what_a_slow_reading_of_its_rules_gives(case in any_case()) {
        let job = job(&case);
        let ran = job.run("check", &["--format", "json"]);
        prop_assert!(ran.status < 2, "{}", ran.err);
        let answer = ran.json();
        let (level, band, taken) = plan(&case);
        let highest = case.pads.iter().map(|pad| -pad.reading).max().unwrap();
        let mut held = 0;
        for (at, wanted) in taken.iter().enumerate() {
            let column = item(&answer["columns"], "mark", &format!("A{}", at + 1));
            let Some(wanted) = wanted else {
                prop_assert_eq!(&column["action"], "refer", "A{}", at + 1);
                let range = [(level - band - highest) * UNIT_NM, (level - highest) * UNIT_NM];
                prop_assert_eq!(&column["seat_range_nm"], &json!(range));
                continue;
            };
            held += i64::from(wanted.held);
            prop_assert_eq!(&column["action"], wanted.action, "A{}", at + 1);
            prop_assert_eq!(&column["raise_nm"], &json!(wanted.raise * UNIT_NM), "A{}", at + 1);
            let pieces: Vec<i64> = column["stack"].as_array().unwrap().iter().flat_map(|piece| {
                let count = piece["count"].as_u64().unwrap();
                let thickness = piece["thickness_nm"].as_i64().unwrap() / UNIT_NM;
                (0..count).map(move |_| thickness)
            }).collect();
            prop_assert_eq!(&pieces, &wanted.stack, "A{}", at + 1);
        }
        prop_assert_eq!(&answer["totals"]["held"], &json!(held));
    }
}
