//! One column's arithmetic, every step with its numbers and sources.

use super::considered;
use super::json::{outcome, value};
use crate::catalog::{Catalog, Extent};
use crate::check::{ColumnCase, Finding, Judged, Level, Outcome, RodCase, chain, style};
use crate::length::{Length, Rounding};
use crate::levels::Datum;
use crate::model::{Base, Condition, Rod, State};
use crate::plan::{Action, Considered, Open, all_options, judge as judge_option, options_at};
use crate::report::caution::{about_grinding, caution_to_set};
use crate::report::check::held::reasons;
use crate::report::check::json::marks;
use crate::report::check::screen::interval;
use crate::report::document::{Align, Answer, Document, Sheet, Tone, nm_cell};
use crate::report::level_notes::{pad_shapes, rod_tops};
use crate::report::loads::Told;
use crate::report::rules::source;
use crate::report::setting::{self, beds};
use crate::report::short_rod::ForTheEngineer;
use crate::report::under::under;
use crate::text::Style;

/// Makes the answer of `explain` for one column of the job.
#[must_use]
pub fn explain_answer(
    judged: &Judged<'_>,
    index: usize,
    considered: &[Considered],
    catalog: &Catalog,
) -> Answer {
    let column = &judged.case.columns[index];
    let about = || judged.findings.iter().filter(move |(_, it)| it.subject.columns.contains(&index));
    let grave = about().any(|(_, it)| it.level().is_some_and(|level| level != Level::Note));
    let engineer = ForTheEngineer::of(&judged.case, column, catalog, considered);
    let told = Told::of(&judged.case, column, catalog);
    Answer {
        document: document(judged, column, considered, &engineer, &told),
        sheet: sheet(judged, index),
        value: value(judged, index, considered, &engineer, &told),
        clear: column.may_set() && !grave,
    }
}

fn document(
    judged: &Judged<'_>,
    column: &ColumnCase,
    considered: &[Considered],
    engineer: &ForTheEngineer,
    told: &Told,
) -> Document {
    let case = &judged.case;
    let style = style(case.job);
    let mark = &case.column(column.index).mark;
    let (choice, bed) = (case.choice(column.index), case.base(column.index).bed);
    let mut document = Document::default();
    document.heading(Tone::Plain, format!("{mark} on base {}", case.base(column.index).mark));
    if let Some(note) = &case.column(column.index).note {
        document.item(Tone::Plain, "note", note.clone());
    }
    document.item(
        Tone::Plain,
        "plan",
        format!("under the plate: {}", under(style, choice.action, choice.raise, &choice.stack, bed)),
    );
    if column.may_set() {
        document.item(Tone::Good, "set", "yes");
    } else {
        document.item(Tone::Stop, "set", format!("NO: {}", why_not(judged, column, style)));
    }
    pad(&mut document, judged, column, style);
    beds::explained(&mut document, case, column, style);
    setting::explained(&mut document, case, column, style);
    parts(&mut document, case.base(column.index), style);
    rods(&mut document, judged, column, style);
    rods_allow(&mut document, column, style);
    engineer.tell(&mut document, case, column, style);
    told.tell(&mut document, style);
    in_the_way(&mut document, judged, column, style);
    what_is_open(&mut document, judged, column, considered);
    judgements(&mut document, judged, column.index);
    let tilted = about_grinding(judged, Some(column.index));
    caution_to_set(&mut document, choice.action == Action::Grind || tilted);
    document
}

/// Says in one line why a column may not be set; nothing where it may.
pub(in crate::report) fn why_not(judged: &Judged<'_>, column: &ColumnCase, style: Style) -> String {
    let mut why = match judged.case.choice(column.index).action {
        Action::Refer => vec!["no option brings it where it must be".to_owned()],
        Action::Unmeasured => vec!["pad not measured".to_owned()],
        _ => Vec::new(),
    };
    why.extend(reasons(&judged.case, column, style));
    why.join("; ")
}

/// Adds what is known of the pad.
pub(in crate::report) fn pad(
    document: &mut Document,
    judged: &Judged<'_>,
    column: &ColumnCase,
    style: Style,
) {
    let job = judged.case.job;
    document.heading(Tone::Plain, "PAD");
    let Some(pad) = column.pad else {
        document
            .text(Tone::Stop, "The pad has no elevation: it was not read, or shares no setup with the rest.");
        return;
    };
    document.text(
        Tone::Plain,
        format!(
            "pad at {} (+-{}), design seat {}; {} from its design{}",
            style.elevation(pad.elevation),
            style.write(pad.plus_minus, Rounding::Up),
            style.elevation(job.design_seat(judged.case.column(column.index))),
            style.exact(pad.departure - judged.case.zero),
            match judged.case.levels.datum() {
                Datum::Relative => ", counted from the highest pad",
                Datum::Absolute(_) => "",
            },
        ),
    );
    if let (Some(raise), Some(seat)) = (column.raise, column.seat) {
        document.text(
            Tone::Plain,
            format!(
                "seat = pad + raise = {} + {} = {}",
                style.exact(pad.elevation),
                style.exact(raise.nominal),
                style.exact(seat),
            ),
        );
    }
    pad_shapes::explained(document, column, style);
}

