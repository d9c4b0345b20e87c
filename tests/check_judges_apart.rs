//! Check shares no code with the planner: it takes nothing from it but the plan, and it sees what a planner gets wrong.

mod tool;

use rodreach::check::{Level, Verdict, judge};
use rodreach::input::{Loaded, Override, load};
use rodreach::length::{Bare, Length, Unit, read};
use rodreach::levels::{Levelled, reduce};
use rodreach::plan::{Action, Choice, Plan, StackPiece, Wish, plan_fewest, plan_level};
use std::fs;
use std::path::{Path, PathBuf};
use tool::Job;
use tool::clean::{elevations_job, levels_job, walk_job};

/// What a plan is made of and carries: check may read these, and take nothing that makes plans.
const DATA: [&str; 16] = [
    "Action",
    "Aim",
    "Choice",
    "Cost",
    "Firmness",
    "Hurdle",
    "HurdleLink",
    "Loose",
    "Optimum",
    "Plan",
    "Shortage",
    "StackPiece",
    "Stop",
    "Tie",
    "To",
    "Way",
];

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, found);
        } else {
            found.push(path);
        }
    }
}

/// Gives the code of a file on one line, without its tests and its remarks.
fn code(text: &str) -> String {
    let code = text.split("#[cfg(test)]\nmod tests").next().unwrap();
    code.lines().filter(|line| !line.trim_start().starts_with("//")).collect()
}

/// Lists what a file takes from the planner, its tests left out; `*` is the planner as a whole.
fn taken_from_the_planner(text: &str) -> Vec<String> {
    let code = code(text);
    let mut found = Vec::new();
    for behind in code.split("crate::plan").skip(1) {
        // another module whose name begins alike
        if behind.starts_with(|c: char| c.is_alphanumeric() || c == '_') {
            continue;
        }
        let name = |text: &str| -> String {
            let text = text.trim();
            text.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect()
        };
        let names: Vec<String> = match behind.strip_prefix("::") {
            Some(group) if group.starts_with('{') => {
                let group = group[1..].split(';').next().unwrap().replace(['{', '}'], ",");
                group.split(',').map(name).filter(|name| !name.is_empty()).collect()
            }
            Some(path) => vec![name(path)],
            None => vec![String::new()],
        };
        found.extend(names.into_iter().map(|name| if name.is_empty() { "*".to_owned() } else { name }));
    }
    found
}

/// Lists the functions of the plan's own types that a file calls by name, as in `Plan::best()`.
fn called_of_the_plan(text: &str) -> Vec<String> {
    let code = code(text);
    let words: Vec<&str> = code.split(|c: char| !(c.is_alphanumeric() || c == '_' || c == ':')).collect();
    let calls = words.iter().filter_map(|word| word.rsplit_once("::").map(|(path, name)| (word, path, name)));
    calls
        .filter(|(_, path, name)| {
            DATA.contains(&path.rsplit("::").next().unwrap()) && name.starts_with(char::is_lowercase)
        })
        .map(|(word, ..)| (*word).to_owned())
        .collect()
}

/// Files of `src/check` that are compiled for tests alone.
const TEST_ONLY: [&str; 1] = ["fixture.rs"];

