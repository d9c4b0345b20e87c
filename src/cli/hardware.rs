//! `rodreach hardware`.

use super::Refusal;
use super::args::HardwareArgs;
use super::planned::Planned;
use super::print;
use crate::report::{OpensAt, hardware_answer};

/// Runs the command and tells whether all is well.
pub(super) fn run(args: &HardwareArgs) -> Result<bool, Refusal> {
    let planned = Planned::read(&args.job, &args.plan)?;
    let mut answer = hardware_answer(&planned.judged());
    planned.tried.tell(&mut answer);
    print::answer_or_workbook(&answer, || planned.workbook(OpensAt::Hardware), &args.job.out)
}
