//! `rodreach ask`.

use super::Refusal;
use super::args::AskArgs;
use super::planned::Planned;
use super::print;
use crate::report::{Asked, ask_answer};

/// Runs the command and tells whether nothing has to be asked.
pub(super) fn run(args: &AskArgs) -> Result<bool, Refusal> {
    let planned = Planned::read(&args.job, &args.plan)?;
    let wanted = args.column.iter().map(|mark| planned.column(mark)).collect::<Result<Vec<_>, _>>()?;
    let asked = Asked {
        files: &planned.files,
        catalog: &planned.catalog,
        tried: planned.tried.words(),
        only: (!wanted.is_empty()).then_some(wanted),
    };
    let mut answer = ask_answer(&planned.judged(), &asked, |column| planned.considered(column));
    planned.tried.tell(&mut answer);
    print::answer(&answer, &args.job.out)
}