#[test]
fn check_takes_nothing_from_the_planner_but_the_plan() {
    let mut files = Vec::new();
    sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src/check"), &mut files);
    assert!(files.len() > 20, "the rules stand there");
    let mut faults = Vec::new();
    let mut seen = 0;
    for path in files {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if TEST_ONLY.contains(&name.as_str()) {
            continue;
        }
        let text = fs::read_to_string(&path).unwrap();
        faults.extend(
            called_of_the_plan(&text).into_iter().map(|call| format!("{} calls {call}", path.display())),
        );
        for taken in taken_from_the_planner(&text) {
            seen += 1;
            if !DATA.contains(&taken.as_str()) {
                faults.push(format!("{} takes {taken} from the planner", path.display()));
            }
        }
    }
    assert!(seen > 5, "the reader of imports sees them");
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn the_reader_of_imports_sees_what_it_must() {
    let read = |text: &str| taken_from_the_planner(text).join(" ");
    assert_eq!(read("use crate::plan::{Action, Choice};\nuse crate::planet::Sun;\n"), "Action Choice");
    assert_eq!(read("use crate::plan::plan_level;\n// use crate::plan::x;\n"), "plan_level");
    assert_eq!(
        read("use crate::plan::{\n    Action, options::{Open, judge},\n};\n"),
        "Action options Open judge"
    );
    assert_eq!(read("use crate::plan;\nfn f() { crate::plan::open_options(); }\n"), "* open_options");
    assert_eq!(read("use crate::plan::*;\n"), "*");
    assert_eq!(read("#[cfg(test)]\nmod tests {\n    use crate::plan::plan_level;\n"), "");
    let called = |text: &str| called_of_the_plan(text).join(" ");
    assert_eq!(
        called("let a = plan::Choice::without(Action::Refer); Other::new();"),
        "plan::Choice::without"
    );
    assert_eq!(called("match it { Action::Shim | Action::Grout => Way::Up }"), "");
}

/// A job, ready to be judged under any plan.
struct Bench {
    loaded: Loaded,
    levels: Levelled,
    plan: Plan,
}

/// What check says of a plan.
#[derive(Debug)]
struct Told {
    clear: bool,
    /// The rules that ask or stop, with the marks they name.
    findings: Vec<(&'static str, Level, Vec<String>)>,
    /// The reasons to hold each column.
    hold: Vec<Vec<&'static str>>,
    /// The raise of each column.
    raise: Vec<Option<Length>>,
    /// The kinds of differences that are out.
    out: usize,
}

impl Bench {
    fn of(job: &Job) -> Self {
        let loaded = load(&job.path("job.toml"), &Override::default());
        let loaded = loaded.unwrap_or_else(|refused| panic!("{:?}", refused.problems));
        let levels = reduce(&loaded.job);
        let plan = plan_fewest(&loaded.job, &levels, &Wish::default()).unwrap();
        Self { plan, levels, loaded }
    }

    fn told(&self, plan: &Plan) -> Told {
        let judged = judge(&self.loaded.job, &self.levels, plan);
        let grave = judged.findings.iter().filter_map(|(rule, finding)| {
            let level = finding.level().filter(|level| *level != Level::Note)?;
            let marks = judged.case.marks(&finding.subject.columns);
            Some((*rule, level, marks.into_iter().map(str::to_owned).collect()))
        });
        Told {
            clear: judged.is_clear(),
            findings: grave.collect(),
            hold: judged
                .case
                .columns
                .iter()
                .map(|it| it.hold.iter().map(|hold| hold.name()).collect())
                .collect(),
            raise: judged.case.columns.iter().map(|it| it.raise.map(|raise| raise.nominal)).collect(),
            out: judged.case.differences.iter().filter(|it| it.verdict == Verdict::Out).count(),
        }
    }

    /// Judges the plan with the choice at one column spoilt.
    fn spoilt(&self, column: usize, spoil: impl Fn(&mut Choice)) -> Told {
        let mut plan = self.plan.clone();
        spoil(&mut plan.choices[column]);
        assert_ne!(plan, self.plan, "something is spoilt");
        self.told(&plan)
    }
}

fn len(text: &str) -> Length {
    read(text, Bare::of(Unit::Inch)).unwrap()
}

fn shim(pieces: &[(&str, u32)], raise: &str) -> impl Fn(&mut Choice) {
    let stack: Vec<StackPiece> = pieces
        .iter()
        .map(|(thickness, count)| StackPiece { thickness: len(thickness), count: *count })
        .collect();
    let raise = len(raise);
    move |choice| {
        choice.action = Action::Shim;
        choice.raise = Some(raise);
        choice.stack.clone_from(&stack);
    }
}

fn plain(action: Action, raise: Option<&str>) -> impl Fn(&mut Choice) {
    let raise = raise.map(len);
    move |choice| {
        choice.action = action;
        choice.raise = raise;
        choice.stack.clear();
    }
}

fn marks(marks: &[&str]) -> Vec<String> {
    marks.iter().map(|&mark| mark.to_owned()).collect()
}

/// A1, A2, A3 stand 0, 0.12 and 0.24 in below A1; rods 2-1/2 in and more, 1.465 in of plate, washer and nut at most.
#[test]
fn the_clean_jobs_are_clear_as_they_are_planned() {
    for job in [walk_job(), levels_job(), elevations_job()] {
        let bench = Bench::of(&job);
        let told = bench.told(&bench.plan);
        assert!(told.clear && told.findings.is_empty() && told.out == 0, "{told:?}");
    }
}

#[test]
fn a_raise_that_takes_a_column_out_of_its_limits_is_told() {
    let bench = Bench::of(&walk_job());
    let told = bench.spoilt(0, shim(&[("3/8", 1)], "3/8"));
    assert!(!told.clear);
    assert_eq!(
        told.findings,
        [
            ("neighbours-out", Level::Ask, marks(&["A1", "A2"])),
            ("wall-out", Level::Ask, marks(&["A1", "A2", "A3"])),
            ("building-out", Level::Ask, marks(&["A1", "A2", "A3"])),
        ]
    );
    assert_eq!(told.out, 3, "the neighbours, the wall and the building");
    // a seat 6 mm above its design where 5 are accepted
    let bench = Bench::of(&levels_job());
    let told = bench.spoilt(0, plain(Action::Grout, Some("7 mm")));
    assert!(told.findings.contains(&("design-out", Level::Ask, marks(&["C1"]))), "{told:?}");
}

#[test]
fn an_option_whose_nuts_are_not_full_is_told_whatever_the_planner_says_of_it() {
    let bench = Bench::of(&walk_job());
    // 2.5 - 1.5 leaves 1 in, nominal parts 1.382 in
    let told = bench.spoilt(0, plain(Action::Grout, Some("1-1/2")));
    assert_eq!(told.hold[0], ["rod-short", "grout"]);
    assert_eq!(told.findings[0], ("nut-not-full", Level::Stop, marks(&["A1"])));
    // 2.5 - 1 - 1.465 is 0.035 in, less than the tape
    let told = bench.spoilt(0, plain(Action::Grout, Some("1")));
    assert_eq!(told.hold[0], ["rod-unsure", "grout"]);
    assert_eq!(told.findings[0], ("nut-not-full", Level::Stop, marks(&["A1"])));
}

#[test]
fn an_option_at_which_the_thread_runs_out_is_told() {
    let bench = Bench::of(&levels_job());
    // 90 mm of thread; 81 + 15 - 25 - 4 - 2 x 4 stand under the nut with every washer, 3 to remain, 1.5 the tape
    let told = bench.spoilt(0, plain(Action::Grind, Some("-60 mm")));
    assert_eq!(told.hold[0], ["rod-runs-out", "grind"]);
    // and nothing is ground so deep
    assert_eq!(told.findings[0], ("plan-impossible", Level::Stop, marks(&["C1"])));
    assert_eq!(told.findings[1], ("thread-runs-out", Level::Stop, marks(&["C1"])));
}

#[test]
fn a_stack_too_high_or_of_too_many_pieces_is_told() {
    let bench = Bench::of(&walk_job());
    let told = bench.spoilt(2, shim(&[("1/4", 1), ("3/8", 1)], "5/8"));
    assert_eq!(told.hold[2], ["tall-stack"]);
    assert!(told.findings.contains(&("stack-too-high", Level::Ask, marks(&["A3"]))), "{told:?}");
    let told = bench.spoilt(2, shim(&[("1/2", 2)], "1"));
    assert!(told.findings.contains(&("stack-too-high", Level::Stop, marks(&["A3"]))), "{told:?}");
    let told = bench.spoilt(2, shim(&[("1/8", 4)], "1/2"));
    assert!(told.findings.contains(&("too-many-pieces", Level::Ask, marks(&["A3"]))), "{told:?}");
}

/// The raise is what the pieces come to: a planner that sums them up wrong does not move a seat.
#[test]
fn a_stack_is_summed_up_afresh() {
    let bench = Bench::of(&walk_job());
    let told = bench.spoilt(2, shim(&[("1/8", 1), ("1/4", 1)], "1/8"));
    assert_eq!(told.raise[2], Some(len("3/8")));
    assert_eq!(told.out, 0, "3/8 above -0.24 in is less than 1/4 in from A1: {told:?}");
    let told = bench.spoilt(2, shim(&[("3/4", 1)], "1/8"));
    assert!(told.findings.iter().any(|(rule, ..)| *rule == "neighbours-out"), "{told:?}");
    assert!(told.out > 0, "{told:?}");
}

#[test]
fn a_column_left_without_a_raise_is_never_clear() {
    let bench = Bench::of(&walk_job());
    for action in
        [Action::NoShim, Action::Shim, Action::Grout, Action::Grind, Action::Refer, Action::Unmeasured]
    {
        let told = bench.spoilt(1, plain(action, None));
        assert!(!told.clear, "{action:?}");
    }
    let told = bench.spoilt(1, plain(Action::Refer, None));
    assert_eq!(told.findings[0], ("referred", Level::Ask, marks(&["A2"])));
}

#[test]
fn grout_and_grinding_hold_their_column_wherever_they_come_from() {
    let bench = Bench::of(&walk_job());
    for (action, raise, hold, rule) in [
        (Action::Grout, "1/16", "grout", "grout-planned"),
        (Action::Grind, "-1/16", "grind", "grind-planned"),
    ] {
        let told = bench.spoilt(1, plain(action, Some(raise)));
        assert_eq!(told.hold[1], [hold]);
        assert!(!told.clear);
        assert!(told.findings.contains(&(rule, Level::Ask, marks(&["A2"]))), "{told:?}");
    }
}

/// What the planner says of its own plan is not believed: that it is held or not, that it is the best.
#[test]
fn what_the_planner_says_of_its_plan_changes_nothing() {
    let job = Job::demo("tractor-shed");
    let bench = Bench::of(&job);
    let mut plan = bench.plan.clone();
    for choice in &mut plan.choices {
        choice.held = !choice.held;
    }
    plan.optimum = None;
    assert_ne!(plan, bench.plan);
    assert_eq!(format!("{:?}", bench.told(&plan)), format!("{:?}", bench.told(&bench.plan)));
}

/// Every column of a demo job raised above its rods in turn, on whatever plan.
#[test]
fn no_column_of_a_demo_job_can_be_raised_above_its_rods_unseen() {
    for name in ["tractor-shed", "packing-hall"] {
        let bench = Bench::of(&Job::demo(name));
        for plan in [bench.plan.clone(), plan_level(&bench.loaded.job, &bench.levels, &Wish::default())] {
            for (index, column) in bench.loaded.job.columns.iter().enumerate() {
                let sound = column.rods.iter().filter(|rod| rod.condition.is_sound());
                let Some(shortest) = sound.filter_map(|rod| rod.projection).min() else { continue };
                if column.point.is_none_or(|point| bench.levels.height(point).is_none()) {
                    continue;
                }
                let mut plan = plan.clone();
                plain(Action::Grout, None)(&mut plan.choices[index]);
                plan.choices[index].raise = Some(shortest);
                let told = bench.told(&plan);
                assert!(told.hold[index].contains(&"rod-short"), "{name} {}: {told:?}", column.mark);
                let stop = (Level::Stop, marks(&[&column.mark]));
                let stops = |it: &&(&str, Level, Vec<String>)| (it.1, it.2.clone()) == stop;
                assert!(told.findings.iter().any(|it| stops(&it)), "{name} {}: {told:?}", column.mark);
            }
        }
    }
}
