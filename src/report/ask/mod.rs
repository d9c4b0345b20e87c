//! Pages for the engineer: one a column that is held, referred, not measured or asked about.

mod cautions;
mod drawing;
mod json;
mod page;
mod question;
mod range;
mod readings;

use super::caution::caution;
use super::check::json::{findings, marks};
use super::check::screen::measured;
use super::check::sheet::action;
use super::document::{Answer, Document, Sheet, Tone};
use super::loads::Told;
use super::planned::aim::aim;
use super::short_rod::ForTheEngineer;
use crate::catalog::Catalog;
use crate::check::{ColumnCase, Finding, Hold, Judged, Level, style};
use crate::plan::Considered;
use crate::source::Files;
use crate::text::{and, count};
pub(super) use cautions::cautions_of;
pub(super) use readings::by_whom;
use std::collections::BTreeSet;

/// What pages are made of beside the judgement of a job.
#[derive(Debug)]
pub struct Asked<'a> {
    /// The files the job was read from.
    pub files: &'a Files,
    /// What the threads and washers at hand are looked up in.
    pub catalog: &'a Catalog,
    /// What was tried, in a sentence.
    pub tried: Option<String>,
    /// The columns whose pages are wanted; none where all are.
    pub only: Option<Vec<usize>>,
}

/// One page.
struct Page {
    /// Its column, an index into the job's.
    column: usize,
    /// The question.
    question: String,
    /// What became of every option.
    considered: Vec<Considered>,
    /// What there is to tell of rods that are not full or stand too high.
    engineer: ForTheEngineer,
    /// What there is to tell of its loads.
    loads: Told,
}

/// Makes the answer of `ask`; `considered` tells what became of every option at a column.
#[must_use]
pub fn ask_answer(
    judged: &Judged<'_>,
    asked: &Asked<'_>,
    considered: impl Fn(usize) -> Vec<Considered>,
) -> Answer {
    let of_some = open(judged).filter(|(_, _, it)| !is_of_the_job(judged, it));
    let asked_about: BTreeSet<usize> =
        of_some.flat_map(|(_, _, it)| it.subject.columns.iter().copied()).collect();
    let all: Vec<usize> = judged
        .case
        .columns
        .iter()
        .filter(|column| !is_free(judged, column) || asked_about.contains(&column.index))
        .map(|column| column.index)
        .collect();
    let (wanted, left_out): (Vec<usize>, Vec<usize>) =
        all.into_iter().partition(|index| asked.only.as_ref().is_none_or(|only| only.contains(index)));
    let pages: Vec<Page> = wanted
        .into_iter()
        .map(|column| {
            let considered = considered(column);
            let case = &judged.case;
            Page {
                column,
                question: question::of_column(judged, column),
                loads: Told::of(case, &case.columns[column], asked.catalog),
                engineer: ForTheEngineer::of(case, &case.columns[column], asked.catalog, &considered),
                considered,
            }
        })
        .collect();
    Answer {
        document: document(judged, asked, &pages, left_out.len()),
        sheet: sheet(judged, &pages),
        value: json::value(judged, asked, &pages, &left_out),
        clear: pages.is_empty() && of_the_job(judged).next().is_none(),
    }
}

/// Tells whether nothing holds a column but what is asked once, on the page of the whole job.
fn is_free(judged: &Judged<'_>, column: &ColumnCase) -> bool {
    let asked_once = judged.case.columns.len() > 1;
    let own = |hold: &Hold| !(asked_once && *hold == Hold::ConcreteStrength);
    column.raise.is_some() && !column.hold.iter().any(own)
}

/// Gives the findings about a column that ask or stop, gravest first; not those about the whole job.
fn grave<'j>(
    judged: &'j Judged<'_>,
    column: usize,
) -> impl Iterator<Item = (&'static str, Level, &'j Finding)> {
    open(judged).filter(move |(_, _, it)| it.subject.columns.contains(&column) && !is_of_the_job(judged, it))
}

