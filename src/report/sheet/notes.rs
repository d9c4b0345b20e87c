//! How to read and what to write down, in the words of the crew.

use super::SheetFor;
use super::plan::Plan;
use crate::catalog::InstrumentKind;
use crate::check::style;
use crate::length::{Length, Rounding, Unit};
use crate::model::{Job, Sense, Units};
use crate::report::caution::ROD_NUMBERS;
use crate::report::document::{Document, Tone};
use crate::text::and;

/// Says in which order the columns are walked.
pub(super) fn order(job: &Job, plan: &Plan) -> String {
    let walk = &plan.walk;
    let apart: Vec<&str> = walk.apart.iter().map(|&index| job.columns[index].mark.as_str()).collect();
    match (walk.lines.is_empty(), apart.is_empty()) {
        (true, _) => "Walking order: as the job lists the columns; none stands on a line.".to_owned(),
        (false, true) => {
            format!("Walking order: along the lines, there and back: {}.", walk.lines.join(", "))
        }
        (false, false) => format!(
            "Walking order: along the lines, there and back: {}; then {}, on no line.",
            walk.lines.join(", "),
            and(&apart)
        ),
    }
}

/// Adds how to read the pads and the rods.
pub(super) fn how(document: &mut Document, job: &Job, what: SheetFor, kinds: &[InstrumentKind]) {
    document.heading(Tone::Plain, "HOW");
    let mut say = |text: String| document.item(Tone::Plain, "-", text);
    if what != SheetFor::Rods {
        say(readings(job));
        say(format!(
            "Check shot: read the first point of the setup once more before the level is moved. If it differs by more \
             than {}, what two readings are good to, something moved: read this setup again.",
            style(job).write(two_readings(job).max(style(job).step()), Rounding::Down)
        ));
    }
    if what != SheetFor::Levels {
        say(projections(job));
        say(ROD_NUMBERS.to_owned());
        say(format!(
            "thread: full thread from the top of the rod down, {}. condition: bent, cut, damaged or whatever is seen; \
             blank means nothing is wrong.",
            unit(job.units)
        ));
    }
    say("What is not measured stays blank: a blank is not a pass, and a drawn value is no measurement."
        .to_owned());
    for kind in kinds.iter().filter(|kind| in_use(job, kind)) {
        for sentence in &kind.watch {
            say(format!("{}: {sentence}", kind.name));
        }
    }
}

fn in_use(job: &Job, kind: &InstrumentKind) -> bool {
    job.readings.instruments.iter().any(|it| it.kind.as_deref() == Some(kind.name.as_str()))
}

fn readings(job: &Job) -> String {
    let sense = match job.readings.sense {
        Sense::Rod => "as the rod shows it; a lower reading is a higher pad",
        Sense::Height => "as a height; a higher reading is a higher pad",
    };
    match job.readings.unit {
        Some(unit) => format!("reading: in {}, {sense}. Anything else with its unit.", words(unit)),
        None => {
            format!("reading: {sense}. Write the unit with every one: the job has none for bare numbers.")
        }
    }
}

fn projections(job: &Job) -> String {
    format!(
        "projection: from the surface the tape stands on up to the top of the rod, {}. The job says how high that \
         surface is above the pad (rods_origin); without it the tape stands on the pad.",
        unit(job.units)
    )
}

const fn unit(units: Units) -> &'static str {
    match units {
        Units::Inch => "in inches",
        Units::Millimetre => "in millimetres",
    }
}

const fn words(unit: Unit) -> &'static str {
    match unit {
        Unit::Inch => "inches",
        Unit::Foot => "feet",
        Unit::Millimetre => "millimetres",
        Unit::Centimetre => "centimetres",
        Unit::Metre => "metres",
    }
}

/// Gives what the difference of two readings is good to, at 95 %; the least of the instruments.
///
/// # Units
/// Whole nanometres, rounded down: a check shot is doubted sooner, not later.
fn two_readings(job: &Job) -> Length {
    let own = job.readings.instruments.iter().map(|it| it.without_sight).min();
    let one = own.unwrap_or(job.readings.plus_minus);
    let square = u128::from(one.nm().unsigned_abs()).pow(2);
    Length::from_nm(i64::try_from((2 * square).isqrt()).unwrap_or(i64::MAX))
}
