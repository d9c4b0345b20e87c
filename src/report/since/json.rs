//! The value of the key `since`.

use super::super::check::json::{FindingJson, PieceJson, finding, stack};
use super::Against;
use super::why::why;
use crate::check::{ColumnChange, Hold, Judged, RodChange, StillFits, Why, stack_of, style};
use crate::length::Length;
use crate::model::{EarlierFinding, State};
use crate::order::{
    FastenerKind, LevellingSince, PacksSince, hardware, levelling_since, packs_not_known, packs_since,
    shims_since, washers_since,
};
use crate::plan::Action;
use serde::Serialize;
use serde_json::Value;

#[derive(Serialize)]
struct SinceJson<'s> {
    file: &'s str,
    job: &'s str,
    other_job: bool,
    changed: bool,
    fits: StillFits,
    datum: &'s str,
    /// The column that counts as not moved.
    moved_from: Option<&'s str>,
    planned: Vec<PlannedJson<'s>>,
    added: Vec<&'s str>,
    removed: Vec<&'s str>,
    columns: Vec<ColumnJson<'s>>,
    pieces: Vec<NeedJson>,
    washers: Vec<NeedJson>,
    packs: Vec<NeedJson>,
    /// Columns whose packs are not known, then or now.
    packs_not_known: Vec<String>,
    levelling: Vec<NeedJson>,
    pieces_suffice: bool,
    came: Vec<FindingJson>,
    went: Vec<WentJson<'s>>,
}

#[derive(Serialize)]
struct PlannedJson<'s> {
    what: &'s str,
    then: &'s str,
    now: &'s str,
}

#[derive(Serialize)]
struct ColumnJson<'s> {
    mark: &'s str,
    changed: bool,
    base_then: &'s str,
    pad_then_nm: Option<i64>,
    pad_then_plus_minus_nm: Option<i64>,
    moved_nm: Option<i64>,
    moved_plus_minus_nm: Option<i64>,
    moved_for_sure: Option<bool>,
    action_then: Action,
    raise_then_nm: Option<i64>,
    stack_then: Vec<PieceJson>,
    hold_then: &'s [String],
    might_be_set_then: bool,
    fits: StillFits,
    /// Why the earlier plan would be held now.
    hold_now: Vec<Hold>,
    fits_not: Vec<String>,
    rods: Vec<RodJson>,
}

#[derive(Serialize)]
struct RodJson {
    rod: String,
    projection_then_nm: Option<i64>,
    plus_minus_then_nm: Option<i64>,
    projection_nm: Option<i64>,
    state_then: Option<State>,
    state: Option<State>,
    extra_washers_then: Option<u32>,
    extra_washers: Option<u32>,
}

#[derive(Serialize)]
struct NeedJson {
    base: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    thickness_nm: Option<i64>,
    /// The sides of a piece of a pack.
    #[serde(skip_serializing_if = "Option::is_none")]
    size_nm: Option<[i64; 2]>,
    /// Which nut or washer.
    #[serde(skip_serializing_if = "Option::is_none")]
    part: Option<String>,
    then: u32,
    now: u32,
    missing: u32,
    left_over: u32,
}

#[derive(Serialize)]
struct WentJson<'s> {
    rule: &'s str,
    level: &'s str,
    columns: &'s [String],
    rod: Option<&'s str>,
    line: Option<&'s str>,
    text: &'s str,
}

