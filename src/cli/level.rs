//! `rodreach level`.

use super::Refusal;
use super::args::LevelArgs;
use super::planned::loaded;
use super::print;
use crate::levels::{level_book, reduce, with_rods_by_level};
use crate::report::{level_answer, level_book_answer, watch};

/// Runs the command and tells whether all points are connected and the readings agree.
pub(super) fn run(args: &LevelArgs) -> Result<bool, Refusal> {
    let mut loaded = loaded(&args.job)?;
    let readings = &loaded.job.readings;
    if readings.is_empty() {
        return Err(Refusal(
            "nothing was read with the level yet: name a walk, levels, elevations or differences file under [measure]"
                .to_owned(),
        ));
    }
    if args.book && readings.sights.is_empty() {
        return Err(Refusal(
            "there are no level notes to book: elevations and differences are not readings of a setup; leave --book away"
                .to_owned(),
        ));
    }
    let levels = reduce(&loaded.job);
    with_rods_by_level(&mut loaded.job, &levels);
    let answer = if args.book {
        level_book_answer(&loaded.job, &levels, &level_book(&loaded.job), &loaded.files)
    } else {
        let mut answer = level_answer(&loaded.job, &levels, &loaded.files);
        watch(&mut answer.document, &loaded.job, &levels, &loaded.catalog.instruments);
        answer
    };
    print::answer(&answer, &args.job.out)
}
