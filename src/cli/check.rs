//! `rodreach check`.

use super::Refusal;
use super::args::CheckArgs;
use super::planned::Planned;
use super::print;
use crate::report::{OpensAt, check_answer};

/// Runs the command and tells whether all is well.
pub(super) fn run(args: &CheckArgs) -> Result<bool, Refusal> {
    let planned = Planned::read(&args.job, &args.plan)?;
    let mut answer = check_answer(&planned.judged(), &planned.beside()?);
    planned.tried.tell(&mut answer);
    print::answer_or_workbook(&answer, || planned.workbook(OpensAt::Columns), &args.job.out)
}