/// Gives the value.
pub(super) fn value(now: &Judged<'_>, against: &Against<'_>) -> Value {
    let since = against.since;
    let case = &now.case;
    let mark = |index: usize| case.column(index).mark.as_str();
    let rows = hardware(case);
    let pieces: Vec<NeedJson> = (shims_since(&rows, since.earlier).into_iter())
        .map(|it| NeedJson::of(it.base, Some(it.thickness), it.counts))
        .collect();
    let washers: Vec<NeedJson> = (washers_since(case.job, &rows, since.earlier).into_iter())
        .map(|it| NeedJson::of(it.base, None, it.counts))
        .collect();
    let pack = |it: PacksSince| NeedJson {
        size_nm: it.size.map(|size| size.map(Length::nm)),
        ..NeedJson::of(it.base, Some(it.thickness), it.counts)
    };
    let packs: Vec<NeedJson> = packs_since(&rows, since.earlier).into_iter().map(pack).collect();
    let packs_not_known = packs_not_known(&rows, since.earlier);
    let part = |it: LevellingSince| {
        let kind = if it.kind == FastenerKind::Nut { "nut" } else { "washer" };
        NeedJson { part: Some(format!("{kind} {}", it.series)), ..NeedJson::of(it.base, None, it.counts) }
    };
    let levelling: Vec<NeedJson> = levelling_since(&rows, since.earlier).into_iter().map(part).collect();
    let mut needs = pieces.iter().chain(&washers).chain(&packs).chain(&levelling);
    let came = since.came.iter().filter_map(|&at| now.findings.get(at));
    let json = SinceJson {
        file: &since.earlier.file,
        job: &since.earlier.job,
        other_job: since.other_job,
        changed: since.changed(),
        fits: since.fit,
        datum: &since.earlier.datum,
        moved_from: since.from.map(mark),
        planned: since.planned.iter().map(|(what, then, now)| PlannedJson { what, then, now }).collect(),
        added: since.added.iter().map(|&index| mark(index)).collect(),
        removed: since.removed.iter().map(|column| column.mark.as_str()).collect(),
        columns: since.columns.iter().map(|change| column(against, change)).collect(),
        pieces_suffice: needs.all(|it| it.missing == 0) && packs_not_known.is_empty(),
        pieces,
        washers,
        packs,
        packs_not_known,
        levelling,
        came: came.filter_map(|(rule, it)| Some(finding(case, rule, it.level()?, it))).collect(),
        went: since.went.iter().map(|it| went(it)).collect(),
    };
    serde_json::to_value(json).unwrap_or(Value::Null)
}

fn column<'s>(against: &'s Against<'_>, change: &'s ColumnChange<'_>) -> ColumnJson<'s> {
    let case = &against.then.case;
    let style = style(case.job);
    let before = change.before;
    let held = |why: &Why| if let Why::Held(hold) = why { Some(*hold) } else { None };
    ColumnJson {
        mark: &before.mark,
        changed: change.changed(),
        base_then: &before.base,
        pad_then_nm: before.pad.map(Length::nm),
        pad_then_plus_minus_nm: before.plus_minus.map(Length::nm),
        moved_nm: change.moved.map(|moved| moved.by.nm()),
        moved_plus_minus_nm: change.moved.and_then(|moved| moved.plus_minus).map(Length::nm),
        moved_for_sure: change.moved.and_then(crate::check::Moved::for_sure),
        action_then: before.action,
        raise_then_nm: before.raise.map(Length::nm),
        stack_then: stack(&stack_of(before)),
        hold_then: &before.hold,
        might_be_set_then: before.may_set,
        fits: change.fit,
        hold_now: change.why.iter().filter_map(held).collect(),
        fits_not: change.why.iter().map(|it| why(case, change.index, *it, style)).collect(),
        rods: change.rods.iter().map(rod).collect(),
    }
}

fn rod(change: &RodChange<'_>) -> RodJson {
    let (then, now) = (change.before, change.now);
    RodJson {
        rod: change.label.to_string(),
        projection_then_nm: then.and_then(|rod| rod.projection).map(Length::nm),
        plus_minus_then_nm: then.and_then(|rod| rod.plus_minus).map(Length::nm),
        projection_nm: now.and_then(|rod| rod.projection).map(Length::nm),
        state_then: then.map(|rod| rod.state),
        state: now.map(|rod| rod.state),
        extra_washers_then: then.map(|rod| rod.extra_washers),
        extra_washers: now.map(|rod| rod.extra_washers),
    }
}

impl NeedJson {
    fn of(base: String, thickness: Option<Length>, counts: crate::order::Counts) -> Self {
        Self {
            base,
            thickness_nm: thickness.map(Length::nm),
            size_nm: None,
            part: None,
            then: counts.then,
            now: counts.now,
            missing: counts.missing(),
            left_over: counts.left(),
        }
    }
}

fn went(it: &EarlierFinding) -> WentJson<'_> {
    WentJson {
        rule: &it.rule,
        level: &it.level,
        columns: &it.columns,
        rod: it.rod.as_deref(),
        line: it.line.as_deref(),
        text: &it.text,
    }
}
