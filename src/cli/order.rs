//! `rodreach order`.

use super::Refusal;
use super::args::OrderArgs;
use super::cut;
use super::planned::Planned;
use super::print;
use crate::report::{OpensAt, order_answer};

/// Runs the command and tells whether all is well.
pub(super) fn run(args: &OrderArgs) -> Result<bool, Refusal> {
    if let (true, Some(output)) = (args.cut, &args.job.out.output) {
        return cut::run(args, output);
    }
    let planned = Planned::read(&args.job, &args.plan)?;
    let mut answer = order_answer(&planned.judged());
    planned.tried.tell(&mut answer);
    print::answer_or_workbook(&answer, || planned.workbook(OpensAt::Order), &args.job.out)
}
