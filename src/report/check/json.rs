//! The values behind `check --format json`.

use super::compare::Compared;
use super::on_hand::{self, OnHandJson};
use super::totals::Totals;
use crate::catalog::Authority;
use crate::check::{
    Case, ColumnCase, Difference, DifferenceKind, Finding, Hold, Judged, Level, Reach, RodCase, Verdict,
};
use crate::length::Length;
use crate::model::{Interval, Share, State};
use crate::plan::{Action, Aim, StackPiece, To};
use crate::report::level_notes::pad_shapes::PadShapeJson;
use crate::report::level_notes::rod_tops::ByLevelJson;
use crate::report::planned::cost_json::OptimumJson;
use crate::report::planned::hurdle_json::{HurdleJson, hurdle};
use crate::report::setting::json::SetJson;
use serde::Serialize;
use serde_json::{Number, Value};
use std::str::FromStr;

/// What stands at the head of every answer about a plan: the job, and what the plan was to keep.
#[derive(Serialize)]
pub(in crate::report) struct HeadJson {
    format: u32,
    job: String,
    units: &'static str,
    limits: String,
    aim: Aim,
    to: To,
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    guarded: bool,
    datum: String,
}

impl HeadJson {
    /// Gives the head of answers about a plan.
    pub(in crate::report) fn of(case: &Case<'_>) -> Self {
        let job = case.job;
        Self {
            format: 1,
            job: job.name.clone(),
            units: job.units.symbol(),
            limits: job.limits.name.clone(),
            aim: case.plan.aim,
            to: case.plan.to,
            guarded: case.plan.guarded,
            datum: case.levels.datum_words(),
        }
    }
}

#[derive(Serialize)]
struct CheckJson {
    #[serde(flatten)]
    head: HeadJson,
    optimum: Option<OptimumJson>,
    columns: Vec<ColumnJson>,
    differences: Vec<DifferenceJson>,
    findings: Vec<FindingJson>,
    totals: Totals,
    #[serde(skip_serializing_if = "Option::is_none")]
    stock: Option<OnHandJson>,
    compare: Vec<Compared>,
}

/// One column as JSON has it.
#[derive(Serialize)]
pub(in crate::report) struct ColumnJson {
    mark: String,
    base: String,
    pad_nm: Option<i64>,
    plus_minus_nm: Option<i64>,
    seat_design_nm: Option<i64>,
    action: Action,
    raise_nm: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    bed_design_nm: Option<i64>,
    seat_nm: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    seat_range_nm: Option<[Option<i64>; 2]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    in_the_way: Option<HurdleJson>,
    hold: Vec<Hold>,
    may_set: bool,
    stack: Vec<PieceJson>,
    allowed_raise_nm: Option<Vec<[Option<i64>; 2]>>,
    needs_projection_nm: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pad_shape: Option<PadShapeJson>,
    rods: Vec<RodJson>,
    #[serde(flatten)]
    set: SetJson,
}

/// So many pieces of one thickness as JSON has them.
#[derive(Serialize)]
pub(in crate::report) struct PieceJson {
    thickness_nm: i64,
    count: u32,
}

#[derive(Serialize)]
struct RodJson {
    rod: String,
    projection_nm: Option<i64>,
    plus_minus_nm: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    by_level: Option<ByLevelJson>,
    beyond_nm: Option<i64>,
    beyond_worst_nm: Option<i64>,
    thread_left_nm: Option<i64>,
    engaged: Option<Vec<Number>>,
    extra_washers: u32,
    state: State,
    #[serde(skip_serializing_if = "Option::is_none")]
    levelling_thread_left_nm: Option<i64>,
}

#[derive(Serialize)]
struct DifferenceJson {
    kind: DifferenceKind,
    line: Option<String>,
    columns: Vec<String>,
    value_nm: Option<i64>,
    desired_nm: Option<i64>,
    limit_nm: i64,
    plus_minus_nm: Option<i64>,
    verdict: Verdict,
}

/// One finding as JSON has it.
#[derive(Serialize)]
pub(in crate::report) struct FindingJson {
    rule: &'static str,
    level: Level,
    columns: Vec<String>,
    rod: Option<String>,
    line: Option<String>,
    actual_nm: Option<i64>,
    limit_nm: Option<i64>,
    text: String,
    arithmetic: Vec<String>,
    source: Authority,
}

/// Gives the whole answer as a value.
pub(in crate::report) fn value(judged: &Judged<'_>, compare: Vec<Compared>) -> Value {
    let case = &judged.case;
    let json = CheckJson {
        head: HeadJson::of(case),
        optimum: case.plan.optimum.map(OptimumJson::from),
        columns: case.columns.iter().map(|column| self::column(case, column)).collect(),
        differences: case.differences.iter().map(|it| difference(case, it)).collect(),
        findings: findings(judged).map(|(rule, level, it)| finding(case, rule, level, it)).collect(),
        totals: Totals::of(case),
        stock: on_hand::value(case),
        compare,
    };
    serde_json::to_value(json).unwrap_or(Value::Null)
}

