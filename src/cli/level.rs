//! `rodreach level`.

use super::Refusal;
use super::args::JobArgs;
use super::planned::loaded;
use super::print;
use crate::levels::reduce;
use crate::report::level_answer;

/// Runs the command and tells whether all points are connected and the readings agree.
pub(super) fn run(args: &JobArgs) -> Result<bool, Refusal> {
    let loaded = loaded(args)?;
    let readings = &loaded.job.readings;
    if readings.is_empty() {
        return Err(Refusal(
            "nothing was read with the level yet: name a walk, levels, elevations or differences file under [measure]"
                .to_owned(),
        ));
    }
    print::answer(&level_answer(&loaded.job, &reduce(&loaded.job), &loaded.files), &args.out)
}
