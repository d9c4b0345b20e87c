//! `rodreach explain`.

use super::Refusal;
use super::args::ExplainArgs;
use super::planned::Planned;
use super::print;
use crate::report::explain_answer;

/// Runs the command and tells whether the column may be set and nothing about it asks or stops.
pub(super) fn run(args: &ExplainArgs) -> Result<bool, Refusal> {
    let planned = Planned::read(&args.job, &args.plan)?;
    let judged = planned.judged();
    let index = planned.column(&args.mark)?;
    let mut answer = explain_answer(&judged, index, &planned.considered(index), &planned.catalog);
    planned.tried.tell(&mut answer);
    print::answer(&answer, &args.job.out)
}
