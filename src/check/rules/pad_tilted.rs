//! A pad falls more across the plate than a flat shim may bridge.

use super::subjects::{does_not_apply, each_column, house_rule, mark};
use super::wording::{some_of, term};
use super::{Rule, style};
use crate::catalog::Limit;
use crate::check::case::{Case, ColumnCase};
use crate::check::finding::{Finding, Level, Outcome, Subject};
use crate::length::{Length, Rounding};
use crate::levels::PadShape;
use crate::plan::Action;
use crate::text::{Relation, Style};

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "pad-tilted",
    about: "pads that were read at several places",
    checks: "highest place - lowest place, and the fall of the plane through them across the plate, keep the limit",
    why: "under a flat shim a tilted pad carries the column on one edge: the plate bends and the pad spalls",
    limit: |limits, style| {
        let tilt = limits.pad.as_ref()?.tilt.as_ref()?;
        Some((format!("{} under a flat shim", style.exact(tilt.value)), tilt.authority.clone()))
    },
    judge,
};

fn limit<'a>(case: &Case<'a>) -> Option<&'a Limit<Length>> {
    case.job.limits.tables.pad.as_ref()?.tilt.as_ref()
}

/// Tells whether a bed of grout or grinding takes the fall up.
const fn is_taken_up(action: Action) -> bool {
    matches!(action, Action::Grout | Action::Grind)
}

/// Judges one pad by its fall; `at_most` is the fall with its +-.
fn outcome(fall: Length, at_most: Length, limit: Length, action: Action) -> Outcome {
    match (fall > limit, at_most > limit) {
        (true, _) if is_taken_up(action) => Outcome::Fail(Level::Note),
        (true, _) => Outcome::Fail(Level::Ask),
        (false, true) => Outcome::Fail(Level::Note),
        (false, false) => Outcome::Pass { margin: Some(limit - fall) },
    }
}

fn judge(case: &Case<'_>) -> Vec<Finding> {
    let limit = limit(case);
    each_column(case, |case, column| {
        let missing = &column.places_without_height;
        let (outcome, text) = match (limit, &column.shape) {
            (None, _) => no_limit(case, column),
            (Some(limit), Some(shape)) => shaped(case, column, shape, limit.value),
            (Some(_), None) if missing.is_empty() => nothing_to_say(case, column),
            (Some(_), None) => unknown(case, column),
        };
        let shape = column.shape.as_ref().filter(|_| limit.is_some());
        Finding {
            subject: Subject::column(column.index),
            outcome,
            actual: shape.map(|shape| shape.counts().value),
            limit: shape.and(limit).map(|limit| limit.value),
            text,
            arithmetic: shape.zip(limit).map_or_else(Vec::new, |it| arithmetic(case, it.0, it.1.value)),
            authority: limit.map_or_else(
                || house_rule("a limit that is not set does not apply"),
                |limit| limit.authority.clone(),
            ),
        }
    })
}

fn no_limit(case: &Case<'_>, column: &ColumnCase) -> (Outcome, String) {
    let why = "no limit is set for the fall of a pad";
    (does_not_apply(why), format!("{}: {why}", mark(case, column)))
}

fn nothing_to_say(case: &Case<'_>, column: &ColumnCase) -> (Outcome, String) {
    let why = "its pad was read at one place at most";
    (does_not_apply(why), format!("{}: {why}", mark(case, column)))
}

/// Tells of a pad some of whose places were not read, or share no point with the rest.
fn unknown(case: &Case<'_>, column: &ColumnCase) -> (Outcome, String) {
    let words: Vec<&str> = column.places_without_height.iter().map(String::as_str).collect();
    let words = some_of(&words);
    let text = format!(
        "{}: how its pad falls is not known, {words} was not read or shares no point with the rest; read it",
        mark(case, column),
    );
    (Outcome::Unknown(Level::Ask, format!("the height of {words}")), text)
}

fn shaped(case: &Case<'_>, column: &ColumnCase, shape: &PadShape, limit: Length) -> (Outcome, String) {
    let action = case.choice(column.index).action;
    let fall = shape.counts();
    let outcome = outcome(fall.value, shape.at_most(), limit, action);
    let known_to_fail = matches!(outcome, Outcome::Fail(Level::Ask));
    if !column.places_without_height.is_empty() && !known_to_fail {
        return unknown(case, column);
    }
    let style = style(case.job);
    let shown = style.pair(fall.value, limit, Relation::AtMost);
    let falls = format!("{}: its pad falls {} {}", mark(case, column), shown.value, from_to(shape));
    let text = match (&outcome, is_taken_up(action)) {
        (Outcome::Fail(Level::Ask), _) => format!(
            "{falls}, {} is the most under a flat shim; ask the engineer: {}",
            shown.limit,
            mends(case, fall.value, style).join(", or ")
        ),
        (Outcome::Fail(_), taken_up) if fall.value > limit => {
            let (how, rounding) = match (taken_up, action) {
                (true, Action::Grout) => ("grout", Rounding::Down),
                _ => ("grinding", Rounding::Up),
            };
            let plate = case.choice(column.index).raise.unwrap_or(Length::ZERO);
            let (high, low) = under_high_and_low(column, shape, plate, action);
            format!(
                "{falls}; the {how} planned is {} at {} and {} at {}",
                style.write(high, rounding),
                word(shape, shape.high),
                style.write(low, rounding),
                word(shape, shape.low)
            )
        }
        (Outcome::Fail(_), _) => format!(
            "{falls}, {} is the most under a flat shim: too close to call within +-{}; read it again",
            shown.limit,
            style.write(widest(shape, limit), Rounding::Up)
        ),
        _ => format!("{falls}, {} is the most under a flat shim", shown.limit),
    };
    (outcome, text)
}

