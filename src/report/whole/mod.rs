//! The report: one answer that a busy person can act on, an engineer can check, and anybody can reproduce.

mod carries;
mod findings;
mod inputs;
mod levels;
mod limits;
mod plan;
mod profile;
mod rods;
mod sections;
mod summary;
mod to_order;

use super::ask::cautions_of;
use super::caution::about_grinding;
use super::check::compare::{Compared, compared, comparison, ground_one};
use super::check::json;
use super::check::on_hand::on_hand;
use super::check::screen::{after_the_plan, measured, under_each};
use super::check::sheet::sheet;
use super::document::{Answer, Document, Tone};
use super::planned::aim::aim;
use crate::catalog::Catalog;
use crate::check::{Judged, style};
use crate::plan::{Action, Beside};
use crate::source::Files;
use serde_json::Value;

/// What a report is made of beside the judgement of a job.
#[derive(Debug)]
pub struct Told<'a> {
    /// The files the job was read from.
    pub files: &'a Files,
    /// The catalogs it was read with.
    pub catalog: &'a Catalog,
    /// The command that makes the report again.
    pub command: String,
    /// The version of the program.
    pub version: &'static str,
}

/// Makes the answer of `report`, with the plans to compare with.
#[must_use]
pub fn report_answer(judged: &Judged<'_>, beside: &[Beside], told: &Told<'_>) -> Answer {
    let compared = compared(&judged.case, beside);
    let document = document(judged, &compared, told);
    let mut value = json::value(judged, compared);
    if let Value::Object(values) = &mut value {
        values.insert("report".to_owned(), inputs::value(told, &document));
    }
    Answer { document, sheet: sheet(&judged.case), value, clear: judged.is_clear() }
}

fn document(judged: &Judged<'_>, compared: &[Compared], told: &Told<'_>) -> Document {
    let case = &judged.case;
    let (job, style) = (case.job, style(case.job));
    let mut document = Document::default();
    document.heading(Tone::Plain, job.name.clone());
    let limits = format!("Limits: {} ({}). {}", job.limits.title, job.limits.name, aim(case.plan, style));
    document.text(Tone::Quiet, limits);
    document.text(Tone::Quiet, measured(job, style));
    document.section("Summary");
    let order = to_order::order_of(case);
    summary::section(&mut document, judged, &order, style);
    document.section("Plan view");
    plan::section(&mut document, case, style);
    document.section("What goes under each column");
    under_each(&mut document, case, style);
    on_hand(&mut document, case);
    to_order::section(&mut document, case, &order, style);
    comparison(&mut document, case, compared);
    document.section("Setting, concrete and loads");
    carries::section(&mut document, case, told.catalog, style);
    document.section("Levels");
    levels::pads(&mut document, case, style);
    after_the_plan(&mut document, case, style);
    levels::differences(&mut document, case, style);
    profile::section(&mut document, case, style);
    document.section("Bases in section");
    sections::section(&mut document, judged, style);
    document.section("Every rod");
    rods::table(&mut document, case, style);
    document.section("Findings, with arithmetic and sources");
    findings::section(&mut document, judged);
    document.section("Parts and limits");
    limits::section(&mut document, case, style);
    document.section("Cautions");
    cautions(&mut document, judged, compared);
    document.section("Inputs");
    inputs::section(&mut document, job, told);
    document
}

fn cautions(document: &mut Document, judged: &Judged<'_>, compared: &[Compared]) {
    let planned = judged.case.plan.choices.iter().any(|choice| choice.action == Action::Grind);
    let grinding = planned || ground_one(compared).is_some() || about_grinding(judged, None);
    document.text(
        Tone::Plain,
        "The rules named here are federal rules of the United States; elsewhere the local ones.",
    );
    for caution in cautions_of(grinding) {
        let source = caution.source.map_or(String::new(), |source| format!(" ({source})"));
        document.item(Tone::Plain, "-", format!("{}{source}", caution.text));
    }
}
