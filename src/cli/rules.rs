//! `rodreach rules`.

use super::Refusal;
use super::args::RulesArgs;
use super::catalog::built_in;
use super::print;
use crate::length::Unit;
use crate::report::rules_answer;
use crate::source::nearest;
use crate::text::{Style, System};

/// Runs the command.
pub(super) fn run(args: &RulesArgs) -> Result<bool, Refusal> {
    let catalog = built_in()?;
    let Some(set) = catalog.limits.iter().find(|set| set.name == args.set) else {
        let names: Vec<&str> = catalog.limits.iter().map(|set| set.name.as_str()).collect();
        return Err(Refusal(match nearest(&args.set, names.iter().copied()) {
            Some(near) => format!("there is no limit set {}; did you mean {near}?", args.set),
            None => format!("there is no limit set {}; there are {}", args.set, names.join(", ")),
        }));
    };
    let system = if set.unit == Unit::Inch { System::Inch } else { System::Metric };
    let style = Style::new(system, 16);
    print::answer(&rules_answer(set, style), &args.out)
}
