//! One page: the question, what it rests on, what could be done, the cautions, and a box for the answer.

use super::super::caution::ROD_NUMBERS;
use super::super::check::json::findings;
use super::super::document::{Document, Form, Tone};
use super::super::explain::screen::{in_the_way, judgement, pad, parts, rods, what_is_open, why_not};
use super::super::grouped::grouped;
use super::super::planned::aim::aim;
use super::super::setting;
use super::super::under::under;
use super::cautions::cautions;
use super::readings::{by_whom, readings, rod_table, rods as rods_measured, table};
use super::{Asked, Page, drawing, grave, of_the_job, question, range};
use crate::check::{ColumnCase, Judged, Level, style};
use crate::plan::Action;

/// Adds the page of the whole job.
pub(super) fn of_job(document: &mut Document, judged: &Judged<'_>, asked: &Asked<'_>, number: &str) {
    head(document, judged, asked, "The whole job", number);
    document.heading(Tone::Ask, "THE QUESTION");
    document.text(Tone::Ask, question::of_job(judged).unwrap_or_default());
    document.heading(Tone::Plain, "WHY IT IS ASKED");
    for (rule, _, finding) in of_the_job(judged) {
        judgement(document, rule, finding);
    }
    by_whom(document, judged.case.job, asked.files);
    warn(document, judged, None);
    let ticks = ["Set nothing until this is put right", "Otherwise, as written here"];
    answer(document, "the whole job", question::of_job(judged).unwrap_or_default(), &ticks);
}

/// Adds the page of a column.
pub(super) fn of_column(
    document: &mut Document,
    judged: &Judged<'_>,
    asked: &Asked<'_>,
    page: &Page,
    number: &str,
) {
    let case = &judged.case;
    let (job, column) = (case.job, &case.columns[page.column]);
    let style = style(job);
    let of_job = case.column(page.column);
    let choice = case.choice(page.column);
    let title = format!("Column {} on base {}", of_job.mark, case.base(page.column).mark);
    head(document, judged, asked, &title, number);
    document.heading(Tone::Ask, "THE QUESTION");
    document.text(Tone::Ask, page.question.clone());
    let planned = under(style, choice.action, choice.raise, &choice.stack, case.base(page.column).bed);
    document.item(Tone::Plain, "plan", format!("under the plate: {planned}"));
    if column.may_set() {
        document.item(Tone::Plain, "set", "only once the question is answered");
    } else {
        document.item(Tone::Stop, "set", format!("NO: {}", why_not(judged, column, style)));
    }
    if let Some(note) = &of_job.note {
        document.item(Tone::Plain, "note", format!("of the crew: {note}"));
    }
    if of_the_job(judged).next().is_some() {
        let words =
            "The whole job is asked about too, on a page of its own: no height here is sure before that.";
        document.text(Tone::Stop, words);
    }
    why(document, judged, page.column);
    range::section(document, case, column);
    in_the_way(document, judged, column, style);
    pad(document, judged, column, style);
    table(document, job, &readings(job, asked.files, page.column));
    rod_table(document, style, &rods_measured(judged, asked.files, page.column));
    rods_worked_out(document, judged, column);
    page.engineer.tell(document, case, column, style);
    page.loads.tell(document, style);
    drawing::section(document, case, page.column);
    setting::explained(document, case, column, style);
    parts(document, case.base(page.column), style);
    what_is_open(document, judged, column, &page.considered);
    by_whom(document, job, asked.files);
    warn(document, judged, Some(page));
    let as_planned = format!("Set as planned, under the plate: {planned}");
    let ticks: &[&str] = match choice.action {
        Action::Refer => &["Do as written here", "Do not set"],
        Action::Unmeasured => &["Do not set until the pad is read", "Otherwise, as written here"],
        _ => &[&as_planned, "Do not set until it is put right", "Otherwise, as written here"],
    };
    answer(document, &format!("column {}", of_job.mark), page.question.clone(), ticks);
}

/// Begins a page: what it is about, and of which job, limits and plan.
fn head(document: &mut Document, judged: &Judged<'_>, asked: &Asked<'_>, title: &str, number: &str) {
    let case = &judged.case;
    let job = case.job;
    document.page(title);
    let tried = asked.tried.as_ref().map(|words| format!(" {words}")).unwrap_or_default();
    document.text(
        Tone::Quiet,
        format!(
            "{}, {number}. Limits: {} ({}). {}{tried}",
            job.name,
            job.limits.title,
            job.limits.name,
            aim(case.plan, style(job))
        ),
    );
}

/// Adds the findings that ask or stop with their arithmetic and sources, then what else was noted.
fn why(document: &mut Document, judged: &Judged<'_>, column: usize) {
    let found: Vec<_> = grave(judged, column).collect();
    if !found.is_empty() {
        document.heading(Tone::Plain, "WHY IT IS ASKED, with the arithmetic");
    }
    for (rule, _, finding) in found {
        judgement(document, rule, finding);
    }
    let notes = findings(judged)
        .filter(|(_, level, it)| *level == Level::Note && it.subject.columns.contains(&column));
    let notes = grouped(notes);
    if notes.is_empty() {
        return;
    }
    document.heading(Tone::Quiet, "ALSO NOTED");
    for note in notes {
        document.item(Tone::Plain, "-", note);
    }
}

/// Adds the figures of the rods, and at which raise they stand.
fn rods_worked_out(document: &mut Document, judged: &Judged<'_>, column: &ColumnCase) {
    rods(document, judged, column, style(judged.case.job));
    document.text(Tone::Quiet, ROD_NUMBERS);
}

fn warn(document: &mut Document, judged: &Judged<'_>, page: Option<&Page>) {
    document.heading(Tone::Ask, "CAUTION, the federal rules of the United States; elsewhere the local ones");
    for caution in cautions(judged, page) {
        let source = caution.source.map_or(String::new(), |source| format!(" ({source})"));
        document.item(Tone::Plain, "-", format!("{}{source}", caution.text));
    }
}

fn answer(document: &mut Document, about: &str, question: String, ticks: &[&str]) {
    document.form(Form {
        title: format!("THE ANSWER about {about}"),
        question,
        ticks: ticks.iter().map(|it| (*it).to_owned()).collect(),
        lines: vec![("Decision", 3), ("Name", 1), ("Date", 1), ("Signature", 1)],
        foot:
            "Without a decision, a name, a date and a signature this is no answer, and nothing is set on it."
                .to_owned(),
    });
}
