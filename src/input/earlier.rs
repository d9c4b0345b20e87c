//! An earlier answer of `check --format json`, read for `--since`: added keys are left alone, missing ones are faults.

use super::Refused;
use super::context::remark;
use super::load::{Form, open_given};
use super::spots::rod_label;
use crate::length::Length;
use crate::model::{
    Action, Earlier, EarlierColumn, EarlierFinding, EarlierLevelling, EarlierPacks, EarlierRod, State,
};
use crate::source::{FileId, Files, Place, Problem, Problems};
use crate::text::quoted;
use serde::{Deserialize, Deserializer};
use serde_json::Value;
use std::collections::BTreeSet;
use std::path::Path;

/// How a file that can be used is made.
const MAKE: &str = "name a file that `rodreach check JOB --format json -o FILE` wrote";

/// The format that is read.
const FORMAT: u64 = 1;

/// Most pieces of one thickness in a stack, and most washers under a nut.
const MOST_PIECES: u32 = 1_000;

/// Most pieces of one thickness in all packs of a column, and most rods of one.
const MOST_IN_ALL: u32 = 1_000_000;

#[derive(Deserialize)]
struct Raw {
    job: String,
    datum: String,
    limits: String,
    aim: String,
    to: String,
    #[serde(default)]
    guarded: bool,
    columns: Vec<RawColumn>,
    findings: Vec<RawFinding>,
}

#[derive(Deserialize)]
struct RawColumn {
    mark: String,
    base: String,
    #[serde(deserialize_with = "or_null")]
    pad_nm: Option<i64>,
    #[serde(deserialize_with = "or_null")]
    plus_minus_nm: Option<i64>,
    action: Action,
    #[serde(deserialize_with = "or_null")]
    raise_nm: Option<i64>,
    hold: Vec<String>,
    may_set: bool,
    stack: Vec<RawPiece>,
    rods: Vec<RawRod>,
    // these were added to the format later, and stand there only where the job says them
    seat_on: Option<String>,
    packs: Option<RawPacks>,
    levelling_nuts: Option<RawLevelling>,
}

#[derive(Deserialize)]
struct RawPacks {
    count: Option<u32>,
    size_nm: Option<[i64; 2]>,
    pieces: Option<Vec<RawPiece>>,
}

#[derive(Deserialize)]
struct RawLevelling {
    nut: String,
    washer: Option<String>,
    count: u32,
}

#[derive(Deserialize)]
struct RawPiece {
    thickness_nm: i64,
    count: u32,
}

#[derive(Deserialize)]
struct RawRod {
    rod: String,
    #[serde(deserialize_with = "or_null")]
    projection_nm: Option<i64>,
    // it was added to the format later
    plus_minus_nm: Option<i64>,
    state: State,
    extra_washers: u32,
}

#[derive(Deserialize)]
struct RawFinding {
    rule: String,
    level: String,
    columns: Vec<String>,
    #[serde(deserialize_with = "or_null")]
    rod: Option<String>,
    #[serde(deserialize_with = "or_null")]
    line: Option<String>,
    text: String,
}

/// Reads a key that may be null but must be there: what is missing is not unknown, the file is another one.
fn or_null<'de, D: Deserializer<'de>, T: Deserialize<'de>>(from: D) -> Result<Option<T>, D::Error> {
    Option::deserialize(from)
}

/// Reads an earlier answer of `check --format json`.
///
/// # Errors
/// Tells what is wrong with the file, where, and which file is needed.
pub fn read_earlier(path: &Path) -> Result<Earlier, Refused> {
    let mut files = Files::default();
    let problems = Problems::default();
    let file = open_given(path, ("--since", MAKE), Form::Json, &mut files, &problems);
    let read = file.and_then(|file| Reading { file, files: &files, problems: &problems }.earlier());
    match read.filter(|_| problems.none()) {
        Some(earlier) => Ok(earlier),
        None => Err(Refused { problems: problems.into_vec(), files }),
    }
}

#[derive(Clone, Copy)]
struct Reading<'r> {
    file: FileId,
    files: &'r Files,
    problems: &'r Problems,
}