/// Adds the parts on a rod, each with its source.
pub(in crate::report) fn parts(document: &mut Document, base: &Base, style: Style) {
    document.heading(Tone::Plain, "PARTS");
    let row = |what: String, extent: Extent, source: String| {
        vec![what, style.exact(extent.least), style.exact(extent.nominal), style.exact(extent.most), source]
    };
    let mut rows = vec![row(
        "plate".to_owned(),
        base.plate.thickness,
        format!("tolerance {}: {}", base.plate.tolerance.kind.words(), base.plate.tolerance.text),
    )];
    for washer in &base.washers {
        let source = format!("{}: {}", washer.authority.kind.words(), washer.authority.text);
        rows.push(row(format!("washer {}", washer.series), washer.thickness, source));
    }
    for nut in &base.nuts {
        let source = format!("{}: {}", nut.authority.kind.words(), nut.authority.text);
        rows.push(row(format!("nut {}", nut.series), nut.height, source));
    }
    let sources: Vec<(String, String)> = rows.iter().map(|row| (row[0].clone(), row[4].clone())).collect();
    for row in &mut rows {
        row.pop();
    }
    document.grid(
        &[("part", Align::Wrap), ("least", Align::Right), ("nominal", Align::Right), ("most", Align::Right)],
        rows,
    );
    for (part, source) in sources {
        document.item(Tone::Quiet, part, source);
    }
}

/// Adds the figures of every rod.
pub(in crate::report) fn rods(
    document: &mut Document,
    judged: &Judged<'_>,
    column: &ColumnCase,
    style: Style,
) {
    document.heading(Tone::Plain, "RODS");
    let all: &[Rod] = &judged.case.column(column.index).rods;
    let rows = column.rods.iter().zip(all).map(|(rod, of_job)| {
        vec![
            rod.label.to_string(),
            written(rod, rod.projection, style),
            written(rod, rod.result.beyond, style),
            written(rod, rod.result.beyond_worst, style),
            written(rod, rod.result.thread_left, style),
            rod.result.extra_washers.to_string(),
            match &of_job.condition {
                Condition::Sound => state(rod.result.state).to_owned(),
                Condition::Noted(note) => format!("{note}; {}", state(rod.result.state)),
            },
        ]
    });
    document.grid(
        &[
            ("rod", Align::Left),
            ("stands", Align::Right),
            ("beyond", Align::Right),
            ("at worst", Align::Right),
            ("thread left", Align::Right),
            ("more washers", Align::Right),
            ("state", Align::Wrap),
        ],
        rows.collect(),
    );
    rod_tops::explained(document, &judged.case, column, style);
    if column.raise.is_none() {
        document.text(
            Tone::Plain,
            "No raise is planned: the figures of the rods are those of the plate left on its pad.",
        );
    }
    document.text(
        Tone::Quiet,
        "beyond = stands - raise - plate - washers - nuts, nominal; at worst with every part at its most; \
         thread left = thread - clear - (stands - raise - plate - washers), every part at its least. The rod's \
         +- comes off before a nut counts as full.",
    );
}

/// Says what the rods must stand and which raises they allow.
fn rods_allow(document: &mut Document, column: &ColumnCase, style: Style) {
    if let Some(needs) = column.needs_projection {
        document.text(
            Tone::Plain,
            format!("Every rod must stand {} or more above the pad.", style.write(needs, Rounding::Up)),
        );
    }
    document.text(Tone::Plain, raises_allowed(column, style));
}

/// Says at which raises the measured rods are full.
pub(in crate::report) fn raises_allowed(column: &ColumnCase, style: Style) -> String {
    match column.allowed.as_deref() {
        None => "No sound rod is measured, so no raise can be called good.".to_owned(),
        Some([]) => "The measured rods are full at no raise.".to_owned(),
        Some(all) => {
            let ranges: Vec<String> = all.iter().map(|it| interval(*it, style)).collect();
            format!("The measured rods are full for a raise of {}.", ranges.join(" or "))
        }
    }
}

/// Writes a figure of a rod; of one that the level read it has too many digits for a table.
pub(in crate::report) fn written(rod: &RodCase, length: Option<Length>, style: Style) -> String {
    length.map_or("?".to_owned(), |it| match rod.by_level {
        Some(_) => style.write(it, Rounding::Down),
        None => style.exact(it),
    })
}

/// Names a state in the trade's words.
pub(in crate::report) const fn state(state: State) -> &'static str {
    match state {
        State::Full => "full",
        State::Scant => "nut full, thread beyond scant",
        State::Unsure => "too close to call",
        State::Short => "nut NOT full",
        State::RunsOut => "thread runs out",
        State::Unmeasured => "not measured",
    }
}

/// Tells what stands in the way of a referred column, a line for each column of the chain.
pub(in crate::report) fn in_the_way(
    document: &mut Document,
    judged: &Judged<'_>,
    column: &ColumnCase,
    style: Style,
) {
    let Some(hurdle) = &judged.case.choice(column.index).hurdle else { return };
    document.heading(Tone::Ask, "IN THE WAY");
    for told in chain(judged.case.job, style, hurdle) {
        document.item(Tone::Plain, "-", told);
    }
}

