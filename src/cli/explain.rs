//! `rodreach explain`.

use super::Refusal;
use super::args::ExplainArgs;
use super::planned::Planned;
use super::print;
use crate::report::explain_answer;
use crate::source::nearest;

/// Runs the command and tells whether the column may be set and nothing about it asks or stops.
pub(super) fn run(args: &ExplainArgs) -> Result<bool, Refusal> {
    let planned = Planned::read(&args.job, &args.plan)?;
    let judged = planned.judged();
    let columns = &judged.case.job.columns;
    let found = columns.iter().position(|column| column.mark == args.mark);
    let index = found.ok_or_else(|| {
        let marks = columns.iter().map(|column| column.mark.as_str());
        Refusal(match nearest(&args.mark, marks) {
            Some(near) => format!("there is no column {}; did you mean {near}?", args.mark),
            None => format!("there is no column {} in this job", args.mark),
        })
    })?;
    let mut answer = explain_answer(&judged, index, &planned.considered(index));
    planned.tried.tell(&mut answer);
    print::answer(&answer, &args.job.out)
}