/// Gives what came out as a finding, gravest first, then in the order of rules and subjects.
pub(in crate::report) fn findings<'j>(
    judged: &'j Judged<'_>,
) -> impl Iterator<Item = (&'static str, Level, &'j Finding)> + use<'j> {
    let mut found: Vec<(&'static str, Level, &Finding)> =
        judged.findings.iter().filter_map(|(rule, it)| Some((*rule, it.level()?, it))).collect();
    found.sort_by_key(|(_, level, _)| *level);
    found.into_iter()
}

/// Gives one column.
pub(in crate::report) fn column(case: &Case<'_>, column: &ColumnCase) -> ColumnJson {
    let of_job = case.column(column.index);
    let choice = case.choice(column.index);
    ColumnJson {
        mark: of_job.mark.clone(),
        base: case.base(column.index).mark.clone(),
        pad_nm: column.pad.map(|pad| pad.elevation.nm()),
        plus_minus_nm: column.pad.map(|pad| pad.plus_minus.nm()),
        seat_design_nm: of_job.seat.or(case.job.seat).map(Length::nm),
        action: choice.action,
        raise_nm: column.raise.map(|raise| raise.nominal.nm()),
        bed_design_nm: Some(case.base(column.index).bed.nm()).filter(|bed| *bed > 0),
        seat_nm: column.seat.map(Length::nm),
        seat_range_nm: choice.seat_range.map(|(low, high)| [low.map(Length::nm), high.map(Length::nm)]),
        in_the_way: choice.hurdle.as_ref().map(|it| hurdle(case, it)),
        hold: column.hold.clone(),
        may_set: column.may_set(),
        stack: stack(&choice.stack),
        allowed_raise_nm: column.allowed.as_ref().map(|all| all.iter().copied().map(interval).collect()),
        needs_projection_nm: column.needs_projection.map(Length::nm),
        pad_shape: column.shape.as_ref().map(PadShapeJson::of),
        rods: column.rods.iter().map(|it| rod(case, column, it)).collect(),
        set: SetJson::of(case, column),
    }
}

/// Gives a stack.
pub(in crate::report) fn stack(pieces: &[StackPiece]) -> Vec<PieceJson> {
    pieces.iter().map(|it| PieceJson { thickness_nm: it.thickness.nm(), count: it.count }).collect()
}

fn interval(interval: Interval) -> [Option<i64>; 2] {
    [interval.low.map(Length::nm), interval.high.map(Length::nm)]
}

fn rod(case: &Case<'_>, column: &ColumnCase, rod: &RodCase) -> RodJson {
    let result = &rod.result;
    let base = case.base(column.index);
    let reach =
        |thread| Reach::of(base, base.levelling()?, column.raise.map(|raise| raise.nominal), rod, thread);
    RodJson {
        rod: rod.label.to_string(),
        projection_nm: rod.projection.map(Length::nm),
        plus_minus_nm: rod.projection.map(|_| rod.plus_minus.nm()),
        by_level: rod.by_level.map(ByLevelJson::from),
        beyond_nm: result.beyond.map(Length::nm),
        beyond_worst_nm: result.beyond_worst.map(Length::nm),
        thread_left_nm: result.thread_left.map(Length::nm),
        engaged: rod.projection.map(|_| result.engaged.iter().map(|it| share(*it)).collect()),
        extra_washers: result.extra_washers,
        state: result.state,
        levelling_thread_left_nm: rod.thread.and_then(reach).map(|reach| reach.left().nm()),
    }
}

/// Writes a share to six decimals, cut and never rounded up to 1.
pub(in crate::report) fn share(share: Share) -> Number {
    let whole = i128::from(share.whole.nm().max(1));
    let millionths = i128::from(share.part.nm()) * 1_000_000 / whole;
    decimal(millionths, 6)
}

/// Makes a JSON number of so many parts of a power of ten, without floating point.
pub(in crate::report) fn decimal(parts: i128, places: u32) -> Number {
    let scale = 10_i128.pow(places);
    let width = places as usize;
    let text = format!("{}.{:0width$}", parts / scale, parts % scale);
    Number::from_str(&text).unwrap_or_else(|_| Number::from(0))
}

fn difference(case: &Case<'_>, it: &Difference) -> DifferenceJson {
    DifferenceJson {
        kind: it.kind,
        line: it.line.clone(),
        columns: marks(case, &it.columns),
        value_nm: it.value.map(Length::nm),
        desired_nm: it.desired.map(Length::nm),
        limit_nm: it.limit.nm(),
        plus_minus_nm: it.plus_minus.map(Length::nm),
        verdict: it.verdict,
    }
}

/// Gives one finding.
pub(in crate::report) fn finding(
    case: &Case<'_>,
    rule: &'static str,
    level: Level,
    it: &Finding,
) -> FindingJson {
    FindingJson {
        rule,
        level,
        columns: marks(case, &it.subject.columns),
        rod: it.subject.rod.map(|rod| rod.to_string()),
        line: it.subject.line.clone(),
        actual_nm: it.actual.map(Length::nm),
        limit_nm: it.limit.map(Length::nm),
        text: it.text.clone(),
        arithmetic: it.arithmetic.clone(),
        source: it.authority.clone(),
    }
}

/// Gives the marks of columns.
pub(in crate::report) fn marks(case: &Case<'_>, columns: &[usize]) -> Vec<String> {
    case.marks(columns).into_iter().map(str::to_owned).collect()
}
