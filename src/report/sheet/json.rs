//! The values behind `sheet --format json`.

use super::SheetFor;
use super::plan::{Plan, What};
use crate::model::Job;
use serde::Serialize;
use serde_json::Value;

#[derive(Serialize)]
struct SheetJson<'s> {
    format: u32,
    job: &'s str,
    units: &'static str,
    #[serde(rename = "for")]
    what: &'static str,
    lines: &'s [String],
    columns: Vec<ColumnJson<'s>>,
    setups: Vec<SetupJson<'s>>,
}

#[derive(Serialize)]
struct ColumnJson<'s> {
    mark: &'s str,
    base: &'s str,
    rods: u32,
    x_nm: Option<i64>,
    y_nm: Option<i64>,
}

#[derive(Serialize)]
struct SetupJson<'s> {
    name: &'s str,
    sights: Vec<SightJson<'s>>,
}

#[derive(Serialize)]
struct SightJson<'s> {
    point: &'s str,
    sight: &'static str,
    check: bool,
}

/// Gives the columns in walking order, and the sights of every setup.
pub(super) fn value(job: &Job, what: SheetFor, plan: &Plan) -> Value {
    let columns = plan.walk.columns.iter().map(|&index| {
        let column = &job.columns[index];
        let base = job.base_of(column);
        ColumnJson {
            mark: &column.mark,
            base: &base.mark,
            rods: base.rods.count,
            x_nm: column.at.map(|[x, _]| x.nm()),
            y_nm: column.at.map(|[_, y]| y.nm()),
        }
    });
    let setups = plan.setups.iter().map(|setup| SetupJson {
        name: &setup.name,
        sights: (setup.sights.iter())
            .map(|shot| SightJson {
                point: &shot.point,
                sight: shot.kind.short(),
                check: shot.what == What::Check,
            })
            .collect(),
    });
    let json = SheetJson {
        format: 1,
        job: &job.name,
        units: job.units.symbol(),
        what: what.name(),
        lines: &plan.walk.lines,
        columns: columns.collect(),
        setups: setups.collect(),
    };
    serde_json::to_value(json).unwrap_or(Value::Null)
}