/// Gives the findings that ask or stop and are about the whole job: they are asked once, not on every page.
fn of_the_job<'j>(judged: &'j Judged<'_>) -> impl Iterator<Item = (&'static str, Level, &'j Finding)> {
    open(judged).filter(|(_, _, it)| is_of_the_job(judged, it))
}

fn open<'j>(judged: &'j Judged<'_>) -> impl Iterator<Item = (&'static str, Level, &'j Finding)> {
    findings(judged).filter(|(_, level, _)| *level != Level::Note)
}

/// Tells whether a finding names no column, or all of several columns and neither a line nor a rod.
pub(super) fn is_of_the_job(judged: &Judged<'_>, finding: &Finding) -> bool {
    let subject = &finding.subject;
    let all = judged.case.columns.len();
    let every = all > 1 && subject.columns.len() == all && subject.line.is_none() && subject.rod.is_none();
    subject.columns.is_empty() || every
}

fn document(judged: &Judged<'_>, asked: &Asked<'_>, pages: &[Page], others: usize) -> Document {
    let case = &judged.case;
    let (job, style) = (case.job, style(case.job));
    let mut document = Document::default();
    document.heading(Tone::Plain, format!("{}: questions for the engineer", job.name));
    document.text(
        Tone::Quiet,
        format!("Limits: {} ({}). {}", job.limits.title, job.limits.name, aim(case.plan, style)),
    );
    document.text(Tone::Quiet, measured(job, style));
    let whole_job = of_the_job(judged).next().is_some();
    let indices: Vec<usize> = pages.iter().map(|page| page.column).collect();
    let mut named = marks(case, &indices);
    if whole_job {
        named.insert(0, "the whole job".to_owned());
    }
    let other = (others > 0)
        .then(|| format!(" {} more to ask about: leave --column away to see all.", count(others, "column")));
    let other = other.unwrap_or_default();
    if named.is_empty() {
        let about = match &asked.only {
            None => "no column is held and no finding asks or stops".to_owned(),
            Some(only) => format!("nothing asks about {}", and(&marks(case, only))),
        };
        let tone = if others == 0 { Tone::Good } else { Tone::Stop };
        document.text(tone, format!("Nothing has to be asked: {about}.{other}"));
        caution(&mut document, false);
        return document;
    }
    let words = format!("{} to be answered: {}.{other}", count(named.len(), "question"), and(&named));
    document.text(Tone::Stop, words);
    let mut number = 0;
    let mut next = || {
        number += 1;
        format!("question {number} of {}", named.len())
    };
    if whole_job {
        page::of_job(&mut document, judged, asked, &next());
    }
    for it in pages {
        page::of_column(&mut document, judged, asked, it, &next());
    }
    document
}

/// One row a page.
fn sheet(judged: &Judged<'_>, pages: &[Page]) -> Sheet {
    let case = &judged.case;
    let rows = pages.iter().map(|page| {
        let column = &case.columns[page.column];
        let hold: Vec<&str> = column.hold.iter().map(|hold| hold.name()).collect();
        let mut rules: Vec<&str> = grave(judged, page.column).map(|(rule, _, _)| rule).collect();
        rules.dedup();
        vec![
            case.column(page.column).mark.clone(),
            case.base(page.column).mark.clone(),
            action(case.choice(page.column).action).to_owned(),
            hold.join(" "),
            rules.join(" "),
            page.question.clone(),
        ]
    });
    let whole_job = question::of_job(judged).map(|question| {
        let rules: Vec<&str> = of_the_job(judged).map(|(rule, _, _)| rule).collect();
        vec![String::new(), String::new(), String::new(), String::new(), rules.join(" "), question]
    });
    let rows = whole_job.into_iter().chain(rows).collect();
    Sheet { heads: vec!["mark", "base", "action", "hold", "findings", "question"], rows }
}
