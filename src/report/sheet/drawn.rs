//! What is drawn on the sheet: the walk over the plan, and how the rods of each kind of base are numbered.

use crate::check::style;
use crate::draw::{
    Apart, Join, Look, PlanColumn, PlanData, PlanLine, PlanSheet, RodPlaces, RodPlan, plan_views, rod_plans,
};
use crate::model::{Base, Job, OutlineUnknown, PlateOutline, Walk};
use crate::report::document::{Document, Figure};
use crate::text::{and, count};

/// Most steps to another part that are told one by one.
const TOLD: usize = 12;

/// Adds the walk over the plan.
pub(super) fn plan(document: &mut Document, job: &Job, walk: &Walk) {
    let data = data(job, walk);
    let sheets = plan_views(&data, style(job));
    let parts: Vec<Vec<usize>> = sheets.iter().map(|sheet| sheet.columns.clone()).collect();
    let is_drawn = |column: &usize| parts.iter().any(|part| part.contains(column));
    let missing: Vec<usize> = walk.columns.iter().copied().filter(|it| !is_drawn(it)).collect();
    let last = sheets.len().saturating_sub(1);
    for (number, sheet) in sheets.into_iter().enumerate() {
        let mut figure = walked(job, walk, sheet, (number, &parts));
        if number == last && !missing.is_empty() {
            let words = format!("Not drawn, since where they stand is not given: {}.", marks(job, &missing));
            figure.notes.push(words);
        }
        document.figure(figure);
    }
}

fn marks(job: &Job, columns: &[usize]) -> String {
    let all: Vec<&str> = columns.iter().map(|&it| job.columns[it].mark.as_str()).collect();
    and(&all)
}

fn data(job: &Job, walk: &Walk) -> PlanData {
    let last = walk.columns.len();
    let number = |column: usize| walk.columns.iter().position(|&it| it == column).map(|it| it + 1);
    let columns = job.columns.iter().enumerate().map(|(index, column)| PlanColumn {
        mark: column.mark.clone(),
        at: column.at,
        under: match number(index) {
            Some(1) => "no. 1, start".to_owned(),
            Some(number) if number == last => format!("no. {number}, end"),
            Some(number) => format!("no. {number}"),
            None => String::new(),
        },
        look: Look::Blank,
        held: false,
    });
    let mut joins: Vec<Join> = Vec::new();
    for pair in job.lines.iter().flat_map(|line| line.columns.windows(2)) {
        let same = |it: &Join| [it.from, it.to] == *pair || [it.to, it.from] == *pair;
        if !joins.iter().any(same) {
            joins.push(Join { from: pair[0], to: pair[1], apart: Apart::Blank, words: None });
        }
    }
    let lines = job.lines.iter().map(|line| PlanLine {
        name: line.name.clone(),
        columns: line.columns.clone(),
        spacing: line.spacing.clone(),
    });
    PlanData { columns: columns.collect(), joins, lines: lines.collect(), walk: walk.columns.clone() }
}

fn walked(job: &Job, walk: &Walk, sheet: PlanSheet, (number, parts): (usize, &[Vec<usize>])) -> Figure {
    let part = match parts.len() {
        1 => String::new(),
        many => format!(", part {} of {many}", number + 1),
    };
    let mut notes = vec![match (sheet.to_scale, sheet.along_to_scale) {
        (true, _) => "To scale; x to the right, y up, as the job has positions.".to_owned(),
        (false, true) => {
            "Positions are not given: lines stand one under the other, distances along a line to scale. A \
                          column stands on each of its lines; it is read once."
                .to_owned()
        }
        (false, false) => {
            "Neither positions nor all distances are given: lines stand one under the other, not to scale. \
                           A column stands on each of its lines; it is read once."
                .to_owned()
        }
    }];
    if !sheet.to_scale {
        notes.push(
            "Arrows are drawn along lines only; from one line to the next the numbers tell the way."
                .to_owned(),
        );
    } else {
        notes.extend(to_other_parts(job, walk, number, parts));
    }
    for (columns, words) in [
        (&sheet.crowded, "So near each other that their symbols lie on each other at this scale"),
        (&sheet.unlabelled, "Left without a label, for want of room; their numbers stand in the table below"),
    ] {
        if !columns.is_empty() {
            notes.push(format!("{words}: {}.", marks(job, columns)));
        }
    }
    if !sheet.unnamed.is_empty() {
        let names: Vec<&str> = sheet.unnamed.iter().map(|&line| job.lines[line].name.as_str()).collect();
        notes.push(format!("Lines not named on the drawing, for want of room: {}.", and(&names)));
    }
    let alt = format!(
        "Plan of {} with their numbers in walking order, which the table below lists too.",
        count(sheet.columns.len(), "column")
    );
    Figure {
        title: format!("The walk{part}"),
        alt,
        picture: sheet.picture,
        notes,
        beside: false,
        only_drawn: true,
    }
}