/// Adds what could be done here, and why the rest could not: option by option where the plan says what became of each.
pub(in crate::report) fn what_is_open(
    document: &mut Document,
    judged: &Judged<'_>,
    column: &ColumnCase,
    considered: &[Considered],
) {
    if considered.is_empty() {
        options(document, judged, column, style(judged.case.job));
    } else {
        considered::options(document, &judged.case, considered);
    }
}

/// Counts what could be done here, and why the rest could not.
fn options(document: &mut Document, judged: &Judged<'_>, column: &ColumnCase, style: Style) {
    let (job, of_job) = (judged.case.job, judged.case.column(column.index));
    document.heading(Tone::Plain, "WHAT THE RODS LEAVE OPEN");
    let (every, mut grout) = (all_options(job), "grout");
    let all = options_at(job, of_job, &every);
    if job.base_of(of_job).has_bed() {
        grout = "grout bed";
    }
    for (action, words) in [
        (Action::NoShim, "left as it is"),
        (Action::Shim, "shims"),
        (Action::Grout, grout),
        (Action::Grind, "grinding"),
    ] {
        let of_kind: Vec<_> = all.iter().filter(|option| option.action == action).collect();
        if of_kind.is_empty() {
            continue;
        }
        let open: Vec<_> = of_kind
            .iter()
            .map(|option| (option.raise.nominal, judge_option(job, of_job, option)))
            .filter(|(_, open)| *open != Open::No)
            .collect();
        let held = open.iter().filter(|(_, open)| *open == Open::Held).count();
        let range = match (open.iter().map(|it| it.0).min(), open.iter().map(|it| it.0).max()) {
            (Some(low), Some(high)) if low != high => {
                format!(", {} to {}", style.exact(low), style.exact(high))
            }
            (Some(only), _) => format!(", {}", style.exact(only)),
            _ => String::new(),
        };
        let held = if held > 0 { format!(", {held} of them held") } else { String::new() };
        document.item(Tone::Plain, words, format!("{} of {} open{range}{held}", open.len(), of_kind.len()));
    }
}

fn judgements(document: &mut Document, judged: &Judged<'_>, index: usize) {
    let about = || judged.findings.iter().filter(move |(_, it)| it.subject.columns.contains(&index));
    let applies = |it: &Finding| !matches!(it.outcome, Outcome::NotApplicable(_));
    document.heading(Tone::Plain, "RULES, those not kept first");
    let mut told: Vec<&(&str, Finding)> = about().filter(|(_, it)| applies(it)).collect();
    told.sort_by_key(|(_, it)| it.level().map_or(u8::MAX, |level| level as u8));
    for (rule, finding) in told {
        judgement(document, rule, finding);
    }
    document.heading(Tone::Quiet, "RULES THAT DO NOT APPLY HERE");
    let mut last = String::new();
    for (rule, finding) in about().filter(|(_, it)| !applies(it)) {
        let line = format!("{rule} {}", said(finding));
        if line != last {
            document.item(Tone::Quiet, *rule, said(finding));
        }
        last = line;
    }
}

/// Adds one judgement with its arithmetic and its source.
pub(in crate::report) fn judgement(document: &mut Document, rule: &str, finding: &Finding) {
    let tone = match finding.level() {
        Some(Level::Stop) => Tone::Stop,
        Some(Level::Ask) => Tone::Ask,
        _ => Tone::Plain,
    };
    document.item(tone, rule, format!("{}: {}", verdict(finding), said(finding)));
    for line in &finding.arithmetic {
        document.item(Tone::Quiet, " ", line.clone());
    }
    document.item(Tone::Quiet, " ", format!("source, {}", source(&finding.authority)));
}

fn verdict(finding: &Finding) -> &'static str {
    match finding.level() {
        Some(Level::Stop) => "STOP",
        Some(Level::Ask) => "ASK",
        Some(Level::Note) => "note",
        None => "kept",
    }
}

fn said(finding: &Finding) -> String {
    match &finding.outcome {
        Outcome::NotApplicable(why) => why.clone(),
        Outcome::Unknown(_, missing) => format!("{} ({missing})", finding.text),
        _ => finding.text.clone(),
    }
}

fn sheet(judged: &Judged<'_>, index: usize) -> Sheet {
    let about = judged.findings.iter().filter(|(_, it)| it.subject.columns.contains(&index));
    let rows = about.map(|(rule, it)| {
        vec![
            (*rule).to_owned(),
            marks(&judged.case, &it.subject.columns).join(" "),
            it.subject.rod.map(|rod| rod.to_string()).unwrap_or_default(),
            outcome(it).to_owned(),
            nm_cell(it.actual),
            nm_cell(it.limit),
            it.text.clone(),
            it.authority.kind.words().to_owned(),
            it.authority.text.clone(),
        ]
    });
    Sheet {
        heads: vec![
            "rule",
            "columns",
            "rod",
            "outcome",
            "actual_nm",
            "limit_nm",
            "text",
            "standing",
            "source",
        ],
        rows: rows.collect(),
    }
}