/// Gives the +- that takes the fall out of its limit: of the fall that counts, or of the other one.
fn widest(shape: &PadShape, limit: Length) -> Length {
    let counts = shape.counts();
    if counts.value + counts.plus_minus > limit {
        return counts.plus_minus;
    }
    shape.across.map_or(shape.fall.plus_minus, |across| across.plus_minus.max(shape.fall.plus_minus))
}

/// Gives how thick a bed, or how deep the grinding, comes out at the highest and at the lowest place.
fn under_high_and_low(
    column: &ColumnCase,
    shape: &PadShape,
    raise: Length,
    action: Action,
) -> (Length, Length) {
    let pad = column.pad.map_or(Length::ZERO, |pad| pad.elevation);
    let under = |place: usize| {
        let bed = pad + raise - shape.places[place].elevation;
        if action == Action::Grind { -bed } else { bed }
    };
    (under(shape.high), under(shape.low))
}

fn word(shape: &PadShape, place: usize) -> &str {
    shape.places.get(place).map_or("", |place| place.word.as_str())
}

/// Says between which places it falls: `from NE to SW`, `across the plate, NE high and SW low`.
fn from_to(shape: &PadShape) -> String {
    let (high, low) = (word(shape, shape.high), word(shape, shape.low));
    if shape.counts() == shape.fall {
        format!("from {high} to {low}")
    } else {
        format!("across the plate, {high} high and {low} low")
    }
}

/// Says what would mend a fall: a bed of grout, and grinding the high side.
fn mends(case: &Case<'_>, fall: Length, style: Style) -> Vec<String> {
    let tables = &case.job.limits.tables;
    let over = |over: bool, most: Length| {
        if over { format!(" (over the {} allowed)", style.exact(most)) } else { String::new() }
    };
    let mut mends = Vec::new();
    if let Some(grout) = &tables.grout {
        let thick = grout.least.value + fall;
        mends.push(format!(
            "grout {} to {}{}",
            style.exact(grout.least.value),
            style.write(thick, Rounding::Up),
            over(thick > grout.most.value, grout.most.value)
        ));
    }
    if let Some(grind) = &tables.grind {
        mends.push(format!(
            "grind {}{}, silica dust",
            style.write(fall, Rounding::Up),
            over(fall > grind.most.value, grind.most.value)
        ));
    }
    if mends.is_empty() {
        mends.push("a bed of grout, or grinding".to_owned());
    }
    mends
}

fn arithmetic(case: &Case<'_>, shape: &PadShape, limit: Length) -> Vec<String> {
    let style = style(case.job);
    let height = |place: usize| shape.places.get(place).map_or(Length::ZERO, |place| place.elevation);
    let (high, low) = (height(shape.high), height(shape.low));
    let good_to = |length: Length| style.write(length, Rounding::Up);
    let mut lines = vec![
        format!("{} - {}", word(shape, shape.high), word(shape, shape.low)),
        format!(
            "{} - {} = {} (+-{})",
            style.exact(high),
            term(low, style),
            style.exact(shape.fall.value),
            good_to(shape.fall.plus_minus)
        ),
    ];
    if let Some(across) = shape.across {
        let how = if shape.plane.is_some() { "the plane that fits best" } else { "the line through them" };
        lines.push(format!(
            "{how} falls {} across the plate, corner to corner (+-{})",
            style.exact(across.value),
            good_to(across.plus_minus)
        ));
    }
    let fall = shape.counts().value;
    let shown = style.pair(fall, limit, Relation::AtMost);
    lines.push(format!("{} against {}", shown.value, shown.limit));
    if fall > limit {
        lines.extend(mending(case, fall, word(shape, shape.high), style));
    }
    lines
}