/// Says where the walk comes from and goes to where that is another part.
fn to_other_parts(job: &Job, walk: &Walk, number: usize, parts: &[Vec<usize>]) -> Option<String> {
    let on = |column: usize| parts.iter().position(|part| part.contains(&column));
    let steps: Vec<String> = (1..)
        .zip(walk.columns.windows(2))
        .filter_map(|(first, pair)| {
            let [from, to] = [on(pair[0])?, on(pair[1])?];
            let [here, there] = [pair[0], pair[1]].map(|it| job.columns[it].mark.as_str());
            match (from == number, to == number) {
                (true, false) => Some(format!(
                    "from {here} (no. {first}) to {there} (no. {}) on part {}",
                    first + 1,
                    to + 1
                )),
                (false, true) => Some(format!(
                    "from {here} (no. {first}) on part {} to {there} (no. {})",
                    from + 1,
                    first + 1
                )),
                _ => None,
            }
        })
        .collect();
    let rest = steps.len().saturating_sub(TOLD);
    let more = if rest > 0 { format!("; and {rest} more steps") } else { String::new() };
    let told = steps.iter().take(TOLD).map(String::as_str).collect::<Vec<_>>().join("; ");
    (!steps.is_empty()).then(|| format!("Between the parts the walk goes {told}{more}."))
}

/// Adds how the rods of each kind of base are numbered.
pub(super) fn rods(document: &mut Document, job: &Job) {
    let used = |base: &Base| job.columns.iter().any(|column| job.base_of(column).mark == base.mark);
    let bases: Vec<RodPlan> =
        job.bases.iter().filter(|base| used(base)).map(|base| rod_plan(job, base)).collect();
    for picture in rod_plans(&bases) {
        let alt = "Plans of the plates with their rods: rod 1 stands at the north-west, the others follow clockwise.";
        let mut notes = vec![
            "Each plate to its own scale. North is that of the plan: on a plate that the drawings turn, rod 1 is still \
             the one at the plan's north-west."
                .to_owned(),
        ];
        if bases.iter().any(|base| base.places == RodPlaces::Corners) {
            notes.push(
                "Not to scale: the job lacks the size of the plate, its holes or the spacing of its rods; they are shown at \
                 its corners. Hold it against the drawing."
                    .to_owned(),
            );
        }
        if bases.iter().any(|base| base.places == RodPlaces::Unknown) {
            notes.push(
                "Where a job cannot say where rods stand, sketch them and number them clockwise from the plan's \
                 north-west: whoever reads this sheet must find the same rod."
                    .to_owned(),
            );
        }
        let title = "How the rods are numbered".to_owned();
        document.figure(Figure {
            title,
            alt: alt.to_owned(),
            picture,
            notes,
            beside: false,
            only_drawn: true,
        });
    }
}

fn rod_plan(job: &Job, base: &Base) -> RodPlan {
    let style = style(job);
    let rods = count(usize::try_from(base.rods.count).unwrap_or(0), "rod");
    let clash = |missing: &[OutlineUnknown]| missing.contains(&OutlineUnknown::Clash);
    let places = match PlateOutline::of(base) {
        Ok(outline) if base.rods.count > 0 => RodPlaces::Known(outline),
        Err(missing) if base.rods.count == 4 && !clash(&missing) => RodPlaces::Corners,
        _ => RodPlaces::Unknown,
    };
    let apart = base.rods.pattern.filter(|_| base.rods.count == 4);
    let apart = apart.map_or(String::new(), |[a, b]| format!(", {} x {}", style.exact(a), style.exact(b)));
    RodPlan {
        title: format!("base {}", base.mark),
        words: format!("{rods} {}{apart}", base.rods.size),
        places,
    }
}