impl Reading<'_> {
    fn earlier(self) -> Option<Earlier> {
        let text = self.files.text(self.file);
        let value: Value = match serde_json::from_str(text) {
            Ok(value) => value,
            Err(fault) => {
                self.at(&fault, "this file is not JSON");
                return None;
            }
        };
        if let Some(what) = other_than_check(&value) {
            self.problems.note(Problem::at(self.start(), what).fix(MAKE));
            return None;
        }
        if value.get("format").and_then(Value::as_u64) != Some(FORMAT) {
            let at = text.find("\"format\"").map_or(self.start(), |at| self.place(at, "\"format\"".len()));
            let is = value.get("format").map_or("no format at all".to_owned(), |it| format!("format {it}"));
            let message = format!("this answer has {}; only format {FORMAT} is read", printable(&is));
            self.problems.note(Problem::at(at, message).fix(
                "make it again with this rodreach from the readings of that time: rodreach check JOB --format json",
            ));
            return None;
        }
        match serde_json::from_str::<Raw>(text) {
            Ok(raw) => Some(self.whole(raw)),
            Err(fault) => {
                self.at(&fault, "this is not an answer of `rodreach check`");
                None
            }
        }
    }

    fn whole(self, raw: Raw) -> Earlier {
        let mut marks = BTreeSet::new();
        let mut columns = Vec::new();
        for column in raw.columns {
            let column = self.column(column);
            if !marks.insert(column.mark.clone()) {
                self.note(&column.mark, "stands there a second time");
            }
            columns.push(column);
        }
        Earlier {
            file: self.files.name(self.file).to_owned(),
            job: printable(&raw.job),
            datum: printable(&raw.datum),
            limits: printable(&raw.limits),
            aim: printable(&raw.aim),
            to: printable(&raw.to),
            guarded: raw.guarded,
            columns,
            findings: raw.findings.into_iter().map(finding).collect(),
        }
    }

    fn column(self, raw: RawColumn) -> EarlierColumn {
        let mark = raw.mark;
        let length = |nm: Option<i64>, what: &str| {
            let length = nm.map(Length::from_nm);
            if length.is_some_and(|it| it.abs() > Length::MOST_READ) {
                self.note(&mark, &format!("{what} is beyond 10 km"));
            }
            length
        };
        let pad = length(raw.pad_nm, "its pad");
        let plus_minus = length(raw.plus_minus_nm, "the +- of its pad");
        let raise = length(raw.raise_nm, "its raise");
        let pieces = |raw: &[RawPiece], most: u32, what: &str| -> Vec<(Length, u32)> {
            let piece = |piece: &RawPiece| {
                let thickness = length(Some(piece.thickness_nm), "a shim of it").unwrap_or_default();
                if thickness <= Length::ZERO || !(1..=most).contains(&piece.count) {
                    self.note(&mark, &format!("{what} a piece that cannot be"));
                }
                (thickness, piece.count)
            };
            raw.iter().map(piece).collect()
        };
        let stack = pieces(&raw.stack, MOST_PIECES, "its stack has");
        let packs = raw.packs.map(|packs| EarlierPacks {
            count: packs.count,
            size: packs.size_nm.map(|size| size.map(Length::from_nm)),
            pieces: packs.pieces.map(|all| pieces(&all, MOST_IN_ALL, "its packs have")),
        });
        let levelling = raw.levelling_nuts.map(|it| {
            if it.count > MOST_IN_ALL {
                self.note(&mark, "its levelling nuts cannot be so many");
            }
            EarlierLevelling {
                nut: printable(&it.nut),
                washer: it.washer.as_deref().map(printable),
                count: it.count,
            }
        });
        let rods = raw.rods.into_iter().filter_map(|rod| {
            let Some(label) = rod_label(&rod.rod.to_lowercase()) else {
                self.note(&mark, &format!("{} is no rod", quoted(&rod.rod)));
                return None;
            };
            if rod.extra_washers > MOST_PIECES {
                self.note(&mark, &format!("the washers of rod {label} cannot be"));
            }
            Some(EarlierRod {
                label,
                projection: length(rod.projection_nm, "a projection of it"),
                plus_minus: length(rod.plus_minus_nm, "the +- of a projection of it"),
                state: rod.state,
                extra_washers: rod.extra_washers,
            })
        });
        let rods = rods.collect();
        if !adds_up(raw.action, raise, &stack) {
            self.note(&mark, "its action, raise and stack do not belong together");
        }
        EarlierColumn {
            base: printable(&raw.base),
            pad,
            plus_minus,
            action: raw.action,
            raise,
            stack,
            hold: raw.hold.iter().map(|hold| printable(hold)).collect(),
            may_set: raw.may_set,
            rods,
            seat_on: raw.seat_on.as_deref().map(printable),
            packs,
            levelling,
            mark: printable(&mark),
        }
    }

    /// Notes a fault of a column.
    fn note(self, mark: &str, message: &str) {
        let message = format!("column {}: {message}", quoted(mark));
        self.problems.note(Problem::in_file(self.file, message).fix(MAKE));
    }

    /// Notes a fault where the reader of JSON met it.
    fn at(self, fault: &serde_json::Error, what: &str) {
        let text = self.files.text(self.file);
        let line: usize = text.split_inclusive('\n').take(fault.line().saturating_sub(1)).map(str::len).sum();
        let mut start = (line + fault.column().saturating_sub(1)).min(text.len());
        while !text.is_char_boundary(start) {
            start -= 1;
        }
        let said = fault.to_string();
        let said = said.rsplit_once(" at line ").map_or(said.as_str(), |(said, _)| said);
        self.problems.note(
            Problem::at(self.place(start, 0), format!("{what}: {}", printable(said).trim_end())).fix(MAKE),
        );
    }

    fn start(self) -> Place {
        self.place(0, 0)
    }

    const fn place(self, start: usize, length: usize) -> Place {
        Place { file: self.file, start, end: start + length }
    }
}

