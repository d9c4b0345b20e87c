//! `rodreach hardware`.

use super::Refusal;
use super::args::{AimArg, CheckArgs};
use super::check::judged;
use super::print;
use crate::report::hardware_answer;

/// Runs the command and tells whether all is well.
pub(super) fn run(args: &CheckArgs) -> Result<bool, Refusal> {
    let AimArg::Level = args.aim;
    let answer = judged(&args.job, |judged| Ok(hardware_answer(judged)))?;
    print::answer(&answer, &args.job.out)
}
