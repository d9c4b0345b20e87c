//! The rows that are read back once they are filled in.

use super::SheetFor;
use super::plan::Plan;
use crate::model::Job;
use crate::report::document::Sheet;

/// Gives the rows of a walk, of level notes or of rods; none for what is no one file.
pub(super) fn sheet(job: &Job, what: SheetFor, plan: &Plan) -> Sheet {
    match what {
        SheetFor::All => Sheet::default(),
        SheetFor::Walk => walk(job, plan),
        SheetFor::Levels => levels(plan),
        SheetFor::Rods => rods(job, plan),
    }
}

/// One row a column. A base is named only where there are several kinds.
fn walk(job: &Job, plan: &Plan) -> Sheet {
    let with_base = job.bases.len() > 1;
    let mut heads = vec!["mark"];
    heads.extend(with_base.then_some("base"));
    heads.extend(["reading", "low", "high", "thread", "condition", "note"]);
    let rows = plan.walk.columns.iter().map(|&index| {
        let column = &job.columns[index];
        let mut row = vec![column.mark.clone()];
        row.extend(with_base.then(|| job.base_of(column).mark.clone()));
        row.resize(heads.len(), String::new());
        row
    });
    let rows = rows.collect();
    Sheet { heads, rows }
}

/// One row a sight, the check shots among them.
fn levels(plan: &Plan) -> Sheet {
    let mut rows = Vec::new();
    for setup in &plan.setups {
        for shot in &setup.sights {
            let blank = String::new;
            rows.push(vec![
                setup.name.clone(),
                shot.point.clone(),
                shot.kind.short().to_owned(),
                blank(),
                blank(),
                blank(),
            ]);
        }
    }
    Sheet { heads: vec!["setup", "point", "sight", "reading", "distance", "spot"], rows }
}

/// One row a rod.
fn rods(job: &Job, plan: &Plan) -> Sheet {
    let mut rows = Vec::new();
    for &index in &plan.walk.columns {
        let column = &job.columns[index];
        for rod in 1..=job.base_of(column).rods.count {
            let blank = String::new;
            rows.push(vec![column.mark.clone(), rod.to_string(), blank(), blank(), blank()]);
        }
    }
    Sheet { heads: vec!["column", "rod", "projection", "thread", "condition"], rows }
}