/// Says what a JSON text is, if it is no answer of `check`.
fn other_than_check(value: &Value) -> Option<String> {
    let has = |key: &str| value.get(key).is_some();
    let by =
        |command: &str| Some(format!("this is an answer of `rodreach {command}`, not of `rodreach check`"));
    if has("columns") && has("findings") && has("totals") {
        return None;
    }
    if has("pages") {
        return by("ask");
    }
    if has("closures") || has("book") {
        return by("level");
    }
    if has("judgements") {
        return by("explain");
    }
    if has("packets") {
        return by("order");
    }
    if value["columns"][0].get("governing_rod").is_some() {
        return by("hardware");
    }
    let missing = ["columns", "findings", "totals"].into_iter().find(|key| !has(key)).unwrap_or("columns");
    Some(format!("this JSON is not an answer of `rodreach check`: it has no `{missing}`"))
}

/// Tells whether a raise is what its action and its stack make.
fn adds_up(action: Action, raise: Option<Length>, stack: &[(Length, u32)]) -> bool {
    let height: Length = stack.iter().map(|(thickness, count)| *thickness * i64::from(*count)).sum();
    match (action, raise) {
        (Action::NoShim, Some(raise)) => raise == Length::ZERO && stack.is_empty(),
        (Action::Shim, Some(raise)) => raise == height && !stack.is_empty(),
        (Action::Grout, Some(raise)) => raise > Length::ZERO && stack.is_empty(),
        (Action::Grind, Some(raise)) => raise.is_negative() && stack.is_empty(),
        (Action::Refer | Action::Unmeasured, None) => stack.is_empty(),
        _ => false,
    }
}

fn finding(raw: RawFinding) -> EarlierFinding {
    EarlierFinding {
        rule: printable(&raw.rule),
        level: printable(&raw.level),
        columns: raw.columns.iter().map(|mark| printable(mark)).collect(),
        rod: raw.rod.as_deref().map(printable),
        line: raw.line.as_deref().map(printable),
        text: printable(&raw.text),
    }
}

/// Takes a text of the file as it can be printed.
fn printable(text: &str) -> String {
    remark(text).unwrap_or_default()
}
