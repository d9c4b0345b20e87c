//! `rodreach check`.

use super::Refusal;
use super::args::CheckArgs;
use super::planned::Planned;
use super::print;
use crate::check::since;
use crate::input::read_earlier;
use crate::model::Earlier;
use crate::report::{Against, OpensAt, check_answer};
use crate::source::render;
use std::path::Path;

/// Runs the command and tells whether all is well.
pub(super) fn run(args: &CheckArgs) -> Result<bool, Refusal> {
    if let (Some(then), Some(now)) = (&args.since, &args.job.out.output) {
        keep_both(then, now)?;
    }
    let earlier = args.since.as_deref().map(earlier).transpose();
    let (planned, earlier) = match (Planned::read(&args.job, &args.plan), earlier) {
        (Ok(planned), Ok(earlier)) => (planned, earlier),
        // what is wrong with both is told in one run
        (Err(job), Err(answer)) => return Err(Refusal(format!("{job}\n{answer}"))),
        (Err(refusal), Ok(_)) | (Ok(_), Err(refusal)) => return Err(refusal),
    };
    let judged = planned.judged();
    let beside = planned.beside()?;
    let mut answer = match &earlier {
        None => check_answer(&judged, &beside, None),
        Some(earlier) => {
            let plan = planned.plan_then(earlier)?;
            let then = planned.judged_as(&plan);
            let since = since(&judged, &then, earlier);
            check_answer(&judged, &beside, Some(&Against { then: &then, since: &since }))
        }
    };
    planned.tried.tell(&mut answer);
    print::answer_or_workbook(&answer, || planned.workbook(OpensAt::Columns), &args.job.out)
}

/// Refuses to put the answer in the place of the earlier one.
fn keep_both(then: &Path, now: &Path) -> Result<(), Refusal> {
    match then.canonicalize().is_ok_and(|then| now.canonicalize().is_ok_and(|now| now == then)) {
        true => Err(Refusal(format!(
            "{} is the earlier answer, of what was sent; nothing was written: name another file",
            now.display()
        ))),
        false => Ok(()),
    }
}

fn earlier(path: &Path) -> Result<Earlier, Refusal> {
    read_earlier(path).map_err(|refused| Refusal(render(&refused.problems, &refused.files)))
}
