//! `rodreach new`.

use super::Refusal;
use super::args::{NewArgs, UnitsArg};
use super::print;

const INCH: [(&str, &str); 2] =
    [("job.toml", include_str!("starter/inch.toml")), ("walk.csv", include_str!("starter/inch.csv"))];
const METRIC: [(&str, &str); 2] =
    [("job.toml", include_str!("starter/metric.toml")), ("walk.csv", include_str!("starter/metric.csv"))];

/// Writes the starter job; a folder that holds one of its files already is left alone.
pub(super) fn run(args: &NewArgs) -> Result<bool, Refusal> {
    let files = match args.units {
        UnitsArg::In => INCH,
        UnitsArg::Mm => METRIC,
    };
    for (name, _) in files {
        if args.dir.join(name).exists() {
            return Err(Refusal(format!(
                "{} is there already; nothing was written",
                args.dir.join(name).display()
            )));
        }
    }
    std::fs::create_dir_all(&args.dir)
        .map_err(|error| Refusal(format!("{} cannot be made: {error}", args.dir.display())))?;
    for (at, (name, text)) in files.iter().enumerate() {
        if let Err(refusal) = print::file(&args.dir.join(name), text) {
            for (written, _) in files.iter().take(at) {
                // what is half a job is taken back; the refusal is what matters
                let _ = std::fs::remove_file(args.dir.join(written));
            }
            return Err(refusal);
        }
    }
    print::line(&format!(
        "Wrote {0}/job.toml and {0}/walk.csv. Fill them in, then: rodreach check {0}\n",
        args.dir.display()
    ));
    Ok(true)
}
