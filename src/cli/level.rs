//! `rodreach level`.

use super::Refusal;
use super::args::JobArgs;
use super::planned::loaded;
use super::print;
use crate::levels::{reduce, with_rods_by_level};
use crate::report::{level_answer, watch};

/// Runs the command and tells whether all points are connected and the readings agree.
pub(super) fn run(args: &JobArgs) -> Result<bool, Refusal> {
    let mut loaded = loaded(args)?;
    let readings = &loaded.job.readings;
    if readings.is_empty() {
        return Err(Refusal(
            "nothing was read with the level yet: name a walk, levels, elevations or differences file under [measure]"
                .to_owned(),
        ));
    }
    let levels = reduce(&loaded.job);
    with_rods_by_level(&mut loaded.job, &levels);
    let mut answer = level_answer(&loaded.job, &levels, &loaded.files);
    watch(&mut answer.document, &loaded.job, &loaded.catalog.instruments);
    print::answer(&answer, &args.out)
}