/// Works out what would mend a fall, with what its limits say.
fn mending(case: &Case<'_>, fall: Length, high: &str, style: Style) -> Vec<String> {
    let tables = &case.job.limits.tables;
    let mut lines = Vec::new();
    if let Some(grout) = &tables.grout {
        let thick = grout.least.value + fall;
        let shown = style.pair(thick, grout.most.value, Relation::AtMost);
        lines.push(format!(
            "a bed of grout: {} at {high} + {} of fall = {} at the low side, against {} at most",
            style.exact(grout.least.value),
            style.exact(fall),
            shown.value,
            shown.limit
        ));
    }
    if let Some(grind) = &tables.grind {
        let shown = style.pair(fall, grind.most.value, Relation::AtMost);
        lines.push(format!(
            "grinding: {} deep at {high}, against {} at most; silica dust (29 CFR 1926.1153), cover and bars are the \
             engineer's decision",
            shown.value, shown.limit
        ));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::super::fixture::{
        SIXTEENTH, add_spots, clean_job, findings, findings_under, leave, nm, set_pad, told,
    };
    use super::*;
    use crate::model::Job;
    use crate::plan::Plan;

    /// A1 read at its four corners, in sixteenths, and in the middle at their mean, each good to so many nanometres.
    fn corners(sixteenths: [i64; 4], plus_minus: i64) -> Job {
        let mut job = clean_job();
        let words = ["NW", "NE", "SE", "SW"];
        let spots: Vec<(&str, i64)> = words.into_iter().zip(sixteenths.map(|it| it * SIXTEENTH)).collect();
        add_spots(&mut job, 0, &spots, plus_minus);
        set_pad(&mut job, 0, sixteenths.iter().sum::<i64>() * SIXTEENTH / 4);
        job.readings.elevations[0].plus_minus = nm(plus_minus);
        job
    }

    fn found(job: &Job, change: impl FnOnce(&mut Plan)) -> Finding {
        let found = findings_under(job, &RULE, change);
        assert!(matches!(found[1].outcome, Outcome::NotApplicable(_)), "A2 is read at one place");
        found.into_iter().next().unwrap()
    }

    #[test]
    fn a_pad_that_falls_more_than_the_limit_is_asked_about_with_what_would_mend_it() {
        let found = found(&corners([0, 2, 3, 1], 0), leave);
        assert_eq!((found.actual, found.limit), (Some(nm(3 * SIXTEENTH)), Some(nm(SIXTEENTH))));
        assert_eq!(
            found.text,
            "A1: its pad falls 3/16\" from SE to NW, 1/16\" is the most under a flat shim; ask the engineer: \
             grout 1\" to 1-3/16\", or grind 3/16\" (over the 1/8\" allowed), silica dust"
        );
        assert_eq!(found.outcome, Outcome::Fail(Level::Ask));
        assert!(found.arithmetic.iter().any(|line| line.contains("1926.1153")), "{:?}", found.arithmetic);
    }

    #[test]
    fn exactly_the_limit_is_kept_and_a_nanometre_more_is_not() {
        let exact = found(&corners([0, 0, 1, 1], 0), leave);
        assert_eq!(exact.outcome, Outcome::Pass { margin: Some(Length::ZERO) });
        let mut job = corners([0, 0, 1, 1], 0);
        job.limits.tables.pad.as_mut().unwrap().tilt.as_mut().unwrap().value = nm(SIXTEENTH - 1);
        let over = found(&job, leave);
        assert_eq!(over.outcome, Outcome::Fail(Level::Ask));
        assert!(over.text.contains("~0.063\" from SE to NW, ~0.062\" is"), "{}", over.text);
    }

    #[test]
    fn a_fall_that_its_plus_minus_takes_over_the_limit_is_noted() {
        let found = found(&corners([0, 0, 0, 0], SIXTEENTH), leave);
        assert_eq!(found.outcome, Outcome::Fail(Level::Note));
        assert!(found.text.contains("too close to call within +-"), "{}", found.text);
    }

    #[test]
    fn grout_and_grinding_take_a_fall_up_and_are_told_with_what_that_makes() {
        for (action, raise, wanted) in [
            (Action::Grout, 16, "the grout planned is ~7/8\" at SE and ~1-1/16\" at NW"),
            (Action::Grind, -2, "the grinding planned is ~1/4\" at SE and ~1/16\" at NW"),
        ] {
            let found = found(&corners([0, 2, 3, 1], 0), |plan| {
                plan.choices[0].action = action;
                plan.choices[0].raise = Some(nm(raise * SIXTEENTH));
            });
            assert_eq!(found.outcome, Outcome::Fail(Level::Note));
            assert!(found.text.ends_with(wanted), "{}", found.text);
        }
    }

    #[test]
    fn a_referred_pad_is_asked_about_too() {
        let found = found(&corners([0, 2, 3, 1], 0), |plan| {
            plan.choices[0].action = Action::Refer;
            plan.choices[0].raise = None;
        });
        assert_eq!(found.outcome, Outcome::Fail(Level::Ask));
    }

    #[test]
    fn a_place_without_a_height_is_no_pass() {
        let mut job = corners([0, 0, 0, 0], 0);
        let spot = job.readings.spots[3].point;
        job.readings.elevations.retain(|it| it.point != spot);
        let found = found(&job, leave);
        assert!(matches!(found.outcome, Outcome::Unknown(Level::Ask, _)), "{found:?}");
        assert!(found.text.contains("not known, SW was not read or shares no point"), "{}", found.text);
    }

    #[test]
    fn without_a_limit_nothing_is_compared() {
        let mut job = corners([0, 2, 3, 1], 0);
        job.limits.tables.pad = None;
        assert_eq!(told(&findings(&job, &RULE)), [None, None]);
    }
}
