//! What a crew may have done wrong, in words: a question, and what to do.

use crate::length::Rounding;
use crate::levels::{Along, RoundAmount, Slip, SlipKind};
use crate::model::Job;
use crate::text::{Style, and};

/// Says what a crew may have done wrong, its subject, a colon and the rest.
#[must_use]
pub fn slip_words(job: &Job, slip: &Slip, style: Style) -> String {
    let name = |point: usize| job.readings.points.get(point).map_or("", String::as_str);
    let names: Vec<&str> = slip.points.iter().map(|point| name(*point)).collect();
    let size = style.write(slip.size, Rounding::Nearest);
    let size = size.trim_start_matches('~');
    let setup = slip.setup.and_then(|setup| job.readings.setups.get(setup)).map(|setup| setup.name.as_str());
    let at = setup.map_or_else(String::new, |setup| format!(" from setup {setup}"));
    let line = |line: usize| job.lines.get(line).map_or("", |line| line.name.as_str());
    let subject = format!("{}{at}", and(&names));
    match &slip.kind {
        SlipKind::Misread(amount) if slip.places.len() > 1 => format!(
            "{}: one of {} readings is off by about {size}; was {} read right?",
            and(&names),
            slip.places.len(),
            of(*amount)
        ),
        SlipKind::Misread(amount) => {
            format!("{subject}: off by about {size}; was {} read right?", of(*amount))
        }
        SlipKind::OffNeighbours(amount) => format!(
            "{subject}: about {size} off both its neighbours, and nothing checks it; was {} read right?",
            of(*amount)
        ),
        SlipKind::OffTheOthers(amount) => format!(
            "{subject}: about {size} off nearly all other pads, and nothing checks it; was {} read right, or is its \
             design seat missing?",
            of(*amount)
        ),
        SlipKind::Swapped => {
            format!("{subject}: swapped, all readings would agree; were they written down for each other?")
        }
        SlipKind::SeatsSwapped => format!(
            "{subject}: each comes out at the other's design seat; were the two readings written down for each other?"
        ),
        SlipKind::WrongMark(on) => {
            let on: Vec<&str> = on.iter().map(|point| name(*point)).collect();
            format!("{subject}: the reading fits {}; did the rod stand there?", on.join(" or "))
        }
        SlipKind::Drift(Along::Time) => format!(
            "setup {}: its readings drift by {size} from the first to the last; did the instrument settle?",
            setup.unwrap_or_default()
        ),
        SlipKind::Drift(Along::Line(on)) => format!(
            "setup {}: its readings drift by {size} along line {}; was the instrument level?",
            setup.unwrap_or_default(),
            line(*on)
        ),
        SlipKind::Drift(Along::Plan) => format!(
            "setup {}: its readings lean by {size} over the plan; was the instrument level?",
            setup.unwrap_or_default()
        ),
        SlipKind::Falling(on) => format!(
            "line {}: its pads fall evenly by {size}, and nothing checks them; a tilted instrument looks the same",
            line(*on)
        ),
        SlipKind::CheckShot => {
            format!("{subject}: the check shot does not come back, by {size}; read the setup again")
        }
    }
}

/// Names an amount as a crew reads it.
const fn of(amount: RoundAmount) -> &'static str {
    match amount {
        RoundAmount::Foot => "the foot",
        RoundAmount::Inch => "the inch",
        RoundAmount::TenthOfFoot => "the tenth of a foot",
        RoundAmount::Metre => "the metre",
        RoundAmount::Decimetre => "the decimetre",
        RoundAmount::Centimetre => "the centimetre",
    }
}
