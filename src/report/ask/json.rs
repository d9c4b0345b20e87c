//! The values behind `ask --format json`: the same pages, lengths in whole nanometres, null where unknown.

use super::super::check::json::{ColumnJson, FindingJson, HeadJson, column, finding, findings, marks};
use super::super::explain::considered::{self, ConsideredJson};
use super::super::explain::json::EngineerJson;
use super::cautions::{Caution, cautions};
use super::drawing::{self, Drawing};
use super::range::{self, Range};
use super::readings::{Reading, RodMeasured, readings, rods};
use super::{Asked, Page, of_the_job, question};
use crate::check::Judged;
use serde::Serialize;
use serde_json::{Map, Value};

#[derive(Serialize)]
struct AskJson {
    #[serde(flatten)]
    head: HeadJson,
    measured: Measured,
    whole_job: Option<WholeJobJson>,
    pages: Vec<PageJson>,
    left_out: Vec<String>,
}

/// Who measured, when, with what, how well, and the files.
#[derive(Serialize)]
struct Measured {
    by: Option<String>,
    date: Option<String>,
    instrument: Option<String>,
    levels_plus_minus_nm: i64,
    levels_plus_minus_assumed: bool,
    rods_plus_minus_nm: i64,
    rods_plus_minus_assumed: bool,
    instruments: Vec<InstrumentJson>,
    files: Vec<String>,
}

#[derive(Serialize)]
struct InstrumentJson {
    name: String,
    kind: Option<String>,
    plus_minus_nm: i64,
}

/// What is asked about the whole job.
#[derive(Serialize)]
struct WholeJobJson {
    question: String,
    findings: Vec<FindingJson>,
    cautions: Vec<Caution>,
    answer: AnswerJson,
}

#[derive(Serialize)]
struct PageJson {
    mark: String,
    question: String,
    column: ColumnJson,
    note: Option<String>,
    findings: Vec<FindingJson>,
    range: Range,
    readings: Vec<Reading>,
    rods_measured: Vec<RodMeasured>,
    drawing: Drawing,
    #[serde(flatten)]
    engineer: EngineerJson,
    options: Vec<ConsideredJson>,
    cautions: Vec<Caution>,
    answer: AnswerJson,
}

/// A box that nobody has filled in yet.
#[derive(Default, Serialize)]
struct AnswerJson {
    decision: Option<String>,
    name: Option<String>,
    date: Option<String>,
    signature: Option<String>,
}

/// Gives the whole answer as a value.
pub(super) fn value(judged: &Judged<'_>, asked: &Asked<'_>, pages: &[Page], left_out: &[usize]) -> Value {
    let case = &judged.case;
    let json = AskJson {
        head: HeadJson::of(case),
        measured: measured(judged, asked),
        whole_job: question::of_job(judged).map(|question| WholeJobJson {
            question,
            findings: of_the_job(judged).map(|(rule, level, it)| finding(case, rule, level, it)).collect(),
            cautions: cautions(judged, None),
            answer: AnswerJson::default(),
        }),
        pages: pages.iter().map(|it| page(judged, asked, it)).collect(),
        left_out: marks(case, left_out),
    };
    serde_json::to_value(json).unwrap_or_else(|_| Value::Object(Map::new()))
}

fn measured(judged: &Judged<'_>, asked: &Asked<'_>) -> Measured {
    let job = judged.case.job;
    let said =
        |what: &str| job.measured.iter().find(|(known, _)| *known == what).map(|(_, said)| said.clone());
    let instruments = job.readings.instruments.iter().map(|it| InstrumentJson {
        name: it.name.clone(),
        kind: it.kind.clone(),
        plus_minus_nm: it.reading.nm(),
    });
    Measured {
        by: said("by"),
        date: said("date"),
        instrument: said("instrument"),
        levels_plus_minus_nm: job.readings.plus_minus.nm(),
        levels_plus_minus_assumed: job.readings.plus_minus_assumed,
        rods_plus_minus_nm: job.rods_plus_minus.nm(),
        rods_plus_minus_assumed: job.rods_plus_minus_assumed,
        instruments: instruments.collect(),
        files: asked.files.names().map(str::to_owned).collect(),
    }
}

fn page(judged: &Judged<'_>, asked: &Asked<'_>, page: &Page) -> PageJson {
    let case = &judged.case;
    let of_job = case.column(page.column);
    let about = findings(judged).filter(|(_, _, it)| it.subject.columns.contains(&page.column));
    PageJson {
        mark: of_job.mark.clone(),
        question: page.question.clone(),
        column: column(case, &case.columns[page.column]),
        note: of_job.note.clone(),
        findings: about.map(|(rule, level, it)| finding(case, rule, level, it)).collect(),
        range: range::value(case, &case.columns[page.column]),
        readings: readings(case.job, asked.files, page.column),
        rods_measured: rods(judged, asked.files, page.column),
        drawing: drawing::value(case, page.column),
        engineer: EngineerJson::of(&page.engineer, &page.loads),
        options: considered::value(case, &page.considered),
        cautions: cautions(judged, Some(page)),
        answer: AnswerJson::default(),
    }
}
