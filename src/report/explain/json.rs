//! The values behind `explain --format json`.

use super::considered::{self, ConsideredJson};
use crate::catalog::Authority;
use crate::check::{Finding, Judged, Outcome};
use crate::length::Length;
use crate::plan::Considered;
use crate::report::check::json::{ColumnJson, column, marks};
use crate::report::loads::Told;
use crate::report::loads::bearing::BearingJson;
use crate::report::loads::shear::ShearJson;
use crate::report::short_rod::{ForTheEngineer, HighRodJson, ShortRodJson};
use serde::Serialize;
use serde_json::Value;

/// What the engineer is told of the rods and the loads at a column, where there is anything to tell.
#[derive(Serialize)]
pub(in crate::report) struct EngineerJson {
    #[serde(skip_serializing_if = "Vec::is_empty")]
    short_rods: Vec<ShortRodJson>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    high_rods: Vec<HighRodJson>,
    #[serde(skip_serializing_if = "Option::is_none")]
    bearing: Option<BearingJson>,
    #[serde(skip_serializing_if = "Option::is_none")]
    shear: Option<ShearJson>,
}

impl EngineerJson {
    /// Gives what was gathered.
    pub(in crate::report) fn of(rods: &ForTheEngineer, loads: &Told) -> Self {
        Self {
            short_rods: rods.short_json(),
            high_rods: rods.high_json(),
            bearing: loads.bearing_json(),
            shear: loads.shear_json(),
        }
    }
}

#[derive(Serialize)]
struct ExplainJson {
    format: u32,
    job: String,
    column: ColumnJson,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    options: Vec<ConsideredJson>,
    #[serde(flatten)]
    engineer: EngineerJson,
    judgements: Vec<JudgementJson>,
}

#[derive(Serialize)]
struct JudgementJson {
    rule: &'static str,
    columns: Vec<String>,
    rod: Option<String>,
    line: Option<String>,
    outcome: &'static str,
    margin_nm: Option<i64>,
    actual_nm: Option<i64>,
    limit_nm: Option<i64>,
    text: String,
    arithmetic: Vec<String>,
    source: Authority,
}

/// Gives one column and all that was judged of it.
pub(super) fn value(
    judged: &Judged<'_>,
    index: usize,
    considered: &[Considered],
    engineer: &ForTheEngineer,
    told: &Told,
) -> Value {
    let case = &judged.case;
    let about = judged.findings.iter().filter(|(_, it)| it.subject.columns.contains(&index));
    let json = ExplainJson {
        format: 1,
        job: case.job.name.clone(),
        column: column(case, &case.columns[index]),
        options: considered::value(case, considered),
        engineer: EngineerJson::of(engineer, told),
        judgements: about
            .map(|(rule, it)| JudgementJson {
                rule,
                columns: marks(case, &it.subject.columns),
                rod: it.subject.rod.map(|rod| rod.to_string()),
                line: it.subject.line.clone(),
                outcome: outcome(it),
                margin_nm: match it.outcome {
                    Outcome::Pass { margin } => margin.map(Length::nm),
                    _ => None,
                },
                actual_nm: it.actual.map(Length::nm),
                limit_nm: it.limit.map(Length::nm),
                text: it.text.clone(),
                arithmetic: it.arithmetic.clone(),
                source: it.authority.clone(),
            })
            .collect(),
    };
    serde_json::to_value(json).unwrap_or(Value::Null)
}

/// Names an outcome.
pub(super) const fn outcome(finding: &Finding) -> &'static str {
    match finding.outcome {
        Outcome::Pass { .. } => "pass",
        Outcome::Fail(_) => "fail",
        Outcome::NotApplicable(_) => "not-applicable",
        Outcome::Unknown(..) => "unknown",
    }
}
