//! `rodreach check`.

use super::Refusal;
use super::args::CheckArgs;
use super::planned::Planned;
use super::print;
use crate::report::check_answer;

/// Runs the command and tells whether all is well.
pub(super) fn run(args: &CheckArgs) -> Result<bool, Refusal> {
    let planned = Planned::read(&args.job, &args.plan)?;
    let mut answer = check_answer(&planned.judged(), &planned.beside()?);
    planned.tried.tell(&mut answer);
    print::answer(&answer, &args.job.out)
}
